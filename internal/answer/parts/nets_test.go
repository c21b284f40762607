package parts

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// netMaker draws nets of any make.
type netMaker struct {
	*rapid.T
	stocks, kinds, states []string
	stock, size           string
}

func (t *netMaker) one(of []string, label string) string {
	return rapid.SampledFrom(of).Draw(t.T, label)
}

func (t *netMaker) upTo(n int, label string) int { return rapid.IntRange(0, n).Draw(t.T, label) }

// place draws a place on a wide, a middling or a narrow grid.
func (t *netMaker) place(name string) *geom.Point {
	x := func(axis string) float64 {
		return float64(rapid.IntRange(-120, 120).Draw(t.T, name+axis)) / rapid.SampledFrom([]float64{1, 4, 40}).Draw(t.T, name+axis+" step")
	}
	return &geom.Point{x("x"), x("y"), x("z")}
}

// another draws the stock and size that lines are of from here on.
func (t *netMaker) another() {
	s, _ := catalog.Builtin().Stock(t.one(t.stocks, "stock"))
	t.stock, t.size = s.Stock, t.one(s.Names(), "size")
}

func (t *netMaker) point(i int) job.Point {
	p := job.Point{ID: job.ID(fmt.Sprintf("point.%d", i)), State: t.one(t.states, "state")}
	if t.upTo(9, "placed") > 0 {
		p.At = t.place("at")
	}
	if t.upTo(1, "part") == 1 {
		p.Part.Kind = t.one(t.kinds, "kind")
		p.Part.Size = t.one([]string{"", "", "1/2", "20", "nonsense"}, "size")
	}
	return p
}

func (t *netMaker) run(i, points int) job.Run {
	if t.upTo(5, "other stock") == 0 {
		t.another()
	}
	r := job.Run{
		ID: job.ID(fmt.Sprintf("line.%d", i)), Stock: t.stock, Size: t.size, State: t.one(t.states[:3], "state"),
		Role: t.one([]string{"main", "drop", "drip", "branch"}, "role"),
	}
	r.From.Point = job.ID(fmt.Sprintf("point.%d", t.upTo(points-1, "from")))
	r.To.Point = job.ID(fmt.Sprintf("point.%d", t.upTo(points-1, "to")))
	switch t.upTo(40, "spoilt") {
	case 0:
		r.Stock = "nonsense"
	case 1:
		r.Size = "nonsense"
	case 2:
		r.To.Point = "point.nowhere"
	case 3:
		r.From.Port = "out"
	}
	if t.upTo(9, "stated") == 0 {
		r.Length = new(unit.Length(rapid.Float64Range(0.01, 300).Draw(t.T, "length")))
		return r
	}
	for range t.upTo(3, "corners") {
		r.Path = append(r.Path, *t.place("corner"))
	}
	return r
}

func (t *netMaker) outlet(i, points int) job.Outlet {
	o := job.Outlet{ID: job.ID(fmt.Sprintf("outlet.%d", i)), Point: job.ID(fmt.Sprintf("point.%d", t.upTo(points-1, "hung at")))}
	for range t.upTo(3, "hang") {
		o.Hang = append(o.Hang, job.Part{Kind: t.one(t.kinds, "hung")})
	}
	if t.upTo(1, "hose") == 1 {
		o.Hose = &job.Hose{ID: job.ID(fmt.Sprintf("hose.%d", i)), Item: "rubber-3/8", Length: 5, Plug: t.one([]string{"", "euro-7.2"}, "plug")}
	}
	return o
}

// drawNet is a net of any make: parts of any kind, lines of any stock, short and long,
// drawn, measured or neither, some of it spoilt.
func drawNet(t *rapid.T) *job.Job {
	shelf := catalog.Builtin()
	m := &netMaker{
		T: t, stocks: shelf.IDs(catalog.Stocks), kinds: append(shelf.IDs(catalog.Kinds), "nonsense"),
		states: []string{"", "planned", "existing", "stub"},
	}
	m.another()
	j := &job.Job{Site: job.Site{Units: m.one([]string{"us", "metric", ""}, "units")}}
	points := 2 + m.upTo(10, "points")
	for i := range points {
		j.Net.Points = append(j.Net.Points, m.point(i))
	}
	for i := range 1 + m.upTo(points+1, "runs") {
		j.Net.Runs = append(j.Net.Runs, m.run(i, points))
	}
	for i := range m.upTo(3, "outlets") {
		j.Outlets = append(j.Outlets, m.outlet(i, points))
	}
	return j
}

// TestNetsClose: whatever is drawn, and however little it makes sense, the take-off closes.
func TestNetsClose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawNet(t)
		a := Of(j, catalog.Builtin())
		closes(t, j, catalog.Builtin(), a)
		for _, p := range a.Pieces {
			if p.Cut != nil && math.IsNaN(float64(*p.Cut)) {
				t.Errorf("%s: no number", p.ID)
			}
		}
	})
}

func BenchmarkTakeOff(b *testing.B) {
	j := examples(b)["ring-main.json"]
	shelf := catalog.Builtin()
	for b.Loop() {
		Of(j, shelf)
	}
}
