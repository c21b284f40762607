package element

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

var air20 = Gas{Temperature: 293.15, R: 287.055, Z: 1, Viscosity: 1.8133e-5}

func drawPipe(t *rapid.T) *Pipe {
	bore := rapid.Float64Range(0.003, 0.2).Draw(t, "bore")
	p, err := NewPipe(air20, PipeSpec{
		Length: rapid.Float64Range(0.01, 500).Draw(t, "length"), Bore: bore,
		Roughness: bore * rapid.Float64Range(0, roughest).Draw(t, "rough"), K: rapid.Float64Range(0, 30).Draw(t, "K"),
	})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// The flow found must satisfy the equation as the textbook writes it, and
// marching by either end must give the other.
func TestPipeMeetsItsEquation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPipe(t)
		p1 := rapid.Float64Range(1e5, 2e6).Draw(t, "p1")
		p2 := p1 * rapid.Float64Range(0.01, 1).Draw(t, "p2/p1")
		m, _, _ := p.Flow(p1, p2)
		bm2 := p.beta * m * m
		end := max(p2*p2, bm2) // choked: the pressure inside the end
		h, _ := p.drop(m, p.k[0])
		if gap := p1*p1 - end - h - bm2*math.Log(p1*p1/end); math.Abs(gap) > 1e-14*p1*p1+1e-13*(p1*p1-end) {
			t.Fatalf("flow %g leaves %g of %g Pa²", m, gap, p1*p1-end)
		}
		if most, _ := p.choked(p1, p.k[0]); m > most*(1+1e-12) {
			t.Fatalf("flow %g above the greatest %g", m, most)
		}
		// Near choking p2 hardly depends on flow and marching loses its digits.
		if bm2 > 0.9*end {
			return
		}
		if got, ok := p.Outlet(p1, m); !ok || math.Abs(got-p2) > 1e-12*p1*p1/p2 {
			t.Fatalf("outlet %.16g %v, want %.16g", got, ok, p2)
		}
		if got := p.Inlet(p2, m); math.Abs(got-p1) > 1e-12*p1 {
			t.Fatalf("inlet %.16g, want %.16g", got, p1)
		}
	})
}

// Beyond the greatest flow no outlet exists; the inlet then needed is the one
// whose greatest flow it is.
func TestPipeChokes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPipe(t)
		p1 := rapid.Float64Range(1e5, 2e6).Draw(t, "p1")
		most, d1, d2 := p.Flow(p1, 0)
		if d2 != 0 || d1 <= 0 {
			t.Fatalf("slopes %g, %g of a choked pipe", d1, d2)
		}
		if _, ok := p.Outlet(p1, most*1.0001); ok {
			t.Fatal("more than the greatest flow goes through")
		}
		if got := p.Inlet(0, most); math.Abs(got-p1) > 1e-6*p1 {
			t.Fatalf("inlet %g for the greatest flow, want %g", got, p1)
		}
	})
}

func TestTeeLegFollowsItsDirection(t *testing.T) {
	leg, err := NewMinor(air20, 0.02, 0.5, 1.8)
	if err != nil {
		t.Fatal(err)
	}
	there, _, _ := leg.Flow(8e5, 7.999e5)
	back, _, _ := leg.Flow(7.999e5, 8e5)
	// Flow goes as 1/√K where the expansion hardly counts.
	if ratio := there / -back; math.Abs(ratio-math.Sqrt(1.8/0.5)) > 1e-3 {
		t.Errorf("ratio of flows %g, want %g", ratio, math.Sqrt(1.8/0.5))
	}
}

func BenchmarkPipeTangent(b *testing.B) {
	p, _ := NewPipe(air20, PipeSpec{Length: 12, Bore: 0.02, Roughness: 4.5e-5, K: 2})
	for b.Loop() {
		p.Tangent(8e5, 7.9e5, 0.02)
	}
}

func BenchmarkPipeFlow(b *testing.B) {
	p, _ := NewPipe(air20, PipeSpec{Length: 12, Bore: 0.02, Roughness: 4.5e-5, K: 2})
	for b.Loop() {
		p.Flow(8e5, 7.9e5)
	}
}
