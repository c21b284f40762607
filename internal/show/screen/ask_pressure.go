package screen

import (
	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
)

func pressure() asked {
	return asked{
		id: "pressure", question: "Does every tool get its pressure?", list: "outlets",
		codes: []string{
			"no-answer", "shut-off", "short-of-pressure", "over-pressure-at-tool", "regulator-starved", "regulator-pointless",
			"undersized-main", "velocity", "not-modelled", "missing-data", "reading-differs", "length-unknown", "figure-out-of-range",
		},
		cautions: []string{"Blow guns are limited at the nozzle. Wear eye and ear protection."},
		answer:   answerPressure,
	}
}

// answerPressure looks at every tool's worst moment at cut-in.
func answerPressure(in *inquiry) answer {
	v := in.view
	var least *flow.Worst
	short, seen, idle := 0, 0, 0
	for i := range v.flow.Tools {
		t := &v.flow.Tools[i]
		if t.Set < 0 {
			idle++
			continue
		}
		seen++
		if !t.Known || t.Margin < 0 {
			short++
		}
		if least == nil || !t.Known && least.Known || t.Known == least.Known && t.Margin < least.Margin {
			least = t
		}
	}
	if least == nil {
		return answer{mark: Unknown, words: "Cannot tell: no tool is used at an outlet yet."}
	}
	facts := []Fact{{Words: "Tools judged, each in its own worst moment", Figure: plural(seen, "tool", "tools"), From: counted("every tool of the job that runs in some set, in the set and at the outlet where it has least to spare")}}
	if idle > 0 {
		facts = append(facts, Fact{Words: "Used at no outlet, so not looked at", Figure: plural(idle, "tool", "tools"), From: counted("tools of the job that no outlet lists")})
	}
	name := in.shop.toolName(least.Tool) + " at " + in.shop.outletMark(least.Outlet)
	margin := func() string {
		m := float64(least.Margin)
		if m < 0 {
			m = -m
		}
		return v.plain(unit.KindPressureDiff, m)
	}
	switch {
	case !least.Known:
		return answer{mark: NotYet, facts: facts, words: "Not yet: no air reaches the " + name + "."}
	case short == 1:
		return answer{mark: NotYet, facts: facts, words: "Not yet: the " + name + " is " + margin() + " short."}
	case short > 1:
		return answer{mark: NotYet, facts: facts, words: "Not yet: " + plural(short, "tool is", "tools are") + " short, the worst by " + margin() + "."}
	}
	if a, differs := answerReadings(in, facts); differs {
		return a
	}
	if n := in.count(job.Danger); n > 0 {
		return answer{mark: NotYet, facts: facts, words: "Every tool gets its pressure, but " + plural(n, "point", "points") + " could hurt people."}
	}
	return in.weighed(answer{mark: Yes, facts: facts, words: "Yes: the " + name + " has least to spare, " + margin() + "."})
}

// answerReadings speaks where gauges in the shop contradict the drawing.
func answerReadings(in *inquiry, facts []Fact) (a answer, differs bool) {
	for i := range in.found {
		switch f := &in.found[i]; {
		case f.Code != "reading-differs":
		case f.Severity == job.Fault:
			return answer{mark: NotYet, facts: facts, words: "Not yet: on the drawing yes, but the gauges read too little."}, true
		case f.Severity == job.Caution:
			return answer{mark: Unknown, facts: facts, words: "Cannot tell: on the drawing yes, but a gauge reads otherwise."}, true
		}
	}
	return answer{}, false
}
