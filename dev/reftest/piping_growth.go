package reftest

import (
	"fmt"
	"regexp"
	"strings"

	"dropleg/engine/solid"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
)

const bendFile = "piping/bend_radius.csv"

func growthLaws() []Law {
	const topic = "Growth and legs"
	return []Law{
		{
			Topic: topic, Name: "copper offsets and coil loops, handbook table", Code: "engine/solid Leg, LoopRadius", File: bendFile,
			Of: []string{"offset_length_L", "coil_loop_radius_R"}, Figures: copperOffset,
			Caution: "the constant 88.6 was fitted to these very cells: one number serves all of them, so they hold the form of the law and the sizes, not the constant. From modulus and stress it is 92.2, a longer leg",
		},
		{
			Topic: topic, Name: "leg constant from modulus and stress", Code: "engine/solid LegConstant", File: bendFile,
			Of: []string{"leg_formula, copper"}, When: func(r Row) bool { return r.Expected == "92.2" },
			Figures: func(r Row) ([]Figure, error) {
				c, err := solid.LegConstant(17e6*psi, 6000*psi)
				return []Figure{{Want: r.Want, Got: c, Allowed: 0.05, Unit: "1"}}, err
			},
		},
		{
			Topic: topic, Name: "growth between two temperatures", Code: "engine/solid Growth", File: checksFile,
			Of: []string{"expansion"}, When: func(r Row) bool { return r.Quantity == "expansion" }, Got: growth,
			Because: []Because{
				{When: ids("checks 134"), Abs: 0.06, Why: "down to 0 °F the coefficient lies under the mean above 70 °F, as the row notes"},
				{When: ids("checks 137"), Abs: 0.10, Why: "down to 0 °F the coefficient lies under the mean above 70 °F, as the row notes"},
			},
		},
		{
			Topic: topic, Name: "offsets, loops and plastic legs", Code: "engine/solid Leg, LoopRadius", File: checksFile,
			Of: []string{"expansion offset", "expansion coil loop", "expansion leg plastic"}, Got: leg,
		},
	}
}

// copperOD is the outside diameter of water tube in inches: nominal and an eighth.
func copperOD(size string) (float64, error) {
	x, ok := number(size)
	if !ok {
		return 0, fmt.Errorf("size %q cannot be read", size)
	}
	return x + 0.125, nil
}

// legOf is the leg in inches, or the radius of the coil that has its length.
func legOf(constant, od, growth float64, coil bool) (float64, error) {
	l, err := solid.Leg(constant, unit.Length(od*inch), unit.Length(growth*inch))
	if coil {
		l = solid.LoopRadius(l)
	}
	return float64(l) / inch, err
}

// copperOffset holds the table, printed in whole inches, to one inch: the tolerance
// that checks.csv states for the same rows.
func copperOffset(r Row) ([]Figure, error) {
	od, err := copperOD(r.Cell["size"])
	if err != nil {
		return nil, err
	}
	got, err := legOf(solid.CopperOffset, od, r.Num("growth_in"), strings.HasPrefix(r.Quantity, "coil"))
	return []Figure{{Want: r.Want, Got: got, Allowed: 1, Unit: "in"}}, err
}

func leg(r Row) (float64, error) {
	od, ok := found(r.Inputs, `OD ([\d.]+) in`)
	if !ok {
		m := regexp.MustCompile(`copper ([\d/-]+) in`).FindStringSubmatch(r.Inputs)
		if m == nil {
			return 0, fmt.Errorf("inputs %q cannot be read", r.Inputs)
		}
		var err error
		if od, err = copperOD(m[1]); err != nil {
			return 0, err
		}
	}
	growth, ok := found(r.Inputs, `growth ([\d.]+) in`)
	if !ok {
		return 0, fmt.Errorf("inputs %q state no growth", r.Inputs)
	}
	constant := float64(solid.CopperOffset)
	if c, ok := found(r.Inputs, `C=([\d.]+)`); ok {
		constant = c
	}
	return legOf(constant, od, growth, r.Quantity == "expansion coil loop")
}

// growth works the rows whose inputs are phrases: "copper; length 100 ft; rise 100
// F; alpha 9.4e-6 per F", or a material of ASME B31.9 from the shelf and a span.
func growth(r Row) (float64, error) {
	text := r.Inputs
	length, metric := found(text, `([\d.]+) m\b`)
	if !metric {
		feet, ok := found(text, `([\d.]+) ft`)
		if !ok {
			return 0, fmt.Errorf("inputs %q state no length", text)
		}
		length = feet * foot
	}
	alpha, err := coefficient(text)
	if err != nil {
		return 0, err
	}
	g, err := solid.Growth(unit.Expansion(alpha), unit.Length(length), rise(text))
	if r.Unit == "mm" {
		return float64(g) * 1e3, err
	}
	return float64(g) / inch, err
}

func rise(text string) unit.TempDiff {
	if x, ok := found(text, `rise ([\d.]+) K`); ok {
		return unit.TempDiff(x)
	}
	if x, ok := found(text, `rise ([\d.]+) F`); ok {
		return unit.TempDiff(x / 1.8)
	}
	from, _ := found(text, `([\d.]+) to`)
	to, _ := found(text, `to ([\d.]+) F`)
	return unit.TempDiff((to - from) / 1.8)
}

// coefficient is the one the row states, per K, or that of its material on the
// shelf, which is the set of ASME B31.9.
func coefficient(text string) (float64, error) {
	if x, ok := found(text, `alpha ([\d.e-]+) per F`); ok {
		return x * 1.8, nil
	}
	if x, ok := found(text, `alpha ([\d.e-]+) per K`); ok {
		return x, nil
	}
	if x, ok := found(text, `([\d.]+) in per 100 ft per 10 F`); ok {
		return x / (1200 * 10) * 1.8, nil
	}
	first, _, _ := strings.Cut(text, ";")
	id := map[string]string{
		"carbon steel": "carbon-steel", "austenitic stainless": "stainless-steel", "aluminium": "aluminium",
		"copper C12200": "copper", "pvc 1120": "pvc",
	}[first]
	m, ok := catalog.Builtin().Material(id)
	if !ok {
		return 0, fmt.Errorf("no material %q", first)
	}
	return m.Alpha.Value, nil
}
