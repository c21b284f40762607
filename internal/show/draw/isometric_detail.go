package draw

import (
	"math"
	"slices"

	"dropleg/internal/show/scene"
)

// The measures of rings round what is crowded, mm.
const (
	leastRing  = 6.0
	mostRing   = 24.0
	mostJoined = 29.0 // of two in one
	aboutRing  = 4.5  // from the last thing in it to its line
	manyFar    = 5    // numbers that stand far off are a crowd
)

// rings adds rings about places where the numbers of joints found no room, and if that is asked
// where many found it only far off.
func (l *leafer) rings(old []ring, all []tight, far bool) (rings []ring, more bool) {
	rings = old[:len(old):len(old)]
	used := make([]bool, len(all))
	for _, placed := range []bool{false, true} {
		for i, t := range all {
			if used[i] || t.placed != placed || placed && !far {
				continue
			}
			r, members := gathered(all, used, i)
			if placed && len(members) < manyFar {
				continue
			}
			rings, more = l.joined(rings, r), true
			for _, k := range members {
				used[k] = true
			}
		}
	}
	return rings, more
}

// joined adds a ring; one that it lies over grows round both, if that comes out no larger than
// can be looked over.
func (l *leafer) joined(rings []ring, r ring) []ring {
	for k, o := range rings {
		d := math.Hypot(o.at[0]-r.at[0], o.at[1]-r.at[1])
		both := max((d+o.radius+r.radius)/2, o.radius, r.radius)
		if d > o.radius+r.radius || both > mostJoined {
			continue
		}
		out := slices.Clone(rings)
		out[k].radius = both
		if d > 1e-9 && both > o.radius {
			out[k].at = mix(o.at, r.at, min((both-o.radius)/d, 1))
		}
		return out
	}
	r.letter = l.upperLetter()
	return append(rings, r)
}

// fitted draws rings in about the joints that they hold for themselves.
func fitted(rings []ring, joints []scene.Point) []ring {
	own := make([][]scene.Point, len(rings))
	for _, q := range joints {
		if k := ringOf(rings, q); k >= 0 {
			own[k] = append(own[k], q)
		}
	}
	var out []ring
	for k, r := range rings {
		if len(own[k]) == 0 {
			continue
		}
		low, high := bounds(own[k])
		at, far := mix(low, high, 0.5), 0.0
		for _, q := range own[k] {
			far = max(far, math.Hypot(q[0]-at[0], q[1]-at[1]))
		}
		if far+aboutRing < r.radius {
			r.at, r.radius = at, max(far+aboutRing, leastRing)
		}
		out = append(out, r)
	}
	return out
}

// gathered is the ring round a tight place and those near it.
func gathered(all []tight, used []bool, seed int) (r ring, members []int) {
	low, high := all[seed].at, all[seed].at
	members = []int{seed}
	for k, t := range all {
		if k == seed || used[k] {
			continue
		}
		a := scene.Point{min(low[0], t.at[0]), min(low[1], t.at[1])}
		b := scene.Point{max(high[0], t.at[0]), max(high[1], t.at[1])}
		if math.Hypot(b[0]-a[0], b[1]-a[1])/2+aboutRing <= mostRing {
			low, high, members = a, b, append(members, k)
		}
	}
	r.at = mix(low, high, 0.5)
	r.radius = max(math.Hypot(high[0]-low[0], high[1]-low[1])/2+aboutRing, leastRing)
	return r, members
}

// inset is a drawing of a place to stand beside the main one; its layers are in mm.
type inset struct {
	layers []scene.Layer
	box    box
	ring   scene.Point // mm on the main drawing
	left   []int       // joints without room
	first  bool        // it has to be on the leaf before others
	// again draws it so many times as large; nil: it has its size.
	again func(times float64) inset
}

// enlarged draws what is in a ring as much larger as its words want; a joint in two rings stands
// in the first.
func (l *leafer) enlarged(p *shopPart, rings []ring, i int) inset {
	r := rings[i]
	d := disc{scene.Point{r.at[0] / p.scale, r.at[1] / p.scale}, r.radius / p.scale}
	in := p.drawn.within(d)
	in.given.Work.Joints = slices.DeleteFunc(in.given.Work.Joints, func(n Numbered) bool {
		q := isometric(n.At)
		return ringOf(rings, scene.Point{q[0] * p.scale, q[1] * p.scale}) != i
	})
	at := func(times float64) inset {
		out := l.detail(in, d, p.scale*times, r.letter, times)
		out.ring = r.at
		return out
	}
	best := at(2)
	for _, times := range []float64{2.5, 3, 4, 5} {
		if len(best.left) == 0 || 2*r.radius*times+20 > min(l.sheet.Width, l.sheet.Height) {
			break
		}
		if next := at(times); len(next.left) < len(best.left) {
			best = next
		}
	}
	best.again = at
	return best
}

// detail draws what is in a disc at a scale.
func (l *leafer) detail(in site, d disc, scale float64, letter string, times float64) (out inset) {
	sheet := l.sheet
	sheet.Scale = scale
	m, _, _ := isometricOf(in, sheet)
	m.detail, m.must = true, 40
	at, radius := m.mm(d.at), d.radius*m.scale
	m.field = field{sheet: around(at[0], at[1], 2*radius+26, 2*radius+16)}
	layers := m.layers()
	title := letter + ", " + trim(times) + " times as large"
	const size = 3.0
	foot := scene.Point{at[0] - scene.TextWidth(title, size, true)/2, at[1] + radius + 9}
	layers = slices.Insert(layers, 0, scene.Layer{ID: "ring", Title: title, Items: []scene.Item{
		{Title: title, Mark: &scene.Mark{At: d.at, Parts: []scene.Path{circle(radius, 0.25)}}},
		bold(scene.Words("", title, m.metres(foot), scene.Point{}, size, "start", "ink")),
	}})
	out.box = around(at[0], at[1], 2*radius+2, 2*radius+2)
	hold := func(b box) {
		if b != (box{}) {
			out.box = box{min(out.box.x0, b.x0), min(out.box.y0, b.y0), max(out.box.x1, b.x1), max(out.box.y1, b.y1)}
		}
	}
	for _, b := range m.field.boxes {
		hold(b)
	}
	hold(box{foot[0], foot[1] - 1, foot[0] + scene.TextWidth(title, size, true), foot[1] + size})
	out.layers = shifted(layers, m.scale, scene.Point{})
	out.left = m.unnumbered
	return out
}

// shifted are layers with their metres turned into mm and moved.
func shifted(layers []scene.Layer, scale float64, by scene.Point) []scene.Layer {
	on := func(p scene.Point) scene.Point { return scene.Point{p[0]*scale + by[0], p[1]*scale + by[1]} }
	all := func(points []scene.Point) []scene.Point {
		out := make([]scene.Point, len(points))
		for i, p := range points {
			out[i] = on(p)
		}
		return out
	}
	out := make([]scene.Layer, len(layers))
	for i, l := range layers {
		out[i] = scene.Layer{ID: l.ID, Title: l.Title, Items: make([]scene.Item, len(l.Items))}
		for k, it := range l.Items {
			switch {
			case it.Line != nil:
				line := *it.Line
				line.Points, it.Line = all(line.Points), &line
			case it.Area != nil:
				area := *it.Area
				area.Points, it.Area = all(area.Points), &area
			case it.Text != nil:
				text := *it.Text
				text.At, it.Text = on(text.At), &text
			case it.Mark != nil:
				mark := *it.Mark
				mark.At, it.Mark = on(mark.At), &mark
			}
			out[i].Items[k] = it
		}
	}
	return out
}
