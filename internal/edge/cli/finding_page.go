package cli

import (
	"fmt"
	"math"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
)

// findingPage is a page of findings on a job.
type findingPage struct {
	*paper
	study  *study.Study
	system unit.System
}

// margin is the column of what is told of a finding; its severity stands before it.
const margin = 9

// finding is one finding: its sentence, why, the elements that take most as bars,
// what would cure it, where it is and who says so.
func (p *findingPage) finding(f *job.Finding) {
	word, ink := severityWords(f.Severity)
	blank := pad("", margin)
	p.wrapped(p.ink(ink, pad(word, margin)), blank, f.Title)
	if f.Why != "" {
		p.wrapped(blank, blank, f.Why)
	}
	p.shares(f.Shares)
	for _, cure := range f.Cures {
		p.wrapped(blank+"→ ", blank+"  ", p.cure(cure))
	}
	foot := f.Code
	if len(f.Where) > 0 {
		var names, ids []string
		for _, id := range f.Where {
			names = append(names, described(p.study.Index(), p.study.Catalog(), id))
			ids = append(ids, string(id))
		}
		p.quiet("where: ", places(names))
		foot += " at " + places(ids)
	}
	if len(f.Source) > 0 {
		p.quiet("source: ", f.Source[0].Text())
	}
	p.quiet("", foot)
}

// quiet writes a paragraph beneath a finding that most readers pass over.
func (p *findingPage) quiet(label, text string) {
	blank := pad("", margin)
	for i, l := range wrap(text, p.width-margin-width(label)) {
		if i > 0 {
			label = pad("", width(label))
		}
		p.line(blank + p.ink(dim, label+l))
	}
}

// mostBars is how many elements have a bar: the rest lose little.
const mostBars = 5

// shares draws the ranked losses. The words come first: where they are long the
// bars are shorter.
func (p *findingPage) shares(shares []job.Share) {
	shares = shares[:min(len(shares), mostBars)]
	if len(shares) == 0 {
		return
	}
	const leastRoom, mostRoom = 8, 16
	most, figures := shares[0].LossPa, make([]string, len(shares))
	wide, label := 0, 0
	for i, s := range shares {
		most = math.Max(most, s.LossPa)
		figures[i] = p.system.Text(unit.KindPressureDiff, s.LossPa, unit.Env{})
		wide = max(wide, width(figures[i]))
		label = max(label, width(s.Words))
	}
	free := p.width - margin - wide - 3
	label = min(label, free-leastRoom)
	room := min(free-label, mostRoom)
	for i, s := range shares {
		long := 0
		if most > 0 {
			long = int(math.Round(s.LossPa / most * float64(room)))
		}
		bar := strings.Repeat("█", max(0, long))
		for n, words := range wrap(s.Words, label) {
			line := pad("", margin) + pad(words, label)
			if n == 0 {
				line += "  " + left(figures[i], wide) + " " + bar
			}
			p.line(line)
		}
	}
}

// cure tells a cure with what it gains and costs.
func (p *findingPage) cure(cure job.Cure) string {
	text := cure.Words
	if cure.GainPa != nil {
		text += ": gains " + p.system.Text(unit.KindPressureDiff, *cure.GainPa, unit.Env{})
	}
	if cure.Price != nil {
		j := p.study.Job()
		text += strings.TrimRight(fmt.Sprintf(", costs about %.0f %s", *cure.Price, j.Money()), " ")
	}
	switch {
	case cure.Cures && cure.Verified:
		text += "; that alone is enough"
	case cure.Cures:
		text += "; that should be enough (not tried on the design)"
	case !cure.Verified:
		text += " (not tried on the design)"
	}
	return text
}
