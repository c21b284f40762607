package root

import (
	"errors"
	"math"
)

// ErrNoSign says that the two ends do not enclose a change of sign, or that
// the function is not a number at one of them.
var ErrNoSign = errors.New("no change of sign between the ends")

// maxSteps is far above what Brent's method needs (about 60 for full double
// precision): it only guards against functions that answer at random.
const maxSteps = 300

// Bracketed finds x in [a, b] with f(x) = 0 to within tol (absolute, never
// finer than the spacing of doubles at x). f(a) and f(b) must differ in sign.
// Each step keeps the bracket, so that it cannot run away; it takes inverse
// quadratic or secant steps where they shrink the bracket, else it halves.
func Bracketed(f func(float64) float64, a, b, tol float64) (float64, error) {
	fa, fb := f(a), f(b)
	switch {
	case fa == 0:
		return a, nil
	case fb == 0:
		return b, nil
	case math.IsNaN(fa) || math.IsNaN(fb) || (fa > 0) == (fb > 0):
		return 0, ErrNoSign
	}
	c, fc := a, fa
	d := b - a
	e := d
	for range maxSteps {
		if (fb > 0) == (fc > 0) {
			c, fc = a, fa
			d = b - a
			e = d
		}
		if math.Abs(fc) < math.Abs(fb) {
			a, b, c = b, c, b
			fa, fb, fc = fb, fc, fb
		}
		eps := 2*0x1p-53*math.Abs(b) + tol/2
		half := (c - b) / 2
		if math.Abs(half) <= eps || fb == 0 {
			return b, nil
		}
		d, e = step(a, b, c, fa, fb, fc, d, e, half, eps)
		a, fa = b, fb
		if math.Abs(d) > eps {
			b += d
		} else {
			b += math.Copysign(eps, half)
		}
		fb = f(b)
	}
	return b, nil
}

// step proposes Brent's next move d and remembers the one before in e.
func step(a, b, c, fa, fb, fc, d, e, half, eps float64) (float64, float64) {
	if math.Abs(e) < eps || math.Abs(fa) <= math.Abs(fb) {
		return half, half
	}
	s := fb / fa
	var p, q float64
	if a == c {
		p, q = 2*half*s, 1-s
	} else {
		u, r := fa/fc, fb/fc
		p = s * (2*half*u*(u-r) - (b-a)*(r-1))
		q = (u - 1) * (r - 1) * (s - 1)
	}
	if p > 0 {
		q = -q
	}
	p = math.Abs(p)
	if 2*p < math.Min(3*half*q-math.Abs(eps*q), math.Abs(e*q)) {
		return p / q, d
	}
	return half, half
}
