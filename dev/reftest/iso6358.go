package reftest

import (
	"context"
	"math"
	"strconv"
	"strings"

	"dropleg/engine/element"
	"dropleg/engine/network"
)

const isoFile = "air/iso6358.csv"

func componentLaws() []Law {
	const topic, code = "Components by C and b", "engine/element ISO6358"
	return []Law{
		{
			Topic: topic, Name: "flow through a component", Code: code, File: isoFile,
			Of: []string{"volume flow (ANR)", "mass flow", "nominal flow"}, Got: component,
		},
		{
			Topic: topic, Name: "components in series and side by side", Code: "engine/network Solve, engine/element ISO6358", File: isoFile,
			Of: []string{"flow through components in series", "parallel combination"}, Got: combination,
		},
		{
			Topic: topic, Name: "conductance of an ideal nozzle", Code: "engine/element Orifice", File: isoFile,
			Of: []string{"ideal nozzle sonic conductance"},
			Got: func(r Row) (float64, error) {
				g := rowGas(293.15)
				o, err := element.NewOrifice(g, r.In["bore_mm"]/1e3, 1)
				if err != nil {
					return 0, err
				}
				m, _, _ := o.Flow(7e5, 0)
				return m / (g.Density(1e5) * 7e5) / 1e-8, nil
			},
		},
	}
}

// component answers in the row's unit: dm³/s or L/min at the reference density.
func component(r Row) (float64, error) {
	s := element.ISO6358Spec{
		C: r.In["C_dm3_per_s_bar"] * 1e-8, B: r.In["b"], Index: r.In["m"], Cracking: r.In["dpc_bar"] * bar,
	}
	t, p1, p2 := r.In["T1_K"], r.In["p1_bar_abs"]*bar, r.In["p2_bar_abs"]*bar
	scale := 1 / element.RefDensity / litre
	switch {
	case r.Quantity == "mass flow": // C=1e-8 m3/(s.Pa); p1=7e5 Pa, choked
		s.C, s.B, t, p1, p2, scale = 1e-8, 0.3, 293.15, 7e5, 0, 1
	case strings.HasPrefix(r.Quantity, "nominal flow"):
		atm := r.In["p_atm_bar"]
		t, p1, p2, scale = 293.15, (6+atm)*bar, (5+atm)*bar, scale*minute
	}
	c, err := element.NewISO6358(element.Gas{Temperature: t}, s)
	if err != nil {
		return 0, err
	}
	m, _, _ := c.Flow(p1, p2)
	return m * scale, nil
}

// combination puts the row's components between two fixed pressures and solves.
func combination(r Row) (float64, error) {
	if strings.HasPrefix(r.Quantity, "parallel") {
		const p1 = 7e5
		cs := numbers(strings.Trim(r.Word["C"], "[]"), ",")
		bs := make([]float64, len(cs))
		m, err := solveComponents(cs, bs, p1, 0, 293.15, false)
		return m / (element.RefDensity * p1 * 1e-8), err
	}
	m, err := solveComponents(numbers(r.Word["C"], "/"), numbers(r.Word["b"], "/"),
		r.In["p1_bar_abs"]*bar, r.In["p2_bar_abs"]*bar, r.In["T_K"], true)
	return m / element.RefDensity / litre, err
}

// solveComponents is the mass flow from p1 to p2 through components with C in
// dm³/(s·bar), in series or side by side.
func solveComponents(cs, bs []float64, p1, p2, t float64, series bool) (float64, error) {
	var n network.Network
	from := n.AddNode(network.Node{Name: "in", Fixed: true, Pressure: p1})
	to := n.AddNode(network.Node{Name: "out", Fixed: true, Pressure: p2})
	at := from
	for i, c := range cs {
		law, err := element.NewISO6358(element.Gas{Temperature: t}, element.ISO6358Spec{C: c * 1e-8, B: bs[i]})
		if err != nil {
			return 0, err
		}
		next := to
		if series && i < len(cs)-1 {
			next = n.AddNode(network.Node{Name: "between " + strconv.Itoa(i)})
		}
		n.AddLink(network.Link{Name: strconv.Itoa(i), From: at, To: next, Law: law})
		if series {
			at = next
		}
	}
	topology, err := n.Compile()
	if err != nil {
		return 0, err
	}
	state, err := topology.NewSolver().Solve(context.Background())
	if err != nil {
		return 0, err
	}
	total := 0.0
	for i, m := range state.Flow {
		if n.Links[i].To == to {
			total += m
		}
	}
	return total, nil
}

// numbers reads a list; what is no number is NaN.
func numbers(text, separator string) []float64 {
	var list []float64
	for part := range strings.SplitSeq(text, separator) {
		x, ok := number(part)
		if !ok {
			x = math.NaN()
		}
		list = append(list, x)
	}
	return list
}
