package screen

import "dropleg/engine/unit"

func stay() asked {
	return asked{
		id: rest, question: "Will it stay put and hold together?", list: "hold",
		codes: []string{"held-too-hard", "bend-too-tight", "loose-outlet", "no-flexible-link"},
		cautions: []string{
			"Compressed air can kill. Receivers and relief valves come under pressure-vessel law.",
			"No plastic pipe that shatters, such as PVC.",
			"What is not listed here was not checked. Local codes and the makers' instructions rule.",
		},
		answer: answerHold,
	}
}

// answerHold tells how much there is to fix and what grows most, and says yes only where
// every line's supports are known.
func answerHold(in *inquiry) answer {
	h := in.held
	all, _ := h.toFix()
	facts := h.facts()
	drawn := 0
	for i := range h.a.Runs {
		if h.a.Runs[i].Drawn > 0 {
			drawn++
		}
	}
	switch n := h.unheld(); {
	case drawn == 0:
		return in.weighed(answer{mark: Unknown, facts: facts, words: "Cannot tell: no line is drawn yet."})
	case n > 0:
		return in.weighed(answer{mark: Unknown, facts: facts, words: "Cannot tell: nobody states how far apart " + plural(n, "line wants its supports", "lines want their supports") + "."})
	case all == 0:
		return in.weighed(answer{mark: Yes, facts: facts, words: "Yes: no support is to be added."})
	}
	words := "Yes: " + plural(all, "support", "supports") + " to fix"
	if most := h.most(); most != nil {
		words += "; growth up to " + h.plain(unit.KindLength, float64(most.Growth))
	}
	return in.weighed(answer{mark: Yes, facts: facts, words: words + "."})
}
