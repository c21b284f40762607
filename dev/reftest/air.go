package reftest

import (
	"math"
	"strings"

	"dropleg/engine/air"
	"dropleg/engine/element"
	"dropleg/engine/unit"
)

const airFile = "air/air_properties.csv"

// lemmonMolarMass is that of the 2000 equation, kg/mol (row AIR-0029 states it);
// the tables of that paper count by the mole.
const lemmonMolarMass = 28.9586e-3

func dryLaws() []Law {
	const topic = "Dry air"
	hasState := func(r Row) bool { return (r.Has("T_K") || r.Has("t_C")) && (r.Has("p_MPa") || r.Has("p_Pa")) }
	hasDensity := func(r Row) bool { return r.Has("rho_mol_per_dm3", "T_K") }
	return []Law{
		{
			Topic: topic, Name: "equation of state: density and Z", Code: "engine/air DryAt", File: airFile, When: hasState,
			Of:  []string{"density of dry air", "specific volume of dry air", "molar density of dry air", "compressibility factor Z"},
			Got: dryState,
		},
		{
			Topic: topic, Name: "heat capacities and speed of sound", Code: "engine/air DryAt", File: airFile, When: hasState,
			Of: []string{"cp of dry air", "cv of dry air", "ratio of specific heats", "speed of sound in dry air"}, Got: dryState,
		},
		{
			Topic: topic, Name: "viscosity by the transport equation", Code: "engine/air Viscosity", File: airFile, When: hasState,
			Of: []string{"dynamic viscosity of dry air"}, Got: dryState,
		},
		{
			Topic: topic, Name: "transport equations at a stated density", Code: "engine/air DryAt", File: airFile, When: hasDensity,
			Of: []string{"dynamic viscosity of dry air", "thermal conductivity of dry air"}, Got: transport,
			Because: []Because{{When: ids("AIR-0008"), Rel: 0.05, Why: "the enhancement near the critical point is left out here"}},
		},
		{
			Topic: topic, Name: "viscosity by Sutherland's law", Code: "engine/air Sutherland", File: airFile,
			Of:  []string{"dynamic viscosity, Sutherland law", "sea-level dynamic viscosity"},
			Got: func(r Row) (float64, error) { return float64(air.Sutherland(temperature(r))) * 1e6, nil },
			Because: []Because{{
				When: of("dynamic viscosity, Sutherland law (standard-atmosphere constants)", "sea-level dynamic viscosity"), Rel: 1e-4,
				Why: "the same law through another reference point, 6e-5 apart",
			}},
		},
		{
			Topic: topic, Name: "constants", Code: "engine/air DryAt, AtmosphereAt; engine/element RefDensity", File: airFile,
			Of:   []string{"specific gas constant of dry air (Lemmon", "specific gas constant of dry air", "troposphere exponent"},
			When: func(r Row) bool { return !strings.Contains(r.Quantity, "CODATA") }, Got: constant,
		},
	}
}

// dryState answers the rows of dry air at a pressure and a temperature.
func dryState(r Row) (float64, error) {
	s, err := air.DryAt(pressure(r), temperature(r))
	return dryProperty(s, r), err
}

func dryProperty(s air.Dry, r Row) float64 {
	perMole := 1.0
	if strings.Contains(r.Unit, "mol.K") {
		perMole = lemmonMolarMass
	}
	switch r.Quantity {
	case "density of dry air":
		return float64(s.Density)
	case "specific volume of dry air":
		return 1 / float64(s.Density)
	case "molar density of dry air":
		return float64(s.Density) / lemmonMolarMass / 1e3
	case "compressibility factor Z of dry air":
		return float64(s.Compressibility)
	case "dynamic viscosity of dry air":
		return float64(s.Viscosity) * 1e6
	case "thermal conductivity of dry air":
		return s.Conductivity * 1e3
	case "cp of dry air":
		return s.Cp * perMole
	case "cv of dry air":
		return s.Cv * perMole
	case "ratio of specific heats cp/cv of dry air":
		return float64(s.HeatRatio)
	case "speed of sound in dry air":
		return float64(s.SoundSpeed)
	}
	return math.NaN()
}

// transport answers rows that state the density: it looks for the pressure at
// which the equation of state has that density.
func transport(r Row) (float64, error) {
	t, want := temperature(r), r.In["rho_mol_per_dm3"]*1e3*lemmonMolarMass
	low, high := 1e-3, 100e6
	if want == 0 {
		high = low
	}
	for range 200 {
		middle := math.Sqrt(low * high)
		rho, err := air.Density(unit.AbsPressure(middle), t)
		if err != nil || float64(rho) > want {
			high = middle
		} else {
			low = middle
		}
	}
	s, err := air.DryAt(unit.AbsPressure(low), t)
	if err == nil && math.Abs(float64(s.Density)-want) > 1e-9*want+1e-4 {
		return 0, unused("a liquid, and the equation is offered for the gas; held inside engine/air")
	}
	return dryProperty(s, r), err
}

func constant(r Row) (float64, error) {
	const height = 5000
	switch {
	case strings.Contains(r.Quantity, "Lemmon"):
		s, err := air.DryAt(1e5, 300)
		return 1e5 / (float64(s.Density) * 300 * float64(s.Compressibility)), err
	case r.Quantity == "troposphere exponent":
		sea, err := air.AtmosphereAt(0)
		if err != nil {
			return 0, err
		}
		high, err := air.AtmosphereAt(height)
		return math.Log(float64(high.Pressure/sea.Pressure)) / math.Log(float64(high.Temperature/sea.Temperature)), err
	}
	a, err := air.AtmosphereAt(0)
	return float64(a.Pressure) / (float64(a.Density) * float64(a.Temperature)), err
}

func atmosphereLaws() []Law {
	return []Law{{
		Topic: "Atmosphere by altitude", Name: "standard atmosphere", Code: "engine/air AtmosphereAt", File: airFile,
		Of: []string{"standard atmosphere", "ISO 2533 / ICAO atmosphere", "sea-level speed of sound"}, Got: atmosphere,
		Because: []Because{
			{When: ids("AIR-0453"), Rel: 2e-4, Why: "printed 14.966 psia at -500 ft, 0.017 % over the formula; its neighbours agree"},
			{When: ids("AIR-0455"), Rel: 2e-4, Why: "printed 14.430 psia at 500 ft, 0.016 % under the formula; its neighbours agree"},
			{When: ids("AIR-0469"), Rel: 1e-3, Why: "printed as for a geometric 20,000 ft (6.7588 psia)"},
			{When: ids("AIR-0471"), Rel: 2e-3, Why: "printed as for a geometric 30,000 ft (4.3713 psia)"},
		},
	}, {
		Topic: "Reference flows", Name: "density of the ISO 6358 reference", Code: "engine/element RefDensity", File: referenceFile,
		Of: []string{"density printed for ANR"}, Got: func(Row) (float64, error) { return element.RefDensity, nil },
	}}
}

func atmosphere(r Row) (float64, error) {
	a, err := air.AtmosphereAt(heightOf(r))
	switch {
	case strings.HasSuffix(r.Quantity, "pressure"):
		return float64(a.Pressure) / map[string]float64{"kPa": 1e3, "psia": psi, "bar": bar, "Pa": 1}[r.Unit], err
	case strings.HasSuffix(r.Quantity, "density"):
		return float64(a.Density), err
	case strings.Contains(r.Quantity, "speed of sound"):
		return float64(a.SoundSpeed), err
	}
	switch r.Unit {
	case "C":
		return a.Temperature.Celsius(), err
	case "F":
		return float64(a.Temperature)*1.8 - 459.67, err
	}
	return float64(a.Temperature), err
}

// heightOf is the geopotential height of the row: sea level where none is stated.
func heightOf(r Row) unit.Length {
	switch {
	case r.Has("geometric_altitude_m"):
		return air.Geopotential(unit.Length(r.In["geometric_altitude_m"]))
	case r.Has("altitude_ft"):
		return unit.Length(r.In["altitude_ft"] * foot)
	case r.Has("geopotential_m"):
		return unit.Length(r.In["geopotential_m"])
	}
	return unit.Length(r.In["altitude_m"])
}
