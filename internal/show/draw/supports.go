package draw

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// Support is a clip or hanger to be marked on a line.
type Support struct {
	ID    string
	Run   job.ID
	Along unit.Length // of the run, from its From
	Fixed bool        // it holds the line fast
	Title string
}

// supports marks what holds the lines, seen from above. Upright line is a dot from there:
// what holds that is on the walls.
func (p *planner) supports() []scene.Item {
	var items []scene.Item
	for i := range p.given.Supports {
		s := &p.given.Supports[i]
		at, dir, ok := p.held(s)
		if !ok || p.blind(*p.given.Index.Run(s.Run)) || math.Hypot(dir[0], dir[1]) < 0.5 {
			continue
		}
		items = append(items, p.clip(s, p.shown(scene.Point{at[0], at[1]}), scene.Point{dir[0], dir[1]}))
	}
	return items
}

// supports marks what holds the lines that are drawn on the walls as theirs.
func (e *elevator) supports() []scene.Item {
	var items []scene.Item
	e.clips = map[int][]float64{}
	for i := range e.given.Supports {
		s := &e.given.Supports[i]
		at, dir, ok := e.held(s)
		if !ok {
			continue
		}
		share := float64(s.Along) / geom.Length(e.given.Index.Centreline(e.given.Index.Run(s.Run)))
		for k := range e.pieces {
			c := &e.pieces[k]
			if c.ghost || c.run.ID != s.Run || share < c.t0-1e-9 || share > c.t1+1e-9 {
				continue
			}
			p := &e.panels[c.panel]
			along, up, _ := p.In(at)
			on, over, _ := p.In(at.Plus(dir))
			if way := (scene.Point{on - along, over - up}); math.Hypot(way[0], way[1]) > 0.5 {
				items = append(items, e.clip(s, p.on(min(max(along, 0), p.long), up), way))
				e.clips[c.panel] = append(e.clips[c.panel], min(max(along, 0), p.long))
			}
			break
		}
	}
	return items
}

// held is where a support sits, and the way of its line there, a unit long.
func (p *planner) held(s *Support) (at, dir geom.Point, ok bool) {
	run := p.given.Index.Run(s.Run)
	if run == nil {
		return at, dir, false
	}
	line := p.given.Index.Centreline(run)
	at, leg, ok := geom.OnPath(line, float64(s.Along))
	if !ok || leg+1 >= len(line) || !at.Finite() {
		return at, dir, false
	}
	return at, line[leg+1].Minus(line[leg]).Unit(), true
}

// clip is the mark of a support: a tick across the line, with a block on it where it
// holds fast.
func (p *planner) clip(s *Support, at, dir scene.Point) scene.Item {
	const long, block, over = 1.5, 1.1, 0.6 // mm from the middle of the line, and over its edge
	grow := max(p.small, 0.6)
	half := max(long*grow, p.pen(*p.given.Index.Run(s.Run))/2+over)
	tick := scene.Path{D: vertical(half), Stroke: &scene.Stroke{Width: 0.35, Color: "ink"}}
	parts := []scene.Path{tick}
	if s.Fixed {
		parts = append(parts, scene.Path{D: square(block * grow), Fill: "ink", Stroke: &scene.Stroke{Width: 0.3, Color: "floor"}})
	}
	if p.working() { // the words of a drawing to build from stand clear of it
		mm, long := p.mm(at), math.Hypot(dir[0], dir[1])
		up := scene.Point{-dir[1] / long * half, dir[0] / long * half}
		p.field.draw(minus(mm, up), scene.Point{mm[0] + up[0], mm[1] + up[1]}, 0.2, clipMinds)
	}
	turn := math.Round(math.Atan2(dir[1], dir[0]) * 180 / math.Pi)
	return scene.Item{ID: s.ID, Title: s.Title, Mark: &scene.Mark{At: at, Turn: turn, Parts: parts}}
}

// clipMinds is the weight of a clip for labels: less than a line, more than a bench's edge.
const clipMinds = 3

// vertical is a path upright through the middle, reaching half a length to both sides.
func vertical(half float64) string { return "M0 " + hundredths(-half) + "V" + hundredths(half) }

// square is a filled block about the middle.
func square(half float64) string {
	a, b := hundredths(-half), hundredths(half)
	return "M" + a + " " + a + "H" + b + "V" + b + "H" + a + "Z"
}

// withSupports puts the layer of supports behind that of the lines; without any the
// drawing has none.
func withSupports(layers []scene.Layer, items []scene.Item) []scene.Layer {
	if len(items) == 0 {
		return layers
	}
	var out []scene.Layer
	for _, l := range layers {
		out = append(out, l)
		if l.ID == "lines" {
			out = append(out, scene.Layer{ID: "supports", Title: "supports", Items: items})
		}
	}
	return out
}
