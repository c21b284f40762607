package draw

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/show/scene"
)

// work writes cut lengths and joints on the walls.
func (e *elevator) work() []scene.Item {
	if !e.working() {
		return nil
	}
	items := e.cutWords(func(a, b geom.Point) (from, to scene.Point, ok bool) {
		from, on, ok := e.onWall(a)
		to, other, also := e.onWall(b)
		return from, to, ok && also && on == other
	})
	return append(items, e.numbers(func(at geom.Point) (scene.Point, bool) {
		q, _, ok := e.onWall(at)
		return q, ok && e.field.lined(q) // a joint of what is drawn nowhere here would hang in the air
	})...)
}

// onWall is where a place is drawn that lies on one of the walls, in mm, and on which.
func (e *elevator) onWall(at geom.Point) (q scene.Point, on int, ok bool) {
	if r := e.given.Index.RoomAt(at); r != nil && e.room != nil && r.ID != e.room.ID {
		return q, 0, false
	}
	for i := range e.panels {
		p := &e.panels[i]
		along, up, off := p.In(at)
		if math.Abs(off) <= float64(reach) && along > -0.05 && along < p.long+0.05 && up > -0.05 && up < e.top {
			return e.mm(p.on(min(max(along, 0), p.long), up)), i, true
		}
	}
	return q, 0, false
}

// work writes cut lengths and joints in the isometric view; those in a ring stand on its larger
// drawing.
func (m *isometer) work() []scene.Item {
	if !m.working() {
		return nil
	}
	items := m.cutWords(func(a, b geom.Point) (from, to scene.Point, ok bool) {
		from, to = m.mm(m.seen(a)), m.mm(m.seen(b))
		return from, to, ringOf(m.rings, mix(from, to, 0.5)) < 0
	})
	return append(items, m.numbers(func(at geom.Point) (scene.Point, bool) {
		q := m.mm(m.seen(at))
		return q, ringOf(m.rings, q) < 0
	})...)
}

// styles writes the names of the parts beside their symbols on the flow diagram, framed as
// ISO 1219-2 has its identification codes (recalled).
func (c *charter) styles() []scene.Item {
	if !c.working() {
		return nil
	}
	var items []scene.Item
	for v, pt := range c.flow.net.points {
		at, drawn := c.spots[v]
		if !drawn || pt == nil || c.given.Work.Names[pt.ID] == "" {
			continue
		}
		items = append(items, c.style(v, at, c.given.Work.Names[pt.ID])...)
	}
	return items
}

func (c *charter) style(v int, at scene.Point, name string) []scene.Item {
	const size = 2.2
	kind := c.flow.net.kinds[v]
	e, grow := extentOf(kind.Symbol), growth(kind)*c.grown
	mm := c.paper(at)
	w, h := scene.TextWidth(name, size, false)+1.2, size+1
	half := max(e.x1-e.x0, e.y1-e.y0)/2*grow + 0.6
	var tried []label
	for i, q := range []scene.Point{
		{mm[0], mm[1] + half + h/2},
		{mm[0] + half + w/2, mm[1] + h},
		{mm[0] - half - w/2, mm[1] + h},
		{mm[0] + half + w/2, mm[1]},
		{mm[0] - half - w/2, mm[1]},
		{mm[0], mm[1] + half + 1.5*h},
		{mm[0], mm[1] - half - h/2},
		{mm[0] + half + w/2, mm[1] - h},
		{mm[0] - half - w/2, mm[1] - h},
		{mm[0], mm[1] + half + 3*h},
		{mm[0] + half + w, mm[1] + 2*h},
		{mm[0] - half - w, mm[1] + 2*h},
		{mm[0] + half + w, mm[1] - 2*h},
		{mm[0] - half - w, mm[1] - 2*h},
	} {
		tried = append(tried, label{box: around(q[0], q[1], w, h), at: q, cost: 0.2 * float64(i)})
	}
	pick := best(&c.field, tried)
	c.field.take(pick.box)
	frame := scene.Path{D: path("M%s %sH%sV%sH%sZ", -w/2, -h/2, w/2, h/2, -w/2), Fill: "paper", Stroke: &scene.Stroke{Width: 0.15, Color: "ink"}}
	return []scene.Item{
		{Title: name, Mark: &scene.Mark{At: c.metres(pick.at), Parts: []scene.Path{frame}}},
		scene.Words("", name, c.metres(pick.at), scene.Point{0, -size * 0.35}, size, "middle", "ink"),
	}
}

// HasSymbol says whether a kind is drawn as a symbol of its own, and not as the line itself.
func HasSymbol(k catalog.Kind) bool {
	_, ok := drawnAs(k)
	return ok
}
