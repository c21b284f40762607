package fit

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// makeTrue gives every point whose lines changed the fitting that they ask for,
// and takes away places where nothing is left. What is no fitting stays what it is.
func (s *sketch) makeTrue() error {
	for len(s.dirty) > 0 {
		ids := make([]job.ID, 0, len(s.dirty))
		for id := range s.dirty {
			ids = append(ids, id)
		}
		slices.Sort(ids)
		s.dirty = map[job.ID]bool{}
		for _, id := range ids {
			n := s.byPoint[id]
			if n == nil {
				continue
			}
			if err := s.trueAt(n); err != nil {
				return err
			}
		}
	}
	return nil
}

// trueAt makes one point true.
func (s *sketch) trueAt(n *node) error {
	k := s.kind(&n.Part)
	ends, hung := s.ends(n.ID), s.outletsAt(n.ID)
	if s.sameAt(n, ends, hung) {
		return nil
	}
	if !shaped(k) {
		s.step(n, k, ends)
		return nil
	}
	if len(ends)+len(hung) == 0 {
		s.dropPoint(n)
		return nil
	}
	want, err := s.shapeAt(n, k, ends, hung)
	if err != nil {
		return err
	}
	if want.Kind != k.Kind {
		// Figures stated for the fitting that was are none of the new one.
		n.Part = job.Part{Kind: want.Kind, Note: n.Part.Note}
	}
	s.assign(want, ends, hung)
	return nil
}

// sameAt says whether a point stands in the job with the same lines at it, of the
// same sizes and from the same sides: then it keeps the fitting that it has.
func (s *sketch) sameAt(n *node, ends []end, hung []*job.Outlet) bool {
	was := s.ix.Ends(n.ID)
	if s.ix.Point(n.ID) == nil || len(was) != len(ends) || len(hung) != len(s.ix.OutletsAt(n.ID)) {
		return false
	}
	for i, e := range ends {
		w := was[i]
		if w.Run.ID != e.run.ID || w.AtTo != e.atTo || w.Port != e.at().Port || w.Run.Stock != e.run.Stock || w.Run.Size != e.run.Size || w.Run.Role != e.run.Role {
			return false
		}
		old, ok1 := geom.Heading(s.ix.Centreline(w.Run), w.AtTo)
		now, ok2 := s.leaving(e)
		if ok1 != ok2 || ok1 && degrees(geom.Angle(old, now)) > 0.5 {
			return false
		}
	}
	return true
}

// shapeAt is the kind of fitting that the lines at a point ask for.
func (s *sketch) shapeAt(n *node, k catalog.Kind, ends []end, hung []*job.Outlet) (catalog.Kind, error) {
	switch total := len(ends) + len(hung); {
	case total == 1 && len(ends) == 1:
		if k.Has(catalog.Ends) || ends[0].run.Role == "stub" {
			if c, ok := s.end(); ok {
				return c, nil
			}
		}
		return s.plain(), nil
	case total == 1, total == 2 && len(ends) == 1: // an outlet at the end of a line
		return s.plain(), nil
	case total == 2:
		return s.inLine(n, k, ends)
	case total <= 4:
		return s.meeting(n, k, total, ends)
	default:
		return k, refuse("too-many-lines", "to", fmt.Sprintf("%d lines would meet at %s, and no fitting joins more than four", total, called(n.Name, n.ID)),
			"begin the new line 0.1 m further along one of them", n.ID)
	}
}

// inLine is the fitting between two ends.
func (s *sketch) inLine(n *node, k catalog.Kind, ends []end) (catalog.Kind, error) {
	if len(ends) < 2 {
		return s.plain(), nil
	}
	a, b := ends[0].run, ends[1].run
	turn, known := s.turnBetween(ends[0], ends[1])
	keep := func(ok bool) bool { return ok && len(k.Ports) == 2 && !k.Has(catalog.Ends) }
	switch {
	case known && turn > straightOn:
		if keep(k.Has(catalog.Turns) && math.Abs(turnOf(k)-turn) <= give) {
			return k, nil
		}
		if e, off, ok := s.elbow(turn, false); ok && off <= give {
			return e, nil
		}
		if s.sweeps(a.Stock) && a.Stock == b.Stock {
			return s.plain(), nil // bent in the line
		}
		return k, s.noElbow(turn, called(n.Name, n.ID), n.ID)
	case a.Stock == b.Stock && a.Size != b.Size:
		if keep(steps(k)) {
			return k, nil
		}
		if r, ok := s.reducer(); ok {
			return r, nil
		}
	case a.Stock != b.Stock:
		if c, ok := s.coupling(); ok && !keep(!steps(k) && len(k.Roles) == 0 && k.Kind != s.plain().Kind) {
			return c, nil
		}
		return k, nil
	case keep(len(k.Roles) == 0 && !steps(k)):
		return k, nil
	}
	return s.plain(), nil
}

// turnBetween is by how many degrees the way turns from one run into another.
func (s *sketch) turnBetween(a, b end) (turn float64, known bool) {
	from, ok1 := s.leaving(a)
	to, ok2 := s.leaving(b)
	if !ok1 || !ok2 {
		return 0, false
	}
	return degrees(math.Pi - geom.Angle(from, to)), true
}

// noElbow refuses a corner that no fitting makes.
func (s *sketch) noElbow(turn float64, where string, id job.ID) error {
	var near []string
	for _, k := range s.shelf.Kinds() {
		if word := fmt.Sprintf("%.0f°", turnOf(k)); shaped(k) && k.Has(catalog.Turns) && len(k.Ports) == 2 && !slices.Contains(near, word) {
			near = append(near, word)
		}
	}
	slices.SortFunc(near, func(a, b string) int { return cmp.Or(cmp.Compare(len(a), len(b)), cmp.Compare(a, b)) })
	return refuse("no-elbow", "via", fmt.Sprintf("the line turns by %.0f° at %s, and no elbow of the catalogue does", turn, where),
		"move the corner so that it turns by "+either(near)+", or use a stock that is bent", id)
}

// meeting is the fitting where three or four lines meet: two of them in line.
func (s *sketch) meeting(n *node, k catalog.Kind, total int, ends []end) (catalog.Kind, error) {
	kind, ok := s.branching(total)
	if k.Has(catalog.Branches) && len(k.Ports) == total {
		kind, ok = k, true
	}
	if !ok {
		return k, refuse("no-fitting", "to", fmt.Sprintf("the catalogue has no fitting that joins %d lines", total), "", n.ID)
	}
	if len(kind.Ports) == len(k.Ports) && kind.Kind == k.Kind {
		return kind, nil // it stands already
	}
	if _, _, turn, known := s.straightest(ends); known && turn > 90-give && !s.allSweep(ends) {
		r := ends[0].run
		return k, refuse("no-tee", "to", fmt.Sprintf("no two of the lines at %s are in line, so that no tee fits", called(n.Name, n.ID)),
			"begin the new line on a straight piece, "+measured(s.ix, 0.1)+" along "+called(r.Name, r.ID), n.ID)
	}
	return kind, nil
}

func (s *sketch) allSweep(ends []end) bool {
	return !slices.ContainsFunc(ends, func(e end) bool { return !s.sweeps(e.run.Stock) })
}

// sweeps says whether a stock's corners are bent in the line.
func (s *sketch) sweeps(stock string) bool {
	row, ok := s.shelf.Stock(stock)
	return ok && row.Corners == "sweep"
}

// straightest are the two ends that are most nearly in line, by their place in the
// list, and the turn between them.
func (s *sketch) straightest(ends []end) (a, b int, turn float64, known bool) {
	turn = math.Inf(1)
	for i := range ends {
		for k := i + 1; k < len(ends); k++ {
			if t, ok := s.turnBetween(ends[i], ends[k]); ok && t < turn-1e-6 {
				a, b, turn, known = i, k, t, true
			}
		}
	}
	return a, b, turn, known
}

// either lists words as a sentence does: "45° or 90°".
func either(words []string) string {
	switch len(words) {
	case 0:
		return "nothing"
	case 1:
		return words[0]
	}
	out := words[0]
	for _, w := range words[1 : len(words)-1] {
		out += ", " + w
	}
	return out + " or " + words[len(words)-1]
}
