package draw

import (
	"fmt"
	"math"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// readings gives a job invented pressures, so that its plan has every label: a
// figure at each dial, and one outlet in five short.
func readings(t *testing.T, name string) Given {
	t.Helper()
	data, _ := example.Read(name)
	j, found := job.Parse(data)
	if j == nil {
		t.Fatal(found)
	}
	g := Given{
		Index: job.NewIndex(j), Shelf: catalog.Builtin(), Source: 7e5,
		Ends: map[job.ID][2]unit.GaugePressure{}, Dials: map[job.ID]Dial{},
	}
	for _, r := range j.Net.Runs {
		g.Ends[r.ID] = [2]unit.GaugePressure{6.8e5, 6.4e5}
	}
	for i, o := range j.Outlets {
		p := unit.GaugePressure(6.3e5)
		g.Dials[o.ID] = Dial{Flowing: &p, Least: 5.6e5, Short: i%5 == 1, InUse: i%2 == 0}
	}
	return g
}

// drawn is what labels must keep off, in mm of paper.
type drawn struct {
	texts   []box
	words   []string
	strokes []stroke
	bodies  []box // dials and symbols
}

func takenBy(s scene.Scene, scale float64) drawn {
	var d drawn
	d.texts, d.words = textBoxes(s, scale)
	at := func(q scene.Point) scene.Point { return scene.Point{q[0] * scale, q[1] * scale} }
	for _, l := range s.Layers {
		for _, it := range l.Items {
			switch {
			case (l.ID == "lines" || l.ID == "drops") && it.Line != nil:
				for i := 1; i < len(it.Line.Points); i++ {
					d.strokes = append(d.strokes, stroke{p: at(it.Line.Points[i-1]), q: at(it.Line.Points[i]), half: it.Line.Stroke.Width / 2})
				}
			case (l.ID == "parts" || l.ID == "outlets") && it.Mark != nil:
				sin, cos := math.Sincos(it.Mark.Turn * math.Pi / 180)
				size := extentOf(it.Mark.Parts[0].D)
				d.bodies = append(d.bodies, turned(size, 1, scene.Point{cos, sin}, false).moved(at(it.Mark.At)))
			}
		}
	}
	return d
}

// The sheets of the page at 1440 × 900, of a large screen and of a tablet, in mm.
var sheets = [][2]float64{{250, 130}, {420, 240}, {190, 200}}

// No label of the examples lies on a line of the net, a leader, a dial, a symbol
// or another label. A bench's edge may pass behind one.
func TestLabelsKeepClearOnEveryExample(t *testing.T) {
	for _, e := range example.All() {
		for _, size := range sheets {
			for _, units := range unit.Systems() {
				given := readings(t, e.Name)
				sheet := Sheet{Width: size[0], Height: size[1], Units: units}
				s := Plan(given, sheet).Scene
				d := takenBy(s, sheet.scaleFor(s.Min, s.Max))
				where := fmt.Sprint(e.Name, size, units)
				for i, b := range d.texts {
					for _, k := range d.strokes {
						if in := b.grown(k.half).stretch(k.p, k.q); in > 0.1 {
							t.Errorf("%s: a line runs %.1f mm under %q", where, in, d.words[i])
						}
					}
					for _, o := range d.bodies {
						if in := b.overlap(o); in > 0.1 {
							t.Errorf("%s: a symbol covers %.1f mm² of %q: %.1f %.1f", where, in, d.words[i], b, o)
						}
					}
					for k := range i {
						if in := b.overlap(d.texts[k]); in > 0.1 {
							t.Errorf("%s: %q and %q share %.1f mm²", where, d.words[k], d.words[i], in)
						}
					}
				}
			}
		}
	}
}

// Dials along a wall stand in one row, square off it; no two of them touch, and
// every machine lies in its room, off the walls.
func TestDialsStandInRows(t *testing.T) {
	for _, e := range example.All() {
		given := readings(t, e.Name)
		sheet := Sheet{Width: 250, Height: 130, Units: unit.Metric}
		s := Plan(given, sheet).Scene
		scale := sheet.scaleFor(s.Min, s.Max)
		for _, l := range s.Layers {
			if l.ID != "drops" {
				continue
			}
			for _, it := range l.Items {
				if it.Line == nil {
					continue
				}
				a, b := it.Line.Points[0], it.Line.Points[1]
				dx, dy := math.Abs(a[0]-b[0])*scale, math.Abs(a[1]-b[1])*scale
				if min(dx, dy) > 0.05 {
					t.Errorf("%s: a leader goes askew, %.1f by %.1f mm", e.Name, dx, dy)
				}
				if max(dx, dy) > 18 {
					t.Errorf("%s: a leader of %.1f mm", e.Name, max(dx, dy))
				}
			}
		}
		d := takenBy(s, scale)
		for i := range d.bodies {
			for k := range i {
				if in := d.bodies[i].overlap(d.bodies[k]); in > 1 {
					t.Errorf("%s: two symbols share %.1f mm²", e.Name, in)
				}
			}
		}
	}
}

// Beads keep their order and their room, and the last in rank leaves first.
func TestLineUp(t *testing.T) {
	beads := []bead{{want: 5, half: 2, tier: machine}, {want: 6, half: 1, tier: fitting}, {want: 6, half: 2, tier: shutter}}
	kept, left := lineUp(beads, 0, 40, 0.5, 9)
	if left != 0 || len(kept) != 3 {
		t.Fatalf("kept %v, left %d", kept, left)
	}
	for i := 1; i < len(kept); i++ {
		if gap := kept[i].at - kept[i].half - kept[i-1].at - kept[i-1].half; gap < 0.5-1e-9 {
			t.Errorf("gap %g between %d and %d", gap, i-1, i)
		}
	}
	kept, left = lineUp(beads, 0, 5, 0.5, 9)
	if left != 1 || kept[0].tier != machine || kept[1].tier != shutter {
		t.Errorf("in a narrow place: kept %v, left %d", kept, left)
	}
}

// Walls that meet share their outer corner, inside and outside corners alike.
func TestWallsMeetInCorners(t *testing.T) {
	p := &planner{given: readings(t, "boat-shop"), scale: 12}
	p.job = p.given.Index.Job()
	p.walls = p.faces()
	corner := map[[2]int]int{}
	for _, w := range p.walls {
		for _, c := range w.body {
			corner[[2]int{int(math.Round(c[0] * 1000)), int(math.Round(c[1] * 1000))}]++
		}
	}
	// The hall's walls are 0.2 m thick, the one to the spray room 0.15 m.
	for _, want := range [][2]int{{-200, -200}, {-200, 9200}, {12150, 9200}, {12150, -200}} {
		if corner[want] < 2 {
			t.Errorf("no two walls meet at %v mm", want)
		}
	}
}
