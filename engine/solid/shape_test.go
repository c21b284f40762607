package solid

import (
	"math"
	"strings"
	"testing"

	"dropleg/engine/formula/formulatest"
	"dropleg/engine/unit"

	"pgregory.net/rapid"
)

// framed solves a plane frame by the stiffness method, which shares nothing with the
// elastic centre: both ends clamped, the far one moved by (dx, dy), E I = 1 and the
// legs so stiff along themselves that they hardly shorten. It gives the force on the
// far end and the greatest moment.
func framed(shape [][2]float64, dx, dy float64) (push [2]float64, moment float64) {
	n := 3 * len(shape)
	k := make([][]float64, n)
	for i := range k {
		k[i] = make([]float64, n)
	}
	var elements [][6][6]float64
	for i := 1; i < len(shape); i++ {
		e := beam(shape[i-1], shape[i])
		elements = append(elements, e)
		for r := range 6 {
			for c := range 6 {
				k[3*(i-1)+r][3*(i-1)+c] += e[r][c]
			}
		}
	}
	u := make([]float64, n)
	u[n-3], u[n-2] = dx, dy
	free := n - 6
	a := make([][]float64, free)
	for r := range a {
		a[r] = append(append([]float64{}, k[r+3][3:n-3]...), -k[r+3][n-3]*dx-k[r+3][n-2]*dy)
	}
	copy(u[3:], gauss(a))
	for i, e := range elements {
		var f [6]float64
		for r := range 6 {
			for c := range 6 {
				f[r] += e[r][c] * u[3*i+c]
			}
		}
		moment = max(moment, math.Abs(f[2]), math.Abs(f[5]))
		push = [2]float64{f[3], f[4]}
	}
	return push, moment
}

// beam is the stiffness of one leg in the axes of the shape.
func beam(p, q [2]float64) (out [6][6]float64) {
	l := math.Hypot(q[0]-p[0], q[1]-p[1])
	c, s := (q[0]-p[0])/l, (q[1]-p[1])/l
	a, b, d, e := 1e8/l, 12/(l*l*l), 6/(l*l), 4/l
	local := [6][6]float64{
		{a, 0, 0, -a, 0, 0},
		{0, b, d, 0, -b, d},
		{0, d, e, 0, -d, e / 2},
		{-a, 0, 0, a, 0, 0},
		{0, -b, -d, 0, b, -d},
		{0, d, e / 2, 0, -d, e},
	}
	turn := [6][6]float64{}
	for i := range 2 {
		turn[3*i][3*i], turn[3*i][3*i+1] = c, s
		turn[3*i+1][3*i], turn[3*i+1][3*i+1] = -s, c
		turn[3*i+2][3*i+2] = 1
	}
	for r := range 6 {
		for k := range 6 {
			for i := range 6 {
				for j := range 6 {
					out[r][k] += turn[i][r] * local[i][j] * turn[j][k]
				}
			}
		}
	}
	return out
}

// gauss solves the system whose right-hand side is the last column.
func gauss(a [][]float64) []float64 {
	n := len(a)
	for i := range n {
		best := i
		for r := i; r < n; r++ {
			if math.Abs(a[r][i]) > math.Abs(a[best][i]) {
				best = r
			}
		}
		a[i], a[best] = a[best], a[i]
		for r := range n {
			if r == i {
				continue
			}
			f := a[r][i] / a[i][i]
			for c := i; c <= n; c++ {
				a[r][c] -= f * a[i][c]
			}
		}
	}
	x := make([]float64, n)
	for i := range n {
		x[i] = a[i][n] / a[i][i]
	}
	return x
}

// The elastic centre agrees with the stiffness method on an L, a Z, a U and any
// other shape, to what the legs there still shorten.
func TestFlexIsTheFrame(t *testing.T) {
	m := Material{Alpha: 17.1e-6, Modulus: 117.2e9}
	const od, wall, rise = 0.02857, 0.00127, 40
	_, second, err := Section(od, wall)
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		leg := rapid.Float64Range(0.5, 8)
		a, b, c := leg.Draw(t, "a"), leg.Draw(t, "b"), leg.Draw(t, "c")
		shape := rapid.SampledFrom([][][2]float64{
			{{-a, 0}, {0, 0}, {0, b}},
			{{-a, 0}, {0, 0}, {0, b}, {c, b}},
			{{-a, 0}, {0, 0}, {0, b}, {1, b}, {1, 0}, {1 + c, 0}},
			{{-a, -a / 3}, {0, 0}, {-c / 9, b}},
		}).Draw(t, "shape")
		got, err := Flex(m, od, wall, shape, rise)
		if err != nil {
			t.Fatal(err)
		}
		last := shape[len(shape)-1]
		free := float64(m.Alpha) * rise
		push, moment := framed(shape, -free*(last[0]-shape[0][0]), -free*(last[1]-shape[0][1]))
		ei := float64(m.Modulus) * second
		size := ei * (math.Abs(push[0]) + math.Abs(push[1]))
		if math.Abs(got.Moment/(ei*moment)-1) > 2e-3 ||
			math.Abs(got.Push[0]-ei*push[0]) > 2e-3*size || math.Abs(got.Push[1]-ei*push[1]) > 2e-3*size {
			t.Fatalf("%v: %+v, the frame has %v N, %v N m", shape, got, push, ei*moment)
		}
		if want := got.Moment * od / 2 / second; math.Abs(float64(got.Stress)/want-1) > 1e-9 {
			t.Fatalf("stress %v, want %v", got.Stress, want)
		}
	})
}

// A straight line has nothing to bend, and what is no number is refused.
func TestFlexRefuses(t *testing.T) {
	m := Material{Alpha: 1e-5, Modulus: 1e11}
	for _, shape := range [][][2]float64{nil, {{0, 0}}, {{0, 0}, {1, 0}}, {{0, 0}, {1, 1}, {3, 3}}, {{0, 0}, {1, 0}, {1, math.NaN()}}, {{0, 0}, {0, 0}}} {
		if b, err := Flex(m, 0.02, 0.001, shape, 40); err == nil {
			t.Errorf("%v gave %+v", shape, b)
		}
	}
}

// Takes is the leg rule backwards, stress and force are those of the leg.
func TestLegBackwards(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := unit.Stress(rapid.Float64Range(1e9, 2e11).Draw(t, "E"))
		s := unit.Stress(rapid.Float64Range(1e6, 2e8).Draw(t, "S"))
		od := unit.Length(rapid.Float64Range(6e-3, 0.1).Draw(t, "od"))
		growth := unit.Length(rapid.Float64Range(1e-4, 0.1).Draw(t, "growth"))
		c, _ := LegConstant(e, s)
		leg, err := Leg(c, od, growth)
		if err != nil {
			t.Fatal(err)
		}
		back, err1 := Takes(c, od, leg)
		stress, err2 := LegStress(e, od, growth, leg)
		if err1 != nil || err2 != nil || math.Abs(float64(back/growth)-1) > 1e-9 || math.Abs(float64(stress/s)-1) > 1e-9 {
			t.Fatalf("takes %v of %v, stress %v of %v: %v %v", back, growth, stress, s, err1, err2)
		}
		// An S between two guided ends: M = force · leg/2, stress = M (od/2)/I.
		wall := od / 10
		_, second, _ := Section(od, wall)
		force, err := LegForce(e, od, wall, growth, leg)
		if err != nil || math.Abs(force*float64(leg)/2*float64(od)/2/second/float64(stress)-1) > 1e-9 {
			t.Fatalf("force %v, %v", force, err)
		}
	})
}

// Figures by hand. Schedule 40 of 1 in, as printed in public section tables: od 1.315
// in, wall 0.133 in, metal 0.494 in², second moment 0.0873 in⁴ (from memory).
func TestSection(t *testing.T) {
	const inch = 0.0254
	area, second, err := Section(1.315*inch, 0.133*inch)
	if err != nil || math.Abs(area/(inch*inch)-0.494) > 5e-4 || math.Abs(second/(inch*inch*inch*inch)-0.0873) > 5e-5 {
		t.Errorf("%v in², %v in⁴, %v", area/(inch*inch), second/math.Pow(inch, 4), err)
	}
	// pi² · 206.8 GPa · 3.634e-8 m⁴ / (2.13 m)² = 16.35 kN.
	if at, err := Bows(206.8e9, 1.315*inch, 0.133*inch, 2.13); err != nil || math.Abs(at-16350) > 30 {
		t.Errorf("bows at %v N, %v", at, err)
	}
}

func TestHeldFormulas(t *testing.T) {
	for _, c := range []struct {
		args, key string
		want, rel float64
		source    string
	}{
		{"held material=copper dt=40K od=22.2mm wall=1.14mm", "stress_Pa", 79.1e6, 1e-3, "TestRestrained, by hand"},
		{"held material=copper dt=40K od=22.2mm wall=1.14mm", "push_N", 5966, 2e-3, "TestRestrained, by hand"},
		{"held alpha=11.39e-6 E=206.8GPa dt=10K od=1.315in wall=0.133in span=2.13m", "bows_at_N", 16350, 2e-3, "TestSection, by hand"},
		{"offset growth=0.5in od=0.625in leg_constant=88.6", "leg_m", 50 * 0.0254, 0.02, "checks 11"},
		{"offset growth=0.2in other_growth=0.3in od=0.625in leg_constant=88.6", "leg_m", 50 * 0.0254, 0.02, "checks 11, the growth in two parts"},
		{"offset growth=1in od=0.625in leg_constant=88.6", "leg_m", 70 * 0.0254, 0.02, "checks 13"},
		{"offset growth=2.64in od=1.125in leg_constant=12", "leg_m", 20.7 * 0.0254, 0.005, "checks 33"},
		{"offset growth=0.5in od=0.625in stress=6000psi E=17Mpsi leg=51.5391in", "stress_Pa", 6000 * psi, 1e-4, "leg formula, by hand: 92.195 sqrt(0.3125)"},
		{"corner material=copper leg=3m other_leg=3m dt=40K od=28.57mm wall=1.27mm", "moment_Nm", cornerByHand, 1e-6, "by hand, below"},
	} {
		got, err := formulatest.Ask(t, grown(), c.args)
		if x, ok := got[c.key]; err != nil || !ok || math.Abs(x/c.want-1) > c.rel {
			t.Errorf("%s (%s): %s = %v, want %v, %v", c.args, c.source, c.key, x, c.want, err)
		}
	}
	for args, want := range map[string]string{
		"offset growth=1mm od=1in":                                          "leg_constant",
		"offset material=copper growth=1mm od=1in leg=0":                    "leg 0 m",
		"held material=hose dt=40K od=20mm wall=1mm":                        "E 0 Pa",
		"corner material=copper leg=1m other_leg=0 dt=9K od=20mm wall=1mm":  "other_leg 0 m",
		"corner material=copper leg=1m other_leg=1m dt=9K od=20mm wall=1cm": "",
		"held material=copper dt=40K od=20mm wall=11mm":                     "at most half",
	} {
		if _, err := formulatest.Ask(t, grown(), args); want == "" && err != nil || want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
			t.Errorf("%s: error %v, want %q in it", args, err, want)
		}
	}
}

// cornerByHand is the moment at the ends of an L of two legs of length l that want to
// grow by d each, about its elastic centre (l/4 off both legs): ∫x² ds = ∫y² ds = 5 l³/24
// and ∫xy ds = l³/8 in size, so that by symmetry each push is X = E I d/(l³/3)·… worked
// out: X (5/24 - 1/8) l³ = E I d, X = 12 E I d/l³; the end's arms are 3 l/4 and l/4,
// M = X (3/4 - 1/4) l = 6 E I d/l².
var cornerByHand = 6 * 117e9 * (math.Pi / 64 * (math.Pow(0.02857, 4) - math.Pow(0.02603, 4))) * (16.9e-6 * 3 * 40) / 9
