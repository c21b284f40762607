package screen

import (
	"context"
	"fmt"
	"math"
	"strconv"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// found gives the findings in a system of units, judged once and kept. The lock
// is not held while judging: two first askers may both work, with one result.
func (s *Shop) found(ctx context.Context, system unit.System) ([]job.Finding, error) {
	s.mu.Lock()
	have, ok := s.judged[system]
	s.mu.Unlock()
	if ok {
		return have, nil
	}
	found, err := s.judge(ctx, s.study, system)
	if err != nil {
		return nil, fmt.Errorf("checking the design: %w", err)
	}
	found = append(found, s.notes...)
	s.mu.Lock()
	s.judged[system] = found
	s.mu.Unlock()
	return found, nil
}

// Findings lists what falls short, worst first.
func (s *Shop) Findings(ctx context.Context, ask Ask) ([]Finding, error) {
	v, err := s.look(ctx, ask)
	if err != nil {
		return nil, err
	}
	found, err := s.found(ctx, v.ask.System)
	if err != nil {
		return nil, err
	}
	rows := make([]Finding, 0, len(found))
	for i, f := range found {
		row := s.finding(v, f)
		row.Key = fmt.Sprintf("%s-%d", f.Code, i)
		rows = append(rows, row)
	}
	return rows, nil
}

func (s *Shop) finding(v *view, f job.Finding) Finding {
	out := Finding{
		Code: f.Code, Severity: string(f.Severity), Words: severityWords(f.Severity), Title: f.Title, Why: f.Why,
		Where: []Choice{}, Shares: []Fact{}, Cures: []Cure{},
		Origin: Origin{Name: "Checked", Law: or(f.Law, f.Why), Inputs: []string{}, Sources: citedAll(f.Source...), Range: v.findingRange(f)},
	}
	seen := map[job.ID]bool{}
	for _, id := range f.Where {
		if on := s.onDrawing(id); !seen[on] && s.index.Has(on) {
			seen[on] = true
			out.Where = append(out.Where, Choice{ID: string(on), Words: s.named(on)})
		}
	}
	for _, x := range []struct {
		words  string
		figure *job.Figure
	}{{"figure", f.Figure}, {"limit", f.Limit}} {
		if x.figure != nil {
			out.Origin.Inputs = append(out.Origin.Inputs, x.words+": "+v.figure(*x.figure))
		}
	}
	for _, sh := range f.Shares {
		out.Shares = append(out.Shares, Fact{Words: sh.Words, Figure: v.plain(unit.KindPressureDiff, sh.LossPa), From: s.shareOrigin(v, sh)})
	}
	for _, c := range f.Cures {
		out.Cures = append(out.Cures, s.cure(v, c))
	}
	return out
}

func (s *Shop) cure(v *view, c job.Cure) Cure {
	out := Cure{Words: upper(c.Words), Cures: c.Cures, Verified: c.Verified}
	if c.GainPa != nil {
		out.Gain = "+" + v.plain(unit.KindPressureDiff, *c.GainPa)
	}
	if c.Price != nil {
		out.Price = s.money(*c.Price)
	}
	if len(c.Edits) > 0 {
		form := (&job.All{Title: c.Words, Edits: c.Edits}).Form()
		out.Edit = &form
	}
	return out
}

// findingRange words the plausible range of a finding's figure.
func (v *view) findingRange(f job.Finding) string {
	if f.Range == nil || f.Figure == nil || !(f.Range[1] > f.Range[0]) {
		return notKnown
	}
	at := func(x float64) string { return v.figure(job.Figure{Key: f.Figure.Key, Value: x}) }
	return at(f.Range[0]) + " to " + at(f.Range[1])
}

// shareOrigin is the law of the element that has a share in a loss; its air is
// that of the moment which the finding speaks of.
func (s *Shop) shareOrigin(v *view, sh job.Share) *Origin {
	for _, e := range v.model.Elements() {
		if e.ID != sh.ID || e.Words != sh.Words {
			continue
		}
		o := from("Loss stated at a rated flow and pressure", "dp grows with the square of the mass flow and falls with the density of the air")
		if f, ok := s.lawOf(e); ok {
			o = lawOrigin(f)
		}
		for _, a := range v.model.Assumptions() {
			if a.ID == e.ID {
				o.Inputs = append(o.Inputs, a.Words+": "+v.assumed(a))
				o.by(a.Ref)
			}
		}
		return o
	}
	return from("Summed", "what the elements of this stretch take together, each by its own law")
}

// money words a price in the job's currency, in whole units with marks between
// the thousands.
func (s *Shop) money(sum float64) string {
	digits := strconv.FormatFloat(math.Abs(math.Round(sum)), 'f', 0, 64)
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	if math.Round(sum) < 0 {
		digits = "−" + digits
	}
	if currency := s.job.Money(); currency != "" {
		return currency + " " + digits
	}
	return digits
}

// figure words a number by the unit in its key.
func (v *view) figure(f job.Figure) string {
	for _, k := range unit.Kinds() {
		suffix, ok := unit.SuffixOf(f.Key)
		if !ok {
			break
		}
		if scale, offset, fits := unit.FileUnit(k, suffix); fits {
			return v.text(k, f.Value*scale+offset)
		}
	}
	if math.IsNaN(f.Value) || math.IsInf(f.Value, 0) {
		return "–"
	}
	return fmt.Sprintf("%.4g", f.Value)
}

func severityWords(s job.Severity) string {
	switch s {
	case job.Danger:
		return "Can hurt people"
	case job.Fault:
		return "Falls short"
	case job.Caution:
		return "Likely to give trouble"
	}
	return "Worth knowing"
}
