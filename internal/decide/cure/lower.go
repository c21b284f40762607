package cure

import (
	"context"
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/shop/job"
)

// mostLowered is how many settings are tried, each half as low as the one before.
const mostLowered = 4

// LowerSet finds by how much cut-in and cut-out may come down with every tool still
// having its pressure and the margin, in every set and, in a small shop, in a few working days. By is 0 where
// some tool has nothing in hand, or where no step that people set by helps.
func (b *Bench) LowerSet(ctx context.Context) (by float64, c job.Cure, err error) {
	hand, cutIn, cutOut := math.Inf(1), math.Inf(1), math.Inf(1)
	for _, m := range b.tightest(everywhere) {
		hand = math.Min(hand, m.inHand)
	}
	for _, m := range b.model.Compressors() {
		cutIn, cutOut = math.Min(cutIn, float64(m.CutIn)), math.Min(cutOut, float64(m.CutOut))
	}
	if math.IsInf(hand, 1) || math.IsInf(cutIn, 1) {
		return 0, job.Cure{}, nil
	}
	for try := 0; try < mostLowered; try++ {
		if by = b.roundDown(math.Min(hand, cutIn)); by <= 0 {
			break
		}
		var edits []job.Edit
		for _, m := range b.model.Compressors() {
			// The cut-in first: the band may widen on the way, never turn over.
			edits = append(edits, Set(m.ID, "part.compressor.cut_in_kPa_g", kilo(float64(m.CutIn)-by)), Set(m.ID, "part.compressor.cut_out_kPa_g", kilo(float64(m.CutOut)-by)))
		}
		ok, err := b.staysEnough(ctx, edits)
		if err != nil {
			return 0, job.Cure{}, err
		}
		if ok {
			words := "cut-in set to " + b.text(unit.KindGauge, cutIn-by) + " and cut-out to " + b.text(unit.KindGauge, cutOut-by)
			return by, job.Cure{Words: words, Edits: forms(edits), Cures: true, Verified: true}, nil
		}
		hand /= 2
	}
	return 0, job.Cure{}, nil
}

// mostLowerWork is up to how large a shop (study.Work) the days are looked at too: in a
// larger one the sets alone must do, so that a finding comes in good time.
const mostLowerWork = 6000

// staysEnough says whether after edits nobody is short, in any set or, in a small shop, in
// a few working days.
func (b *Bench) staysEnough(ctx context.Context, edits []job.Edit) (bool, error) {
	t, err := b.Try(ctx, edits...)
	if refused(err) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	if harmed, err := t.Harmed(ctx, everywhere); err != nil || len(harmed) > 0 {
		return false, err
	}
	if work, err := b.study.Work(ctx); err != nil || work > mostLowerWork {
		return err == nil, err
	}
	before, err := b.study.Few(ctx)
	if err != nil {
		return false, err
	}
	after, err := t.study.Few(ctx)
	if err != nil || after.Untold != "" || before.Untold != "" {
		return false, err
	}
	return mostShort(after) <= mostShort(before)+alike, nil
}

// mostShort is the greatest share of its working time that any tool is short for.
func mostShort(a *day.Answer) float64 {
	most := 0.0
	for i := range a.Tools {
		most = math.Max(most, float64(a.Tools[i].Short))
	}
	return most
}
