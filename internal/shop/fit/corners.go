package fit

import (
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// A corner stays in the path of its run whether the stock is stick or coil: there
// the model counts the loss and the take-off the elbow or the bend, and the line
// stays one thing that can be dragged. A corner becomes a point of its own where
// that is asked for, and where lines meet that are not one.

// corners makes the corners of a run as asked.
func (s *sketch) corners(r *job.Run, how string) error {
	if how == "" || how == "sweep" && s.sweeps(r.Stock) {
		return nil
	}
	way := s.way(r)
	list := geom.Corners(way, straightOn*math.Pi/180)
	for i := len(list) - 1; i >= 0; i-- {
		c := list[i]
		turn := degrees(c.Turn)
		k, off, ok := s.elbow(turn, how == "sweep")
		if !ok || off > give {
			return s.noElbow(turn, "its "+ordinal(i+1)+" corner", r.ID)
		}
		if n := s.cutAt(r.ID, c.At, idOf("point", roleWord(r.Role)+" elbow", "elbow"), r.State); n != nil && n.ID != r.From.Point && n.ID != r.To.Point || n != nil && len(s.ends(n.ID)) == 2 {
			n.Part.Kind = k.Kind
		}
	}
	return nil
}

// flexAt is how far from its beginning a line has its flexible link, at most: near
// the machine whose movement it takes up.
const flexAt = 0.3

// flex sets a flexible link into a run near its beginning.
func (s *sketch) flex(r *job.Run) error {
	k, ok := s.pick(func(k catalog.Kind) bool { return k.Has(catalog.Flexes) && byStock(k) && len(k.Ports) == 2 })
	if !ok {
		return refuse("no-fitting", "flexible", "the catalogue has no flexible link that joins this stock", "", r.ID)
	}
	way := s.way(r)
	first := way[0].Distance(way[1])
	at, _, _ := geom.OnPath(way, math.Min(flexAt, first/2))
	n := s.cutAt(r.ID, at, idOf("point", "flex", "flex"), r.State)
	if n == nil || n.ID == r.From.Point && len(s.ends(n.ID)) < 2 {
		return refuse("no-room", "flexible", "the first leg is too short for a flexible link", "carry on straight for at least "+measured(s.ix, 4*nearEnd), r.ID)
	}
	s.setIn(n, job.Part{Kind: k.Kind}, k)
	return nil
}

// setIn puts a part that air passes through at a point where a run was cut.
func (s *sketch) setIn(n *node, p job.Part, k catalog.Kind) {
	n.Part = p
	in, _ := choose(k.Ports, nil, wanted(true))
	out, _ := choose(k.Ports, map[string]bool{in.ID: true}, wanted(false))
	for _, e := range s.ends(n.ID) {
		if e.atTo {
			e.at().Port = in.ID
		} else {
			e.at().Port = out.ID
		}
	}
}

// oddCorners refuses corners in the paths of changed runs that no elbow makes and
// the stock does not bend to. Those that stood so before may stay.
func (s *sketch) oddCorners() error {
	for _, r := range s.runs {
		was := s.ix.Run(r.ID)
		if was != nil && was.Stock == r.Stock && slices.Equal(s.ix.Centreline(was), s.way(r)) {
			continue
		}
		var old []float64
		if was != nil && was.Stock == r.Stock {
			for _, c := range geom.Corners(s.ix.Centreline(was), straightOn*math.Pi/180) {
				old = append(old, degrees(c.Turn))
			}
		}
		for i, c := range geom.Corners(s.way(r), straightOn*math.Pi/180) {
			turn := degrees(c.Turn)
			stood := slices.ContainsFunc(old, func(t float64) bool { return math.Abs(t-turn) < 0.5 })
			if turn > 180-straightOn && !stood {
				return refuse("turns-back", "via", fmt.Sprintf("%s would turn back on itself at its %s corner", called(r.Name, r.ID), ordinal(i+1)),
					"leave that corner out", r.ID)
			}
			if !stood && !s.bendable(r.Stock, turn) {
				return s.noElbow(turn, fmt.Sprintf("%s, %s corner", called(r.Name, r.ID), ordinal(i+1)), r.ID)
			}
		}
	}
	return nil
}

// besideWall is how far off a wall a line still runs along it.
const besideWall = 0.3

// alongWall names the wall that a way keeps to, as a sentence goes on; "" for none.
func (s *sketch) alongWall(from geom.Point, path []geom.Point, to geom.Point) string {
	way := append(append([]geom.Point{from}, path...), to)
	walls := s.ix.Job().Building.Walls
	for i := range walls {
		w := &walls[i]
		f := w.Frame()
		if !slices.ContainsFunc(way, func(p geom.Point) bool {
			along, _, off := f.In(p)
			return math.Abs(off) > besideWall || along < -besideWall || along > f.Length()+besideWall
		}) {
			return " along " + wallName(w)
		}
	}
	return ""
}

// wallName is a wall as a sentence has it: "the north wall".
func wallName(w *job.Wall) string {
	if w.Name != "" {
		return w.Name
	}
	_, stem, _ := cutDot(w.ID)
	return "the " + stem + " wall"
}

func cutDot(id job.ID) (word, stem string, ok bool) {
	for i := range id {
		if id[i] == '.' {
			return string(id[:i]), string(id[i+1:]), true
		}
	}
	return "", string(id), false
}
