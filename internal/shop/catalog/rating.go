package catalog

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
)

// Rating is the greatest working pressure of a line of this stock and size at a
// temperature, joined one way ("": the usual one), with what sets it.
//
// Of the rows that speak of the size and the joining, of the line itself and of
// its joints, the lowest governs. Between the points of a row the pressure is
// linear in temperature, below its first point that point holds, beyond its last
// the rating is refused; so it is where no row of the line itself is known, and
// for a stock that is not fit for compressed gas. Then ok is false, basis says
// why, and ref who says so.
func (s Stock) Rating(size string, temp unit.Temperature, joining string) (p unit.GaugePressure, basis string, ref cite.Ref, ok bool) {
	if s.FitForAir == "no" {
		ref = s.Ref
		if len(s.Authority) > 0 {
			ref = s.Authority[0]
		}
		return 0, "not fit for compressed gas: " + s.Why, ref, false
	}
	z, found := s.Size(size)
	if !found {
		return 0, fmt.Sprintf("%s has no size %q", s.Stock, size), s.Ref, false
	}
	if joining == "" && len(s.Joining) > 0 {
		joining = s.Joining[0]
	}
	if !slices.Contains(s.Joining, joining) {
		return 0, fmt.Sprintf("%s is not joined by %q but by %s", s.Stock, joining, strings.Join(s.Joining, ", ")), s.Ref, false
	}
	line := false
	for _, r := range slices.Concat(z.Ratings, s.Ratings) {
		if !r.speaksOf(z.Size, joining) {
			continue
		}
		at, last, within := r.at(temp.Celsius(), s.Temperatures)
		if !within {
			return 0, fmt.Sprintf("%s: its table ends at %.3g °C", r.Basis, last), r.Ref, false
		}
		if basis == "" || at < p {
			p, basis, ref = at, r.Basis, r.Ref
		}
		line = line || r.Of == "line"
	}
	if s.MaxTemp != nil && temp.Celsius() > *s.MaxTemp+1e-9 {
		return 0, fmt.Sprintf("%s is not used above %g °C", s.Stock, *s.MaxTemp), s.Ref, false
	}
	if !line {
		return 0, "no rating is known for this size and joining", z.Ref, false
	}
	return p, basis, ref, true
}

// speaksOf says whether the row holds for a size and a way of joining.
func (r Rating) speaksOf(size, joining string) bool {
	return (len(r.Sizes) == 0 || slices.Contains(r.Sizes, size)) &&
		(len(r.Joining) == 0 || slices.Contains(r.Joining, joining))
}

// at is the row's pressure at a temperature in °C; a row of one point follows
// the stock's factors where it has them. last is where the table ends.
func (r Rating) at(tempC float64, factors []RatingFactor) (p unit.GaugePressure, last float64, within bool) {
	x, y := r.TempC, make([]float64, len(r.Pressure))
	for i, v := range r.Pressure {
		y[i] = float64(v)
	}
	if len(y) == 1 && len(factors) > 0 {
		base := y[0]
		x, y = make([]float64, len(factors)), make([]float64, len(factors))
		for i, f := range factors {
			x[i], y[i] = f.TempC, base*f.Factor
		}
	}
	if len(x) == 0 || len(x) != len(y) {
		return 0, 0, false
	}
	last = x[len(x)-1]
	// A tenth of a degree is the rounding of tables made in Fahrenheit.
	if tempC > last+0.1 || math.IsNaN(tempC) {
		return 0, last, false
	}
	return unit.GaugePressure(between(x, y, tempC)), last, true
}

// between interpolates linearly in rising x and holds the ends.
func between(x, y []float64, at float64) float64 {
	if at <= x[0] {
		return y[0]
	}
	for i := 1; i < len(x); i++ {
		if at <= x[i] {
			return y[i-1] + (y[i]-y[i-1])*(at-x[i-1])/(x[i]-x[i-1])
		}
	}
	return y[len(y)-1]
}
