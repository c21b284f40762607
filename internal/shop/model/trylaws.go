package model

import (
	"errors"
	"fmt"
	"math"

	"dropleg/engine/element"
	"dropleg/internal/shop/job"
)

// tryLaws makes every law once, at its likely figure. What no law can be made
// of is passed without loss and reported.
func (b *builder) tryLaws() {
	for i := range b.g.links {
		l := &b.g.links[i]
		l.rt = b.gasIn(l.zone).RT()
		law, err := l.law(variants[0])
		if err == nil {
			err = usable(law)
		}
		l.likely = law
		if err != nil {
			b.trouble("figure-out-of-range", job.Fault, fmt.Sprintf("%s (%s): %v; air passes it without loss here", l.ID, l.Words, err),
				"its loss cannot be worked out", l.ID)
			b.g.merge(l.From, l.To)
		}
	}
}

// usable tries a law where shops work: figures beyond all sense can pass a
// law's own checks and still overflow.
func usable(law element.Law) error {
	for _, p := range [...][2]float64{{8e5, 8e5}, {8e5, 7.9e5}, {7.9e5, 8e5}, {2e6, 1e5}} {
		for _, x := range flowOf(law, p[0], p[1]) {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				return errOverflow
			}
		}
	}
	return nil
}

func flowOf(law element.Law, p1, p2 float64) [3]float64 {
	m, d1, d2 := law.Flow(p1, p2)
	return [3]float64{m, d1, d2}
}

var errOverflow = errors.New("its figures are beyond what can be computed")
