package draw

import (
	"math"
	"strconv"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// parts draws what sits at the points: the symbols of the catalogue's kinds.
// Fittings that only carry the line on (elbows, tees) are the line itself.
func (p *planner) parts() []scene.Item {
	var items []scene.Item
	for _, pt := range p.job.Net.Points {
		place, ok := p.place(pt.ID)
		if !ok || pt.Part.Kind == "" {
			continue
		}
		kind, ok := p.given.Shelf.Kind(pt.Part.Kind)
		if !ok || kind.Symbol == "" || !shows(kind) || p.gauge.bare && small(kind) && !pt.Part.Shut {
			continue
		}
		items = append(items, p.part(pt, kind, p.shown(scene.Point{place[0], place[1]}))...)
	}
	return items
}

// shows says whether a kind has a symbol of its own on a plan.
func shows(k catalog.Kind) bool {
	switch k.Group {
	case catalog.Valve, catalog.Drainage, catalog.Treatment, catalog.Plant:
		return true
	}
	return k.Has(catalog.Ends) || k.Has(catalog.Unions)
}

// small says whether a kind gives way on a crowded plan.
func small(k catalog.Kind) bool { return k.Group != catalog.Plant && k.Group != catalog.Treatment }

// symbolScale enlarges the symbols of a group: machines are looked for first.
func symbolScale(g catalog.Group) float64 {
	switch g {
	case catalog.Plant:
		return 1.1
	case catalog.Drainage:
		return 0.6
	}
	return 0.75
}

func (p *planner) part(pt job.Point, kind catalog.Kind, at scene.Point) []scene.Item {
	size := extentOf(kind.Symbol)
	grow := symbolScale(kind.Group) * p.small
	shift, moved := p.stepAside(p.mm(at), size, grow)
	turn := 0.0
	if kind.Group == catalog.Valve {
		turn = p.heading(pt.ID)
	}
	centre := scene.Point{at[0] + shift[0]/p.scale, at[1] + shift[1]/p.scale}
	mm := p.mm(centre)
	p.field.take(box{mm[0] + size.x0*grow, mm[1] + size.y0*grow, mm[0] + size.x1*grow, mm[1] + size.y1*grow}.grown(0.4))
	title := p.tip(pt.ID, or(pt.Name, kind.Name("en")))
	ink := &scene.Stroke{Width: 0.2 + 0.12*p.small, Color: "ink", Round: true}
	mark := &scene.Mark{At: centre, Turn: turn, Parts: []scene.Path{{D: scaled(kind.Symbol, grow), Fill: "floor", Stroke: ink}}}
	if pt.Part.Shut {
		// A valve that stands shut is filled, as on any flow sheet.
		mark.Parts[0].Fill = "ink"
	}
	var items []scene.Item
	if moved {
		items = append(items, scene.Polyline("", "", scene.Stroke{Width: 0.15, Color: "soft", Dash: []float64{0.6, 0.5}}, at, centre))
	}
	items = append(items, scene.Item{ID: string(pt.ID), Title: title, Mark: mark})
	if kind.Group == catalog.Plant || kind.Group == catalog.Treatment {
		items = append(items, p.plate(pt, kind, mm, size, grow)...)
	}
	return items
}

// stepAside moves a symbol off those already drawn: several parts of one drop
// stand above one another and would be drawn on one spot.
func (p *planner) stepAside(at scene.Point, size box, grow float64) (shift scene.Point, moved bool) {
	taken := func(d scene.Point) float64 {
		b := box{at[0] + d[0] + size.x0*grow, at[1] + d[1] + size.y0*grow, at[0] + d[0] + size.x1*grow, at[1] + d[1] + size.y1*grow}
		sum := 0.0
		for _, t := range p.field.boxes {
			sum += b.overlap(t)
		}
		return sum
	}
	if taken(scene.Point{}) < 0.5 {
		return scene.Point{}, false
	}
	least := math.Inf(1)
	for i, reach := range []float64{3.6, 5, 7, 10, 14} {
		for turn := range 8 {
			sin, cos := math.Sincos(float64(turn) * math.Pi / 4)
			d := scene.Point{reach * cos, reach * sin}
			b := box{at[0] + d[0] + size.x0*grow, at[1] + d[1] + size.y0*grow, at[0] + d[0] + size.x1*grow, at[1] + d[1] + size.y1*grow}
			cost := 4*taken(d) + p.field.cost(b) + 3*float64(i) + 1.5*float64(turn%2)
			if cost < least {
				least, shift = cost, d
			}
		}
	}
	return shift, true
}

// heading is the direction in degrees of the line through a point, seen from above.
func (p *planner) heading(id job.ID) float64 {
	for _, r := range p.job.Net.Runs {
		if r.From.Point != id && r.To.Point != id {
			continue
		}
		c := p.course(r)
		if len(c) < 2 {
			continue
		}
		a, b := c[0], c[1]
		if r.To.Point == id {
			a, b = c[len(c)-2], c[len(c)-1]
		}
		return math.Round(math.Atan2(b[1]-a[1], b[0]-a[0])*180/math.Pi*10) / 10
	}
	return 0
}

// plate writes what a machine's plate says beside its symbol, where there is room.
func (p *planner) plate(pt job.Point, kind catalog.Kind, at scene.Point, size box, grow float64) []scene.Item {
	text := p.plateWords(pt.Part)
	if text == "" {
		text = or(pt.Name, kind.Name("en"))
	}
	const height = 2.5
	b := box{size.x0 * grow, size.y0 * grow, size.x1 * grow, size.y1 * grow}
	pick := best(&p.field, []label{
		written(text, height, false, scene.Point{at[0], at[1] + b.y0 - height - 0.3}, "middle"),
		written(text, height, false, scene.Point{at[0] + b.x1 + 1.2, at[1] - height*0.3}, "start"),
		written(text, height, false, scene.Point{at[0] + b.x0 - 1.2, at[1] - height*0.3}, "end"),
		written(text, height, false, scene.Point{at[0], at[1] + b.y1 + 1.1}, "middle"),
	})
	if pick.cost > 6 {
		return nil
	}
	p.field.take(pick.box)
	return []scene.Item{scene.Words(string(pt.ID), text, p.metres(pick.at), scene.Point{}, height, pick.anchor, "soft")}
}

func (p *planner) plateWords(part job.Part) string {
	var words []string
	if c := part.Compressor; c != nil && c.Power != nil {
		words = append(words, p.sheet.plain(unit.KindPower, float64(*c.Power)))
	}
	if part.Volume != nil {
		words = append(words, p.sheet.plain(unit.KindVolume, float64(*part.Volume)))
	}
	if part.Set != nil {
		words = append(words, "set to "+p.sheet.plain(unit.KindGauge, float64(*part.Set)))
	}
	return strings.Join(words, ", ")
}

// step is one letter of a path with its numbers.
type step struct {
	letter  byte
	numbers []float64
}

// steps reads path data of the letters that symbols may use.
func steps(d string) []step {
	var out []step
	for i := 0; i < len(d); {
		letter := d[i]
		i++
		end := i
		for end < len(d) && !strings.ContainsRune("MLHVAZ", rune(d[end])) {
			end++
		}
		s := step{letter: letter}
		text := strings.ReplaceAll(strings.ReplaceAll(d[i:end], ",", " "), "-", " -")
		for _, f := range strings.Fields(text) {
			if v, err := strconv.ParseFloat(f, 64); err == nil {
				s.numbers = append(s.numbers, v)
			}
		}
		out = append(out, s)
		i = end
	}
	return out
}

// extentOf is the box of a symbol; arcs count by their ends and radius.
func extentOf(d string) box {
	b := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	x, y := 0.0, 0.0
	grow := func(x, y float64) { b = box{min(b.x0, x), min(b.y0, y), max(b.x1, x), max(b.y1, y)} }
	for _, s := range steps(d) {
		n := s.numbers
		switch {
		case (s.letter == 'M' || s.letter == 'L') && len(n) >= 2:
			for i := 0; i+1 < len(n); i += 2 {
				x, y = n[i], n[i+1]
				grow(x, y)
			}
		case s.letter == 'H' && len(n) > 0:
			x = n[len(n)-1]
			grow(x, y)
		case s.letter == 'V' && len(n) > 0:
			y = n[len(n)-1]
			grow(x, y)
		case s.letter == 'A' && len(n) >= 7:
			mx, my := (x+n[5])/2, (y+n[6])/2
			grow(mx-n[0], my-n[1])
			grow(mx+n[0], my+n[1])
			x, y = n[5], n[6]
		}
	}
	if b.x0 > b.x1 {
		return box{-1, -1, 1, 1}
	}
	return b
}

// scaled enlarges path data; flags and angles of arcs stay as they are.
func scaled(d string, k float64) string {
	if k == 1 {
		return d
	}
	var out strings.Builder
	for _, s := range steps(d) {
		out.WriteByte(s.letter)
		for i, n := range s.numbers {
			if s.letter != 'A' || i%7 < 2 || i%7 > 4 {
				n *= k
			}
			if i > 0 {
				out.WriteByte(' ')
			}
			out.WriteString(hundredths(n))
		}
	}
	return out.String()
}
