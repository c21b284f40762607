package day

import "math"

// parabola is a pressure over a step: at its beginning, at the end of its first stage and
// at its end.
type parabola struct{ from, mid, end float64 }

// bend gives the parabola as from + x (slope + x bend) over the share x of the step.
func (q parabola) bend() (slope, bend float64) {
	// Through 0, part and 1.
	a, b := (q.mid-q.from)/part, q.end-q.from
	bend = (b - a) / (1 - part)
	return b - bend, bend
}

// meets lists, in order, the shares of the step at which the pressure is p.
func (q parabola) meets(p float64) []float64 {
	slope, bend := q.bend()
	c := q.from - p
	var out []float64
	add := func(x float64) {
		if x > 0 && x < 1 {
			out = append(out, x)
		}
	}
	// bend x² + slope x + c = 0, without losing digits where bend is small.
	root := slope*slope - 4*bend*c
	if root < 0 {
		return nil
	}
	t := -(slope + math.Copysign(math.Sqrt(root), slope)) / 2
	if t == 0 {
		return nil
	}
	x, y := c/t, math.Inf(1)
	if bend != 0 {
		y = t / bend
	}
	add(min(x, y))
	add(max(x, y))
	return out
}

// passes is the share of the step at which p is come to from the side away from beyond,
// where the step ends beyond it by more than so much (upwards, or downwards where beyond is
// negative); 1: it does not pass.
func (q parabola) passes(p, beyond float64) float64 {
	sign := math.Copysign(1, beyond)
	over := func(v float64) bool { return sign*(v-p) > math.Abs(beyond) }
	if over(q.from) || !over(q.mid) && !over(q.end) {
		return 1
	}
	if at := q.meets(p); len(at) > 0 {
		return at[0]
	}
	return 1
}

// below is the share of the step in which the pressure is below p.
func (q parabola) below(p float64) float64 {
	cuts := append([]float64{0}, q.meets(p)...)
	cuts = append(cuts, 1)
	slope, bend := q.bend()
	sum := 0.0
	for i := range cuts[1:] {
		x := (cuts[i] + cuts[i+1]) / 2
		if q.from+x*(slope+x*bend) < p {
			sum += cuts[i+1] - cuts[i]
		}
	}
	return sum
}
