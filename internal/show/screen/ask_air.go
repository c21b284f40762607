package screen

import (
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
)

func air() asked {
	return asked{
		id: "air", question: "Is there enough air?",
		codes: []string{"supply-short", "compressor-flow-unknown", "no-receiver", "no-source", "references-mixed"},
		cautions: []string{
			"A licensed electrician connects the compressor.",
			"Air from a workshop compressor is not for breathing.",
		},
		answer: answerAir,
	}
}

// answerAir weighs what the compressors deliver against the set that wants most.
func answerAir(in *inquiry) answer {
	v := in.view
	var worst *flow.Set
	for i := range v.flow.Sets {
		if s := &v.flow.Sets[i]; worst == nil || s.Supply.Taken > worst.Supply.Taken {
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
	facts := []Fact{
		{Words: "The compressor delivers", Figure: v.plain(unit.KindFlow, float64(s.Delivered)), From: &Origin{
			Law: "the plate's free air, or the timed pump-up where there is one", Inputs: []string{}, Sources: []string{},
		}},
		{Words: "Tools take, in the hardest set", Figure: v.plain(unit.KindFlow, float64(s.Taken)), From: &Origin{
			Law: "what each running tool draws at the pressure it gets", Inputs: []string{in.shop.runningWords(worst.Running, "")}, Sources: []string{},
		}},
		{Words: "Set aside for leaks", Figure: v.plain(unit.KindFlow, float64(s.Leak))},
	}
	if s.Short <= 0 {
		return answer{mark: Yes, facts: facts, words: "Yes: " + v.plain(unit.KindFlow, float64(s.Delivered)) +
			" against " + v.plain(unit.KindFlow, float64(s.Taken+s.Leak)) + " at the most."}
	}
	words := "Not for long: the hardest set takes " + v.plain(unit.KindFlow, float64(s.Short)) + " too much"
	if s.Rides != nil && *s.Rides > 0 {
		ride := v.plain(unit.KindDuration, math.Round(float64(*s.Rides)))
		facts = append(facts, Fact{Words: "The receiver covers it for", Figure: ride, From: &Origin{
			Law: "air given from cut-out to cut-in at constant temperature, over the shortfall", Inputs: []string{}, Sources: []string{},
		}})
		words += ", covered for " + ride
	}
	return answer{mark: NotYet, facts: facts, words: words + "."}
}
