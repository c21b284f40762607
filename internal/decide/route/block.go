package route

import (
	"fmt"
	"math"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
)

// block is what lines keep clear of: an upright prism and the room to be left round it.
type block struct {
	name    string
	outline []geom.Flat
	low     float64
	high    float64
	clear   float64   // to all sides
	from    geom.Flat // bounds of the outline
	to      geom.Flat
}

// blocks lists what stands in the way in a building. Over the heads of doors there is
// room for a main's fall.
func blocks(b *job.Building, walls func(job.ID) *job.Wall, fall float64) []block {
	var out []block
	for i := range b.Openings {
		o := &b.Openings[i]
		w := walls(o.Wall)
		if w == nil {
			continue
		}
		f := w.Frame()
		from, to := float64(o.Along), float64(o.Along+o.Width)
		behind := -float64(w.Thickness) - 0.3
		var outline []geom.Flat
		for _, c := range [][2]float64{{from, behind}, {to, behind}, {to, 0.3}, {from, 0.3}} {
			outline = append(outline, f.Out(c[0], 0, c[1]).Plan())
		}
		foot := f.Floor + float64(o.Sill)
		if o.Sill == 0 {
			foot = math.Inf(-1) // nothing lies across a doorway
		}
		out = append(out, newBlock(named(o.Name, o.Kind, "the "), outline, foot, f.Floor+float64(o.Sill+o.Height)+fall, clearHead))
	}
	for i := range b.Obstacles {
		o := &b.Obstacles[i]
		clear := clearSide
		if o.Kind == "electrical" || o.Kind == "flue" {
			clear = clearHot
		}
		out = append(out, newBlock(named(o.Name, o.Kind, "the "), o.Outline, float64(o.Bottom), float64(o.Top), clear))
	}
	return out
}

func newBlock(name string, outline []geom.Flat, low, high, clear float64) block {
	b := block{name: name, outline: outline, low: low, high: high, clear: clear}
	b.from, b.to, _ = geom.Bounds(outline)
	return b
}

func named(name, kind, article string) string {
	if name != "" {
		return name
	}
	return article + kind
}

// hits says whether a straight piece of line comes too near.
func (b *block) hits(p, q geom.Point) bool {
	if math.Max(p[2], q[2]) <= b.low-b.clear+geom.Tiny || math.Min(p[2], q[2]) >= b.high+b.clear-geom.Tiny {
		return false
	}
	for k := range 2 {
		if math.Max(p[k], q[k]) < b.from[k]-b.clear || math.Min(p[k], q[k]) > b.to[k]+b.clear {
			return false
		}
	}
	a, c := p.Plan(), q.Plan()
	if geom.Contains(b.outline, a) || geom.Contains(b.outline, c) {
		return true
	}
	for i, v := range b.outline {
		w := b.outline[(i+1)%len(b.outline)]
		if geom.SegmentsMeet(a, c, v, w) || between(a, c, v, w) < b.clear-geom.Tiny {
			return true
		}
	}
	return false
}

// between is the distance of two segments on the plan that do not meet.
func between(a, b, c, d geom.Flat) float64 {
	far := func(p, q, r geom.Flat) float64 { return geom.NearestOnSegment(p.At(0), q.At(0), r.At(0)).Distance }
	return math.Min(math.Min(far(a, c, d), far(b, c, d)), math.Min(far(c, a, b), far(d, a, b)))
}

// holds says whether a place lies in what is kept clear.
func (b *block) holds(p geom.Point) bool { return b.hits(p, p) }

// namesOf tells blocks as a sentence does.
func namesOf(list []block, which []int) string {
	out := ""
	for i, k := range which {
		switch {
		case i == 0:
			out = list[k].name
		case i == len(which)-1:
			out += " and " + list[k].name
		case i < 3:
			out += ", " + list[k].name
		}
	}
	if len(which) > 4 {
		out += fmt.Sprintf(" (and %d more)", len(which)-4)
	}
	return out
}

// hit says whether anything stands in the way of a straight piece of line.
func (m *maze) hit(p, q geom.Point) bool {
	for i := range m.blocks {
		if m.blocks[i].hits(p, q) {
			return true
		}
	}
	return false
}
