package screen

import (
	"maps"
	"slices"

	"dropleg/internal/shop/job"
)

func dry() asked {
	return asked{
		id: "dry", question: "Is it dry and clean enough?", list: "water",
		codes:    []string{"water-class-missed", "dryer-overloaded", "desiccant-spent-soon", "oil-before-paint", "dryer-order", "receiver-without-drain", "wet-line-without-drip", "dead-end-without-drain", "line-may-freeze"},
		cautions: []string{"Shut off and vent a drain's line to zero before you open it up."},
		answer:   answerDry,
	}
}

// mostMarks outlets are named in an answer; more are counted.
const mostMarks = 6

// answerDry tells by the water at the outlets, and by the findings.
func answerDry(in *inquiry) answer {
	w := &in.water
	if w.Untold != "" {
		return in.weighed(answer{mark: Unknown, words: "Cannot tell: " + w.Untold + "."})
	}
	short := map[string]bool{}
	known := 0
	for _, season := range w.Seasons {
		for _, o := range season.Outlets {
			switch o.State {
			case Short:
				short[o.Mark] = true
			case Enough:
				known++
			}
		}
	}
	at := plural(len(short), "outlet", "outlets")
	if len(short) <= mostMarks {
		at = listed(slices.Sorted(maps.Keys(short)))
	}
	severity := in.severity()
	switch {
	case len(short) > 0 && (severity == job.Fault || severity == job.Danger):
		return answer{mark: NotYet, facts: w.Facts, words: "Not yet: too wet at " + at + "."}
	case len(short) > 0: // by what such tools usually want
		return answer{mark: Unknown, facts: w.Facts, words: "Cannot tell: wetter than such tools usually want at " + at + "."}
	case known == 0:
		return in.weighed(answer{mark: Unknown, facts: w.Facts, words: "Cannot tell: no tool says how dry its air must be."})
	}
	return in.weighed(answer{mark: Yes, facts: w.Facts, words: "Yes: every tool has air as dry as it needs."})
}
