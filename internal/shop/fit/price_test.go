package fit_test

import (
	"testing"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

func does(t *testing.T, j *job.Job, text string) (*job.Job, error) {
	t.Helper()
	g, bad := fit.Parse([]byte(text))
	if bad != nil {
		t.Fatalf("%s: %v", text, bad)
	}
	e, _, err := g.Edit(job.NewIndex(j), catalog.Builtin())
	if err != nil {
		return nil, err
	}
	after, back, err := e.Apply(j)
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := back.Apply(after); err != nil {
		t.Errorf("%s cannot be undone: %v", text, err)
	}
	return after, nil
}

// TestPricesAndOffers: put on the list, put anew, taken off; offers added and changed.
func TestPricesAndOffers(t *testing.T) {
	raw, _ := example.Read("frame-garage")
	j, _ := job.Parse(raw)
	prices := len(j.Prices.List)
	j, err := does(t, j, `{"do": "price", "article": "clip x", "each": 1.5}`)
	if err != nil || len(j.Prices.List) != prices+1 || j.Prices.List[prices].Per != "piece" {
		t.Fatalf("%v, %+v", err, j.Prices.List)
	}
	if j, err = does(t, j, `{"do": "price", "article": "Clip X", "each": 2, "per": "m"}`); err != nil || len(j.Prices.List) != prices+1 || j.Prices.List[prices].Each != 2 {
		t.Fatalf("%v, %+v", err, j.Prices.List)
	}
	if j, err = does(t, j, `{"do": "price", "article": "clip x"}`); err != nil || len(j.Prices.List) != prices {
		t.Fatalf("%v, %+v", err, j.Prices.List)
	}
	offers := len(j.Prices.Offers)
	if j, err = does(t, j, `{"do": "offer", "supplier": "Any Supply", "words": "Bag of 10 clips", "price": 4, "holds": [{"article": "clip x", "number": 10}]}`); err != nil || len(j.Prices.Offers) != offers+1 {
		t.Fatalf("%v, %+v", err, j.Prices.Offers)
	}
	id := j.Prices.Offers[offers].ID
	if id != "offer.bag-of-10-clips-any-supply" {
		t.Errorf("id %s", id)
	}
	j, err = does(t, j, `{"do": "offer", "id": "`+string(id)+`", "supplier": "Any Supply", "words": "Bag of 20", "price": 7, "holds": [{"article": "clip x", "number": 20}]}`)
	if err != nil || j.Prices.Offers[offers].Price != 7 || j.Prices.Offers[offers].Holds[0].Number != 20 {
		t.Fatalf("%v, %+v", err, j.Prices.Offers)
	}
	for _, bad := range []string{
		`{"do": "price", "article": " ", "each": 1}`,
		`{"do": "offer", "supplier": "", "words": "x", "price": 1, "holds": [{"article": "a", "number": 1}]}`,
		`{"do": "offer", "supplier": "a", "words": "x", "price": 1, "holds": []}`,
		`{"do": "offer", "supplier": "a", "words": "x", "price": 1, "holds": [{"article": "a", "number": 0}]}`,
		`{"do": "offer", "id": "offer.none", "supplier": "a", "words": "x", "price": 1, "holds": [{"article": "a", "number": 1}]}`,
	} {
		if _, err := does(t, j, bad); err == nil {
			t.Errorf("%s is taken", bad)
		}
	}
}
