package fit

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Drag moves things by hand: the gesture "drag". Runs follow the points they lead
// to and keep their directions where something can slide; fittings become true
// again. A run is shifted sideways with the straight that it is part of. Drains and
// relief valves go along with what they serve, and what stands on a wall with it.
type Drag struct {
	did
	IDs []job.ID    `json:"ids"`
	By  *geom.Point `json:"by_m,omitempty" min:"-4000" max:"4000"`
	To  *Place      `json:"to,omitempty" doc:"for one thing, in place of by_m"`
}

// Edit drags the things.
func (g *Drag) Edit(ix *job.Index, shelf *catalog.Catalog) (job.Edit, []job.ID, error) {
	if len(g.IDs) == 0 {
		return nil, nil, refuse("nothing-given", "ids", "nothing is chosen to be moved", "choose something first")
	}
	if (g.By == nil) == (g.To == nil) || g.To != nil && len(g.IDs) != 1 {
		return nil, nil, refuse("no-place", "by_m", "it is not said how far", "give by_m, or to for one thing")
	}
	by, on, err := g.step(ix)
	if err != nil {
		return nil, nil, err
	}
	if !by.Finite() || by.Length() <= geom.Tiny && on == nil {
		return nil, nil, refuse("nothing-changes", "by_m", "it would not move at all", "drag it further")
	}
	edit, made, err := g.drag(ix, shelf, by, on)
	var r *job.Refusal
	if err == nil || on != nil || !errors.As(err, &r) {
		return edit, made, err
	}
	// The nearest thing that would work: as far as it goes that way.
	for _, share := range []float64{0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1} {
		if _, _, again := g.drag(ix, shelf, by.Times(share), nil); again == nil {
			f := &r.Findings[0]
			near := "it can go " + measured(ix, share*by.Length()) + " that way"
			f.Title, f.Want, f.Nearest = f.Title+"; "+near, near, near
			break
		}
	}
	return nil, nil, r
}

// step is how far things go, and the wall that one thing goes onto.
func (g *Drag) step(ix *job.Index) (geom.Point, *job.OnWall, error) {
	if g.By != nil {
		return *g.By, nil, nil
	}
	to, err := g.To.find(ix, "to")
	if err != nil {
		return geom.Point{}, nil, err
	}
	id := g.IDs[0]
	at, ok := whereOf(ix, id)
	if !ok {
		return geom.Point{}, nil, refuse("not-to-move", "ids[0]", fmt.Sprintf("%s has no place of its own", brief(string(id))), "drag it by by_m", id)
	}
	on := to.on
	if id.Word() != "point" && id.Word() != "outlet" {
		on = nil
	}
	return to.at.Minus(at), on, nil
}

// whereOf is the place of a thing that has one of its own.
func whereOf(ix *job.Index, id job.ID) (geom.Point, bool) {
	switch id.Word() {
	case "point":
		return ix.Where(ix.Point(id))
	case "outlet":
		if o := ix.Outlet(id); o != nil {
			return ix.Where(ix.Point(o.Point))
		}
	case "obstacle":
		if o := ix.Obstacle(id); o != nil {
			return geom.Centre(o.Outline).At(float64(o.Bottom)), true
		}
	case "room":
		if r := ix.Room(id); r != nil {
			return geom.Centre(r.Outline).At(float64(r.Floor)), true
		}
	case "wall":
		if w := ix.Wall(id); w != nil {
			return w.From.At(float64(w.Floor)), true
		}
	case "opening":
		if o := ix.Opening(id); o != nil && ix.Wall(o.Wall) != nil {
			return ix.Wall(o.Wall).Frame().Out(float64(o.Along), float64(o.Sill), 0), true
		}
	}
	return geom.Point{}, false
}

// drag works one movement out.
func (g *Drag) drag(ix *job.Index, shelf *catalog.Catalog, by geom.Point, on *job.OnWall) (job.Edit, []job.ID, error) {
	s := sketchOf(ix, shelf)
	p := &puller{sketch: s, by: map[spotKey]geom.Point{}, shifted: map[job.ID]bool{}}
	var more []job.Edit
	walls := map[job.ID]bool{}
	for i, id := range g.IDs {
		if !ix.Has(id) {
			return nil, nil, s.noSuch("thing", id, fmt.Sprintf("ids[%d]", i))
		}
		switch id.Word() {
		case "point", "outlet", "line":
		case "room", "wall", "opening", "obstacle":
			more = append(more, p.building(id, by, walls)...)
		default:
			return nil, nil, refuse("not-to-move", fmt.Sprintf("ids[%d]", i), fmt.Sprintf("%s has no place of its own", s.nameOf(id)), "drag the outlet or the point that it is at", id)
		}
	}
	if err := p.net(g.IDs, by); err != nil {
		return nil, nil, err
	}
	p.follow()
	if err := p.settle(); err != nil {
		return nil, nil, err
	}
	for _, n := range s.points {
		if was := ix.Point(n.ID); was != nil && was.On != nil && walls[was.On.Wall] {
			n.On, n.At = was.On, nil // it goes with its wall
		}
	}
	if on != nil {
		if n := p.pointOf(g.IDs[0]); n != nil {
			n.On, n.At = on, nil
		}
	}
	return s.done(g.title(s, by), more...)
}

// net pulls the points and runs among the things dragged.
func (p *puller) net(ids []job.ID, by geom.Point) error {
	var runs []*job.Run
	var points []*node
	for _, id := range ids {
		if n := p.pointOf(id); n != nil && !slices.Contains(points, n) {
			if !n.placed {
				return refuse("no-place", "ids", called(n.Name, n.ID)+" has no place in the drawing", "place it first", n.ID)
			}
			points = append(points, n)
		} else if r := p.byRun[id]; r != nil {
			runs = append(runs, r)
		}
	}
	if len(points) == 1 && len(runs) == 0 {
		by = p.handed(points[0], by)
		if by.Length() <= geom.Tiny {
			return refuse("nothing-changes", "by_m", "it would not move at all", "drag it further")
		}
	}
	for _, n := range points {
		p.pull(by, spotKey{point: n.ID})
		p.serving(n, by)
	}
	for _, r := range runs {
		if err := p.shift(r, by, points); err != nil {
			return err
		}
	}
	return nil
}

// handed is how a single point goes where a hand drags it: a part in a straight line
// slides along the line, or takes the line sideways along, whichever is more meant. A
// corner takes both its lines along.
func (p *puller) handed(n *node, by geom.Point) geom.Point {
	legs := p.legs(spotKey{point: n.ID})
	if p.fast(n) || len(legs) < 2 {
		return by
	}
	t, ok := inLineOf(legs)
	if !ok {
		p.through = true
		return by
	}
	along := t.Times(by.Dot(t))
	if along.Length() >= by.Minus(along).Length() {
		return along
	}
	p.through = true
	return by.Minus(along)
}

// serving lets what serves a point alone go along with it: drains, relief valves, gauges.
func (p *puller) serving(n *node, by geom.Point) {
	for _, e := range p.ends(n.ID) {
		far := p.byPoint[e.other().Point]
		if far == nil || len(p.ends(far.ID)) != 1 || p.kind(&far.Part).Law.Name != "end" || shaped(p.kind(&far.Part)) {
			continue
		}
		p.pull(by, spotKey{point: far.ID})
		for i := range e.run.Path {
			p.pull(by, spotKey{run: e.run.ID, i: i})
		}
	}
}

// shift pulls a run sideways: its corners and those of its ends that do not stand fast.
func (p *puller) shift(r *job.Run, by geom.Point, points []*node) error {
	way := p.way(r)
	if way == nil {
		return refuse("not-drawn", "ids", called(r.Name, r.ID)+" states its length and is not drawn", "place its ends and take its length away first", r.ID)
	}
	chosen := func(id job.ID) bool {
		return slices.ContainsFunc(points, func(n *node) bool { return n.ID == id })
	}
	p.through, p.shifted[r.ID] = true, true
	if len(r.Path) == 0 && !chosen(r.From.Point) && !chosen(r.To.Point) {
		u := way[1].Minus(way[0]).Unit()
		across := by.Minus(u.Times(by.Dot(u)))
		if across.Length() < slack*by.Length() {
			return refuse("along-itself", "by_m", "a line is shifted sideways, and this is along it", "drag its end to make it longer or shorter", r.ID)
		}
		by = across
	}
	for i := range r.Path {
		p.pull(by, spotKey{run: r.ID, i: i})
	}
	loose := false
	for _, id := range []job.ID{r.From.Point, r.To.Point} {
		if n := p.byPoint[id]; chosen(id) || !p.fast(n) {
			p.pull(by, spotKey{point: id})
			loose = true
		}
	}
	if !loose && len(r.Path) == 0 {
		r.Path = tidyPath([]geom.Point{way[0].Plus(by), way[1].Plus(by)})
		p.moved(r)
	}
	return nil
}

// pointOf is the point that an id stands for: its own, or that of an outlet.
func (s *sketch) pointOf(id job.ID) *node {
	if o := s.outlet(id); o != nil {
		id = o.Point
	}
	return s.byPoint[id]
}

// title tells what was moved how far.
func (g *Drag) title(s *sketch, by geom.Point) string {
	what := fmt.Sprintf("%d things", len(g.IDs))
	if len(g.IDs) == 1 {
		what = s.nameOf(g.IDs[0])
	}
	return fmt.Sprintf("moved %s by %s", what, measured(s.ix, math.Max(0.01, by.Length())))
}
