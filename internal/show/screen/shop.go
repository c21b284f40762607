package screen

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Judge finds what of a study falls short, worst first, worded in a system of units.
type Judge func(ctx context.Context, s *study.Study, system unit.System) ([]job.Finding, error)

// Shop is one revision of a job as the page shows it. It is safe for concurrent use.
type Shop struct {
	job   *job.Job
	index *job.Index
	study *study.Study
	judge Judge

	mu     sync.Mutex
	judged map[unit.System][]job.Finding
	notes  []job.Finding // what was strange in the document but can be used
}

// Open makes a shop of a job. Where the job cannot be used the shop is nil and
// the findings say why, all at once.
func Open(j *job.Job, shelf *catalog.Catalog, judge Judge) (*Shop, []job.Finding) {
	found := job.Validate(j, shelf)
	for _, f := range found {
		if f.Severity == job.Fault || f.Severity == job.Danger {
			return nil, found
		}
	}
	shop := On(study.Of(j, shelf), judge)
	shop.notes = found
	return shop, nil
}

// On makes a shop of a study at hand, whose job is known to be of use.
func On(s *study.Study, judge Judge) *Shop {
	return &Shop{job: s.Job(), index: s.Index(), study: s, judge: judge, judged: map[unit.System][]job.Finding{}}
}

// NotThere is an id that the job does not know.
type NotThere struct{ ID string }

func (e *NotThere) Error() string { return fmt.Sprintf("this job has no %q", e.ID) }

// Ask is what a figure is asked for. Empty fields are as the job has them.
type Ask struct {
	Set    string
	Case   model.Supply
	System unit.System
	Now    time.Time // what the day is, for upkeep and the age of prices; zero: nothing is due, and no price old
}

// day is what day it is, "" where nobody says.
func (a Ask) day() string {
	if a.Now.IsZero() {
		return ""
	}
	return a.Now.Format(time.DateOnly)
}

// view is an Ask with its blanks filled in and the state it points at.
type view struct {
	ask   Ask
	env   unit.Env
	flow  *flow.Answer // nil after a glance
	model *model.Model
	set   *flow.Set   // nil: no set of tools runs in this job
	state *flow.State // nil likewise
}

// look resolves an Ask.
func (s *Shop) look(ctx context.Context, ask Ask) (*view, error) {
	if study.IsMoment(ask.Set) {
		then, _, err := s.glance(ctx, ask, false)
		if err != nil {
			return nil, err
		}
		ask.Set, ask.Case = "", then.ask.Case
		v, err := s.look(ctx, ask)
		if err == nil {
			v.ask.Set, v.set, v.state = then.ask.Set, then.set, then.state
		}
		return v, err
	}
	a, err := s.study.Flow(ctx)
	if err != nil {
		return nil, fmt.Errorf("working out pressures: %w", err)
	}
	v, err := s.plainView(ctx, ask)
	if err != nil {
		return nil, err
	}
	v.flow = a
	if v.ask.Case == "" {
		v.ask.Case = model.CutIn
	}
	if len(a.Sets) == 0 {
		return v, nil
	}
	at := max(a.Worst, 0)
	if ask.Set != "" {
		if at = indexOf(a, ask.Set); at < 0 {
			return nil, &NotThere{ask.Set}
		}
	}
	v.ask.Set = setID(&a.Sets[at])
	v.set = &a.Sets[at]
	v.state = stateOf(v.set, v.ask.Case)
	return v, nil
}

// glance resolves an Ask for what needs the set shown and no other, as a drawing
// does: the other sets are not worked out for it, and the view has no flow. Where
// the shop's worst set is asked for, it is the one of a revision before (supposed)
// until Flow was asked; with sure it is made sure of first.
func (s *Shop) glance(ctx context.Context, ask Ask, sure bool) (v *view, supposed bool, err error) {
	if sure && ask.Set == "" {
		v, err = s.look(ctx, ask)
		return v, false, err
	}
	shown, err := s.study.State(ctx, ask.Set, ask.Case)
	var none *study.NoSet
	switch {
	case errors.As(err, &none):
		return nil, false, &NotThere{none.Key}
	case err != nil:
		return nil, false, fmt.Errorf("working out pressures: %w", err)
	}
	if v, err = s.plainView(ctx, ask); err != nil {
		return nil, false, err
	}
	v.ask.Case = shown.Supply
	if shown.State != nil {
		v.ask.Set, v.set, v.state = shown.Set.Key(), &flow.Set{Set: shown.Set, CutIn: *shown.State, CutOut: *shown.State}, shown.State
	}
	return v, shown.Supposed, nil
}

// plainView is an Ask with its units, where no set of tools is looked at.
func (s *Shop) plainView(ctx context.Context, ask Ask) (*view, error) {
	m, err := s.study.Model(ctx)
	if err != nil {
		return nil, fmt.Errorf("reading the job as a network: %w", err)
	}
	v := &view{ask: ask, env: unit.Env{Atmosphere: m.Atmosphere()}, model: m}
	v.ask.System = s.system(ask)
	return v, nil
}

func stateOf(set *flow.Set, c model.Supply) *flow.State { return set.State(c) }

// Units is the system asked for, else the job's, else metric.
func (s *Shop) Units(ask Ask) unit.System { return s.system(ask) }

func (s *Shop) system(ask Ask) unit.System {
	if ask.System != "" {
		return ask.System
	}
	system, err := unit.ParseSystem(s.job.Site.Units)
	if err != nil {
		return unit.Metric
	}
	return system
}

// setID names a set in addresses.
func setID(set *flow.Set) string { return set.Key() }

func indexOf(a *flow.Answer, id string) int {
	return slices.IndexFunc(a.Sets, func(s flow.Set) bool { return setID(&s) == id })
}

// text words a figure in the view's units.
func (v *view) text(k unit.Kind, si float64) string { return v.ask.System.Text(k, si, v.env) }

// plain words a figure in the main unit alone.
func (v *view) plain(k unit.Kind, si float64) string {
	number, u := v.ask.System.Split(k, si, v.env)
	if u == "" {
		return number
	}
	return number + " " + u
}

// upper makes a sentence of words.
func upper(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func or(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// tail is the part of an id that a person gave: "bench" of "outlet.bench".
func tail(id job.ID) string {
	_, name, ok := strings.Cut(string(id), ".")
	if !ok {
		return string(id)
	}
	return strings.ReplaceAll(name, "-", " ")
}
