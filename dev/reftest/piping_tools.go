package reftest

import (
	"fmt"
	"strings"

	"dropleg/internal/shop/catalog"
)

const toolFile = "air/tools.csv"

func toolLaws() []Law {
	return []Law{{
		Topic: "Tools", Name: "air use of a class of tool", Code: "internal/shop/catalog Tool", File: toolFile, Shelf: true, Figures: tool,
	}}
}

// toolID is the tool of the shelf that stands on a row, by the row's id.
func toolID(id string) string {
	return map[string]string{
		"TOOL-0049": "blow-gun", "TOOL-0050": "impact-wrench-1/2", "TOOL-0051": "impact-wrench-3/8", "TOOL-0052": "ratchet", "TOOL-0053": "da-sander-6",
		"TOOL-0054": "rotary-sander-7", "TOOL-0055": "rotary-sander-9", "TOOL-0056": "die-grinder", "TOOL-0057": "grinder-6-8", "TOOL-0058": "angle-grinder",
		"TOOL-0059": "needle-scaler", "TOOL-0060": "scaling-hammer", "TOOL-0061": "chipping-hammer", "TOOL-0062": "drill-small", "TOOL-0063": "drill", "TOOL-0064": "drill-large",
		"TOOL-0065": "spray-gun", "TOOL-0066": "hvlp-gun", "TOOL-0067": "touch-up-gun", "TOOL-0068": "tyre-inflator", "TOOL-0069": "framing-nailer",
		"TOOL-0070": "brad-nailer", "TOOL-0071": "grease-gun",
		"TOOL-0021": "blast-nozzle-1/8", "TOOL-0022": "blast-nozzle-3/16", "TOOL-0019": "blast-nozzle-1/4", "TOOL-0023": "blast-nozzle-5/16", "TOOL-0024": "blast-nozzle-3/8",
		"TOOL-0041": "blast-cabinet-3/32", "TOOL-0042": "blast-cabinet-1/8", "TOOL-0045": "blast-cabinet-5/32", "TOOL-0043": "blast-cabinet-7/32",
	}[id]
}

// tool holds a range of the table inside the shelf's, and a figure to the figure.
func tool(r Row) ([]Figure, error) {
	id := toolID(r.ID)
	if id == "" {
		return nil, unused("no tool of the shelf stands on it: the shelf has each blast nozzle at one pressure")
	}
	t, ok := catalog.Builtin().Tool(id)
	if !ok {
		return nil, fmt.Errorf("no tool %q", id)
	}
	figures := []Figure{how(r, t.Flow.How)}
	low, high, two := strings.Cut(r.Expected, "-")
	if !two {
		return append(figures,
			figure("flow", r.Want, t.Flow.Value/cfm, 1e-3, r.Unit),
			figure("at", r.In["p_psig"], float64(t.At)/psi, 1e-3, "psi")), nil
	}
	a, okLow := number(low)
	b, okHigh := number(high)
	if !okLow || !okHigh {
		return nil, fmt.Errorf("%s: range %q cannot be read", r.ID, r.Expected)
	}
	covers := t.Flow.Low/cfm <= 1.001*a && t.Flow.High/cfm >= 0.999*b
	return append(figures, word("range "+r.Expected+" covered", "true", fmt.Sprint(covers))), nil
}
