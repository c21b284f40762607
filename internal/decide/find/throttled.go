package find

import (
	"math"

	"dropleg/engine/element"
)

// throttled is an element with a narrow place behind it: the same flow passes both, and
// what lies between finds its pressure. Monotone, as both are.
type throttled struct {
	law, narrow element.Law
}

// narrowRatio is the critical pressure ratio of a narrow place in a line: between that of
// a sharp hole and of a half open valve; handbook values, recalled.
const narrowRatio = 0.4

// narrowed is a law with a narrow place that takes away so much pressure, Pa, at the flow m
// where p stands before it; more than chokes it, by what it would pass choked.
func narrowed(g element.Gas, law element.Law, m, p, takes float64) (element.Law, error) {
	z := takes / ((1 - narrowRatio) * p)
	share := math.Sqrt(z)
	if z < 1 {
		share = math.Sqrt(z * (2 - z))
	}
	c := m / (p * share) / (element.RefDensity * math.Sqrt(element.RefTemperature/g.Temperature))
	hole, err := element.NewISO6358(g, element.ISO6358Spec{C: c, B: narrowRatio})
	if err != nil {
		return nil, err
	}
	return throttled{law, hole}, nil
}

// between is the pressure between the two.
func (t throttled) between(p1, p2 float64) float64 {
	low, high := min(p1, p2), max(p1, p2)
	mid := (low + high) / 2
	for range 60 {
		a, _, da := t.law.Flow(p1, mid)
		b, db, _ := t.narrow.Flow(mid, p2)
		over := a - b // falls with mid
		if over > 0 {
			low = mid
		} else {
			high = mid
		}
		next := mid
		if slope := da - db; slope < 0 {
			next = mid - over/slope
		}
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-mid) <= 1e-12*high {
			break
		}
		mid = next
	}
	return mid
}

// Flow is that of both in line.
func (t throttled) Flow(p1, p2 float64) (m, d1, d2 float64) {
	mid := t.between(p1, p2)
	_, a1, a2 := t.law.Flow(p1, mid)
	m, b1, b2 := t.narrow.Flow(mid, p2)
	if b1-a2 <= 0 {
		return m, 0, 0
	}
	return m, a1 * b1 / (b1 - a2), -a2 * b2 / (b1 - a2)
}

// Passes is as the element passes.
func (t throttled) Passes() (forward, reverse bool) { return scaled{t.law, 1}.Passes() }

// Holds is as the element holds.
func (t throttled) Holds(p1 float64) float64 { return scaled{t.law, 1}.Holds(p1) }

// Start is that of both in line.
func (t throttled) Start(p float64) float64 {
	a, b := scaled{t.law, 1}.Start(p), scaled{t.narrow, 1}.Start(p)
	return a * b / (a + b)
}

// Tangent takes the pressure between out of the tangents of both.
func (t throttled) Tangent(p1, p2, m float64) (m0, g1, g2 float64) {
	mid := t.between(p1, p2)
	ma, a1, a2 := scaled{t.law, 1}.Tangent(p1, mid, m)
	mb, b1, b2 := scaled{t.narrow, 1}.Tangent(mid, p2, m)
	if b1-a2 <= 0 {
		return ma, 0, 0
	}
	return ma + a2*(ma-mb)/(b1-a2), a1 * b1 / (b1 - a2), -a2 * b2 / (b1 - a2)
}

// fullFlow is the greatest flow that an element sees, kg/s, the pressure behind it then and
// the loss that its size is measured by, Pa.
type fullFlow struct{ most, behind, loss float64 }

// restricted is the law of an element that passes a share of what it should: with a narrow
// place behind it that takes the rest.
func (r *rig) restricted(f fault) element.Law {
	at := r.full[f.at]
	takes := at.loss * (1/(f.size*f.size) - 1)
	law, err := narrowed(r.m.Gas(), r.links[f.at], at.most, at.behind, takes)
	if err != nil {
		return scaled{r.links[f.at], f.size}
	}
	return law
}
