package job

import (
	"testing"

	"dropleg/internal/shop/catalog"
)

// TestZeroPriceTold: a price of nothing is told, of an offer and on the own list, and is used.
func TestZeroPriceTold(t *testing.T) {
	j := &Job{Version: Version}
	j.Prices.List = []Price{{Article: "a", Each: 0, Per: "piece"}, {Article: "b", Each: 0.01, Per: "piece"}}
	j.Prices.Offers = []Offer{{ID: "offer.a", Supplier: "S", Holds: []Amount{{Article: "a", Number: 1}}}}
	var paths []string
	for _, f := range Validate(j, catalog.Builtin()) {
		if f.Code != "zero-price" || f.Severity != Caution {
			t.Errorf("%+v", f)
		}
		paths = append(paths, f.Path)
	}
	if len(paths) != 2 || paths[0] != "prices.list[0].each" || paths[1] != "prices.offers[0] (offer.a).price" {
		t.Errorf("%q", paths)
	}
}
