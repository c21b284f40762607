package find

import (
	"context"
	"fmt"
	"os"
	"slices"
	"testing"
)

// mended counts how a person fares who mends what is found and goes on: of two faults, the
// one that is named is mended, what is named and is sound is looked at and told so, and
// after as many readings again the other is wanted.
type mended struct {
	n, oneFirst, oneThree, otherFirst, otherThree, bothFirst, bothThree, over int
}

func (m mended) String() string {
	of := func(k, n int) string { return fmt.Sprintf("%.2f (%d of %d)", share(k, n), k, n) }
	return fmt.Sprintf("mended and gone on: one first %s, among three %s; then the other first %s, among three %s; both so %s, %s; with the other mended too, nothing else found wrong %s",
		of(m.oneFirst, m.n), of(m.oneThree, m.n), of(m.otherFirst, m.oneThree), of(m.otherThree, m.oneThree), of(m.bothFirst, m.n), of(m.bothThree, m.n), of(m.over, m.otherThree))
}

func (m *mended) count(t *testing.T, f *Finder, real *truth, a *Answer, faults []fault, causes []int) {
	// Whoever has a thing in his hands mends all that is wrong with it: of two faults on one
	// there is no other to look for.
	if f.causes[causes[0]].id == f.causes[causes[1]].id {
		return
	}
	m.n++
	at, was := f.mend(t, a, causes)
	if at == 0 {
		m.oneFirst++
	}
	if at < 0 {
		return
	}
	m.oneThree++
	real.right(faults[was])
	faults, causes = faults[1-was:2-was], causes[1-was:2-was]
	a = goOn(t, f, real)
	other, was := f.mend(t, a, causes)
	if other == 0 {
		m.otherFirst++
		if at == 0 {
			m.bothFirst++
		}
	}
	if other < 0 {
		if os.Getenv("FIND_SHOW") != "" {
			c := &f.causes[causes[0]]
			t.Logf("not found after mending: %s %s %s %.3g; said %.2f %s", c.sort, c.id, c.leg, faults[0].size, a.Causes[0].Chance, a.Causes[0].Words)
			for i := range f.taken {
				t.Log("   ", f.readWords(&f.taken[i]))
			}
		}
		return
	}
	m.otherThree++
	m.bothThree++
	real.right(faults[was])
	if a = goOn(t, f, real); !a.Found {
		m.over++
	}
}

// mend looks at the first three that are named, one thing after the other, until one of those
// that are wrong is found, and mends it; -1 where none is.
func (f *Finder) mend(t *testing.T, a *Answer, causes []int) (at, which int) {
	named := 0
	for i := range a.Causes {
		x := &a.Causes[i]
		if x.Sort == None {
			continue
		}
		if named == 3 {
			break
		}
		for _, member := range x.Members {
			r := Reading{Kind: Look, Thing: member.ID, Found: Sound}
			which = slices.IndexFunc(causes, func(c int) bool { return f.causes[c].sort == x.Sort && f.causes[c].id == member.ID })
			if which >= 0 {
				r.Found = Mended
			}
			if err := f.Add(context.Background(), r); err != nil {
				t.Fatal(err)
			}
			if which >= 0 {
				return named, which
			}
		}
		named++
	}
	return -1, -1
}

// TestPairOnOneThing: two faults on one thing are found by one mending, and count neither as
// searched for nor as found.
func TestPairOnOneThing(t *testing.T) {
	f := regulated(t)
	var causes []int
	var faults []fault
	for i := range f.causes {
		if c := &f.causes[i]; c.id == "point.regulator" && c.sort != Leaking {
			causes, faults = append(causes, i), append(faults, fault{c.sort, c.at, c.rungs[0]})
		}
	}
	if len(causes) != 2 {
		t.Fatal(causes)
	}
	named := Cause{Sort: Restricted, Members: []Member{{ID: "point.regulator"}}}
	var m mended
	m.count(t, f, newTruth(f.rig, 1, faults), &Answer{Causes: []Cause{named}}, faults, causes)
	if m != (mended{}) {
		t.Error(m)
	}
}
