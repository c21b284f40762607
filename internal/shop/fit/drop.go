package fit

import (
	"fmt"
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Drop hangs a drop leg with its outlet: the gesture "drop".
type Drop struct {
	did
	From    Anchor     `json:"from" doc:"on a run or at a point"`
	To      Place      `json:"to" doc:"of the outlet"`
	Stock   string     `json:"stock,omitempty" doc:"left out, that of the line it is taken off"`
	Size    string     `json:"size,omitempty"`
	TakeOff string     `json:"take_off,omitempty" enum:"top,side,bottom" doc:"left out, top: water stays in the main"`
	State   string     `json:"state,omitempty" enum:"existing,planned,stub"`
	Valve   bool       `json:"valve,omitempty" doc:"an isolating valve over the outlet"`
	Outlet  DropOutlet `json:"outlet"`
}

// DropOutlet is the outlet at the end of a drop leg.
type DropOutlet struct {
	Name  string     `json:"name"`
	Mark  string     `json:"mark,omitempty"`
	Kind  string     `json:"kind,omitempty" doc:"of what the outlet hangs at; left out, a fitting fixed to the wall or, overhead, to the structure"`
	Drain string     `json:"drain,omitempty" doc:"kind of the drain to be set under what the outlet hangs at"`
	Hang  []job.Part `json:"hang,omitempty" doc:"from the line to the hand"`
	Hose  *Hose      `json:"hose,omitempty" doc:"its id may be left out"`
	Tools []job.ID   `json:"tools,omitempty"`
}

// The practice of drop legs, in metres (common practice of the trade).
const (
	rise      = 0.10 // above the main before a leg goes over, from the top
	least     = 0.04 // no less: a fitting and a short piece
	over      = 0.15 // beside the take-off where the outlet is right below
	valveOver = 0.35 // from the outlet up to its valve, at hand height
	overhead  = 2.20 // an outlet above this hangs from the structure
)

// Edit hangs the drop leg.
func (g *Drop) Edit(ix *job.Index, shelf *catalog.Catalog) (job.Edit, []job.ID, error) {
	s := sketchOf(ix, shelf)
	if g.From.Place != nil {
		return nil, nil, refuse("no-place", "from", "a drop leg is taken off a line", "begin it on a run or at a point")
	}
	from, err := s.hold(g.From, "from")
	if err != nil {
		return nil, nil, err
	}
	to, err := g.To.find(ix, "to")
	if err != nil {
		return nil, nil, err
	}
	like := job.Run{Stock: g.Stock, Size: g.Size, Role: "drop", State: g.State}
	if err := s.stockOf(&like, from); err != nil {
		return nil, nil, err
	}
	kind, err := s.outletKind(g.Outlet.Kind, to)
	if err != nil {
		return nil, nil, err
	}
	if s.loose(from) && to.at[2] < from.at[2] && from.at.Plan().Distance(to.at.Plan()) < least+geom.Tiny {
		to = to.below(ix, from.at)
	}
	path, err := g.path(s, &from, to)
	if err != nil {
		return nil, nil, err
	}
	name := g.Outlet.Name
	if name == "" {
		return nil, nil, refuse("no-name", "outlet.name", "the outlet has no name", "call it by what is done there, as in \"Bench\"")
	}
	end := s.addPoint(idOf("point", name, "outlet"), to, job.Part{Kind: kind.Kind}, g.State)
	r, err := s.draw(from, held{spot: to, node: end, path: "to", anchor: Anchor{Point: end.ID}}, path, like)
	if err != nil {
		return nil, nil, err
	}
	id, err := g.dress(s, r, end)
	if err != nil {
		return nil, nil, err
	}
	s.leadWith(id)
	return s.done(fmt.Sprintf("hung a drop leg for %q", name))
}

// dress puts on the leg what comes with it: valve, outlet and drain.
func (g *Drop) dress(s *sketch, r *job.Run, end *node) (job.ID, error) {
	if g.Valve {
		if err := s.valveAbove(r); err != nil {
			return "", err
		}
	}
	o, err := s.addOutlet(end, g.Outlet.Name, g.Outlet.Mark)
	if err != nil {
		return "", err
	}
	if err := s.compose(o, g.Outlet.Hang, g.Outlet.Hose, g.Outlet.Tools, "outlet."); err != nil {
		return "", err
	}
	if g.Outlet.Drain != "" {
		return o.ID, s.drain(end, g.Outlet.Drain, "outlet.drain")
	}
	return o.ID, nil
}

// outletKind is what an outlet at a place hangs at: as asked, else the simplest
// fitting with one threaded opening that is fixed where the place is.
func (s *sketch) outletKind(asked string, to spot) (best catalog.Kind, err error) {
	if asked != "" {
		k, ok := s.shelf.Kind(asked)
		if !ok || !k.Has(catalog.Outlets) {
			near := s.shelf.Nearest(catalog.Kinds, asked)
			if near != "" {
				near = "the nearest kind is " + near
			}
			return k, refuse("unknown-kind", "outlet.kind", fmt.Sprintf("no outlet hangs at a %q", brief(asked)), near)
		}
		return k, nil
	}
	fixed := "wall"
	if room := s.ix.RoomAt(to.at); to.on == nil && (room == nil || to.at[2]-float64(room.Floor) > overhead) {
		fixed = "structure"
	}
	for _, k := range s.shelf.Kinds() {
		if k.Has(catalog.Outlets) && k.FixesTo == fixed && len(k.Ports) == 2 && k.Ports[0].Joint == "stock" && (best.Kind == "" || loss(k) < loss(best)) {
			best = k
		}
	}
	if best.Kind == "" {
		return best, refuse("no-fitting", "outlet.kind", "the catalogue has no outlet that is fixed to the "+fixed, "name a kind")
	}
	return best, nil
}

// path is the way of the leg from its take-off; it may move the take-off aside
// where the outlet is right below the main and the leg would have to pass through it.
func (g *Drop) path(s *sketch, from *held, to spot) ([]geom.Point, error) {
	a, b := from.at, to.at
	if s.loose(*from) { // the line ends here and goes on as the leg
		return lShape(a, b), nil
	}
	flat := a.Plan().Distance(b.Plan())
	switch g.TakeOff {
	case "bottom":
		if flat < least {
			return nil, nil
		}
		down := geom.Point{a[0], a[1], a[2] - rise}
		return []geom.Point{down, {b[0], b[1], down[2]}}, below(s.ix, a, b, rise)
	case "side":
		if flat < least {
			return nil, refuse("no-room", "take_off", "the outlet is right below the take-off, and nothing goes out sideways", "take it off the top or the bottom, or at least "+measured(s.ix, least)+" further along")
		}
		return lShape(a, b), nil
	}
	if flat < over-geom.Tiny {
		var err error
		if a, err = g.besides(s, from, b); err != nil {
			return nil, err
		}
	}
	up := rise
	if room := s.ix.RoomAt(a); room != nil {
		up = math.Min(up, float64(room.Ceiling+room.Void)-a[2]-0.02)
	}
	if up < least {
		return nil, refuse("no-room", "take_off", "there is no room above the line to take it off the top", "take it off the side", from.anchor.Run)
	}
	top := geom.Point{a[0], a[1], a[2] + up}
	return []geom.Point{top, {b[0], b[1], top[2]}}, below(s.ix, top, b, least)
}

// loose says whether an anchor is a point where a line ends: there a leg goes on from it.
func (s *sketch) loose(h held) bool { return h.node != nil && len(s.ends(h.node.ID)) < 2 }

// below is the place straight under another, on the same wall: lines and outlets keep
// their own distances off a face, and no elbow makes the step of a centimetre between them.
func (p spot) below(ix *job.Index, from geom.Point) spot {
	at := tidyPoint(geom.Point{from[0], from[1], p.at[2]})
	if p.on == nil {
		return spot{at: at}
	}
	w := ix.Wall(p.on.Wall)
	along, _, off := w.Frame().In(at)
	if along < 0 || along > w.Frame().Length() {
		return spot{at: at}
	}
	on := *p.on
	on.Along, on.Off = tidy(along), tidy(off)
	return spot{at: at, on: &on}
}

// below refuses an outlet that is not far enough below where its leg comes down from.
func below(ix *job.Index, a, b geom.Point, by float64) error {
	if b[2] > a[2]-by {
		return refuse("no-room", "to", "the outlet is not below the line that its leg comes down from", "place it at most "+measured(ix, a[2]-by)+" high")
	}
	return nil
}

// lShape goes over at the height of the start and then down (or up).
func lShape(a, b geom.Point) []geom.Point {
	if a.Plan().Distance(b.Plan()) < geom.Tiny || math.Abs(a[2]-b[2]) < geom.Tiny {
		return nil
	}
	return []geom.Point{{b[0], b[1], a[2]}}
}

// besides moves the take-off along its run so that the leg comes down beside it.
func (g *Drop) besides(s *sketch, from *held, b geom.Point) (geom.Point, error) {
	r := s.byRun[from.anchor.Run]
	if r == nil {
		return from.at, nil // at a point: over is short
	}
	way := s.way(r)
	along := float64(*from.anchor.Along)
	for _, try := range []float64{along - over, along + over, along - over/2, along + over/2} {
		if try < nearEnd*2 || try > geom.Length(way)-nearEnd*2 {
			continue
		}
		at, _, _ := geom.OnPath(way, try)
		if at.Plan().Distance(b.Plan()) >= over/2-geom.Tiny {
			from.at = tidyPoint(at)
			from.anchor.Along = new(unit.Length(try))
			return from.at, nil
		}
	}
	return from.at, refuse("no-room", "from.along_m", "the run is too short here to take a leg off beside the outlet", "take it off the bottom, or hang the outlet at least "+measured(s.ix, over)+" aside", r.ID)
}

// valveAbove sets an isolating valve into the last leg of a run, over its end.
func (s *sketch) valveAbove(r *job.Run) error {
	k, ok := s.isolating()
	if !ok {
		return refuse("no-fitting", "valve", "the catalogue has no isolating valve for this stock", "", r.ID)
	}
	way := s.way(r)
	long := geom.Length(way)
	leg := way[len(way)-1].Distance(way[len(way)-2])
	at, _, _ := geom.OnPath(way, long-math.Min(valveOver, leg/2))
	n := s.cutAt(r.ID, at, idOf("point", roleWord(r.Role)+" valve", "valve"), r.State)
	if n == nil || len(s.ends(n.ID)) != 2 {
		return refuse("no-room", "valve", "the leg is too short for a valve", "leave the valve out", r.ID)
	}
	s.setIn(n, job.Part{Kind: k.Kind}, k)
	return nil
}

// addOutlet adds an outlet at a free opening of what it hangs at. A mark that another has, as
// where two people hang legs at a time, gives way to the next.
func (s *sketch) addOutlet(n *node, name, mark string) (*job.Outlet, error) {
	port, err := s.port(n, "", false, "", "point")
	if err != nil {
		return nil, err
	}
	if all := s.ix.Job().Outlets; markedBy(all, mark) != nil {
		mark = NextMark(all)
	}
	o := &job.Outlet{ID: s.fresh(idOf("outlet", name, "outlet")), Name: name, Mark: mark, Point: n.ID, Port: port}
	s.outlets = append(s.outlets, o)
	s.dirty[n.ID] = true
	return o, nil
}
