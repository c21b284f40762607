package screen

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/shop/example"
)

// What is told is what the study says: every support once, every wall with marks, every
// stretch that grows by more than a millimetre, worst first.
func TestHoldSaysWhatTheStudySays(t *testing.T) {
	for _, e := range example.All() {
		s := exampleShop(t, e.Name)
		a, err := s.study.Hold(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		h, err := s.Hold(t.Context(), Ask{System: unit.Metric})
		whole(t, e.Name, h, err)
		told, fast := map[string]bool{}, 0
		for _, row := range h.Supports {
			all := 0
			for _, l := range row.Lines {
				all += len(l.Supports)
				for _, id := range l.Supports {
					told[id] = true
				}
			}
			if all != row.Fixed+row.Sliding {
				t.Errorf("%s: %s: %d supports, %d fixed and %d sliding", e.Name, row.Words, all, row.Fixed, row.Sliding)
			}
			fast += row.Fixed
		}
		marks := 0
		for _, w := range h.Walls {
			marks += len(w.Marks)
		}
		wanted, grown := 0, 0
		for _, w := range a.Walls {
			wanted += len(w.Marks)
		}
		for _, x := range a.Stretches {
			if x.Growth > 0.001 {
				grown++
			}
		}
		for _, p := range a.Supports {
			if p.Kind == "fixed" {
				fast--
			}
		}
		if len(told) != len(a.Supports) || fast != 0 || marks != wanted || len(h.Growth) != grown {
			t.Errorf("%s: %d supports of %d, %d fixed too many, %d marks of %d, %d stretches of %d",
				e.Name, len(told), len(a.Supports), fast, marks, wanted, len(h.Growth), grown)
		}
	}
}

// Figures come in the units asked for: a wall is marked to the centimetre, or in feet and inches.
func TestHoldUnits(t *testing.T) {
	s := exampleShop(t, "ring-main")
	for _, row := range []struct {
		system       unit.System
		along, force string
	}{{unit.Metric, " m", "N"}, {unit.US, " in", "lbf"}} {
		h, err := s.Hold(t.Context(), Ask{System: row.system})
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range h.Walls[0].Marks {
			if !strings.HasSuffix(m.Along, row.along) && !strings.HasSuffix(m.Along, " ft") {
				t.Errorf("%s: marked at %q", row.system, m.Along)
			}
			if row.system == unit.Metric && len(m.Along)-strings.Index(m.Along, ".") != len(".00 m") {
				t.Errorf("marked at %q", m.Along)
			}
		}
		if text := fmt.Sprint(s.factsOf(t, row.system)); !strings.Contains(text, row.force) {
			t.Errorf("%s: no force in %s", row.system, row.force)
		}
	}
}

// factsOf are the figures of the answer in words.
func (s *Shop) factsOf(t *testing.T, system unit.System) (out []string) {
	t.Helper()
	h, err := s.held(t.Context(), Ask{System: system})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range h.facts() {
		if f.From == nil || f.From.Law == "" {
			t.Errorf("%s: no origin", f.Words)
		}
		out = append(out, f.Figure)
	}
	return out
}

// Supports are drawn only where they are asked for, as marks that the list can light.
func TestSupportsOnTheDrawing(t *testing.T) {
	s := exampleShop(t, "ring-main")
	a, err := s.study.Hold(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	ids := map[string]bool{}
	for _, p := range a.Supports {
		ids[p.ID] = true
	}
	for _, view := range []string{"plan", "elevation", "isometric"} {
		for _, asked := range []bool{false, true} {
			p, err := s.Page(t.Context(), Window{View: view, Width: 260, Height: 170, Supports: asked})
			if err != nil {
				t.Fatal(err)
			}
			n := 0
			for _, l := range p.Scene.Layers {
				if l.ID != "supports" {
					continue
				}
				n += len(l.Items)
				for _, it := range l.Items {
					if !ids[it.ID] || it.Title == "" || it.Mark == nil {
						t.Errorf("%s: %+v", view, it)
					}
				}
			}
			if want := asked && view != "isometric"; (n > 0) != want {
				t.Errorf("%s, asked %v: %s supports", view, asked, strconv.Itoa(n))
			}
		}
	}
}

// A shop without lines cannot be told to hold.
func TestHoldOfNothing(t *testing.T) {
	s := shopOf(t, []byte(`{"dropleg": 1, "title": "nothing yet", "net": {"points": [], "runs": []}}`))
	h, err := s.Hold(t.Context(), Ask{})
	whole(t, "nothing", h, err)
	questions, err := s.Questions(t.Context(), Ask{})
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range questions {
		if q.ID == "hold" && q.Mark == Yes {
			t.Errorf("%s", q.Answer)
		}
	}
}
