package screen

import (
	"context"
	"fmt"
	"math"
	"strconv"

	"dropleg/engine/unit"
	"dropleg/internal/answer/demand"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
	"dropleg/internal/show/draw"
)

func markOf(o job.Outlet, index int) string { return draw.OutletMark(o, index) }

// Head is what stands over the page.
func (s *Shop) Head(ctx context.Context, ask Ask) (Head, error) {
	v, err := s.look(ctx, ask)
	if err != nil {
		return Head{}, err
	}
	h := Head{
		Opens: float64(s.job.Work.Opens()),
		Title: or(s.job.Title, "A job without a title"), Plan: "as drawn",
		Facts:   s.counts(v),
		Systems: []Choice{{ID: string(unit.US), Words: "US"}, {ID: string(unit.Metric), Words: "Metric"}, {ID: string(unit.Mixed), Words: "Both"}},
		Sets:    s.sets(v),
		Cases: []Choice{
			{ID: string(model.CutIn), Words: "just cut in", Note: "The receiver is at its lowest and filters count as loaded: the hard case."},
			{ID: string(model.CutOut), Words: "just cut out", Note: "The receiver is at its highest and filters count as clean."},
		},
		Views: views(),
		Units: string(v.ask.System), Set: v.ask.Set, Case: string(v.ask.Case),
	}
	return h, nil
}

// views are the ways of looking at the shop.
func views() []Choice {
	var all []Choice
	for _, s := range draw.Sights() {
		all = append(all, Choice{ID: s.Name, Words: s.Words})
	}
	return all
}

// counts are outlets and metres of line; what has no length yet is said.
func (s *Shop) counts(v *view) []string {
	metres, unknown := 0.0, 0
	for i := range s.job.Net.Runs {
		if l, ok := s.index.LengthOf(&s.job.Net.Runs[i]); ok {
			metres += float64(l)
		} else {
			unknown++
		}
	}
	facts := []string{plural(len(s.job.Outlets), "outlet", "outlets"), v.whole(metres) + " of line"}
	if unknown > 0 {
		facts = append(facts, plural(unknown, "line of unknown length", "lines of unknown length"))
	}
	return facts
}

// foot in metres (nist-sp811), only for whole feet.
const foot = 0.3048

// whole words a length to the nearest metre or foot: how much line there is, not
// where to cut it.
func (v *view) whole(metres float64) string {
	if v.ask.System == unit.US {
		return strconv.FormatFloat(math.Round(metres/foot), 'f', 0, 64) + " ft"
	}
	return strconv.FormatFloat(math.Round(metres), 'f', 0, 64) + " m"
}

// sets lists the sets, the shop's worst first; the note says who runs.
func (s *Shop) sets(v *view) []Choice {
	choices := []Choice{}
	add := func(i int, words string) {
		set := &v.flow.Sets[i]
		choices = append(choices, Choice{ID: setID(set), Words: words, Note: upper(s.runningWords(set.Running, "")) + "."})
	}
	if v.flow.Worst >= 0 {
		add(v.flow.Worst, "The shop’s worst moment")
	}
	for i := range v.flow.Sets {
		if i != v.flow.Worst {
			add(i, upper(s.setName(&v.flow.Sets[i])))
		}
	}
	return choices
}

// setName is a set in a few words, for choosing among many.
func (s *Shop) setName(set *flow.Set) string {
	switch set.Why {
	case demand.Named:
		return set.Name
	case demand.Alone:
		return s.toolName(set.Subject) + " by itself"
	}
	return "worst for the " + s.toolName(set.Subject) + " at " + s.outletMark(set.At)
}

// setWords is what a set is called: its own name, or who runs.
func (s *Shop) setWords(set *flow.Set) string {
	switch set.Why {
	case demand.Named:
		return set.Name
	case demand.Alone:
		return s.toolName(set.Subject) + " by itself"
	}
	others := s.runningWords(set.Running, set.Subject)
	name := s.toolName(set.Subject) + " at " + s.outletMark(set.At)
	if others == "" {
		return name
	}
	return name + " with " + others
}

// runningWords names the tools that run, but one.
func (s *Shop) runningWords(running []job.InUse, but job.ID) string {
	var words []string
	for _, u := range running {
		if u.Tool != but {
			words = append(words, s.toolName(u.Tool)+" at "+s.outletMark(u.Outlet))
		}
	}
	if more := len(words) - mostNamed; more > 1 {
		words = append(words[:mostNamed:mostNamed], fmt.Sprintf("%d more", more))
	}
	return listed(words)
}

// mostNamed tools are named in a sentence: of a hall that runs thirty at once nobody reads all, and each outlet
// says in its row who runs there.
const mostNamed = 6
