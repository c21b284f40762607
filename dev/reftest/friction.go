package reftest

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"dropleg/engine/air"
	"dropleg/engine/element"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
)

const (
	frictionFile = "air/friction.csv"
	checksFile   = "piping/checks.csv"
	rowR         = 287.0529 // J/(kg K)
)

func frictionLaws() []Law {
	return []Law{
		{
			Topic: "Friction", Name: "Colebrook's friction factor", Code: "engine/element Colebrook", File: frictionFile,
			Of: []string{"Darcy friction factor, Colebrook"},
			Got: func(r Row) (float64, error) {
				return element.Colebrook(r.In["Re"], r.In["rel_roughness"]), nil
			},
		},
		{
			Topic: "Friction", Name: "laminar friction factor", Code: "engine/element Friction", File: frictionFile,
			Of:  []string{"Darcy friction factor, laminar"},
			Got: func(r Row) (float64, error) { return element.Friction(r.In["Re"], 0), nil },
			Because: []Because{{
				When: func(r Row) bool { return r.In["Re"] >= 2000 }, Rel: 0.25,
				Why: "above Re 2000 the join to turbulent flow has begun",
			}},
		},
	}
}

func lineLaws() []Law {
	const topic = "Lines: pressure drop"
	return []Law{
		{
			Topic: topic, Name: "handbook loss table, schedule 40, 100 psig, 60 °F, 0.0018 in rough", Code: "engine/element Pipe.Outlet", File: frictionFile,
			Of: []string{"pressure drop per 100 ft, schedule 40 steel"}, Got: handbookDrop,
			Because: []Because{{
				When: func(r Row) bool { return r.Want > 6 }, Rel: 0.35, Also: handbookWay,
				Why: "the table works with the density at the inlet; at these drops, above 6 % of the inlet pressure, the air expands on its way and loses more. Worked at the density of the inlet with our friction factor each of these rows is met within its own tolerance",
			}},
		},
		{
			Topic: topic, Name: "isothermal line, with the gas constants of the rows", Code: "engine/element Pipe.Outlet", File: frictionFile,
			Of: []string{"isothermal compressible pressure drop"}, Got: isothermalDrop,
			Because: []Because{{
				When: ids("FRIC-0407"), Rel: 0.08,
				Why: "at Re 3319 the row takes Colebrook, we the join between laminar and turbulent",
			}},
		},
		{
			Topic: topic, Name: "pneumatic loss chart, schedule 40, 0.045 mm rough, scfm taken at 14.7 psia and 68 °F", Code: "engine/element Pipe.Outlet", File: checksFile,
			Of: []string{"pressure drop"}, When: func(r Row) bool { return r.Quantity == "pressure drop" }, Got: chartDrop,
			Caution: "the chart states neither the reference of its scfm nor its roughness: both are taken as its trade does",
		},
		{
			Topic: topic, Name: "hose friction example, 3/4 in bore, smooth rubber", Code: "engine/element Pipe.Outlet", File: checksFile,
			Of: []string{"pressure drop hose"}, Got: hoseDrop,
			Because: []Because{{
				When: of("pressure drop hose"), Rel: 0.35,
				Also: func(r Row) ([]Figure, error) {
					smooth, err := hoseOf(r, 0)
					return []Figure{{Want: r.Want, Got: smooth, Allowed: 0.25 * r.Want, Unit: r.Unit}}, err
				},
				Why: "one reading off a chart that states no roughness: at 0.01 mm we lose 0.53 psi; a perfectly smooth bore, the least that is possible, loses 0.48 and is within the quarter that the row allows",
			}},
		},
	}
}

// shopGas is dry air as the program's own networks have it.
func shopGas(t unit.Temperature) element.Gas {
	return element.Gas{Temperature: float64(t), R: air.GasConstant, Z: 1, Viscosity: float64(air.Sutherland(t))}
}

// rowGas is the air that the isothermal and orifice rows were made with: R of the
// 1976 standard atmosphere and Sutherland's law in its constants, 4e-5 apart from
// the program's own.
func rowGas(t unit.Temperature) element.Gas {
	own := shopGas(t)
	own.R = rowR
	own.Viscosity = 1.458e-6 * math.Pow(float64(t), 1.5) / (float64(t) + 110.4)
	return own
}

// drop is the loss in a line that carries m kg/s from p1 Pa absolute.
func drop(g element.Gas, s element.PipeSpec, p1, m float64) (float64, error) {
	p, err := element.NewPipe(g, s)
	if err != nil {
		return 0, err
	}
	p2, ok := p.Outlet(p1, m)
	if !ok {
		return 0, fmt.Errorf("the line cannot carry %g kg/s", m)
	}
	return p1 - p2, nil
}

// handbookDrop is in psi per 100 ft; free air at 14.7 psia and 60 °F.
func handbookDrop(r Row) (float64, error) {
	g := shopGas(fahrenheit(60))
	d, err := drop(g, element.PipeSpec{Length: 100 * foot, Bore: r.In["id_in"] * inch, Roughness: 0.0018 * inch},
		(100+14.7)*psi, r.In["free_air_cfm"]*cfm*g.Density(14.7*psi))
	return d / psi, err
}

// handbookWay is the same line by f L/D · ρ v²/2 with the density of its inlet.
func handbookWay(r Row) ([]Figure, error) {
	g := shopGas(fahrenheit(60))
	bore, m := r.In["id_in"]*inch, r.In["free_air_cfm"]*cfm*g.Density(14.7*psi)
	area := math.Pi / 4 * bore * bore
	f := element.Friction(4*m/(math.Pi*bore*g.Viscosity), 0.0018*inch/bore)
	d := f * 100 * foot / bore * m * m / (2 * g.Density((100+14.7)*psi) * area * area)
	allowed, ok := r.allowed()
	if !ok {
		return nil, &toleranceError{r.ID, r.Tolerance}
	}
	return []Figure{{Want: r.Want, Got: d / psi, Allowed: allowed, Unit: r.Unit}}, nil
}

func isothermalDrop(r Row) (float64, error) {
	g := rowGas(temperature(r))
	reference := rowGas(293.15).Density(1e5)
	d, err := drop(g, element.PipeSpec{Length: r.In["length_m"], Bore: r.In["id_mm"] / 1e3, Roughness: r.In["eps_mm"] / 1e3},
		r.In["p1_bar_g"]*bar+r.In["p_atm_Pa"], r.In["flow_L_per_min_ISO1217"]*litre/minute*reference)
	return d / bar, err
}

// chartDrop reads rows such as "Sch 40 steel 1/2 in; 20 scfm; 80 psig inlet; 100
// ft"; the chart does not state its scfm, which is taken at 14.7 psia and 68 °F.
func chartDrop(r Row) (float64, error) {
	size := regexp.MustCompile(`steel ([\d/-]+) in`).FindStringSubmatch(r.Inputs)
	flow, okFlow := found(r.Inputs, `([\d.]+) scfm`)
	inlet, okInlet := found(r.Inputs, `([\d.]+) psig`)
	length, okLength := found(r.Inputs, `([\d.]+) ft`)
	if size == nil || !okFlow || !okInlet || !okLength {
		return 0, fmt.Errorf("inputs %q cannot be read", r.Inputs)
	}
	z, ok := catalog.Builtin().Size("steel-sch40", size[1])
	if !ok {
		return 0, fmt.Errorf("no size %s", size[1])
	}
	g := shopGas(unit.Celsius(20))
	d, err := drop(g, element.PipeSpec{Length: length * foot, Bore: float64(z.Bore), Roughness: 4.5e-5},
		(inlet+14.7)*psi, flow*cfm*g.Density(14.7*psi))
	return d / psi, err
}

// hoseDrop is the chart reading for 3/4 in hose, with the roughness that the
// tables give a smooth rubber bore.
func hoseDrop(r Row) (float64, error) { return hoseOf(r, 1e-5) }

func hoseOf(r Row, rough float64) (float64, error) {
	flow, okFlow := found(r.Inputs, `([\d.]+) scfm`)
	inlet, okInlet := found(r.Inputs, `([\d.]+) psig`)
	length, okLength := found(r.Inputs, `([\d.]+) ft`)
	if !okFlow || !okInlet || !okLength {
		return 0, fmt.Errorf("inputs %q cannot be read", r.Inputs)
	}
	g := shopGas(unit.Celsius(20))
	d, err := drop(g, element.PipeSpec{Length: length * foot, Bore: 0.75 * inch, Roughness: rough},
		(inlet+14.7)*psi, flow*cfm*g.Density(14.7*psi))
	return d / psi, err
}

// found takes the number that a pattern captures, if the text holds it.
func found(text, pattern string) (float64, bool) {
	m := regexp.MustCompile(pattern).FindStringSubmatch(text)
	if m == nil {
		return 0, false
	}
	return number(strings.TrimSpace(m[1]))
}
