package server

import (
	"math"
	"net/http"
	"net/url"
	"slices"
	"testing"
)

// Values by the exact factors of nist-sp811: inch 0.0254 m, foot 0.3048 m, psi
// 6894.757 Pa, cubic foot 0.028316846592 m³.
func TestQuantity(t *testing.T) {
	s := served(t)
	for _, c := range []struct {
		kind, text, units string
		si                float64
		words             string
	}{
		{"length", "12ft6", "metric", 3.81, "3.81 m"},
		{"length", "12ft6", "us", 3.81, "12 ft 6 in"},
		{"length", "3/4 in", "", 0.01905, "19 mm"},
		{"gauge pressure", "90 psi", "us", 620528.16, "90 psi"},
		{"gauge-pressure", "6.3 bar", "mixed", 630000, "6.3 bar (91 psi)"},
		{"flow of free air", "18 cfm", "us", 0.0084950539776, "18 cfm"},
		{"temperature", "68 F", "metric", 293.15, "20 °C"},
	} {
		q := url.Values{"kind": {c.kind}, "text": {c.text}, "units": {c.units}}
		got := read200[Quantity](t, get(s, "/api/quantity?"+q.Encode()))
		if math.Abs(got.SI-c.si) > 1e-6*c.si || got.Words != c.words {
			t.Errorf("%s %q: %g %q, want %g %q", c.kind, c.text, got.SI, got.Words, c.si, c.words)
		}
	}
	marked := read200[Quantity](t, get(s, "/api/quantity?kind=flow+of+free+air&text=20+scfm60&units=us"))
	if marked.Reference != "scfm60" || marked.Words != "20 cfm (scfm60)" {
		t.Errorf("%+v", marked)
	}
	f := wantFault(t, "an unknown unit", get(s, "/api/quantity?kind=length&text=3+mmm"), http.StatusUnprocessableEntity, "mmm")
	if len(f.Problems) != 1 || f.Problems[0].Nearest != "mm" {
		t.Errorf("%+v", f.Problems)
	}
	wantFault(t, "no length in a shop in metres", get(s, "/api/quantity?kind=length&text=long&units=metric"), http.StatusUnprocessableEntity, "such as 3.81 m;")
	wantFault(t, "an unknown kind", get(s, "/api/quantity?kind=lenght&text=3"), http.StatusBadRequest, "nearest is length")
	wantFault(t, "a mass for a flow", get(s, "/api/quantity?kind=flow+of+free+air&text=1+kg/s"), http.StatusUnprocessableEntity)
	wantFault(t, "a book", get(s, "/api/quantity?kind=length&text="+url.QueryEscape(string(make([]byte, 300)))), http.StatusBadRequest)
}

// The catalogue has what the pickers need, and its lists are never null.
func TestCatalogue(t *testing.T) {
	s := served(t)
	c := read200[Catalogue](t, get(s, "/api/catalogue?units=us"))
	valve := slices.IndexFunc(c.Kinds, func(k CatalogueKind) bool { return k.ID == "ball-valve" })
	if valve < 0 || len(c.Kinds[valve].Ports) != 2 || !slices.Contains(c.Kinds[valve].Roles, "isolates") || c.Kinds[valve].Symbol == "" {
		t.Errorf("%+v", c.Kinds)
	}
	for name, n := range map[string]int{
		"stocks": len(c.Stocks), "joints": len(c.Joints), "couplers": len(c.Couplers), "hoses": len(c.Hoses),
		"tools": len(c.Tools), "machines": len(c.Machines), "treatment": len(c.Treatment),
	} {
		if n == 0 {
			t.Errorf("no %s", name)
		}
	}
	for _, stock := range c.Stocks {
		for _, z := range stock.Sizes {
			if z.Bore <= 0 || z.Outside <= z.Bore || z.Outside > 1000 {
				t.Errorf("%s %s: bore %g mm, outside %g mm", stock.ID, z.Size, z.Bore, z.Outside)
			}
		}
	}
	if own := read200[Catalogue](t, get(s, of("/catalogue"))); len(own.Kinds) != len(c.Kinds) {
		t.Errorf("the job's own: %d kinds", len(own.Kinds))
	}
}
