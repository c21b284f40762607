package draw

import (
	"math"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/show/scene"

	"pgregory.net/rapid"
)

func descent(losses []float64) Descent {
	p := unit.GaugePressure(8e5)
	d := Descent{Title: "way", Tool: "sander", Least: 5.5e5}
	for i, l := range losses {
		out := p - unit.GaugePressure(l)
		d.Steps = append(d.Steps, Fall{ID: "line." + string(rune('a'+i%26)), Words: "element", Part: []string{"plant", "line", "hose"}[min(i/3, 2)], In: p, Out: out, Tall: l > 1e5})
		p = out
	}
	return d
}

// The staircase joins up, goes to the right, stands on the sheet, and its heights
// are in the ratio of the pressures.
func TestStairsFollowThePressure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		losses := rapid.SliceOfN(rapid.Float64Range(0, 2e5), 1, 30).Draw(t, "losses")
		way := descent(losses)
		s := Stairs(way, Sheet{Width: 90, Height: 66, Units: unit.Metric})
		var end *scene.Point
		for _, it := range layer(s, "way") {
			at := it.Line.Points
			if end != nil && (math.Abs(at[0][0]-end[0]) > 1e-9 || math.Abs(at[0][1]-end[1]) > 1e-9) {
				t.Fatalf("a gap between %v and %v", *end, at[0])
			}
			for i, p := range at {
				if p[0] < 0 || p[0] > 0.0905 || p[1] < 0 || p[1] > 0.066 {
					t.Fatalf("%v is off the sheet", p)
				}
				if i > 0 && p[0] < at[i-1][0] {
					t.Fatalf("goes back to the left: %v", at)
				}
			}
			end = &at[2]
		}
		first, last := layer(s, "way")[0].Line.Points[0], *end
		total := float64(way.Steps[0].In - way.Steps[len(way.Steps)-1].Out)
		if total > 1e4 {
			perPa := (first[1] - last[1]) / total
			risers := layer(s, "risers")
			for i, it := range risers {
				drop := it.Line.Points[0][1] - it.Line.Points[1][1]
				if drop <= 0 || drop/perPa < 1e5*0.999 {
					t.Fatalf("riser %d stands for %v Pa", i, drop/perPa)
				}
			}
		}
	})
}

func layer(s scene.Scene, id string) []scene.Item {
	for _, l := range s.Layers {
		if l.ID == id {
			return l.Items
		}
	}
	return nil
}

func TestStairsNameWhatIsTall(t *testing.T) {
	s := Stairs(descent([]float64{1e3, 2e5, 1e3, 5e3, 1.4e5}), Sheet{Width: 90, Height: 66, Units: unit.Metric})
	names := layer(s, "names")
	if len(names) != 2 || !strings.Contains(names[0].Text.Text, "−2.0") {
		t.Errorf("names %v", names)
	}
	if got := layer(s, "needs"); len(got) != 2 || got[1].Text.Text != "sander needs 5.5 bar" {
		t.Errorf("needs %v", got)
	}
}

func TestNoStairs(t *testing.T) {
	if s := Stairs(Descent{}, Sheet{Width: 90, Height: 66}); s.Layers == nil || len(s.Layers) != 0 {
		t.Errorf("layers %v", s.Layers)
	}
}
