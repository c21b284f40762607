package size

import (
	"math"

	"dropleg/engine/element"
)

// most is the pressure up to which an inlet is sought, Pa absolute.
const most = 1e7

// inlets is a law that tells the inlet by itself.
type inlets interface {
	Inlet(p2, m float64) float64
	InletBack(p1, m float64) float64
}

// inletOf is the least pressure that drives m > 0 through a law against p2, Pa absolute;
// +Inf where none does. Forward is from end 1 to end 2.
func inletOf(law element.Law, forward bool, p2, m float64) float64 {
	if m <= 0 {
		return p2
	}
	if l, ok := law.(inlets); ok {
		if forward {
			return l.Inlet(p2, m)
		}
		return l.InletBack(p2, m)
	}
	flow := func(p1 float64) (float64, float64) {
		if forward {
			f, d, _ := law.Flow(p1, p2)
			return f, d
		}
		f, _, d := law.Flow(p2, p1)
		return -f, -d
	}
	low, high := p2, 1.05*p2
	for f, _ := flow(high); f < m; f, _ = flow(high) {
		if low, high = high, high*1.5; high > most {
			return math.Inf(1)
		}
	}
	return between(flow, low, high, m)
}

// between closes in on the pressure at which a rising flow is m: Newton's steps, halving
// where they leave the bracket.
func between(flow func(float64) (float64, float64), low, high, m float64) float64 {
	p := high
	for range 100 {
		f, d := flow(p)
		if f >= m {
			high = p
		} else {
			low = p
		}
		if high-low <= 1e-12*high {
			break
		}
		next := (low + high) / 2
		if d > 0 {
			if to := p - (f-m)/d; to > low && to < high {
				next = to
			}
		}
		if math.Abs(next-p) <= 1e-13*p {
			break
		}
		p = next
	}
	return p
}
