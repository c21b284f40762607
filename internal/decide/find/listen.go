package find

import (
	"context"
	"math"
	"slices"
)

// What a complaint says: who calls a tool weak misses about so much pressure at it,
// and now and then means something else. What takes air out of the receiver makes any
// tool weak. Common practice, no source.
const (
	missed    = 25e3 // Pa
	otherwise = 0.1  // chance of the complaint where the tool lacks nothing
	drained   = 0.5  // the same where the receiver falls
)

// listen works out what each single trial takes from the tool complained of, and how
// well that goes with the complaint. Nothing wrong goes with it as well as all that
// may be wrong does together: its share is of shops that somebody calls weak.
func (f *Finder) listen(ctx context.Context) error {
	if f.first == nil {
		for i := range f.singles {
			f.singles[i].lack, f.singles[i].heard = 0, 0
		}
		f.heeded = nil
		return nil
	}
	use := f.first.Running[0]
	if !slices.Equal(f.heeded, f.first.Running) {
		r := Reading{Kind: Pressure, Place: Place{At: use.Outlet, Tool: use.Tool}, Running: f.first.Running, Receiver: f.rig.middle()}
		sound, err := f.rig.predict(ctx, &r, f.sound().faults)
		if err != nil {
			return err
		}
		// Whoever gives up half way leaves lacks of two sets.
		f.heeded = nil
		for i := range f.singles {
			p, err := f.rig.predict(ctx, &r, f.singles[i].faults)
			if err != nil {
				return err
			}
			f.singles[i].lack = 0
			if p.known && sound.known {
				f.singles[i].lack = sound.mean - p.mean
			}
		}
		f.heeded = f.first.Running
	}
	mean, all := 0.0, 0.0
	for i := range f.singles {
		t := &f.singles[i]
		t.heard = f.hear(t)
		if f.causes[t.causes[0]].sort != None {
			mean += math.Exp(t.prior + t.heard)
			all += math.Exp(t.prior)
		}
	}
	for i := range f.singles {
		if t := &f.singles[i]; f.causes[t.causes[0]].sort == None {
			t.heard = math.Log(mean / all)
		}
	}
	return nil
}

// hear is ln of the chance that a trial is complained of so.
func (f *Finder) hear(t *trial) float64 {
	return f.hearing(t.lack, f.drains(t.causes[0]) || t.causes[1] >= 0 && f.drains(t.causes[1]))
}

// hearBoth is hear of two single trials together.
func (f *Finder) hearBoth(a, b *trial) float64 {
	return f.hearing(a.lack+b.lack, f.drains(a.causes[0]) || f.drains(b.causes[0]))
}

func (f *Finder) drains(cause int) bool {
	sort := f.causes[cause].sort
	return sort == Weak || sort == Leaking
}

func (f *Finder) hearing(lack float64, drains bool) float64 {
	if f.first == nil {
		return 0
	}
	x := max(lack, 0) / missed
	chance := otherwise + (1-otherwise)*(1-math.Exp(-x*x))
	if drains {
		chance = max(chance, drained)
	}
	return math.Log(chance)
}
