package screen

import (
	"context"

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
	shop  *Shop
	view  *view
	found []job.Finding // those that bear on the question
}

// all lists the questions in the order of the strip.
func all() []asked {
	return []asked{air(), pressure(), dry(), hold(), buy(), build(), prove(), keep()}
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
		in := &inquiry{shop: s, view: v, found: bearing(found, codes)}
		a := q.answer(in)
		out = append(out, Question{
			ID: q.id, Question: q.question, Mark: a.mark, Verdict: verdict(a.mark), Answer: a.words,
			List: q.list, Facts: nonNil(a.facts), Codes: codes, Cautions: nonNil(q.cautions),
		})
	}
	return out, nil
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
	}
	return "Cannot tell"
}

// worst is the first finding that is danger or a fault; nil if there is none.
func (in *inquiry) worst() *job.Finding {
	for i := range in.found {
		if f := &in.found[i]; f.Severity == job.Danger || f.Severity == job.Fault {
			return f
		}
	}
	return nil
}
