package screen

import (
	"context"
	"fmt"
	"strings"

	"dropleg/internal/answer/day"
	"dropleg/internal/answer/purchase"
	"dropleg/internal/decide/check"
	"dropleg/internal/shop/job"
)

// asked is one question: how it reads, what bears on it and how it is answered.
type asked struct {
	id       string
	question string
	list     string
	codes    []string
	cautions []string
	answer   func(*inquiry) answer
}

// answer is a verdict with its sentence and the figures it rests on.
type answer struct {
	mark  Mark
	words string
	facts []Fact
}

// inquiry is what a question may look at.
type inquiry struct {
	shop   *Shop
	view   *view
	found  []job.Finding // those that bear on the question
	water  Water
	held   *held
	built  *built
	proved *proved
	upkeep *upkeep
	bought *purchase.Answer
	waits  bool // days and cost are not worked out
	days   *day.Answer
	cost   Cost
}

// all lists the questions in the order of the strip.
func all() []asked {
	return []asked{air(), pressure(), dry(), stay(), buy(), run(), howToBuild(), doesItHold(), eachWeek()}
}

// Questions answers every question, as far as it can be answered.
func (s *Shop) Questions(ctx context.Context, ask Ask) ([]Question, error) {
	v, err := s.look(ctx, ask)
	if err != nil {
		return nil, err
	}
	found, err := s.found(ctx, v.ask.System)
	if err != nil {
		return nil, err
	}
	base := inquiry{shop: s, view: v}
	if err := base.through(ctx, ask); err != nil {
		return nil, err
	}
	questions := all()
	claimed := map[string]bool{}
	for _, q := range questions {
		for _, code := range q.codes {
			claimed[code] = true
		}
	}
	out := make([]Question, 0, len(questions))
	for _, q := range questions {
		codes := append([]string{}, q.codes...)
		if q.id == rest {
			for _, f := range found {
				if !claimed[f.Code] {
					codes = addOnce(codes, f.Code)
				}
			}
		}
		in := base
		in.found = bearing(found, codes)
		a := q.answer(&in)
		out = append(out, Question{
			ID: q.id, Question: q.question, Mark: a.mark, Verdict: verdict(a.mark), Answer: a.words,
			List: q.list, Facts: nonNil(a.facts), Codes: codes, Cautions: nonNil(q.cautions),
		})
	}
	return out, nil
}

// through works out what is told of water, and of days and a year where that takes no long
// time: else they wait until their question is opened.
func (in *inquiry) through(ctx context.Context, ask Ask) (err error) {
	if in.water, err = in.shop.Water(ctx, ask); err != nil {
		return err
	}
	if in.bought, err = in.shop.study.Purchase(ctx); err != nil {
		return fmt.Errorf("putting the purchase together: %w", err)
	}
	if in.held, err = in.shop.held(ctx, ask); err != nil {
		return err
	}
	if in.built, err = in.shop.built(ctx, ask); err != nil {
		return err
	}
	if in.proved, err = in.shop.proved(ctx, ask); err != nil {
		return err
	}
	work, err := in.shop.study.Work(ctx)
	if err != nil {
		return fmt.Errorf("reading the job as a network: %w", err)
	}
	if in.waits = work > check.MostWork; in.waits {
		return nil
	}
	if in.days, err = in.shop.study.Rough(ctx); err != nil {
		return fmt.Errorf("working days through: %w", err)
	}
	if in.upkeep, err = in.shop.upkeep(ctx, ask); err != nil {
		return err
	}
	in.cost, err = in.shop.Cost(ctx, ask)
	return err
}

// rest is the question that takes the findings which no other claims.
const rest = "hold"

func bearing(found []job.Finding, codes []string) []job.Finding {
	var out []job.Finding
	for _, f := range found {
		for _, c := range codes {
			if f.Code == c {
				out = append(out, f)
				break
			}
		}
	}
	return out
}

func verdict(m Mark) string {
	switch m {
	case Yes:
		return "Yes"
	case NotYet:
		return "Not yet"
	case Told:
		return ""
	}
	return "Cannot tell"
}

// severity is that of the worst finding; "" where there is none.
func (in *inquiry) severity() job.Severity {
	for _, s := range []job.Severity{job.Danger, job.Fault, job.Caution, job.Note} {
		for i := range in.found {
			if in.found[i].Severity == s {
				return s
			}
		}
	}
	return ""
}

// count is how many findings are of a severity.
func (in *inquiry) count(severities ...job.Severity) int {
	n := 0
	for i := range in.found {
		for _, s := range severities {
			if in.found[i].Severity == s {
				n++
			}
		}
	}
	return n
}

// weighed makes an answer agree with the worst finding that bears on it: nothing
// is answered with yes beside a fault, nor with a bare yes beside a caution.
func (in *inquiry) weighed(a answer) answer {
	if in.severity() == job.Danger || in.severity() == job.Fault {
		a.mark, a.words = NotYet, in.against()
		return a
	}
	n := in.count(job.Caution)
	switch {
	case n == 0:
	case a.mark == Yes:
		rest := strings.TrimPrefix(a.words, "Yes: ")
		a.words = "Yes, but " + plural(n, "point wants", "points want") + " a look; " + rest
	case a.mark == Unknown:
		a.words = "Cannot tell: " + plural(n, "point wants", "points want") + " a look."
	}
	return a
}

// titleMost is how many words of a finding's title the strip has room for.
const titleMost = 11

// against says what speaks against a yes: the worst finding itself where it is
// short, or how many there are.
func (in *inquiry) against() string {
	for i := range in.found {
		f := &in.found[i]
		if f.Severity == in.severity() && len(strings.Fields(f.Title)) <= titleMost {
			return "Not yet: " + lower(f.Title)
		}
	}
	if n := in.count(job.Danger); n > 0 {
		return "Not yet: " + plural(n, "point", "points") + " could hurt people."
	}
	return "Not yet: " + plural(in.count(job.Fault), "point falls", "points fall") + " short."
}
