package element

import "math"

// Outlet is the pressure at end 2 when m ≥ 0 flows in at end 1 under p1, Pa.
// It is false where p1 cannot drive that flow; at the greatest flow the answer
// is the pressure inside the choked end.
func (p *Pipe) Outlet(p1, m float64) (p2 float64, ok bool) {
	h, _ := p.drop(m, p.k[0])
	bm2 := p.beta * m * m
	su := p1 * p1
	// f(s) = su − s − h − bm2 ln(su/s) is concave and falls for s > bm2: from
	// su − h, where it is not above zero, Newton walks down to the root.
	s := su - h
	for range 100 {
		if s < bm2 || s <= 0 {
			return 0, false
		}
		if bm2 == 0 {
			break
		}
		step := (su - s - h - bm2*math.Log(su/s)) / (1 - bm2/s)
		s += step
		if !(math.Abs(step) > 1e-16*su) {
			break
		}
	}
	if s < bm2 || math.IsNaN(s) {
		return 0, false
	}
	return math.Sqrt(s), true
}

// Inlet is the least pressure at end 1 that drives m ≥ 0 against p2 at end 2,
// Pa. Where the flow chokes, p2 does not act. Every flow has an inlet pressure.
func (p *Pipe) Inlet(p2, m float64) float64 { return p.inlet(p2, m, p.k[0]) }

// InletBack is the least pressure at end 2 that drives m ≥ 0 out at end 1 against p1.
func (p *Pipe) InletBack(p1, m float64) float64 { return p.inlet(p1, m, p.k[1]) }

func (p *Pipe) inlet(p2, m, k float64) float64 {
	h, _ := p.drop(m, k)
	bm2 := p.beta * m * m
	sd := max(p2*p2, bm2)
	// f(s) = s − sd − h − bm2 ln(s/sd) is convex and rises for s > bm2: one
	// step from the left lands right of the root, the rest come down to it.
	s := sd + h
	if bm2 == 0 || h == 0 {
		return math.Sqrt(s)
	}
	for range 100 {
		step := (s - sd - h - bm2*math.Log(s/sd)) / (1 - bm2/s)
		s -= step
		if !(math.Abs(step) > 1e-16*s) {
			break
		}
	}
	return math.Sqrt(s)
}
