package draw

import (
	"testing"

	"dropleg/engine/unit"
)

// A way of three lines in a cold room: the first stays warm, in the second the dew point
// stands over the line, in the third under it. Water is drawn in the second alone.
func TestWetIsHatchedWhereWaterFalls(t *testing.T) {
	at := func(c float64) *unit.Temperature { x := unit.Celsius(c); return &x }
	air := func(warm, dew float64) Air { return Air{Warmth: unit.Celsius(warm), Dew: at(dew)} }
	line := func(id string, in, out Air) Moist {
		return Moist{ID: id, Length: 4, Place: "shed", In: in, Out: out, Stands: unit.Celsius(-6)}
	}
	warm := line("line.warm", air(80, 20), air(60, 20))
	warm.Warm = true
	way := Moisture{Title: "way", End: "outlet A", Steps: []Moist{
		warm, line("line.wet", air(15, 15), air(5, 5)), line("line.dry", air(0, -20), air(-4, -20)),
	}}
	for _, sheet := range []Sheet{{Width: 90, Height: 66, Units: unit.Metric}, {Width: 240, Height: 100, Units: unit.US}} {
		s := Wet(way, sheet)
		low, high := 1.0, 0.0
		for _, it := range layer(s, "wet") {
			if it.Line == nil {
				continue
			}
			for _, p := range it.Line.Points {
				low, high = min(low, p[0]), max(high, p[0])
			}
		}
		// The three are as long as each other.
		left, right := 0.009, sheet.Width/1000-0.015
		third := (right - left) / 3
		if !(low >= left+third-1e-3 && high <= left+2*third+1e-3 && high > low) {
			t.Errorf("%v mm: water from %g to %g m of the paper", sheet.Width, low, high)
		}
		said := false
		for _, l := range s.Layers {
			for _, it := range l.Items {
				said = said || it.Text != nil && it.Text.Text == "water freezes"
				if it.Line == nil {
					continue
				}
				for _, p := range it.Line.Points {
					if p[0] < -1e-9 || p[0] > s.Max[0]+1e-9 || p[1] < -1e-9 || p[1] > s.Max[1]+1e-9 {
						t.Fatalf("%s leaves the paper at %v", l.ID, p)
					}
				}
			}
		}
		if !said {
			t.Errorf("%v mm: nothing says that water freezes", sheet.Width)
		}
	}
	if s := Wet(Moisture{Title: "nothing"}, Sheet{Width: 90, Height: 66}); len(s.Layers) != 0 {
		t.Errorf("of no way: %d layers", len(s.Layers))
	}
}
