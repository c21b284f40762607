package draw

import (
	"fmt"

	"dropleg/engine/geom"
	"dropleg/internal/show/scene"
)

// leaf draws one part, and beside it what is crowded drawn larger, the key to the parts and more
// that is to stand there; a little smaller where that gives all of it room. What has none is kept
// for a leaf of its own.
func (l *leafer) leaf(i int, more []inset) IsometricLeaf {
	letter := l.letter
	var best *composed
	// What is merely far off is drawn larger only where there is room for that.
	for _, try := range []try{{1, true}, {1, false}, {0.94, false}, {0.88, false}} {
		if best != nil && l.parts[i].scale*try.smaller < 0.9*l.paper.Working {
			break
		}
		l.letter = letter
		next := l.composed(i, try, more)
		next.letter = l.letter
		if best == nil || len(next.spilt) < len(best.spilt) {
			best = next
		}
		if len(best.spilt) == 0 {
			break
		}
	}
	l.letter = best.letter
	l.spilt = append(l.spilt, best.spilt...)
	return best.leaf
}

// try is how a leaf is tried.
type try struct {
	smaller float64
	far     bool // what has its numbers far off is drawn larger
}

// composed is a leaf that is tried.
type composed struct {
	leaf   IsometricLeaf
	spilt  []inset
	letter int // of the next ring
}

func (l *leafer) composed(i int, how try, more []inset) *composed {
	p := l.parts[i]
	p.scale *= how.smaller
	var rings []ring
	m, low, high := l.drawing(&p, rings)
	layers := m.layers()
	const passes = 4
	for range passes {
		next, more := l.rings(rings, m.tight, how.far)
		if !more {
			break
		}
		rings = fitted(next, m.joints())
		m, low, high = l.drawing(&p, rings)
		layers = m.layers()
	}
	out := &composed{leaf: IsometricLeaf{Says: IsometricSays{Broken: p.drawn.short, Rings: len(rings) > 0}, Left: m.unwritten}}
	left := m.unnumbered
	var insets []inset
	for k := range rings {
		in := l.enlarged(&p, rings, k)
		left = append(left, in.left...)
		insets = append(insets, in)
	}
	if len(left) > 0 {
		out.leaf.Left = append(out.leaf.Left, Ranges(left))
	}
	if insets = append(insets, more...); len(l.parts) > 1 {
		insets = append(insets, l.key(i))
	}
	origin := scene.Point{(low[0] + high[0]) / 2 * m.scale, (low[1] + high[1]) / 2 * m.scale}
	by, places := l.laidOut(m.covered(layers), m.field.sheet, origin, insets)
	all := shifted(layers, m.scale, by)
	for k, in := range insets {
		if at := places[k]; at != nil {
			all = append(all, shifted(in.layers, 1, *at)...)
		} else {
			out.spilt = append(out.spilt, in)
		}
	}
	out.leaf.Scene = l.page(m.job.Title, all)
	return out
}

// joints are where joints are seen, mm.
func (m *isometer) joints() []scene.Point {
	var all []scene.Point
	if m.working() {
		for _, n := range m.given.Work.Joints {
			all = append(all, m.mm(m.seen(n.At)))
		}
	}
	return all
}

// drawing makes ready to draw a part with its rings.
func (l *leafer) drawing(p *shopPart, rings []ring) (m *isometer, low, high scene.Point) {
	sheet := l.sheet
	sheet.Scale = p.scale
	m, low, high = isometricOf(p.drawn, sheet)
	m.rings, m.told, m.must = rings, p.told, 9
	return m, low, high
}

// page is the scene of a leaf, in mm.
func (l *leafer) page(title string, layers []scene.Layer) scene.Scene {
	s := scene.Scene{Title: "Piping of " + title + ", isometric", Max: scene.Point{l.sheet.Width, l.sheet.Height}, Layers: layers}
	s.Fill()
	return s
}

// rest are leaves of what had no room beside the drawings, as large as takes no more leaves.
func (l *leafer) rest() []IsometricLeaf {
	best := l.packed(l.spilt)
	for _, times := range []float64{2.5, 3, 4} {
		var larger []inset
		for _, in := range l.spilt {
			if in.again != nil && times*(in.box.x1-in.box.x0) < 2*l.sheet.Width && times*(in.box.y1-in.box.y0) < 2*l.sheet.Height {
				in = in.again(times)
			}
			larger = append(larger, in)
		}
		next := l.packed(larger)
		if len(next) > len(best) {
			break
		}
		best = next
	}
	return best
}

// packed sets insets in rows on leaves.
func (l *leafer) packed(all []inset) []IsometricLeaf {
	const apart = 6.0
	var leaves []IsometricLeaf
	var layers []scene.Layer
	x, y, tall, wide := 0.0, l.sheet.Height, 0.0, 0.0
	turn := func() {
		if len(layers) > 0 {
			middle := shifted(layers, 1, scene.Point{max(l.sheet.Width-wide, 0) / 2, 0})
			leaves = append(leaves, IsometricLeaf{Scene: l.page(l.given.Index.Job().Title, middle)})
		}
		layers, x, y, tall, wide = nil, 0, l.sheet.Height, 0, 0
	}
	for _, in := range all {
		w, h := in.box.x1-in.box.x0, in.box.y1-in.box.y0
		if x > 0 && x+w > l.sheet.Width {
			x, y, tall = 0, y-tall-apart, 0
		}
		if y-h < -margin && y < l.sheet.Height {
			turn()
		}
		layers = append(layers, shifted(in.layers, 1, scene.Point{x - in.box.x0, y - in.box.y1})...)
		wide = max(wide, x+w)
		x, tall = x+w+apart, max(tall, h)
	}
	turn()
	return leaves
}

// key shows which part of the shop is on which leaf.
func (l *leafer) key(now int) inset {
	m := &isometer{eye: geom.Isometric(0)}
	low, high := m.extent(l.given)
	k := min(50/(high[0]-low[0]), 32/(high[1]-low[1]))
	on := func(p scene.Point) scene.Point { return scene.Point{(p[0] - low[0]) * k, (p[1] - low[1]) * k} }
	var items []scene.Item
	j := l.given.Index.Job()
	for _, r := range j.Building.Rooms {
		var floor []scene.Point
		for _, c := range r.Outline {
			floor = append(floor, on(isometric(c.At(float64(r.Floor)))))
		}
		items = append(items, scene.Item{Area: &scene.Area{Points: floor, Fill: "floor", Stroke: &scene.Stroke{Width: 0.15, Color: "soft"}}})
	}
	for i := range j.Net.Runs {
		var course []scene.Point
		for _, q := range l.given.Index.Centreline(&j.Net.Runs[i]) {
			course = append(course, on(isometric(q)))
		}
		if len(course) > 1 {
			items = append(items, scene.Polyline("", "", scene.Solid(0.3, "line"), course...))
		}
	}
	items = append(items, l.keyParts(now, on)...)
	high = on(high)
	const size = 4.2
	title := fmt.Sprintf("Part %d of %d", now+1, len(l.parts))
	items = append(items, bold(scene.Words("", title, scene.Point{0, high[1] + 1}, scene.Point{}, size, "start", "ink")))
	high = scene.Point{max(high[0], scene.TextWidth(title, size, true)), high[1] + 1 + size}
	return inset{layers: []scene.Layer{{ID: "key", Title: "which part is where", Items: items}}, box: box{-2, -2, high[0] + 2, high[1] + 2}, ring: scene.Point{1e4, -1e4}, first: true}
}
