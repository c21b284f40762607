package reftest

import (
	"fmt"
	"math"
	"strings"

	"dropleg/engine/element"
)

const orificeFile = "air/orifices.csv"

func orificeLaws() []Law {
	const topic, code = "Orifices and leaks", "engine/element Orifice"
	return []Law{
		{
			Topic: topic, Name: "hole to the atmosphere", Code: code, File: orificeFile,
			Of:      []string{"free air through a round hole", "choked leak", "leak, subsonic", "leak rate table"},
			Got:     holeFlow,
			Because: []Because{{When: of("leak rate table"), Rel: 0.08, Why: "the remembered table is not consistent in itself: up to 5 % or more off choked flow"}},
		},
		{
			Topic: topic, Name: "choking", Code: code, File: orificeFile,
			Of: []string{"critical pressure ratio", "choked flow function"}, Got: choking,
		},
		{
			Topic: topic, Name: "hole to the atmosphere", Code: code, File: checksFile,
			Of: []string{"leak orifice", "leak formula"}, Got: checkedHole,
		},
	}
}

// hole is the flow through a hole of bore d m with p over the atmosphere, Pa, as a
// volume at the atmosphere and the hole's own temperature.
func hole(g element.Gas, d, cd, over, atm float64) (float64, error) {
	o, err := element.NewOrifice(g, d, cd)
	if err != nil {
		return 0, err
	}
	m, _, _ := o.Flow(atm+over, atm)
	return m / g.Density(atm), nil
}

// holeFlow answers rows in US units, which count free air at 14.7 psia and 70 °F,
// and metric ones, at the reference of ISO 1217.
func holeFlow(r Row) (float64, error) {
	cd := 1.0 // the leak table is printed before its coefficient
	if r.Has("Cd") {
		cd = r.In["Cd"]
	}
	if r.Has("d_in") {
		q, err := hole(rowGas(fahrenheit(70)), r.In["d_in"]*inch, cd, r.In["p_psig"]*psi, 14.7*psi)
		return q / cfm, err
	}
	atm, g := r.In["p_atm_Pa"], rowGas(temperature(r))
	q, err := hole(g, r.In["d_mm"]/1e3, cd, r.In["p_bar_g"]*bar, atm)
	return q * g.Density(atm) / rowGas(293.15).Density(1e5) / litre * minute, err
}

// choking finds where the downstream pressure ceases to act, and the flow there.
func choking(r Row) (float64, error) {
	const p1 = 1e6
	g := rowGas(293.15)
	o, err := element.NewOrifice(g, 0.01, 1)
	if err != nil {
		return 0, err
	}
	if strings.HasPrefix(r.Quantity, "choked flow function") {
		m, _, _ := o.Flow(p1, 0)
		return m * math.Sqrt(g.RT()) / (o.Area() * p1), nil
	}
	low, high := 0.1, 0.9
	for range 60 {
		middle := (low + high) / 2
		if _, _, d2 := o.Flow(p1, middle*p1); d2 == 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return low, nil
}

// checkedHole reads rows such as "hole 1/16 in; 90 psig; coefficient 1.0" and the
// one that states 114.7 psia.
func checkedHole(r Row) (float64, error) {
	d, ok := found(r.Inputs, `hole ([\d/]+) in`)
	if !ok {
		return 0, fmt.Errorf("inputs %q cannot be read", r.Inputs)
	}
	over, ok := found(r.Inputs, `([\d.]+) psig`)
	if !ok {
		abs, okAbs := found(r.Inputs, `([\d.]+) psia`)
		if !okAbs {
			return 0, fmt.Errorf("inputs %q state no pressure", r.Inputs)
		}
		over = abs - 14.7
	}
	q, err := hole(shopGas(fahrenheit(70)), d*inch, 1, over*psi, 14.7*psi)
	return q / cfm, err
}
