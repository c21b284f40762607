package start

import (
	"cmp"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// machines lists the classes of compressor by what they deliver, the one that cuts
// in lower first of those that deliver the same.
func machines(shelf *catalog.Catalog) []catalog.Machine {
	out := shelf.Machines()
	slices.SortStableFunc(out, func(a, b catalog.Machine) int {
		return cmp.Or(cmp.Compare(a.FreeAir.Value, b.FreeAir.Value), cmp.Compare(a.CutIn, b.CutIn))
	})
	return out
}

// nearestMachine is the class most like a plate, by power where it states one.
func nearestMachine(all []catalog.Machine, c *Compressor) catalog.Machine {
	best, least := all[0], math.Inf(1)
	for _, m := range all {
		off := math.Abs(math.Log(m.FreeAir.Value / math.Max(c.FreeAir.Value, 1e-6)))
		if c.Power != nil {
			off = math.Abs(math.Log(float64(m.Power) / float64(*c.Power)))
		}
		if off < least {
			best, least = m, off
		}
	}
	return best
}

// better is the plainest class that bridges what the sets take, and of those that
// do one that cuts in above a pressure; ok is false where that is the one in use
// already, or a lesser one.
func (b *brief) better(t *tried, over unit.GaugePressure) (catalog.Machine, bool) {
	all := machines(b.shelf)
	for i, m := range all {
		if m.FreeAir.Value < b.machine.FreeAir.Value || m.Machine == b.machine.Machine {
			continue
		}
		if m.CutIn > over && (t.bridged(m) || i == len(all)-1) {
			return m, true
		}
	}
	return b.machine, false
}

// next is the plainest class that delivers more than the one in use.
func (b *brief) next() (catalog.Machine, bool) {
	for _, m := range machines(b.shelf) {
		if m.FreeAir.Value > b.machine.FreeAir.Value {
			return m, true
		}
	}
	return b.machine, false
}

// bridged says whether a class delivers what each set takes, with what its usual
// receiver adds over the longest burst: the isothermal fall of the receiver, as
// the answer on flow works it out.
func (t *tried) bridged(m catalog.Machine) bool {
	const free = 1e5 // Pa: free air
	burst := map[job.ID]float64{}
	for _, tool := range t.model.Tools() {
		burst[tool.ID] = float64(tool.Burst)
	}
	leak := float64(t.study.Job().RuleLeak().Value)
	for i := range t.flow.Sets {
		s := &t.flow.Sets[i]
		longest := 0.0
		for _, u := range s.Running {
			longest = max(longest, burst[u.Tool])
		}
		short := float64(s.Supply.Taken) - (1-leak)*m.FreeAir.Value
		if short > 0 && short*longest > float64(m.Receiver)*float64(m.CutOut-m.CutIn)/free {
			return false
		}
	}
	return true
}

// plate is the compressor of the job: as said, filled in from the class.
func (b *brief) plate() *job.Compressor {
	c, m := &b.Compressor, b.machine
	in, out := b.cutIn(), b.cutOut()
	p := &job.Compressor{FreeAir: c.FreeAir, At: c.At, CutIn: &in, CutOut: &out, Control: m.Control, Power: c.Power, Stages: m.Stages}
	if p.FreeAir == nil {
		p.FreeAir = &job.Flow{Value: m.FreeAir.Value, Reference: "iso1217"}
	}
	if p.At == nil {
		at := m.At
		if c.FreeAir != nil {
			at = in
		}
		p.At = &at
	}
	if p.Power == nil && c.FreeAir == nil {
		p.Power = &m.Power
	}
	if m.StartsPerH > 0 {
		p.StartsPerH = &m.StartsPerH
	}
	if m.DutyMost > 0 {
		duty := unit.Ratio(m.DutyMost)
		p.DutyMost = &duty
	}
	return p
}

// owned says whether the answers read a plate: then the machine is there.
func (b *brief) owned() bool { return b.Compressor.FreeAir != nil }

// volume is that of the receiver: as said, or as usual under the class.
func (b *brief) volume() unit.Volume {
	switch {
	case b.Compressor.Volume != nil:
		return *b.Compressor.Volume
	case b.machine.Receiver > 0:
		return b.machine.Receiver
	}
	return unit.Volume(0.2)
}

// relief is where the relief valve opens: a tenth over cut-out, to the next tenth
// of a bar, but not over what treatment parts usually bear, as long as it stays
// clear of the cut-out.
func relief(cutOut, bears unit.GaugePressure) unit.GaugePressure {
	set := unit.GaugePressure(math.Ceil(float64(cutOut)*1.1/1e4-1e-6) * 1e4)
	if set > bears && float64(bears) >= 1.03*float64(cutOut) {
		set = bears
	}
	return set
}

// stamp is the rating assumed for the receiver: the usual 11 bar, or what goes
// with a relief valve set higher.
func stamp(relief unit.GaugePressure) unit.GaugePressure {
	return max(unit.GaugePressure(1.1e6), unit.GaugePressure(math.Ceil(float64(relief)*1.1/1e5)*1e5))
}
