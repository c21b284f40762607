package reftest

import (
	"fmt"
	"strings"

	"dropleg/internal/answer/demand"
)

const demandFile = "air/checks_demand.csv"

func demandLaws() []Law {
	return []Law{
		{
			Topic: "Demand", Name: "how many run together", Code: "internal/answer/demand Together", File: demandFile,
			Of: []string{"number of tools to design for"},
			Got: func(r Row) (float64, error) {
				return float64(demand.Together(binomial(r), r.In["limit"])), nil
			},
		},
		{
			Topic: "Demand", Name: "chance of a number in use", Code: "internal/answer/demand Numbers", File: demandFile,
			Of: []string{"P(more than k in use)", "P(exactly k in use)"}, Got: chance,
		},
		{
			Topic: "Demand", Name: "average and connected demand", Code: "internal/answer/demand FlowsOf", File: demandFile,
			Of: []string{"average demand", "connected demand"}, Got: toolSum,
		},
	}
}

// binomial is the distribution of the row's n equal tools.
func binomial(r Row) []float64 {
	var parts []demand.Part
	for range int(r.In["n"]) {
		parts = append(parts, demand.Solo(r.In["use_factor"], 1))
	}
	return demand.Numbers(parts, 0)
}

func chance(r Row) (float64, error) {
	k, all := int(r.In["k"]), binomial(r)
	if k < 0 || k >= len(all) {
		return 0, fmt.Errorf("%s: k outside the number of tools", r.ID)
	}
	if strings.HasPrefix(r.Quantity, "P(exactly") {
		return all[k], nil
	}
	sum := 0.0
	for n := len(all) - 1; n > k; n-- {
		sum += all[n]
	}
	return sum, nil
}

// toolSum reads tools such as "4x5cfm@0.25|2x8cfm@0.5".
func toolSum(r Row) (float64, error) {
	const step = 0.5
	var parts []demand.Part
	for text := range strings.SplitSeq(r.Word["tools"], "|") {
		var n int
		var flow, share float64
		if _, err := fmt.Sscanf(text, "%dx%fcfm@%f", &n, &flow, &share); err != nil {
			return 0, fmt.Errorf("reading %q: %w", text, err)
		}
		for range n {
			parts = append(parts, demand.Solo(share, flow))
		}
	}
	f := demand.FlowsOf(parts, step, 0)
	if strings.HasPrefix(r.Quantity, "connected") {
		return float64(len(f.Chance)-1) * step, nil
	}
	return f.Mean(), nil
}
