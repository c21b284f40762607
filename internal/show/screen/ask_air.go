package screen

import (
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
)

func air() asked {
	return asked{
		id: "air", question: "Is there enough air?", list: "days",
		codes: []string{"never-full", "short-in-the-day", "motor-overworked", "supply-short", "compressor-flow-unknown", "no-receiver", "no-source", "references-mixed"},
		cautions: []string{
			"A licensed electrician connects the compressor.",
			"Air from a workshop compressor is not for breathing.",
		},
		answer: answerAir,
	}
}

// answerAir tells by a few working days; where they cannot be told it weighs what the
// compressors deliver against the set that goes furthest beyond it.
func answerAir(in *inquiry) answer {
	a := in.weighAir()
	if in.waits || in.days.Untold != "" || len(in.days.Tools) == 0 {
		return a
	}
	d := &told{shop: in.shop, view: in.view, days: in.days, rare: in.shop.job.RuleRare().Value}
	// A tool that its own line or hose starves is no matter of the supply: the findings know.
	if severity := in.severity(); severity == job.Fault || severity == job.Danger {
		if mark, words := d.brief(); mark == NotYet {
			a.mark, a.words = mark, words
			return a
		}
	}
	return in.weighed(answer{mark: Yes, facts: a.facts, words: "Yes: " + d.loadBrief()})
}

// weighAir weighs the set that goes furthest beyond the supply. The check says whether the
// receiver bridges that; here is only what it says, shorter.
func (in *inquiry) weighAir() answer {
	v := in.view
	var worst *flow.Set
	for i := range v.flow.Sets {
		s := &v.flow.Sets[i]
		if worst == nil || s.Supply.Short > worst.Supply.Short ||
			s.Supply.Short == worst.Supply.Short && s.Supply.Taken > worst.Supply.Taken {
			worst = s
		}
	}
	switch {
	case worst == nil:
		return answer{mark: Unknown, words: "Cannot tell: no tool is used at an outlet yet."}
	case worst.Supply.Delivered <= 0:
		return answer{mark: Unknown, words: "Cannot tell: what the compressor delivers is not known."}
	}
	s := worst.Supply
	facts := in.airFacts(worst)
	short := v.plain(unit.KindFlow, float64(s.Short))
	ride := ""
	if s.Rides != nil && *s.Rides > 0 {
		ride = v.spell(*s.Rides)
	}
	switch {
	case s.Short <= 0:
		return in.weighed(answer{mark: Yes, facts: facts, words: "Yes: " + v.plain(unit.KindFlow, float64(s.Delivered)) +
			" against " + v.plain(unit.KindFlow, float64(s.Taken+s.Leak)) + " at most."})
	case in.severity() == job.Fault && ride != "":
		return answer{mark: NotYet, facts: facts, words: "Not yet: " + short + " short; the receiver lasts " + ride + "."}
	case in.severity() == job.Fault || in.severity() == job.Danger || ride == "":
		return answer{mark: NotYet, facts: facts, words: "Not yet: the hardest set is " + short + " short."}
	}
	return in.weighed(answer{mark: Yes, facts: facts, words: "Yes: the receiver rides the hardest set for " + ride + "."})
}

// airFacts are the figures of a set's balance.
func (in *inquiry) airFacts(set *flow.Set) []Fact {
	v, s := in.view, set.Supply
	facts := []Fact{
		{Words: "The compressor delivers", Figure: v.plain(unit.KindFlow, float64(s.Delivered)), From: in.shop.deliveredOrigin(v)},
		{
			Words: "Tools take, in the hardest set", Figure: v.plain(unit.KindFlow, float64(s.Taken)),
			From: from("Sum", "what each running tool draws at the pressure it gets", in.shop.runningWords(set.Running, "")),
		},
		{Words: "Set aside for leaks", Figure: v.plain(unit.KindFlow, float64(s.Leak)), From: in.shop.leakOrigin(v)},
	}
	if s.Short > 0 && s.Rides != nil && *s.Rides > 0 {
		facts = append(facts, Fact{
			Words: "The receiver covers the rest for", Figure: v.spell(*s.Rides),
			From: from("Air given by the receivers", "t = V (p_out - p_in) / (R T m): isothermal, from cut-out to cut-in, over the shortfall m; line volume left out, on the safe side",
				"short by "+v.plain(unit.KindFlow, float64(s.Short))),
		})
	}
	return facts
}

// spell words how long a receiver lasts: whole seconds, and whole minutes from ten on.
func (v *view) spell(t unit.Duration) string {
	one := 1.0
	if t >= 600 {
		one = 60
	}
	return v.plain(unit.KindDuration, math.Round(float64(t)/one)*one)
}
