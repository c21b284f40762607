package cut

import (
	"context"
	"slices"
)

// Union is what it takes to make one piece of two ends.
type Union struct {
	Price    int64  // in the smallest coin
	Length   Length // what it adds to the two ends; 0 where it slides over them
	Shortest Length // the shortest end that is worth joining
}

// Joining answers for one piece whether it pays to make it of two ends.
type Joining struct {
	Piece int // index into Question.Pieces
	// Pays says that stock and union together cost less than the plan without it, or
	// that there is no plan without it.
	Pays  bool
	Ends  [2]Length
	Saves int64 // the union paid
	Plan  Plan  // of the stock alone, without the union
	// Proven says that no place of the joint does better.
	Proven bool
}

// Joinable answers for each of the asked pieces whether making one copy of it of two
// ends from different bars lowers the price of a plan. The joint may be anywhere that
// leaves both ends long enough: what counts is that the two bars have enough open
// length together, so that all its places are judged at once. A plan without bars says
// that there is none, as when the piece is longer than any stock. Errors are as those
// of Solve.
func Joinable(ctx context.Context, q Question, known Plan, u Union, pieces []int) ([]Joining, error) {
	same := map[Length]Joining{}
	var out []Joining
	for _, i := range pieces {
		if i < 0 || i >= len(q.Pieces) || q.Pieces[i].Count == 0 {
			return nil, &ValueError{Where: "piece", Index: i, What: "number", Value: int64(i), Want: "a piece that is needed"}
		}
		length := q.Pieces[i].Length
		j, ok := same[length]
		if !ok || j.Pays {
			var err error
			if j, err = joinOne(ctx, q, known, u, i); err != nil {
				return out, err
			}
			same[length] = j
		}
		j.Piece = i
		out = append(out, j)
	}
	return out, nil
}

func joinOne(ctx context.Context, q Question, known Plan, u Union, piece int) (Joining, error) {
	answer := Joining{Piece: piece}
	if u.Price < 0 || u.Length < 0 || u.Shortest < 1 {
		return answer, &ValueError{Where: "question", What: "union", Value: min(u.Price, int64(u.Length), int64(u.Shortest)), Want: "price and length 0 or more, shortest end 1 or more"}
	}
	others := q
	others.Pieces = slices.Clone(q.Pieces)
	others.Pieces[piece].Count--
	if err := check(others); err != nil {
		return answer, err
	}
	length := q.Pieces[piece].Length - u.Length
	if length < 2*u.Shortest {
		answer.Proven = true
		return answer, nil
	}
	s := shapeOf(others)
	s.joint = joint{size: int64(length + 2*q.Kerf), least: int64(u.Shortest + q.Kerf), both: u.Length > 0}
	total := 2
	for _, k := range s.kinds {
		total += k.need
	}
	s.setBars(others, total)
	h := newHunt(ctx, s, nil)
	if known.Bars != nil {
		// Only what is cheaper with the union is sought.
		h.price = min(s.limit, ceilDiv(max(known.Price-u.Price, 0), s.grain)*s.grain)
	}
	err := h.run()
	if h.best == nil {
		answer.Proven = err == nil
		return answer, ctx.Err()
	}
	answer.Ends = h.fitEnds(q.Kerf, length)
	answer.Plan = others.plan(s, h.tidy(), h.bound)
	answer.Proven = answer.Plan.Proven
	answer.Plan.mark(piece, q.Pieces[piece].Count-1, answer.Ends)
	answer.Pays = true
	if known.Bars != nil {
		answer.Saves = known.Price - u.Price - answer.Plan.Price
	}
	return answer, nil
}

// fitEnds settles where the joint is: the first end as long as its bar allows, the
// second as long as is left to it.
func (h *hunt) fitEnds(kerf, length Length) (ends [2]Length) {
	n := 0
	h.best = slices.Clone(h.best)
	for i := range h.best {
		l := &h.best[i]
		switch {
		case l.end == 0:
			continue
		case n == 0 && l.end == h.shape.joint.size:
			ends = [2]Length{length / 2, length - length/2}
			n++
		case n == 0:
			ends[0] = Length(l.end) - kerf
		case n == 1:
			ends[1] = length - ends[0]
			l.end = int64(ends[1] + kerf)
		default:
			l.end = 0
		}
		n++
	}
	return ends
}

// mark names the ends in the plan and puts them where the whole piece would stand.
func (p *Plan) mark(piece, n int, ends [2]Length) {
	for i := range p.Bars {
		b := &p.Bars[i]
		k := slices.IndexFunc(b.Cuts, func(c Cut) bool { return c.Joined })
		if k < 0 {
			continue
		}
		c := &b.Cuts[k]
		c.Piece, c.Copy = piece, n
		if c.Length > max(ends[0], ends[1]) { // both ends
			c.Length = ends[0]
			b.Cuts = append(b.Cuts, Cut{piece, n, ends[1], true})
		}
		slices.SortStableFunc(b.Cuts, byPiece)
	}
}
