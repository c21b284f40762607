package screen

import (
	"math"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/decide/check"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

func wantOrigin(t *testing.T, where string, o *Origin) {
	t.Helper()
	if o == nil || o.Law == "" || o.Name == "" || o.Range == "" || o.Inputs == nil || o.Sources == nil {
		t.Errorf("%s: %+v", where, o)
	}
}

func wantOrigins(t *testing.T, where string, facts []Fact) {
	t.Helper()
	for _, f := range facts {
		wantOrigin(t, where+", "+f.Words, f.From)
	}
}

// Every figure beside the drawing opens into its law and its plausible range.
func TestEveryFigureHasAnOrigin(t *testing.T) {
	for _, name := range []string{"boat-shop", "ailing"} {
		s := opened(t, name)
		ctx := t.Context()
		for _, id := range everyID(s) {
			thing, err := s.Thing(ctx, Ask{}, id)
			if err != nil {
				t.Fatal(err)
			}
			wantOrigins(t, string(id), thing.Facts)
			for _, g := range thing.Groups {
				for _, f := range g.Fields {
					if f.Default != "" {
						wantOrigin(t, string(id)+" "+f.Key, f.From)
					}
				}
			}
		}
		for _, o := range s.job.Outlets {
			way, err := s.Way(ctx, Ask{}, o.ID)
			if err != nil {
				t.Fatal(err)
			}
			wantOrigins(t, "way to "+string(o.ID), way.Facts)
			wantOrigin(t, "way to "+string(o.ID), way.From)
			for _, step := range way.Steps {
				wantOrigin(t, "step "+step.Words, &step.From)
			}
		}
		questions, err := s.Questions(ctx, Ask{})
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range questions {
			wantOrigins(t, q.ID, q.Facts)
		}
		findings, err := s.Findings(ctx, Ask{})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range findings {
			wantOrigin(t, f.Title, &f.Origin)
			wantOrigins(t, f.Title, f.Shares)
		}
		buys, err := s.Purchase(ctx, Ask{})
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range buys.Needs {
			wantOrigin(t, r.Words, &r.From)
		}
		for _, b := range buys.Baskets {
			wantOrigin(t, b.Title, &b.From)
		}
		for _, c := range buys.Cuts {
			wantOrigin(t, c.Words, &c.From)
		}
	}
}

// The range of a loss holds the loss, and is that of the element's uncertain
// figures: a coupler of half the conductance takes about four times as much.
func TestLossRangeHoldsTheLoss(t *testing.T) {
	s := opened(t, "boat-shop")
	v, err := s.look(t.Context(), Ask{})
	if err != nil {
		t.Fatal(err)
	}
	seen, wide := 0, 0
	for _, e := range v.state.Elements {
		if !e.Known || still(e.Flow) {
			continue
		}
		least, most, ok := v.model.LossRange(e.Index, e.In, e.Flow, true)
		if !ok {
			t.Errorf("%s: no range", e.Words)
			continue
		}
		seen++
		if float64(least) > float64(e.Loss)+2 || float64(most) < float64(e.Loss)-2 {
			t.Errorf("%s: %v is not within %v to %v", e.Words, e.Loss, least, most)
		}
		if e.Thing == model.ThingHose || e.Thing == model.ThingCoupler {
			wide++
			if !(float64(most) > 1.02*float64(least)) {
				t.Errorf("%s: no width, %v to %v", e.Words, least, most)
			}
		}
	}
	if seen < 10 || wide == 0 {
		t.Errorf("%d elements, %d of them hoses and couplers", seen, wide)
	}
	if _, _, ok := v.model.LossRange(0, 6e5, 0, true); ok {
		t.Error("a range without a flow")
	}
	if _, most, _ := v.model.LossRange(0, 6e5, 1e3, true); !math.IsInf(float64(most), 1) {
		t.Errorf("a flow that nothing passes: %v", most)
	}
}

// A cure that is said to cure alone, made, takes its finding away.
func TestCuresAreEditsThatCure(t *testing.T) {
	tried := 0
	for _, e := range example.All() {
		s := opened(t, e.Name)
		findings, err := s.Findings(t.Context(), Ask{})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range findings {
			for _, c := range f.Cures {
				if c.Edit == nil {
					t.Errorf("%s: %s: no edit", f.Title, c.Words)
					continue
				}
				edit, bad := job.ParseEdit(*c.Edit)
				if len(bad) > 0 {
					t.Fatalf("%s: %v", c.Words, bad)
				}
				after, _, err := edit.Apply(s.job)
				if err != nil {
					t.Errorf("%s, %s: %v", e.Name, c.Words, err)
					continue
				}
				if !c.Cures || !c.Verified || tried >= 12 {
					continue
				}
				tried++
				next, found := Open(after, s.study.Catalog(), check.Run)
				if next == nil {
					t.Fatal(found)
				}
				left, err := next.Findings(t.Context(), Ask{})
				if err != nil {
					t.Fatal(err)
				}
				if slices.ContainsFunc(left, func(o Finding) bool { return o.Code == f.Code && o.Title == f.Title }) {
					t.Errorf("%s: %s is still there after: %s", e.Name, f.Title, c.Words)
				}
			}
		}
	}
	if tried == 0 {
		t.Error("no cure was tried")
	}
}

// Where a wrong figure can hurt, the field says so.
func TestCautionsStandAtTheirFields(t *testing.T) {
	s := opened(t, "boat-shop")
	caution := func(id job.ID, key string) string {
		thing, err := s.Thing(t.Context(), Ask{System: unit.US}, id)
		if err != nil {
			t.Fatal(err)
		}
		for _, g := range thing.Groups {
			for _, f := range g.Fields {
				if f.Key == key {
					return f.Caution
				}
			}
		}
		t.Errorf("%s has no %s", id, key)
		return ""
	}
	for _, c := range []struct{ id, key, want string }{
		{"point.relief", "part.set_kPa_g", "lowest rating"},
		{"point.receiver", "part.rating_kPa_g", "from the plate"},
		{"point.regulator-spray", "part.set_kPa_g", "no higher than"},
		{"point.compressor", "part.compressor.cut_out_kPa_g", "relief valve"},
	} {
		if got := caution(job.ID(c.id), c.key); !strings.Contains(got, c.want) {
			t.Errorf("%s %s: %q", c.id, c.key, got)
		}
	}
	pvc := *s.job
	pvc.Net.Runs = slices.Clone(pvc.Net.Runs)
	pvc.Net.Runs[0].Stock, pvc.Net.Runs[0].Size = "pvc", "3/4"
	bad, found := Open(&pvc, s.study.Catalog(), check.Run)
	if bad == nil {
		t.Fatal(found)
	}
	thing, err := bad.Thing(t.Context(), Ask{}, pvc.Net.Runs[0].ID)
	if err != nil || len(thing.Cautions) != 1 || !strings.Contains(thing.Cautions[0], "not fit for compressed air") {
		t.Errorf("%v, %v", thing.Cautions, err)
	}
}
