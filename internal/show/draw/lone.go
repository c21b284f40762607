package draw

import (
	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// loner is a part that no line leads to yet, as plant is that was just placed: it
// is shown where it stands, however small the sheet is, so that it can be connected.
type loner struct {
	point *job.Point
	kind  catalog.Kind
	tier  int
	at    geom.Point
}

func (p *planner) loners() []loner {
	var out []loner
	for i := range p.job.Net.Points {
		pt := &p.job.Net.Points[i]
		at, placed := p.given.Index.Where(pt)
		kind, known := p.given.Shelf.Kind(pt.Part.Kind)
		tier, shows := tierOf(kind)
		if placed && known && shows && len(p.given.Index.Ends(pt.ID)) == 0 && !p.onDrop[pt.ID] {
			out = append(out, loner{pt, kind, tier, at})
		}
	}
	return out
}

// lone seats them on the plan.
func (p *planner) lone() []seated {
	var out []seated
	for _, l := range p.loners() {
		out = append(out, seated{l.point, l.tier, p.mm(p.shown(scene.Point{l.at[0], l.at[1]})), scene.Point{1, 0}})
	}
	return out
}

// lone seats them in space.
func (m *isometer) lone() []fixture {
	var out []fixture
	for _, l := range m.loners() {
		out = append(out, fixture{point: l.point, kind: l.kind, tier: l.tier, at: m.mm(m.seen(l.at)), dir: scene.Point{1, 0}})
	}
	return out
}

// seatLone gives them places on the walls that they are nearest to.
func (e *elevator) seatLone() {
	for _, l := range e.loners() {
		on := e.ghostPanel(l.at, l.at, -1)
		if on < 0 {
			continue
		}
		p := &e.panels[on]
		along, up, off := p.In(l.at)
		if e.some && off > float64(reach) {
			continue // the wall that it is nearest to may not be drawn
		}
		e.shownOn[l.point.ID], e.spots[l.point.ID] = on, e.mm(p.on(along, up))
	}
}
