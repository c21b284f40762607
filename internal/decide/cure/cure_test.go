package cure

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model/shoptest"
)

var ctx = context.Background()

func benchOf(t *testing.T, j *job.Job) (*Bench, *flow.Answer) {
	t.Helper()
	s := study.Of(j, catalog.Builtin())
	m, err := s.Model(ctx)
	if err != nil {
		t.Fatal(err)
	}
	f, err := s.Flow(ctx)
	if err != nil {
		t.Fatal(err)
	}
	return NewBench(s, m, f, 0, unit.Metric), f
}

// worst is a tool's state in its worst set.
func worst(t *testing.T, f *flow.Answer, tool job.ID) (int, *flow.Tool) {
	t.Helper()
	for _, w := range f.Tools {
		if w.Tool != tool {
			continue
		}
		for k := range f.Sets[w.Set].CutIn.Tools {
			if x := &f.Sets[w.Set].CutIn.Tools[k]; x.Tool == tool && x.Outlet == w.Outlet {
				return w.Set, x
			}
		}
	}
	t.Fatalf("%s is in no set", tool)
	return 0, nil
}

// TestNothing: a change that moves no air gains nothing and harms nobody.
func TestNothing(t *testing.T) {
	b, f := benchOf(t, shoptest.Bench())
	trial, err := b.Try(ctx, Set("outlet.a", "name", "another name"))
	if err != nil {
		t.Fatal(err)
	}
	if harmed, err := trial.Harmed(ctx, everywhere); err != nil || len(harmed) > 0 {
		t.Errorf("harmed %v, %v", harmed, err)
	}
	for i := range f.Sets {
		for _, x := range f.Sets[i].CutIn.Tools {
			p, known, err := trial.Pressure(ctx, i, job.InUse{Tool: x.Tool, Outlet: x.Outlet})
			if err != nil || known != x.Known || math.Abs(float64(p-x.Pressure)) > 1 {
				t.Errorf("%s: %v, was %v (%v)", x.Tool, p, x.Pressure, err)
			}
		}
	}
}

// TestHarm: a hose that is too thin makes its tools short, and is found out.
func TestHarm(t *testing.T) {
	j := shoptest.Bench()
	j.Tools[0].Least = shoptest.To(unit.GaugePressure(500e3))
	b, f := benchOf(t, j)
	_, sander := worst(t, f, "tool.sander")
	if sander.Margin < 0 {
		t.Fatalf("the sander is short by %v as it is", sander.Margin)
	}
	trial, err := b.Try(ctx, Set("hose.b", "item", "rubber-1/4"), Set("hose.b", "length_m", 40), Set("hose.c", "length_m", 40))
	if err != nil {
		t.Fatal(err)
	}
	harmed, err := trial.Harmed(ctx, everywhere)
	if err != nil || !slices.Contains(harmed, "tool.sander") {
		t.Errorf("harmed %v, %v; want the sander", harmed, err)
	}
}

// TestRefused: an edit that does not fit is told as a refusal.
func TestRefused(t *testing.T) {
	b, _ := benchOf(t, shoptest.Bench())
	_, err := b.Try(ctx, Set("hose.nowhere", "item", "rubber-1/2"))
	var r *job.Refusal
	if !errors.As(err, &r) {
		t.Errorf("error %v, want a refusal", err)
	}
}

// short is the bench with a wrench on a long thin hose.
func short() *job.Job {
	j := shoptest.Bench()
	j.Outlets[2].Hose.Length = 25
	j.Outlets[2].Tools = []job.ID{"tool.wrench"}
	j.Tools[1].Flow = &job.Flow{Value: 0.006, Reference: "iso1217"}
	j.Tools[1].Least = shoptest.To(unit.GaugePressure(550e3))
	return j
}

// TestFor: each cure that says it cures does so when the job is built anew with it.
func TestFor(t *testing.T) {
	j := short()
	b, f := benchOf(t, j)
	set, got := worst(t, f, "tool.wrench")
	if got.Margin >= 0 {
		t.Fatalf("the wrench has %v in hand: the test wants it short", got.Margin)
	}
	advice, err := b.For(ctx, set, got)
	if err != nil {
		t.Fatal(err)
	}
	if !advice.Alone || advice.SupplyUnder || len(advice.Cures) == 0 {
		t.Fatalf("advice %+v", advice)
	}
	if first := advice.Cures[0]; !first.Cures || !first.Verified {
		t.Errorf("first is %+v", first)
	}
	for _, c := range advice.Cures {
		after := j
		for _, form := range c.Edits {
			edit, bad := job.ParseEdit(form)
			if bad != nil {
				t.Fatal(bad)
			}
			if after, _, err = edit.Apply(after); err != nil {
				t.Fatal(err)
			}
		}
		_, fresh := benchOf(t, after)
		for i := range fresh.Sets[set].CutIn.Tools {
			x := &fresh.Sets[set].CutIn.Tools[i]
			if x.Tool != got.Tool {
				continue
			}
			gain := float64(x.Pressure - got.Pressure)
			if math.Abs(gain-*c.GainPa) > 50 {
				t.Errorf("%q promises %.0f Pa and gives %.0f", c.Words, *c.GainPa, gain)
			}
			if (x.Margin >= 0) != c.Cures {
				t.Errorf("%q says cures %v and leaves %v", c.Words, c.Cures, x.Margin)
			}
		}
	}
}

// TestSupplyUnder: where cut-in is below the need, only the cut-in is proposed.
func TestSupplyUnder(t *testing.T) {
	j := short()
	j.Tools[1].Least = shoptest.To(unit.GaugePressure(720e3))
	b, f := benchOf(t, j)
	set, got := worst(t, f, "tool.wrench")
	advice, err := b.For(ctx, set, got)
	if err != nil {
		t.Fatal(err)
	}
	if !advice.SupplyUnder {
		t.Error("a need of 720 kPa at a cut-in of 700 kPa is not told")
	}
	for _, c := range advice.Cures {
		for _, e := range c.Edits {
			edit, _ := job.ParseEdit(e)
			if s, ok := edit.(*job.Change); !ok || s.Key != "part.compressor.cut_in_kPa_g" {
				t.Errorf("%q is proposed", c.Words)
			}
		}
	}
}

// TestSwapMates: after a change of couplers everything still goes together.
func TestSwapMates(t *testing.T) {
	j := shoptest.Bench()
	for i := range j.Tools {
		j.Tools[i].Plug = "industrial-1/4"
	}
	for i := range j.Outlets {
		j.Outlets[i].Hose.Plug, j.Outlets[i].Hose.Socket = "industrial-1/4", "industrial-1/4"
		j.Outlets[i].Hang[len(j.Outlets[i].Hang)-1].Item = "industrial-1/4"
	}
	b, _ := benchOf(t, j)
	swap := b.endSwap(&j.Outlets[0], "industrial-3/8")
	trial, err := b.Try(ctx, swap.edits...)
	if err != nil {
		t.Fatal(err)
	}
	after := trial.Study().Job()
	for _, o := range after.Outlets {
		for _, id := range o.Tools {
			for _, tool := range after.Tools {
				if tool.ID != id {
					continue
				}
				if answer, _ := b.shelf.Mates(o.Hose.Socket, tool.Plug); answer != "yes" {
					t.Errorf("%s: %s into %s: %s", o.ID, tool.Plug, o.Hose.Socket, answer)
				}
			}
		}
	}
}

// TestStretch: a ring is one stretch, a drop another, and a new size reaches the tees.
func TestStretch(t *testing.T) {
	j := shoptest.Ring(4)
	for i := range j.Net.Points {
		if j.Net.Points[i].Part.Kind == "tee" {
			j.Net.Points[i].Part.Size, j.Net.Points[i].Part.Size2 = "3/4", "1/2"
		}
	}
	ix := job.NewIndex(j)
	ring := StretchOf(ix, ix.Run("line.ring-1"))
	if len(ring.Runs) != 5 {
		t.Errorf("the ring has %d runs, want 5", len(ring.Runs))
	}
	edits := ring.Resize(ix, "1")
	after, _, err := job.AllOf("", edits...).Apply(j)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range after.Net.Points {
		if p.Part.Kind == "tee" && (p.Part.Size != "1" || p.Part.Size2 != "1/2") {
			t.Errorf("%s is %s by %s", p.ID, p.Part.Size, p.Part.Size2)
		}
	}
	if drop := StretchOf(ix, ix.Run("line.drop-1")); len(drop.Runs) != 1 {
		t.Errorf("a drop of %d runs", len(drop.Runs))
	}
}

// TestTogether: between what one change gives and what the best two give lies a
// need that only a pair meets; the pair is found and does what it says.
func TestTogether(t *testing.T) {
	for least := 600e3; least < 700e3; least += 4e3 {
		j := short()
		j.Tools[1].Least = shoptest.To(unit.GaugePressure(least))
		j.Net.Points[0].Part.Compressor.CutOut = shoptest.To(unit.GaugePressure(771e3)) // no room to raise cut-in
		b, f := benchOf(t, j)
		set, got := worst(t, f, "tool.wrench")
		advice, err := b.For(ctx, set, got)
		if err != nil {
			t.Fatal(err)
		}
		if !advice.Together {
			continue
		}
		pair := advice.Cures[0]
		if advice.Alone || !pair.Cures || !pair.Verified || *pair.GainPa < -float64(got.Margin) {
			t.Errorf("at %.0f Pa: alone %v, pair %+v, margin %v", least, advice.Alone, pair, got.Margin)
		}
		return
	}
	t.Error("no need was found that takes two changes")
}

// TestBears: a regulator is not set above what a tool behind it bears.
func TestBears(t *testing.T) {
	j := shoptest.Bench()
	j.Tools[0].Least = shoptest.To(unit.GaugePressure(640e3))
	j.Tools[0].Most = shoptest.To(unit.GaugePressure(630e3))
	j.Outlets[2].Tools = []job.ID{"tool.wrench"}
	b, f := benchOf(t, j)
	_, got := worst(t, f, "tool.sander")
	for _, p := range b.proposals(got, 50e3, false) {
		for _, e := range p.edits {
			c := e.(*job.Change)
			if c.Key == "set_kPa_g" && string(c.Value) != "630" {
				t.Errorf("the regulator of a tool that bears 630 kPa is proposed at %s kPa", c.Value)
			}
		}
	}
}
