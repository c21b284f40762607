package lawtest

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"dropleg/engine/element"
)

// Case is a law and what it declares.
type Case struct {
	Law         element.Law
	ZeroAtEqual bool
}

// corners are pressures (Pa) at which laws have broken before: vacuum, near it,
// atmosphere, shop pressures, and far beyond any.
var corners = []float64{0, 1e-9, 1e-3, 0.5, 1, 1.5, 100, 5e4, 101325, 101325.0001, 2e5, 5e5, 7e5, 7.0001e5, 8e5, 8e5 + 1e-6, 1.6e6, 1e8, 1e9}

// Suite checks one law.
func Suite(t *testing.T, c Case) {
	t.Run("finite", func(t *testing.T) { finite(t, c) })
	t.Run("monotone", func(t *testing.T) { monotone(t, c.Law) })
	t.Run("slopes", func(t *testing.T) { slopes(t, c.Law) })
	t.Run("continuous", func(t *testing.T) { continuous(t, c.Law) })
	if l, ok := c.Law.(element.Directed); ok {
		t.Run("directed", func(t *testing.T) { directed(t, l) })
	}
	if l, ok := c.Law.(element.Linear); ok {
		t.Run("tangent", func(t *testing.T) { tangents(t, l) })
	}
}

func bad(x float64) bool { return math.IsNaN(x) || math.IsInf(x, 0) }

func finite(t *testing.T, c Case) {
	for _, p1 := range corners {
		for _, p2 := range corners {
			m, d1, d2 := c.Law.Flow(p1, p2)
			if bad(m) || bad(d1) || bad(d2) || d1 < 0 || d2 > 0 {
				t.Errorf("at %g, %g: flow %g, slopes %g, %g", p1, p2, m, d1, d2)
			}
			if p1 == p2 && c.ZeroAtEqual && m != 0 {
				t.Errorf("at %g both: flow %g", p1, m)
			}
		}
	}
}

// pressure draws from vacuum to far beyond shops, and often near the other end.
func pressure(near float64) *rapid.Generator[float64] {
	return rapid.OneOf(
		rapid.SampledFrom(corners),
		rapid.Float64Range(0, 2e6),
		rapid.Map(rapid.Float64Range(-9, 0.3), func(e float64) float64 { return near * (1 + math.Pow(10, e)) }),
		rapid.Map(rapid.Float64Range(-9, -0.01), func(e float64) float64 { return near * (1 - math.Pow(10, e)) }),
	)
}

func monotone(t *testing.T, l element.Law) {
	rapid.Check(t, func(t *rapid.T) {
		p1 := rapid.Float64Range(1, 2e6).Draw(t, "p1")
		p2 := pressure(p1).Draw(t, "p2")
		up := pressure(p1).Draw(t, "up")
		m, _, _ := l.Flow(p1, p2)
		slack := 1e-12 * math.Abs(m)
		if m1, _, _ := l.Flow(math.Max(p1, up), p2); m1 < m-slack {
			t.Fatalf("p2 %g: flow falls from %g to %g as p1 rises from %g to %g", p2, m, m1, p1, math.Max(p1, up))
		}
		if m2, _, _ := l.Flow(p1, math.Max(p2, up)); m2 > m+slack {
			t.Fatalf("p1 %g: flow rises from %g to %g as p2 rises from %g to %g", p1, m, m2, p2, math.Max(p2, up))
		}
	})
}

// slopes compares with differences over two steps; where those do not agree with
// each other the point lies at a kink, and any slope between is right.
func slopes(t *testing.T, l element.Law) {
	rapid.Check(t, func(t *rapid.T) {
		p1 := rapid.Float64Range(2e4, 2e6).Draw(t, "p1")
		p2 := math.Max(1e3, pressure(p1).Draw(t, "p2"))
		m, d1, d2 := l.Flow(p1, p2)
		step := 1e-5 * math.Max(math.Abs(p1-p2), 1e-5*p1)
		by1 := func(h float64) float64 { a, _, _ := l.Flow(p1+h, p2); return a }
		by2 := func(h float64) float64 { a, _, _ := l.Flow(p1, p2+h); return a }
		agree(t, "p1", p1, p2, m, d1, step, by1)
		agree(t, "p2", p1, p2, m, d2, step, by2)
	})
}

func agree(t *rapid.T, name string, p1, p2, m, slope, step float64, f func(float64) float64) {
	up, down := (f(step)-m)/step, (m-f(-step))/step
	noise := 1e-13 * (math.Abs(m) + math.Abs(slope)*(p1+p2)) / step
	low, high := math.Min(up, down), math.Max(up, down)
	room := 2e-4*(math.Abs(slope)+math.Abs(high-low)) + noise
	if math.Abs(p1-p2) < 1e-9*p1 && math.Abs(slope) > math.Abs(high) {
		return // steep within less than a step: no difference can see it
	}
	if slope < low-room || slope > high+room {
		t.Fatalf("at %.12g, %.12g: slope by %s is %g, differences give %g and %g", p1, p2, name, slope, down, up)
	}
}

// continuous looks for steps: where flow changes much over a small difference,
// it halves the difference until that is 1e-11 of the pressure, on the side with
// the larger change. A law may be steep, but not that steep.
func continuous(t *testing.T, l element.Law) {
	const steps = 5000
	for _, p1 := range []float64{5e4, 101325, 3e5, 8e5} {
		flow := func(p2 float64) float64 { m, _, _ := l.Flow(p1, p2); return m }
		jump := 0.05 * math.Abs(flow(0)-flow(1.2*p1))
		for i := range steps {
			a, b := 1.2*p1*float64(i)/steps, 1.2*p1*float64(i+1)/steps
			for b-a > 1e-11*p1 && math.Abs(flow(a)-flow(b)) > jump {
				mid := (a + b) / 2
				if math.Abs(flow(a)-flow(mid)) > math.Abs(flow(mid)-flow(b)) {
					b = mid
				} else {
					a = mid
				}
			}
			if math.Abs(flow(a)-flow(b)) > jump+1e-15 {
				t.Fatalf("p1 %g: flow steps from %g to %g at p2 %g", p1, flow(a), flow(b), a)
			}
		}
	}
}

func directed(t *testing.T, l element.Directed) {
	forward, reverse := l.Passes()
	rapid.Check(t, func(t *rapid.T) {
		p1 := rapid.Float64Range(0, 2e6).Draw(t, "p1")
		p2 := pressure(p1).Draw(t, "p2")
		m, _, _ := l.Flow(p1, p2)
		if m > 0 && !forward || m < 0 && !reverse {
			t.Fatalf("flow %g at %g, %g against its direction", m, p1, p2)
		}
		if forward && !reverse {
			most, _, _ := l.Flow(p1, 0)
			if m, _, _ := l.Flow(p1, l.Holds(p1)); m > 1e-12*most && l.Holds(p1) > 0 {
				t.Fatalf("flow %g at the pressure %g that is held", m, l.Holds(p1))
			}
		}
	})
}

// tangents must be the law's own where flow and pressures fit, and finite where
// they do not.
func tangents(t *testing.T, l element.Linear) {
	rapid.Check(t, func(t *rapid.T) {
		p1 := rapid.Float64Range(1e4, 2e6).Draw(t, "p1")
		p2 := math.Max(1e4, pressure(p1).Draw(t, "p2"))
		m, d1, d2 := l.Flow(p1, p2)
		m0, g1, g2 := l.Tangent(p1, p2, m)
		// Inverting a law costs digits where pressure hardly changes with flow.
		loose := 1e-9*math.Abs(m) + 1e-14*(p1*p1*g1-p2*p2*g2)
		if math.Abs(m0-m) > loose {
			t.Fatalf("at %g, %g: flow %g, tangent starts at %g", p1, p2, m, m0)
		}
		w1, w2 := d1/(2*p1), d2/(2*p2)
		room := 1e-5*math.Max(w1, -w2) + 1e-12*math.Max(g1, -g2)
		if near := math.Abs(p1-p2) < 3e-8*p1; !near && (math.Abs(g1-w1) > room || math.Abs(g2-w2) > room) {
			t.Fatalf("at %.12g, %.12g: tangent %g, %g, slopes %g, %g", p1, p2, g1, g2, w1, w2)
		}
		wild := rapid.Float64Range(-10, 10).Draw(t, "other flow")
		q := rapid.SampledFrom(corners).Draw(t, "other p1")
		m0, g1, g2 = l.Tangent(q, p2, wild)
		if bad(m0) || bad(g1) || bad(g2) || g1 < 0 || g2 > 0 {
			t.Fatalf("at %g, %g, flow %g: tangent %g, %g, %g", q, p2, wild, m0, g1, g2)
		}
		if bad(l.Start(q)) || l.Start(q) <= 0 {
			t.Fatalf("start %g at %g", l.Start(q), q)
		}
	})
}
