package start

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
)

// assume notes what was taken for granted, with the key of the answers that says otherwise.
func (b *brief) assume(key, format string, args ...any) {
	b.said = append(b.said, Assumption{fmt.Sprintf(format, args...), key})
}

// tell adds what was assumed on the way.
func (b *brief) tell(t *tried, r *round, c stand) {
	b.tellPlant(t.study.Job())
	b.tellLines(t.study.Job())
	for _, s := range c.seats {
		if off := r.gap(s.t, s.wanted); off > 0.05 && len(b.Places) > 0 {
			b.assume("places", "“%s” stands %s from where it was wanted, clear of doors, corners, the compressor and its neighbours.", s.name, b.long(off))
		}
		if s.set > 0 {
			more := ""
			if strings.HasSuffix(s.name, b.apartBy(s.set)) {
				more = "; what bears more has an outlet of its own beside it"
			}
			b.assume("", "“%s” has a regulator set to %s for what is used there%s.", s.name, b.pressure(s.set), more)
		}
	}
	if b.Hose == 0 {
		b.assume("hose_m", "Each outlet has a hose of %s.", b.long(float64(b.hoseLength())))
	}
	if b.OutletUp == 0 {
		b.assume("outlet_up_m", "Outlets sit %s over the floor.", b.long(outletUp))
	}
	for i, row := range b.tools {
		if row.Least >= b.cutIn() {
			b.assume("compressor.cut_in_kPa_g", "%s wants %s, and the compressor cuts in at %s: it waits for the receiver to fill.", titled(b.names[i]), b.pressure(row.Least), b.pressure(b.cutIn()))
		}
	}
	b.assume("", "Each tool has the share of time in use that is usual for its kind, and comes and goes by chance.")
	for _, n := range t.notes {
		b.assume("", "%s.", titled(trimmed(n)))
	}
	if b.Budget != "" {
		b.assume("budget", "Budget: %s.", trimmed(b.Budget))
	}
}

// tellPlant tells of the compressor and its receiver.
func (b *brief) tellPlant(j *job.Job) {
	p := &b.Compressor
	switch {
	case b.chosen:
		b.assume("compressor.machine", "No compressor was named: this plan takes the smallest class that does, %s.", b.machine.Words)
	case p.FreeAir == nil:
		b.assume("compressor.free_air", "The compressor delivers what its class does (%s); the plate counts, read it.", b.machine.Words)
	case p.CutIn == nil || p.CutOut == nil:
		b.assume("compressor.cut_in_kPa_g", "The compressor cuts in at %s and out at %s: read the pressure switch.", b.pressure(b.cutIn()), b.pressure(b.cutOut()))
	}
	if b.owned() {
		b.assume("", "Compressor and receiver are there already, with relief valve and drain: they are not on the shopping list.")
	}
	if b.bare {
		b.assume("", "No filter of the catalogue bears what the relief valve opens at: a water separator stands in its place.")
	}
	if p.Place == nil {
		b.assume("compressor.place", "The compressor stands where the main gets shortest.")
	}
	if p.Volume == nil {
		b.assume("compressor.volume_L", "The receiver holds %s, usual for the class.", unit.System(b.Units).Text(unit.KindVolume, float64(b.volume()), unit.Env{}))
	}
	for i := range j.Net.Points {
		if part := &j.Net.Points[i].Part; part.Volume != nil && part.Rating != nil {
			b.assume("", "The receiver is stamped for %s or more: read the plate before anything is set.", b.pressure(*part.Rating))
		}
	}
}

// tellLines tells how the mains run.
func (b *brief) tellLines(j *job.Job) {
	ix := job.NewIndex(j)
	high, falls := math.Inf(-1), 0.0
	for i := range j.Net.Runs {
		run := &j.Net.Runs[i]
		if run.Role != "main" && run.Role != "branch" {
			continue
		}
		for _, p := range ix.Centreline(run) {
			high = math.Max(high, p[2])
		}
		if run.Slope != nil {
			falls = float64(*run.Slope)
		}
	}
	if math.IsInf(high, -1) {
		return
	}
	high -= float64(j.Building.Rooms[0].Floor)
	rule := float64(j.RuleSlope().Value)
	if falls > 0 {
		b.assume("room.height_m", "The main hangs %s over the floor at its highest and falls 1 in %.0f to drains at its ends.", b.long(high), 1/falls)
	}
	if falls < rule-1e-9 {
		b.assume("room.height_m", "The room is too low for a fall of 1 in %.0f over this length.", 1/rule)
	}
}

// facts is what the plan comes to: lines, pieces, what is to be bought, the tool that has
// least to spare, and what is proved.
func (b *brief) facts(ctx context.Context, t *tried) ([]string, error) {
	taken, err := t.study.Parts(ctx)
	if err != nil {
		return nil, err
	}
	metres, fittings := 0.0, 0
	for i := range taken.Lines {
		l := &taken.Lines[i]
		switch l.Group {
		case parts.Stock:
			if l.Length != nil {
				metres += float64(*l.Length)
			}
		case parts.Fitting, parts.Valve, parts.Drainage:
			fittings += l.Pieces
		}
	}
	out := b.supply(t)
	out = append(out, fmt.Sprintf("%s of line and %s for %s.", b.long(metres), plural(fittings, "fitting"), plural(len(t.study.Job().Outlets), "outlet")))
	bought, err := t.study.Purchase(ctx)
	if err != nil {
		return nil, err
	}
	unsold := 0
	for i := range bought.Needs {
		if !bought.Needs[i].Offered {
			unsold++
		}
	}
	switch {
	case len(bought.Needs) == 0:
	case unsold == len(bought.Needs):
		out = append(out, fmt.Sprintf("%s to buy; no supplier's prices are in yet: bring in a list under “What do I buy and what does it cost?”.", titled(plural(len(bought.Needs), "article"))))
	default:
		out = append(out, fmt.Sprintf("%s to buy, %d of them without a price.", titled(plural(len(bought.Needs), "article")), unsold))
	}
	if text := b.tightest(t); text != "" {
		out = append(out, text)
	}
	if t.proof != "" {
		out = append(out, titled(t.proof)+".")
	}
	return out, nil
}

// supply tells where the compressor does not deliver what tools take together, which no line mends.
func (b *brief) supply(t *tried) []string {
	if !t.supplyShort() {
		return nil
	}
	most := 0.0
	for i := range t.flow.Sets {
		most = math.Max(most, float64(t.flow.Sets[i].Supply.Taken))
	}
	text := func(q float64) string { return unit.System(b.Units).Text(unit.KindFlow, q, unit.Env{}) }
	return []string{fmt.Sprintf("The compressor delivers %s, and tools that may run together take %s for longer than the receiver bridges it. No line mends that: look at “Is there enough air?” before anything is bought.", text(b.plate().FreeAir.Value), text(most))}
}

// tightest tells of the tool that has least to spare at the cut-in.
func (b *brief) tightest(t *tried) string {
	worst := -1
	for i := range t.flow.Tools {
		w := &t.flow.Tools[i]
		if w.Set >= 0 && w.Known && (worst < 0 || w.Margin < t.flow.Tools[worst].Margin) {
			worst = i
		}
	}
	if worst < 0 {
		return ""
	}
	w := &t.flow.Tools[worst]
	name := string(w.Tool)
	if k := slices.IndexFunc(t.study.Job().Tools, func(x job.Tool) bool { return x.ID == w.Tool }); k >= 0 {
		name = t.study.Job().Tools[k].Name
	}
	return fmt.Sprintf("The tool with least to spare, %s, gets %s at the least and needs %s.", name, b.pressure(w.Pressure), b.pressure(w.Least))
}

// gap is the distance of two places on the round, the shorter way.
func (r *round) gap(a, b float64) float64 {
	d := r.wrap(a - b)
	return min(d, r.total-d)
}
