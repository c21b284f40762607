package cut

import (
	"errors"
	"math"

	"dropleg/engine/num/lp"
)

// errEnough says that a search was given up after as many steps as it was allowed, errDeep
// that it came to hold as much as it may.
var (
	errEnough = errors.New("search given up")
	errDeep   = errors.New("search too large to hold")
)

// holdMost is how many bytes the open branches of one search may hold, about: each keeps
// the basis that it goes back to and its row over all patterns.
const holdMost = 512 << 20

// held is about how many bytes a branch holds: of each pattern its place, its reduced cost
// and a cell of the row; of the rows the inverse.
func (f *search) held() int {
	const patternBytes, cellBytes = 4 + 8 + 8 + 16, 8
	return f.pool.len()*patternBytes + len(f.need)*len(f.need)*cellBytes
}

// search looks for the cheapest choice of patterns of one pool below a price. It goes
// both ways on sets of patterns whose number is not whole, upward first.
type search struct {
	*relaxation
	cutoff int64  // only what is cheaper is sought; falls with each find
	best   []load // nil: nothing found
	allow  int    // steps that are allowed, 0: any number
	trials int    // sets tried out before one is gone both ways on, at least 1
	bars   int    // most bars that a plan may have, 0: any number
	steps  int
	saved  []*lp.Basis
	// doubt says that a branch was closed on the word of the programme alone, since the
	// exact proof failed by a rounding: then the bound may not rise.
	doubt bool
}

// run searches. It gives errEnough when it was not finished, and the context's error.
func (f *search) run() error {
	open, err := f.open()
	if err != nil || !open {
		return err
	}
	return f.branch(0)
}

// open solves the relaxation and tells whether it leaves anything to be found. The
// programme stops as soon as its cost is above what is sought; where the exact proof
// then fails by a rounding, it goes on to a safer distance and at last to the end.
func (f *search) open() (bool, error) {
	grain := float64(f.shape.grain)
	sought := float64(f.cutoff - f.shape.grain)
	for _, beyond := range []float64{0.02, 0.3, math.Inf(1)} {
		if err := f.lp.Dual(f.ctx, (sought+beyond*grain)/f.unit); err != nil {
			return false, err
		}
		if f.lp.Cost()*f.unit < sought {
			return true, nil
		}
		if f.shape.raise(f.bound(f.multipliers())) >= f.cutoff {
			return false, nil
		}
		if f.lp.Cost()*f.unit < sought+beyond*grain {
			return true, nil
		}
	}
	return true, nil
}

// branch searches below the rows that were added so far; the relaxation is solved.
func (f *search) branch(depth int) error {
	f.steps++
	if f.allow > 0 && f.steps > f.allow {
		return errEnough
	}
	if f.held()*depth > holdMost {
		return errDeep
	}
	use := f.use()
	ways := choices(f.pool, use, f.trials)
	if len(ways) == 0 {
		return f.settle(use, depth)
	}
	if f.steps%8 == 1 {
		f.keep(f.round(use, f.cutoff))
	}
	for len(f.saved) <= depth {
		f.saved = append(f.saved, &lp.Basis{})
	}
	f.lp.Save(f.saved[depth])
	way, err := f.sharpest(ways, depth)
	if err != nil {
		return err
	}
	members := way.set.members(f.pool)
	for _, sense := range []lp.Sense{lp.AtLeast, lp.AtMost} {
		f.lp.Restore(f.saved[depth])
		err := f.with(sense, way.sum, members, func() error { return f.branch(depth + 1) })
		if err != nil {
			return err
		}
	}
	return nil
}

// sharpest tries the ways on and gives the one whose worse side raises the cost most.
func (f *search) sharpest(ways []wayOn, depth int) (wayOn, error) {
	if len(ways) == 1 {
		return ways[0], nil
	}
	best, most := ways[0], -1.0
	for _, way := range ways {
		members := way.set.members(f.pool)
		var gain [2]float64
		for i, sense := range []lp.Sense{lp.AtLeast, lp.AtMost} {
			f.lp.Restore(f.saved[depth])
			before := f.lp.Cost()
			gain[i] = 1
			err := f.with(sense, way.sum, members, func() error {
				gain[i] = f.lp.Cost() - before
				return nil
			})
			if err != nil {
				return way, err
			}
		}
		if g := min(gain[0], gain[1]) + 0.01*max(gain[0], gain[1]); g > most {
			best, most = way, g
		}
	}
	return best, nil
}

// with adds a row, looks what is below it if anything can be, and takes the row away.
func (f *search) with(sense lp.Sense, sum float64, members []int, look func() error) error {
	right := math.Ceil(sum)
	if sense == lp.AtMost {
		right = math.Floor(sum)
	}
	f.addRow(sense, int64(right), members)
	open, err := f.open()
	if err == nil && open {
		err = look()
	}
	f.dropRow()
	return err
}

// settle takes a solution whose numbers are whole. The ends of a joined piece may still
// be too short together: then a row that says so goes in, and the search goes on.
func (f *search) settle(use []used, depth int) error {
	var loads []load
	for _, u := range use {
		for range int(math.Round(u.times)) {
			loads = append(loads, f.pool.load(u.pattern))
		}
	}
	if short, members := f.shortEnds(loads); short {
		return f.with(lp.AtLeast, 2, members, func() error { return f.branch(depth + 1) })
	}
	before := f.cutoff
	f.keep(loads)
	f.doubt = f.doubt || f.cutoff == before
	return nil
}

// shortEnds tells whether the two ends that are used are too short together, and then
// gives the patterns of a row that forbids it. With e the shorter one, either both ends
// are longer than e, or one alone is long enough to go with e; so an end counts once for
// the one and once for the other, and two are wanted.
func (f *search) shortEnds(loads []load) (bool, []int) {
	j := f.shape.joint
	sum, shorter, n := int64(0), j.size, 0
	for _, l := range loads {
		if l.end > 0 {
			sum += l.end
			shorter = min(shorter, l.end)
			n++
		}
	}
	if sum >= j.size {
		return false, nil
	}
	if n < 2 {
		shorter = j.least - 1
	}
	var members []int
	for i, end := range f.pool.end {
		if end > shorter {
			members = append(members, i)
		}
		if end >= j.size-shorter {
			members = append(members, i)
		}
	}
	return true, members
}

// keep keeps loads if they are a plan and cheaper than what is known.
func (f *search) keep(loads []load) {
	if loads == nil || f.bars > 0 && len(loads) > f.bars || !f.shape.serves(loads) {
		return
	}
	if price := f.shape.priceOf(loads); price < f.cutoff {
		f.cutoff = price
		f.best = append([]load(nil), loads...)
	}
}

// serves tells whether loads cut all that is needed from no more bars than there are.
func (s *shape) serves(loads []load) bool {
	left := newRest(s)
	for _, l := range loads {
		left.take(l)
	}
	return left.done() && left.allowed()
}

// rest is what is still needed and still available.
type rest struct {
	shape *shape
	kinds []int
	bars  []int
	ends  int   // ends of the joined piece, 0 to 2
	size  int64 // their length
}

func newRest(s *shape) *rest {
	r := &rest{shape: s, kinds: make([]int, len(s.kinds)), bars: make([]int, len(s.bars))}
	for k, kind := range s.kinds {
		r.kinds[k] = kind.need
	}
	for b, bar := range s.bars {
		r.bars[b] = bar.most
	}
	if s.joint.size > 0 {
		r.ends, r.size = 2, s.joint.size
	}
	return r
}

func (r *rest) take(l load) {
	r.bars[l.bar]--
	for _, part := range l.parts {
		r.kinds[part.kind] -= int(part.times)
	}
	if l.end > 0 && r.ends > 0 {
		r.ends--
		r.size -= l.end
	}
}

func (r *rest) done() bool {
	for _, n := range r.kinds {
		if n > 0 {
			return false
		}
	}
	return r.size <= 0
}

func (r *rest) allowed() bool {
	for _, n := range r.bars {
		if n < 0 {
			return false
		}
	}
	return true
}

// atMost searches for plans of no more than so many bars.
func (f *search) atMost(bars int) error {
	f.bars = bars
	members := make([]int, f.pool.len())
	for i := range members {
		members[i] = i
	}
	if err := f.lp.Dual(f.ctx, math.Inf(1)); err != nil {
		return err
	}
	return f.with(lp.AtMost, float64(bars), members, func() error { return f.branch(0) })
}
