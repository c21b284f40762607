package cut

import (
	"context"
	"math"
	"math/bits"
)

// pool holds ways to cut one bar ("patterns"). Only full ones are held: those to which
// no needed piece can be added. Pattern p has the parts from start[p] to start[p+1].
type pool struct {
	start []int32
	parts []part
	bar   []int16
	end   []int64 // room for one end of the joined piece, 0: the pattern holds none
}

// part says how many of one kind.
type part struct{ kind, times int16 }

func (p *pool) len() int { return len(p.bar) }

func (p *pool) at(i int) []part { return p.parts[p.start[i]:p.start[i+1]] }

func (p *pool) load(i int) load { return load{int(p.bar[i]), p.at(i), p.end[i]} }

func (p *pool) add(l load) {
	if len(p.start) == 0 {
		p.start = append(p.start, 0)
	}
	p.parts = append(p.parts, l.parts...)
	p.start = append(p.start, int32(len(p.parts)))
	p.bar = append(p.bar, int16(l.bar))
	p.end = append(p.end, l.end)
}

// load is one bar and what is cut from it.
type load struct {
	bar   int
	parts []part
	end   int64
}

// worth is what multipliers say, in fine parts: what each kind is worth, what one more
// of each bar costs, what the whole joined piece is worth, what a place for an end costs.
type worth struct {
	kind, bar   []int64
	joint, ends int64
}

// endWorth gives what an end is worth beyond its place, rounded up.
func (w worth) endWorth(j joint, end int64) int64 {
	return shareUp(w.joint, end, j.size) - w.ends
}

// shareUp gives w·part/all rounded up, for a part of all.
func shareUp(w, part, all int64) int64 {
	hi, lo := bits.Mul64(uint64(w), uint64(part))
	quotient, rest := bits.Div64(hi, lo, uint64(all))
	if rest > 0 {
		quotient++
	}
	return int64(quotient)
}

// lister lists the full patterns of one bar that are worth at least so much.
type lister struct {
	ctx   context.Context
	shape *shape
	worth worth
	bar   int
	least int64     // fine parts
	best  bool      // each pattern that is listed has to be better than the one before
	dens  []float64 // most worth per length among this kind and all shorter ones
	tail  []int64   // length of all that is needed of this kind and all shorter ones
	end   ending
	now   []part
	out   *pool
	limit int
	steps int
	most  int  // steps, 0: any number
	ended bool // the context did, or the steps
}

// patterns lists the full patterns whose cost exceeds their worth by gap at most. It
// gives false when there are more than limit, or ctx ended.
func patterns(ctx context.Context, s *shape, w worth, gap int64, limit int) (*pool, bool) {
	return patternsWithin(ctx, s, w, gap, limit, 0)
}

// patternsWithin is patterns that gives up after so many steps: few patterns can be as hard
// to find as many.
func patternsWithin(ctx context.Context, s *shape, w worth, gap int64, limit, steps int) (*pool, bool) {
	out := &pool{start: []int32{0}}
	l := newLister(ctx, s, w, out, limit)
	l.most = steps
	for b := range s.bars {
		for _, end := range s.joint.endings() {
			if !l.run(b, end, w.bar[b]-gap) {
				return out, false
			}
		}
	}
	return out, true
}

func newLister(ctx context.Context, s *shape, w worth, out *pool, limit int) *lister {
	n := len(s.kinds)
	l := &lister{ctx: ctx, shape: s, worth: w, out: out, limit: limit, dens: make([]float64, n+1), tail: make([]int64, n+1)}
	for k := n - 1; k >= 0; k-- {
		kind := s.kinds[k]
		l.dens[k] = max(l.dens[k+1], float64(w.kind[k])/float64(kind.size))
		l.tail[k] = l.tail[k+1] + kind.size*int64(kind.need)
	}
	return l
}

// run lists patterns of one bar that keep some room.
func (l *lister) run(bar int, end ending, least int64) bool {
	l.bar, l.least, l.end = bar, least, end
	room := l.shape.bars[bar].room - end.keep
	return room < 0 || l.list(0, room, 0, math.MaxInt64)
}

// list goes on with kind k, room left, value so far, and the shortest kind so far of
// which more is needed than was taken.
func (l *lister) list(k int, room, value, open int64) bool {
	if l.steps++; l.steps%4096 == 0 && l.ctx.Err() != nil || l.steps == l.most {
		l.ended = true
	}
	if l.ended {
		return false
	}
	if room-l.tail[k]-l.end.loose >= open {
		return true // it cannot become full
	}
	kinds := l.shape.kinds
	for k < len(kinds) && kinds[k].size > room {
		k++
	}
	if k == len(kinds) {
		l.finish(room, value, open)
		return l.out.len() <= l.limit
	}
	if l.poor(k, room, value) {
		return true
	}
	kind := kinds[k]
	for times := int(min(int64(kind.need), room/kind.size)); times >= 0; times-- {
		shortest := open
		if times < kind.need {
			shortest = min(open, kind.size)
		}
		depth := len(l.now)
		if times > 0 {
			l.now = append(l.now, part{int16(k), int16(times)})
		}
		ok := l.list(k+1, room-int64(times)*kind.size, value+int64(times)*l.worth.kind[k], shortest)
		l.now = l.now[:depth]
		if !ok {
			return false
		}
	}
	return true
}

// poor tells that no way to fill the room from kind k on is worth enough.
func (l *lister) poor(k int, room, value int64) bool {
	return float64(value)+l.ceiling(k, room) < float64(l.least)
}

// ceiling is what no way to fill the room from kind k on is worth more than. It errs on
// the safe side by one part in a thousand million.
func (l *lister) ceiling(k int, room int64) float64 {
	kinds := l.shape.kinds
	// No more pieces than of the shortest kind fit, none longer than this kind.
	fill := float64(min(room, room/kinds[len(kinds)-1].size*kinds[k].size)) * l.dens[k]
	if l.end.keep > 0 {
		j := l.shape.joint
		fill += float64(l.worth.joint)*float64(l.ends(room))/float64(j.size) - float64(l.worth.ends)
		return fill + 1e-9*(math.Abs(fill)+float64(l.worth.ends))
	}
	return fill * (1 + 1e-9)
}

// ends gives how much of the joined piece fits when that much room is left.
func (l *lister) ends(room int64) int64 {
	return l.end.keep + min(room, l.end.loose)
}

func (l *lister) finish(room, value, open int64) {
	if room-l.end.loose >= open || l.end.keep == 0 && len(l.now) == 0 {
		return
	}
	end := int64(0)
	if l.end.keep > 0 {
		end = l.ends(room)
		value += l.worth.endWorth(l.shape.joint, end)
	}
	if value < l.least {
		return
	}
	if l.best {
		l.least = value + 1
	}
	l.out.add(load{l.bar, l.now, end})
}
