package cure

import (
	"math"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model/shoptest"
)

// little is the bench on so much store (m³) and free air (m³/s), and what its tools
// that go short are.
func little(t *testing.T, store, air float64) (*Bench, Days) {
	t.Helper()
	j := shoptest.Bench()
	j.Net.Points[0].Part.Compressor.FreeAir = &job.Flow{Value: air, Reference: "iso1217"}
	j.Net.Points[1].Part.Volume = shoptest.To(unit.Volume(store))
	s := study.Of(j, catalog.Builtin())
	m, err := s.Model(ctx)
	if err != nil {
		t.Fatal(err)
	}
	f, err := s.Flow(ctx)
	if err != nil {
		t.Fatal(err)
	}
	a, err := s.Rough(ctx)
	if err != nil || a.Untold != "" {
		t.Fatal(a.Untold, err)
	}
	worst := func(a *day.Answer) (w day.Tool) {
		for _, tool := range a.Tools {
			if tool.Short > w.Short {
				w = tool
			}
		}
		return w
	}
	return NewBench(s, m, f, 0, unit.Metric), Days{
		Answer: a, Short: []day.Tool{worst(a)}, Times: 1.5,
		Enough: func(a *day.Answer) bool { return a.Full && worst(a).Short <= 0.01 },
		Told:   func(*day.Answer) string { return "then" },
		Left:   func(a *day.Answer) float64 { return float64(worst(a).Short) },
	}
}

// TestForDays: each cure, built into a job of its own and worked through by the same
// days, does what it says and hurts nobody.
func TestForDays(t *testing.T) {
	given := 0
	for _, air := range []float64{0.003, 0.0045, 0.006} {
		b, d := little(t, 0.05, air)
		if d.Enough(d.Answer) {
			t.Fatalf("%v m³/s are enough", air)
		}
		cures, err := b.ForDays(ctx, d)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range cures {
			given++
			after := b.job
			for _, form := range c.Edits {
				edit, bad := job.ParseEdit(form)
				if bad != nil {
					t.Fatal(bad)
				}
				if after, _, err = edit.Apply(after); err != nil {
					t.Fatal(err)
				}
			}
			a, err := study.Of(after, catalog.Builtin()).Day(ctx, day.Ask{Seed: d.Answer.Seed, Days: d.Answer.Days})
			if err != nil {
				t.Fatal(err)
			}
			if !c.Verified || d.Enough(a) != c.Cures {
				t.Errorf("%q says cures %v, verified %v; enough is %v", c.Words, c.Cures, c.Verified, d.Enough(a))
			}
			for i, tool := range a.Tools {
				if was := d.Answer.Tools[i]; was.ID != tool.ID || tool.Short > was.Short+2e-3 {
					t.Errorf("%q: %s went short %.4f, now %.4f", c.Words, tool.ID, was.Short, tool.Short)
				}
			}
			for _, k := range a.Compressors {
				if k.Most > 0 && k.Starts > k.Most || k.DutyMost > 0 && k.Duty > k.DutyMost {
					t.Errorf("%q drives %s beyond what it bears: %+v", c.Words, k.ID, k)
				}
			}
		}
	}
	if given < 3 {
		t.Errorf("only %d cures were looked at", given)
	}
}

// TestHarmedInDays: what counts as harm, and what does not.
func TestHarmedInDays(t *testing.T) {
	of := func(full bool, short unit.Ratio, starts float64, duty unit.Ratio) *day.Answer {
		return &day.Answer{
			Full: full, Tools: []day.Tool{{ID: "tool.a", Short: short}},
			Compressors: []day.Compressor{{ID: "point.c", Starts: starts, Most: 10, Duty: duty, DutyMost: 0.6}},
		}
	}
	before := of(true, 0.05, 12, 0.5)
	for _, c := range []struct {
		words string
		after *day.Answer
		harm  bool
	}{
		{"nothing changes", of(true, 0.05, 12, 0.5), false},
		{"less of everything", of(true, 0, 8, 0.4), false},
		{"a tool goes short longer", of(true, 0.06, 12, 0.5), true},
		{"a motor that starts too often starts more", of(true, 0, 13, 0.5), true},
		{"a motor that starts too often starts less, and still too often", of(true, 0, 11, 0.5), false},
		{"duty beyond its limit", of(true, 0, 9, 0.61), true},
		{"cut-out is not reached any more", of(false, 0, 1, 0.5), true},
	} {
		if got := harmedInDays(before, c.after); got != c.harm {
			t.Errorf("%s: harm %v", c.words, got)
		}
	}
}

// TestUsual: a receiver is of a size that is to be had, and no smaller than asked.
func TestUsual(t *testing.T) {
	b, _ := little(t, 0.05, 0.006)
	for _, c := range []struct {
		system      unit.System
		least, want float64
	}{
		{unit.Metric, 0.1, 0.1},
		{unit.Metric, 0.15, 0.2},
		{unit.Metric, 0.241, 0.27},
		{unit.Metric, 0.6, 1},
		{unit.Metric, 1.2, 1.5},
		{unit.US, 88 * gallon, 120 * gallon},
		{unit.US, 120 * gallon, 120 * gallon},
	} {
		b.system = c.system
		if got := b.usual(c.least); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v: for %g m³ %g, want %g", c.system, c.least, got, c.want)
		}
	}
}

// TestReceiverOfTheRemedy: where the days found how much store is enough, that is
// what is tried, in the next size; where none is, none is tried.
func TestReceiverOfTheRemedy(t *testing.T) {
	b, d := little(t, 0.05, 0.006)
	a := *d.Answer
	a.Remedies = []day.Remedy{{What: day.MoreStore, Does: true, Volume: a.Volume + 0.13}}
	d.Answer = &a
	if got := b.receivers(d); len(got) != 1 || !strings.Contains(got[0].words, "200 L instead of 50 L") {
		t.Errorf("proposed %+v", got)
	}
	a.Remedies[0].Does = false
	if got := b.receivers(d); len(got) != 0 {
		t.Errorf("proposed %q though no store does", got[0].words)
	}
}

// TestBand: cut-in is raised for tools and lowered for motors, and keeps the least band.
func TestBand(t *testing.T) {
	b, d := little(t, 0.05, 0.006)
	for _, p := range b.band(d) {
		if p.guess <= 700e3 || p.guess > 900e3-differential {
			t.Errorf("%q for a tool", p.words)
		}
	}
	d.Short, d.Times = nil, 1.3
	got := b.band(d)
	if len(got) != 1 || math.Abs(got[0].guess-640e3) > 1 {
		t.Errorf("a band of 200 kPa that is to be 1.3 times as wide: %+v", got)
	}
}
