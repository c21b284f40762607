package find

import (
	"math"
	"testing"

	"dropleg/engine/element"
)

// TestThrottled: the same flow passes the element and the narrow place, its slopes are those
// of small differences, and the tangent meets it where it is.
func TestThrottled(t *testing.T) {
	f := regulated(t)
	g := f.rig.m.Gas()
	for i, law := range f.rig.links {
		if f.rig.full[i].most < 1e-6 {
			continue
		}
		narrow, err := narrowed(g, law, 0.007, 8e5, 120e3)
		if err != nil {
			t.Fatal(err)
		}
		x := narrow.(throttled)
		for _, p := range [][2]float64{{9e5, 8e5}, {9e5, 5e5}, {6e5, 5.9e5}, {9e5, 1e5}, {6e5, 2e5}} {
			m, d1, d2 := x.Flow(p[0], p[1])
			mid := x.between(p[0], p[1])
			through, _, _ := x.law.Flow(p[0], mid)
			alone, _, _ := law.Flow(p[0], p[1])
			if through == 0 && m < 1e-8 {
				continue // a regulator that is shut
			}
			if math.Abs(through-m) > 1e-6*m || m > alone {
				t.Errorf("%T %v: %g kg/s pass the element, %g the narrow place, %g without it", law, p, through, m, alone)
			}
			const h = 20
			up, _, _ := x.Flow(p[0]+h, p[1])
			down, _, _ := x.Flow(p[0], p[1]+h)
			if s1, s2 := (up-m)/h, (down-m)/h; math.Abs(s1-d1) > 0.02*math.Abs(d1)+1e-12 || math.Abs(s2-d2) > 0.02*math.Abs(d2)+1e-12 {
				t.Errorf("%T %v: slopes %g and %g, by differences %g and %g", law, p, d1, d2, s1, s2)
			}
			if m0, g1, g2 := x.Tangent(p[0], p[1], m); math.Abs(m0-m) > 1e-6*m || g1 < 0 || g2 > 0 {
				t.Errorf("%T %v: the tangent meets %g at %g, slopes %g and %g", law, p, m, m0, g1, g2)
			}
		}
	}
	// A plain pipe of next to no loss leaves the narrow place alone: what it was made for.
	pipe := scaled{f.rig.links[len(f.rig.links)-1], 1e6}
	narrow, err := narrowed(g, pipe, 0.007, 8e5, 120e3)
	if err != nil {
		t.Fatal(err)
	}
	if m, _, _ := narrow.Flow(8e5, 8e5-120e3); math.Abs(m-0.007) > 1e-4*0.007 {
		t.Errorf("%g kg/s at the loss that 0.007 kg/s was to make", m)
	}
	var _ element.Linear = throttled{}
}

// TestWideTool: the impact wrench of the body shop is in order wherever it lies within what
// its plate leaves open; what asks for much more than that is not.
func TestWideTool(t *testing.T) {
	f := quiet(t)
	sum := 0.0
	for i := range f.singles {
		if tr := &f.singles[i]; f.causes[tr.causes[0]].sort == None {
			sum += math.Exp(tr.prior)
		}
	}
	if want := f.causes[f.sound().causes[0]].odds; math.Abs(sum-want) > 1e-9 {
		t.Errorf("a sound shop is %g likely, its tools apart %g", want, sum)
	}
	at, ok := f.rig.place["tool.impact"]
	if !ok || f.rig.hard[at] < wideTool {
		t.Fatal("the wrench's plate leaves nothing open")
	}
	real := newTruth(f.rig, 3, []fault{{Greedy, at, math.Exp(f.rig.hard[at])}})
	if a := session(t, f, real, f.usual[0]); a.Found {
		t.Errorf("one deviation above its plate: %s", a.Verdict)
	}
}
