package size

import (
	"context"
	"fmt"
	"math"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
)

// proposal puts a pick into words and figures.
func (w *work) proposal(ctx context.Context, bound float64, v *verdict, rounds int) (*Proposal, error) {
	picks, price := v.picks, w.total(v.picks)
	if w.ringed() {
		var err error
		if w.mixedBound, err = w.mixed(ctx); err != nil {
			return nil, err
		}
	}
	p := &Proposal{
		Name: w.name(), Price: price, Bound: min(bound, price), Proven: price <= bound+aCent/2, Priced: w.prices != nil,
		Was: w.total(w.standing()), Rounds: rounds, Verified: v.holds(), Short: v.mostShort(), How: w.how(rounds),
		Changes: []Change{}, Tools: []Tool{},
	}
	for _, of := range []struct {
		study *study.Study
		picks []int
		times float64
	}{{v.study, picks, 1}, {w.study, w.standing(), -1}} {
		much, err := w.otherwise(ctx, of.study, of.picks)
		if err != nil {
			return nil, err
		}
		p.Clips += of.times * much
	}
	edits := w.edits(picks)
	p.Edit = job.AllOf(title, edits...)
	for _, e := range edits {
		p.Edits = append(p.Edits, e.Form())
	}
	more := w.moved(picks)
	for i, c := range w.choices {
		if picks[i] == c.now {
			continue
		}
		from, to := c.options[c.now], c.options[picks[i]]
		p.Changes = append(p.Changes, Change{IDs: c.ids, Words: c.words, From: from.size, To: to.size, Price: more[i]})
	}
	for _, t := range v.flow.Tools {
		if t.Set >= 0 && t.Known {
			p.Tools = append(p.Tools, Tool{Tool: t.Tool, Outlet: t.Outlet, Pressure: t.Pressure, Least: t.Least, Set: v.flow.Sets[t.Set].Name})
		}
	}
	p.Notes = w.told(v)
	if math.Abs(p.Clips) >= 1 {
		p.Notes = append(p.Notes, "clips sit otherwise between lines of other sizes than was reckoned: "+w.money(math.Abs(p.Clips))+map[bool]string{true: " more", false: " less"}[p.Clips > 0]+" than is told here")
	}
	p.Words = w.summary(p)
	return p, w.unpriced
}

// aCent is the step of prices.
const aCent = 0.01

// lineWords says what a stretch is.
func (w *work) lineWords(s cure.Stretch) string {
	r := s.Runs[0]
	what := r.Role
	switch r.Role {
	case "", "link":
		what = "line"
	case "drop":
		what = "drop leg"
	}
	from, to := tail(s.Runs[0].ID), tail(s.Runs[len(s.Runs)-1].ID)
	if from == to {
		return what + " " + from
	}
	return fmt.Sprintf("%s %s to %s", what, from, to)
}

func tail(id job.ID) string {
	if _, rest, ok := strings.Cut(string(id), "."); ok {
		return rest
	}
	return string(id)
}

// at says at which outlet a thing is.
func (w *work) at(outlet job.ID) string {
	if o := w.idx.Outlet(outlet); o != nil && o.Name != "" {
		return " at " + cure.Within(o.Name)
	}
	return ""
}

// text shows a quantity in the person's units.
func (w *work) text(k unit.Kind, v float64) string {
	return w.wish.System.Text(k, v, unit.Env{Atmosphere: w.model.Atmosphere()})
}

func sizeWords(size string) string { return parts.SizeWords(size) }
