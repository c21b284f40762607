package fit

import (
	"fmt"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// belowOutlet is how far under an outlet its drain sits, in metres (common practice
// of the trade: a hand's breadth).
const belowOutlet = 0.12

// drain sets a drain under what an outlet hangs at and leads a short drip line to it.
// An outlet that has its drain keeps it.
func (s *sketch) drain(n *node, kind, path string) error {
	k, ok := s.shelf.Kind(kind)
	if !ok || !k.Has(catalog.Drains) {
		near := s.shelf.Nearest(catalog.Kinds, kind)
		if near != "" {
			near = "the nearest kind is " + near
		}
		return refuse("unknown-kind", path, fmt.Sprintf("%q is no drain", brief(kind)), near)
	}
	at := s.kind(&n.Part)
	port, has := at.Port("drain")
	if !has {
		return refuse("no-such-port", path, fmt.Sprintf("%s has no opening for a drain", article(at)), "hang the outlet at one that has, such as a drained outlet block", n.ID)
	}
	ends := s.ends(n.ID)
	like := job.Run{Role: "drip"}
	for _, e := range ends {
		if e.at().Port == port.ID {
			return nil
		}
		like.Stock, like.Size, like.State = e.run.Stock, e.run.Size, e.run.State
	}
	if len(ends) == 0 || !n.placed {
		return refuse("no-place", path, "no line comes to "+called(n.Name, n.ID)+" that the drain could be of", "draw the line to it first", n.ID)
	}
	below := spot{at: n.where}
	below.at[2] -= belowOutlet
	if n.On != nil {
		on := *n.On
		on.Up -= belowOutlet
		below.on = &on
	}
	end := s.addPoint(idOf("point", kind, "drain"), below, job.Part{Kind: k.Kind}, like.State)
	from := held{spot: spot{at: n.where}, node: n, path: path, anchor: Anchor{Point: n.ID, Port: port.ID}}
	_, err := s.draw(from, held{spot: below, node: end, path: path, anchor: Anchor{Point: end.ID}}, nil, like)
	return err
}

// hangAt makes what an outlet hangs at another kind of part. Lines keep their ends.
func (s *sketch) hangAt(o *job.Outlet, kind string) error {
	n := s.byPoint[o.Point]
	if n == nil || n.Part.Kind == kind {
		return nil
	}
	k, err := s.outletKind(kind, spot{at: n.where, on: n.On})
	if err != nil {
		return err
	}
	taken := map[string]bool{}
	for _, e := range s.ends(n.ID) {
		if _, ok := k.Port(e.at().Port); !ok && e.at().Port != "" {
			return refuse("no-such-port", "kind", fmt.Sprintf("a line ends at the port %q of %s, and %s has none", e.at().Port, called(n.Name, n.ID), article(k)), "erase that line first", n.ID, e.run.ID)
		}
		taken[e.at().Port] = true
	}
	n.Part.Kind, n.Part.Item = k.Kind, ""
	for _, x := range s.outletsAt(n.ID) {
		port, ok := choose(k.Ports, taken, wanted(false))
		if !ok {
			return s.noPort(n, k, "kind")
		}
		x.Port, taken[port.ID] = port.ID, true
	}
	s.dirty[n.ID] = true
	return nil
}
