package find

import (
	"context"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

// mostReadings is how many readings the program may ask for.
const mostReadings = 6

// drawn is a fault of a generated shop and the cause it is.
type drawn struct {
	fault fault
	cause int
}

// draw puts a fault somewhere: by classes that are not the program's own odds,
// elements and nodes alike within a class.
func (f *Finder) draw(rng *rand.Rand) drawn {
	want := Restricted
	switch x := rng.Float64(); {
	case x < 0.6:
	case x < 0.75:
		want = Leaking
	case x < 0.85:
		want = Greedy
	case x < 0.95:
		want = Weak
	default:
		want = MisSet
	}
	var of []int
	for i := range f.causes {
		if f.causes[i].sort == want {
			of = append(of, i)
		}
	}
	if len(of) == 0 {
		return f.draw(rng)
	}
	i := of[rng.IntN(len(of))]
	c := &f.causes[i]
	d := drawn{fault{want, c.at, 0}, i}
	switch want {
	case Restricted:
		d.fault.size = f.holeFor(c, 30e3*math.Pow(400.0/30, rng.Float64()))
	case Leaking:
		d.fault.size = between(rng, 1.5e-3, 5e-3)
	case Greedy:
		d.fault.size = between(rng, 1.4, 2.5)
	case Weak:
		d.fault.size = between(rng, 0.3, 0.75)
	case MisSet:
		d.fault.size = -between(rng, 50e3, 200e3)
	}
	return d
}

// holeFor is the bore that takes a loss from the greatest flow that an element sees.
func (f *Finder) holeFor(c *cause, loss float64) float64 {
	most := 0.0
	for _, set := range f.sets {
		mo, _ := f.rig.at(context.Background(), set, f.rig.middle())
		if mo.sound != nil {
			most = max(most, math.Abs(mo.sound.Flow[c.at]))
		}
	}
	p := float64(f.rig.middle()) + f.rig.atm
	rho := p / f.rig.m.Gas().RT()
	return math.Sqrt(4 / math.Pi * most / (0.7 * math.Sqrt(2*rho*loss)))
}

// victim is the set and tool that the faults take most from: what is complained of.
func (f *Finder) victim(t *truth, sound *truth) []job.InUse {
	var best []job.InUse
	worst := 0.0
	for _, set := range f.usual {
		a, errA := t.solve(set, float64(f.rig.middle()))
		b, errB := sound.solve(set, float64(f.rig.middle()))
		if errA != nil || errB != nil {
			continue
		}
		for i, u := range set {
			pair, _ := f.rig.m.PairOf(u)
			if lack := b.Pressure[pair.Node] - a.Pressure[pair.Node]; best == nil || lack > worst {
				// Who suffers is spoken of first.
				worst, best = lack, slices.Concat([]job.InUse{u}, set[:i], set[i+1:])
			}
		}
	}
	return best
}

// session plays a person with a gauge, from the complaint on as proposed.
func session(t *testing.T, f *Finder, real *truth, weak []job.InUse) *Answer {
	f.forget()
	f.heed(Understood{Running: weak})
	return goOn(t, f, real)
}

// goOn takes what is proposed, so many readings at most.
func goOn(t *testing.T, f *Finder, real *truth) *Answer {
	ctx := context.Background()
	for n := 0; ; n++ {
		a, err := f.Answer(ctx)
		if err != nil {
			t.Fatal(err)
		}
		if n == mostReadings || a.Next == nil {
			return a
		}
		r, ok := real.take(a.Next.Reading)
		if !ok {
			return a
		}
		if err := f.Add(ctx, r); err != nil {
			t.Fatal(err)
		}
	}
}

// score counts how often the thing that is wrong is found.
type score struct {
	n, first, three, firstGroup, threeGroup, oneFirst, oneThree, alarm, soundFirst, readings int
	mended                                                                                   mended
}

// rank is where a cause stands: among things, each group's members one by one,
// and among groups; 1000 for nowhere.
func (f *Finder) rank(a *Answer, cause int) (thing, group int) {
	c, at := &f.causes[cause], 0
	thing, group = 1000, 1000
	for g := range a.Causes {
		x := &a.Causes[g]
		if x.Sort == None {
			continue
		}
		if x.group == c.group {
			group = min(group, g)
		}
		for _, m := range x.Members {
			if x.Sort == c.sort && m.ID == c.id {
				thing = min(thing, at)
			}
			at++
		}
	}
	if a.Causes[0].Sort == None {
		return thing + 1, group
	}
	return thing, group
}

// TestMeasure generates faults over the examples and counts. It is long: set
// FIND_MEASURE to the number of shops of each kind, FIND_SEED to the
// seed, FIND_SHOP to one example alone, FIND_KIND to one number of faults.
func TestMeasure(t *testing.T) {
	n, _ := strconv.Atoi(os.Getenv("FIND_MEASURE"))
	if n == 0 {
		t.Skip("long; set FIND_MEASURE to the number of shops of each kind")
	}
	seed, _ := strconv.ParseUint(os.Getenv("FIND_SEED"), 10, 64)
	var total [3]score
	for _, e := range example.All() {
		if only := os.Getenv("FIND_SHOP"); only != "" && only != e.Name {
			continue
		}
		raw, _ := example.Read(e.Name)
		j, _ := job.Parse(raw)
		j.Records = nil
		f, err := Blank(context.Background(), study.Of(j, catalog.Builtin()), unit.Metric)
		if err != nil {
			t.Fatal(err)
		}
		for kind := range total {
			if only := os.Getenv("FIND_KIND"); only != "" && only != strconv.Itoa(kind) {
				continue
			}
			rng := rand.New(rand.NewPCG(seed, uint64(kind)))
			for range n {
				count(t, f, rng, kind, &total[kind])
			}
		}
		t.Log(e.Name, len(f.rig.links), "elements", len(f.groups), "groups")
	}
	for kind, s := range total {
		t.Logf("%d faults: %d shops, things first %.2f, among three %.2f; groups first %.2f, among three %.2f; one of them first %.2f, among three %.2f; sound first %.2f, alarm %.2f; %.1f readings",
			kind, s.n, share(s.first, s.n), share(s.three, s.n), share(s.firstGroup, s.n), share(s.threeGroup, s.n), share(s.oneFirst, s.n), share(s.oneThree, s.n), share(s.soundFirst, s.n), share(s.alarm, s.n), share(s.readings, s.n))
	}
	t.Log(total[2].mended)
}

func share(k, n int) float64 { return float64(k) / float64(max(n, 1)) }

// count plays one generated shop. Of two faults both must be there: first is
// both as the first two.
func count(t *testing.T, f *Finder, rng *rand.Rand, kind int, s *score) {
	var faults []fault
	var causes []int
	for len(faults) < kind {
		d := f.draw(rng)
		if !slices.Contains(causes, d.cause) && (len(causes) == 0 || f.causes[causes[0]].group != f.causes[d.cause].group) {
			faults, causes = append(faults, d.fault), append(causes, d.cause)
		}
	}
	seed := rng.Uint64()
	real := newTruth(f.rig, seed, faults)
	a := session(t, f, real, f.victim(real, newTruth(f.rig, seed, nil)))
	s.n++
	s.readings += len(f.read)
	if a.Found {
		s.alarm++
	}
	if a.Causes[0].Sort == None {
		s.soundFirst++
	}
	show := os.Getenv("FIND_SHOW") != ""
	if kind == 0 {
		if show && a.Found {
			t.Log("found in a sound shop:", a.Verdict)
			f.showRead(t)
		}
		return
	}
	thing, group, best := 0, 0, 1000
	for _, c := range causes {
		x, y := f.rank(a, c)
		thing, group, best = max(thing, x), max(group, y), min(best, y)
	}
	tally(best, 1, &s.oneFirst, &s.oneThree)
	if show && group > 0 {
		for i, c := range causes {
			t.Logf("%s %s %s %.3g: group rank %d, sizes of groups %d; said %s", f.causes[c].sort, f.causes[c].id, f.causes[c].leg, faults[i].size, group, len(f.groups[f.causes[c].group]), a.Causes[0].Words)
		}
		f.showRead(t)
	}
	if kind == 2 {
		s.mended.count(t, f, real, a, faults, causes)
	}
	tally(thing, kind, &s.first, &s.three)
	tally(group, kind, &s.firstGroup, &s.threeGroup)
}

func (f *Finder) showRead(t *testing.T) {
	for i := range f.read {
		t.Log("   ", f.readWords(&f.read[i]))
	}
}

func tally(rank, faults int, first, three *int) {
	if rank < faults {
		*first++
	}
	if rank < 3 {
		*three++
	}
}
