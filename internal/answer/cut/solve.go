package cut

import (
	"cmp"
	"context"
	"errors"
)

// Progress is told the price of the best plan so far, -1 before there is one, and the
// price that no plan can go below.
type Progress func(best, bound int64)

// hunt is one run of the whole method on one shape.
type hunt struct {
	ctx   context.Context
	shape *shape
	tell  Progress
	best  []load // nil: none yet
	price int64  // of best; above every plan while there is none
	bound int64
	root  root
}

func newHunt(ctx context.Context, s *shape, tell Progress) *hunt {
	if tell == nil {
		tell = func(int64, int64) {}
	}
	return &hunt{ctx: ctx, shape: s, tell: tell, price: s.limit}
}

// run looks for the cheapest loads. Cut short, it leaves the best so far; an error says
// that it was.
func (h *hunt) run() error {
	loads, left := greedy(h.shape)
	if left.done() {
		h.found(loads)
	}
	if h.done() {
		return nil // nothing to cut, or all of it for nothing
	}
	h.root = material(h.shape)
	h.raise(h.shape.raise(h.root.bound))
	if h.done() {
		return nil
	}
	if err := h.exact(h.root); err != nil || h.done() {
		return err
	}
	better, err := solveRoot(h.ctx, h.shape, loads)
	if err != nil {
		return err
	}
	h.root = better
	h.raise(h.shape.raise(h.root.bound))
	h.found(h.root.relaxed.round(h.root.relaxed.use(), h.price))
	if h.done() {
		return nil
	}
	if err := h.sketch(); err != nil || h.done() {
		return err
	}
	err = h.close()
	if errors.Is(err, errTooMany) || errors.Is(err, errDeep) {
		err = cmp.Or(h.browse(), err)
	}
	return err
}

// browseMost is how many steps are spent on better plans where a proof is out of reach.
const browseMost = 4000

// browse looks among the patterns of the relaxation for better plans, farther than glance.
func (h *hunt) browse() error {
	for allow := 250; allow <= browseMost && !h.done(); allow *= 4 {
		f := &search{relaxation: relax(h.ctx, h.shape, h.root.relaxed.pool), cutoff: h.price, allow: allow, trials: 1}
		err := f.run()
		h.found(f.best)
		if err == nil {
			return nil // there is nothing more among them
		}
		if !errors.Is(err, errEnough) {
			return err
		}
	}
	return nil
}

func (h *hunt) done() bool { return h.bound >= h.price }

func (h *hunt) raise(bound int64) {
	if bound = h.shape.attain(bound); bound > h.bound {
		h.bound = min(bound, h.price)
		h.report()
	}
}

func (h *hunt) found(loads []load) {
	if loads == nil || !h.shape.serves(loads) {
		return
	}
	if price := h.shape.priceOf(loads); price < h.price {
		h.best, h.price = loads, price
		h.report()
	}
}

func (h *hunt) report() {
	best := h.price
	if h.best == nil {
		best = -1
	}
	h.tell(best, h.bound)
}

// exact tries for a plan at the price of the material bound where only few patterns are
// full enough for it: bars that must come out full are found in no other way.
func (h *hunt) exact(m root) error {
	if _, few := patternsWithin(h.ctx, h.shape, h.shape.free(), 0, fullMost/10, fullSteps); few {
		return nil
	}
	if _, few := patternsWithin(h.ctx, h.shape, m.worth, h.bound*h.shape.fine-m.bound, fullMost/4, fullSteps); !few {
		return nil
	}
	_, err := h.search(m, h.bound+h.shape.grain)
	return err
}

// sketch searches a little among the patterns of the relaxation when these are not all:
// mostly a plan at the bound is among them.
func (h *hunt) sketch() error {
	if h.root.complete {
		return nil
	}
	for _, cutoff := range []int64{h.bound + h.shape.grain, h.price} {
		if err := h.glance(h.root.relaxed.pool, cutoff); err != nil {
			return err
		}
	}
	if h.done() || h.shape.joint.size > 0 {
		return nil
	}
	return h.dive()
}

// glance looks with few steps for a plan below cutoff in a pool that need not have all
// patterns. It settles nothing.
func (h *hunt) glance(p *pool, cutoff int64) error {
	if h.done() {
		return nil
	}
	f := &search{relaxation: relax(h.ctx, h.shape, p), cutoff: min(cutoff, h.price), allow: 60, trials: 1}
	err := f.run()
	h.found(f.best)
	if errors.Is(err, errEnough) {
		return nil
	}
	return err
}

// errTooMany says that the patterns that could be of use are too many to list.
var errTooMany = errors.New("too many patterns")

// close brings bound and price together: it searches below a price a little above the
// bound, among the patterns that can be part of so cheap a plan; where there is none
// the bound rises, and the step is doubled.
func (h *hunt) close() error {
	grain := h.shape.grain
	glanced := false
	for step := max(grain, (h.price-h.bound)/8); !h.done(); step *= 2 {
		cutoff := min(h.bound+ceilDiv(step, grain)*grain, h.price)
		p, err := h.search(h.root, cutoff)
		if err != nil {
			return err
		}
		// The patterns of the cheapest plans mostly make plans that are nearly as cheap.
		if !glanced && p.len() > 0 {
			glanced = true
			if err := h.glance(p, h.price); err != nil {
				return err
			}
		}
	}
	return nil
}

// search settles whether there is a plan below cutoff, among the patterns that such a
// plan can have, which it gives. What exists is mostly found soon by going on at once;
// what does not exist is mostly ruled out with fewer steps by trying several ways on. So
// both get their turns, and fewer patterns when something was found meanwhile.
func (h *hunt) search(r root, cutoff int64) (*pool, error) {
	for turn, allow := 0, 100; ; turn++ {
		below := min(cutoff, h.price)
		p, ok := patterns(h.ctx, h.shape, r.worth, (below-h.shape.grain)*h.shape.fine-r.bound, listMost)
		if !ok {
			return nil, cmp.Or(h.ctx.Err(), errTooMany)
		}
		f := &search{relaxation: relax(h.ctx, h.shape, p), cutoff: below, allow: allow, trials: 1}
		if turn%2 == 1 {
			f.trials = 8
			allow *= 3
		}
		err := f.run()
		h.found(f.best)
		if errors.Is(err, errEnough) {
			continue
		}
		if err == nil && f.doubt {
			err = errDoubt
		}
		if err == nil {
			// Below what was found, or below cutoff, there is nothing.
			h.raise(f.cutoff)
		}
		return p, err
	}
}

// errDoubt says that rounding left a proof open.
var errDoubt = errors.New("a proof failed by a rounding")
