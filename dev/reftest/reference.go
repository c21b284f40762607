package reftest

import (
	"fmt"
	"strings"

	"dropleg/engine/air"
	"dropleg/engine/unit"
)

const referenceFile = "air/reference_flow.csv"

func referenceLaws() []Law {
	const topic = "Reference flows"
	return []Law{
		{
			Topic: topic, Name: "density of a reference state", Code: "engine/air Reference.Density", File: referenceFile,
			Of: []string{"definition "},
			Got: func(r Row) (float64, error) {
				s, err := stateNamed(strings.TrimPrefix(r.Quantity, "definition "))
				return float64(s.Density()), err
			},
		},
		{
			Topic: topic, Name: "volume ratio between two references", Code: "engine/air Reference.Volume, WholeGasRatio", File: referenceFile,
			Of: []string{"volume ratio"}, Got: volumeRatio,
		},
		{
			Topic: topic, Name: "actual volume at a site", Code: "engine/air Site", File: referenceFile,
			Of: []string{"actual (site) volume"}, Got: siteVolume,
		},
		{
			Topic: topic, Name: "stated reference states", Code: "engine/air Normal, SCFM70", File: referenceFile,
			Of: []string{
				"reference pressure, DIN 1343", "reference temperature, DIN 1343", "reference pressure, free air of the orifice table",
				"reference temperature, free air of the orifice table", "density of dry air at 0 C", "compressed volume of 1 cfm",
			},
			Got: statedReference,
		},
		{
			Topic: topic, Name: "units", Code: "engine/unit Parse", File: referenceFile,
			Of: []string{"unit conversion"}, Got: conversion,
		},
		{
			Topic: topic, Name: "units", Code: "engine/unit Parse", File: "air/test.csv", Of: []string{"30 psi in kPa"},
			Got: func(Row) (float64, error) { return ratio(unit.KindPressureDiff, "30 psi", "1 kPa") },
		},
		{
			Topic: topic, Name: "compressed volume", Code: "engine/air Reference.Volume", File: checksFile, Of: []string{"volume"},
			Got: func(Row) (float64, error) {
				free, err := air.Site(14.696*psi, fahrenheit(60), 0)
				if err != nil {
					return 0, err
				}
				line, err := air.Site(114.696*psi, fahrenheit(60), 0)
				return float64(line.Volume(free.Mass(100))), err
			},
		},
	}
}

// stateNamed is a reference of the rows; three of them the program does not
// offer, so they are made as sites.
func stateNamed(name string) (air.Reference, error) {
	switch name {
	case "ISO2533":
		return air.Site(air.StandardPressure, 288.15, 0)
	case "GOST20":
		return air.Site(air.StandardPressure, 293.15, 0)
	case "IUPAC":
		return air.Site(100000, 273.15, 0)
	}
	s, ok := map[string]air.Reference{
		"ISO1217": air.ISO1217, "ANR": air.ISO8778, "DIN1343": air.Normal, "scfm60": air.SCFM60,
		"scfm68d": air.SCFM68D, "scfm68h": air.SCFM68H, "scfm70": air.SCFM70,
	}[name]
	if !ok {
		return s, fmt.Errorf("no reference %q", name)
	}
	return s, nil
}

func volumeRatio(r Row) (float64, error) {
	from, err := stateNamed(r.Word["from"])
	if err != nil {
		return 0, err
	}
	to, err := stateNamed(r.Word["to"])
	if strings.Contains(r.Quantity, "whole gas") {
		return float64(to.WholeGasRatio(from)), err
	}
	return float64(to.Volume(from.Mass(1))), err
}

func siteVolume(r Row) (float64, error) {
	a, err := air.AtmosphereAt(unit.Length(r.In["altitude_m"]))
	if err != nil {
		return 0, err
	}
	s, err := air.Site(a.Pressure, unit.Celsius(r.In["site_t_C"]), unit.Ratio(r.In["site_rh_pct"]/100))
	if err != nil {
		return 0, err
	}
	from, err := stateNamed(strings.Fields(r.Quantity)[5])
	return float64(s.Volume(from.Mass(1))), err
}

func statedReference(r Row) (float64, error) {
	q := r.Quantity
	switch {
	case strings.HasPrefix(q, "reference pressure, DIN"):
		return float64(air.Normal.Pressure), nil
	case strings.HasPrefix(q, "reference temperature, DIN"):
		return float64(air.Normal.Temperature), nil
	case strings.HasPrefix(q, "reference pressure, free air of the orifice"):
		return float64(air.SCFM70.Pressure), nil
	case strings.HasPrefix(q, "reference temperature, free air of the orifice"):
		return float64(air.SCFM70.Temperature), nil
	case strings.HasPrefix(q, "density of dry air"):
		// Real gas: the ideal 1.2923 would miss the printed 1.293 by Z.
		d, err := air.Density(air.Normal.Pressure, air.Normal.Temperature)
		return float64(d), err
	}
	free, err := air.Site(14.7*psi, fahrenheit(60), 0)
	if err != nil {
		return 0, err
	}
	line, err := air.Site(114.7*psi, fahrenheit(60), 0)
	return float64(line.Volume(free.Mass(1))), err
}

// conversion reads "1 cfm" and the unit of the answer as a person would type
// them, and divides.
func conversion(r Row) (float64, error) {
	from := strings.TrimPrefix(r.Quantity, "unit conversion ")
	from, _, _ = strings.Cut(from, " (")
	from, to := strings.Replace(from, "US gal", "gal", 1), strings.Replace(r.Unit, "US gal", "gal", 1)
	to = "1 " + to
	for _, kind := range []unit.Kind{unit.KindVolumeFlow, unit.KindVolume, unit.KindPressureDiff, unit.KindPower, unit.KindEnergy} {
		if x, err := ratio(kind, from, to); err == nil {
			return x, nil
		}
	}
	return 0, fmt.Errorf("no kind knows both %q and %q", from, to)
}

func ratio(kind unit.Kind, over, under string) (float64, error) {
	a, err := unit.Parse(over, kind, unit.Env{})
	if err != nil {
		return 0, err
	}
	b, err := unit.Parse(under, kind, unit.Env{})
	return a / b, err
}
