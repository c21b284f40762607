package unit

// Exact definitions (nist-sp811, appendix B.8 and the footnotes there).
const (
	foot      = 0.3048
	inch      = 0.0254
	pound     = 0.45359237
	gravity   = 9.80665
	poundF    = pound * gravity
	psi       = poundF / (inch * inch)
	bar       = 1e5
	cubicFoot = foot * foot * foot
	cubicInch = inch * inch * inch
	gallonUS  = 231 * cubicInch
	standard  = 101325.0     // the standard atmosphere
	inchHg    = 3386.389     // conventional, mercury at 0 °C (seven figures)
	mmHg      = 133.322387   // conventional
	inchWater = 25.4 * mmH2O // conventional, 1000 kg/m³
	mmH2O     = gravity
	footPound = poundF * foot
	horse     = 550 * footPound
	metricHP  = 75 * gravity
	btu       = 1055.05585262 // International Table
	fahren    = 1 / 1.8       // K per °F
)

// frame says against what a pressure unit counts.
type frame int

const (
	plain    frame = iota // no frame: not a pressure, or its own
	gauge                 // above the local atmosphere
	absolute              // above vacuum
)

// unitRow is one accepted unit: si = read·scale + offset, plus the atmosphere
// where the unit and the kind are in different frames.
type unitRow struct {
	name   string // first spelling, as printed and as listed in messages
	also   string // further spellings, separated by blanks, blanks inside as dots
	scale  float64
	offset float64
	frame  frame
}

// kindRow is one kind of quantity.
type kindRow struct {
	kind    Kind
	words   string
	si      string
	example string
	units   []unitRow
	// chain lists units that may follow one another in one figure, large to
	// small ("12 ft 6 in", "1 h 30 min"); the last may leave its unit out.
	chain [][]string
	// least is the smallest SI value that exists (vacuum, absolute zero).
	least *float64
}

// nought is the floor of kinds that cannot be negative.
var nought = 0.0

// pressureUnits are the units of gauge and absolute pressure. psi, bar, kPa and
// MPa are what a shop's gauge shows; Pa, and the units of a barometer (mbar,
// hPa, inHg, mmHg, atm), count from vacuum.
var pressureUnits = []unitRow{
	{"psi", "lbf/in2 lb/in2 lbs psi.gauge", psi, 0, gauge},
	{"psig", "psi.g", psi, 0, gauge},
	{"psia", "psi.a psi.abs psi.absolute", psi, 0, absolute},
	{"bar", "bars", bar, 0, gauge},
	{"barg", "bar.g bar.gauge", bar, 0, gauge},
	{"bara", "bar.a bar.abs bar.absolute", bar, 0, absolute},
	{"kPa", "", 1e3, 0, gauge},
	{"kPag", "kPa.g kPa.gauge", 1e3, 0, gauge},
	{"kPaa", "kPa.a kPa.abs kPa.absolute", 1e3, 0, absolute},
	{"MPa", "", 1e6, 0, gauge},
	{"MPag", "MPa.g", 1e6, 0, gauge},
	{"MPaa", "MPa.a MPa.abs", 1e6, 0, absolute},
	{"Pa", "Pa.a Pa.abs Paa", 1, 0, absolute},
	{"Pag", "Pa.g", 1, 0, gauge},
	{"kgf/cm2", "kg/cm2 at", gravity * 1e4, 0, gauge},
	{"mbar", "mbara mbar.a", 100, 0, absolute},
	{"mbarg", "mbar.g", 100, 0, gauge},
	{"hPa", "hPa.a", 100, 0, absolute},
	{"inHg", "in.Hg", inchHg, 0, absolute},
	{"mmHg", "mm.Hg torr", mmHg, 0, absolute},
	{"inH2O", "in.H2O in.wc inwc in.wg", inchWater, 0, gauge},
	{"mmH2O", "mm.H2O", mmH2O, 0, gauge},
	{"atm", "", standard, 0, absolute},
}

// barometerUnits are the same units, all counted from vacuum; those marked as
// gauge are left out.
var barometerUnits = []unitRow{
	{"Pa", "Pa.a Pa.abs Paa", 1, 0, plain},
	{"kPa", "kPaa kPa.a kPa.abs", 1e3, 0, plain},
	{"hPa", "", 100, 0, plain},
	{"mbar", "mbara", 100, 0, plain},
	{"bar", "bara bar.a bar.abs", bar, 0, plain},
	{"psi", "psia psi.a psi.abs", psi, 0, plain},
	{"inHg", "in.Hg", inchHg, 0, plain},
	{"mmHg", "mm.Hg torr", mmHg, 0, plain},
	{"atm", "", standard, 0, plain},
}

// diffUnits are pressures without a frame: a difference of two gauge readings
// is the same number as that of two absolute ones.
var diffUnits = []unitRow{
	{"Pa", "", 1, 0, plain},
	{"kPa", "kPag kPaa", 1e3, 0, plain},
	{"MPa", "MPag MPaa", 1e6, 0, plain},
	{"bar", "bars barg bara", bar, 0, plain},
	{"mbar", "", 100, 0, plain},
	{"hPa", "", 100, 0, plain},
	{"psi", "psid psig psia lbf/in2", psi, 0, plain},
	{"kgf/cm2", "kg/cm2 at", gravity * 1e4, 0, plain},
	{"inHg", "in.Hg", inchHg, 0, plain},
	{"mmHg", "mm.Hg torr", mmHg, 0, plain},
	{"inH2O", "in.H2O in.wc inwc in.wg", inchWater, 0, plain},
	{"mmH2O", "mm.H2O", mmH2O, 0, plain},
	{"atm", "", standard, 0, plain},
}

// volumeFlowUnits carry no reference conditions of their own.
var volumeFlowUnits = []unitRow{
	{"m3/s", "cbm/s", 1, 0, plain},
	{"m3/min", "cbm/min cmm", 1.0 / 60, 0, plain},
	{"m3/h", "m3/hr cbm/h cmh", 1.0 / 3600, 0, plain},
	{"L/s", "dm3/s lps l/sec litre/s liter/s", 1e-3, 0, plain},
	{"L/min", "dm3/min lpm l/mn litre/min liter/min litres/min liters/min", 1e-3 / 60, 0, plain},
	{"L/h", "dm3/h l/hr lph", 1e-3 / 3600, 0, plain},
	{"mL/min", "cm3/min ccm", 1e-6 / 60, 0, plain},
	{"cfm", "ft3/min cu.ft/min cuft/min", cubicFoot / 60, 0, plain},
	{"ft3/s", "cfs cu.ft/s ft3/sec", cubicFoot, 0, plain},
	{"ft3/h", "cfh ft3/hr cu.ft/h", cubicFoot / 3600, 0, plain},
}

// kindTable is the one table of kinds and units; it is never written to.
var kindTable = []kindRow{
	{kind: KindNumber, words: "number", example: "0.25"},
	{kind: KindWord, words: "word", example: "steel"},
	{kind: KindYesNo, words: "yes or no", example: "yes"},
	{kind: KindInteger, words: "whole number", example: "2"},
	{kind: KindLength, words: "length", si: "m", example: "12 ft 6 in", chain: [][]string{{"ft", "in"}}, units: []unitRow{
		{"m", "metre meter metres meters", 1, 0, plain},
		{"mm", "millimetre millimeter", 1e-3, 0, plain},
		{"cm", "", 1e-2, 0, plain},
		{"km", "", 1e3, 0, plain},
		{"um", "micron microns micrometre", 1e-6, 0, plain},
		{"in", "\" inch inches ''", inch, 0, plain},
		{"ft", "' foot feet", foot, 0, plain},
		{"yd", "yard yards", 3 * foot, 0, plain},
		{"mil", "thou mils", inch / 1000, 0, plain},
		{"mi", "mile miles", 5280 * foot, 0, plain},
	}},
	{kind: KindArea, words: "area", si: "m2", example: "20 m2", units: []unitRow{
		{"m2", "sq.m sqm", 1, 0, plain},
		{"cm2", "sq.cm", 1e-4, 0, plain},
		{"mm2", "sq.mm", 1e-6, 0, plain},
		{"ft2", "sq.ft sqft sf", foot * foot, 0, plain},
		{"in2", "sq.in sqin", inch * inch, 0, plain},
	}},
	{kind: KindVolume, words: "volume", si: "m3", example: "60 gal", units: []unitRow{
		{"m3", "cbm cu.m", 1, 0, plain},
		{"L", "dm3 litre liter litres liters ltr", 1e-3, 0, plain},
		{"mL", "cm3 cc", 1e-6, 0, plain},
		{"mm3", "", 1e-9, 0, plain},
		{"gal", "gallon gallons usgal us.gal us.gallon us.gallons", gallonUS, 0, plain},
		{"qt", "quart quarts", gallonUS / 4, 0, plain},
		{"ft3", "cu.ft cuft cf", cubicFoot, 0, plain},
		{"in3", "cu.in cuin", cubicInch, 0, plain},
	}},
	{kind: KindPressure, words: "pressure", si: "Pa", example: "90 psig", units: pressureUnits, least: &nought},
	{kind: KindGauge, words: "gauge pressure", si: "Pa", example: "90 psig", units: pressureUnits},
	{kind: KindBarometer, words: "absolute pressure", si: "Pa", example: "1013 mbar", units: barometerUnits, least: &nought},
	{kind: KindPressureDiff, words: "pressure difference", si: "Pa", example: "3 psi", units: diffUnits},
	{kind: KindTemperature, words: "temperature", si: "K", example: "68 °F", least: &nought, units: []unitRow{
		{"K", "kelvin deg.K", 1, 0, plain},
		{"°C", "C degC deg.C deg celsius", 1, 273.15, plain},
		{"°F", "F degF deg.F fahrenheit", fahren, 459.67 * fahren, plain},
		{"°R", "R degR deg.R rankine", fahren, 0, plain},
	}},
	{kind: KindTempDiff, words: "temperature difference", si: "K", example: "10 °F", units: []unitRow{
		{"K", "kelvin deg.K", 1, 0, plain},
		{"°C", "C degC deg.C deg celsius", 1, 0, plain},
		{"°F", "F degF deg.F fahrenheit", fahren, 0, plain},
		{"°R", "R degR deg.R rankine", fahren, 0, plain},
	}},
	{kind: KindFlow, words: "flow of free air", si: "m3/s", example: "18 cfm", units: volumeFlowUnits},
	{kind: KindMassFlow, words: "mass flow", si: "kg/s", example: "0.01 kg/s", units: []unitRow{
		{"kg/s", "kg/sec", 1, 0, plain},
		{"g/s", "g/sec", 1e-3, 0, plain},
		{"kg/min", "", 1.0 / 60, 0, plain},
		{"g/min", "", 1e-3 / 60, 0, plain},
		{"kg/h", "kg/hr", 1.0 / 3600, 0, plain},
		{"lb/s", "lbm/s", pound, 0, plain},
		{"lb/min", "lbm/min lbs/min", pound / 60, 0, plain},
		{"lb/h", "lb/hr lbm/h lbs/h pph", pound / 3600, 0, plain},
	}},
	{kind: KindVolumeFlow, words: "volume flow", si: "m3/s", example: "18 cfm", units: append([]unitRow{{"acfm", "icfm", cubicFoot / 60, 0, plain}}, volumeFlowUnits...)},
	{kind: KindVelocity, words: "velocity", si: "m/s", example: "20 ft/s", units: []unitRow{
		{"m/s", "m/sec", 1, 0, plain},
		{"ft/s", "fps ft/sec", foot, 0, plain},
		{"ft/min", "fpm", foot / 60, 0, plain},
		{"km/h", "kph", 1 / 3.6, 0, plain},
		{"mph", "mi/h", 5280 * foot / 3600, 0, plain},
		{"m/min", "", 1.0 / 60, 0, plain},
	}},
	{kind: KindDensity, words: "density", si: "kg/m3", example: "1.2 kg/m3", units: []unitRow{
		{"kg/m3", "", 1, 0, plain},
		{"g/m3", "", 1e-3, 0, plain},
		{"g/cm3", "g/cc kg/L kg/dm3", 1e3, 0, plain},
		{"g/L", "", 1, 0, plain},
		{"lb/ft3", "lbm/ft3 lb/cu.ft", pound / cubicFoot, 0, plain},
	}},
	{kind: KindViscosity, words: "viscosity", si: "Pa.s", example: "18.2 uPa.s", units: []unitRow{
		{"Pa.s", "kg/m.s N.s/m2", 1, 0, plain},
		{"mPa.s", "cP centipoise", 1e-3, 0, plain},
		{"uPa.s", "", 1e-6, 0, plain},
		{"lb/ft.s", "lbm/ft.s", pound / foot, 0, plain},
	}},
	{kind: KindDuration, words: "duration", si: "s", example: "10 min", chain: [][]string{{"d", "h", "min", "s"}}, units: []unitRow{
		{"s", "sec secs second seconds", 1, 0, plain},
		{"ms", "", 1e-3, 0, plain},
		{"min", "mins minute minutes", 60, 0, plain},
		{"h", "hr hrs hour hours", 3600, 0, plain},
		{"d", "day days", 86400, 0, plain},
		{"wk", "week weeks", 7 * 86400, 0, plain},
		{"yr", "year years", 365 * 86400, 0, plain},
	}},
	{kind: KindPower, words: "power", si: "W", example: "5.5 kW", units: []unitRow{
		{"W", "watt watts", 1, 0, plain},
		{"kW", "kilowatt kilowatts", 1e3, 0, plain},
		{"hp", "bhp horsepower", horse, 0, plain},
		{"PS", "cv ch", metricHP, 0, plain},
		{"Btu/h", "Btu/hr btuh", btu / 3600, 0, plain},
	}},
	{kind: KindEnergy, words: "energy", si: "J", example: "250 kJ", units: energyUnits},
	{kind: KindElectricity, words: "electrical energy", si: "J", example: "1200 kWh", units: energyUnits},
	{kind: KindSpecificEnergy, words: "work per volume of free air", si: "J/m3", example: "0.11 kWh/m3", units: []unitRow{
		{"J/m3", "", 1, 0, plain},
		{"kJ/m3", "", 1e3, 0, plain},
		{"kWh/m3", "kW.h/m3", 3.6e6, 0, plain},
		{"Wh/m3", "W.h/m3", 3600, 0, plain},
		{"kW/100 cfm", "kW/100cfm", 1e3 / (100 * cubicFoot / 60), 0, plain},
		{"kW/(m3/min)", "kW/m3/min", 60e3, 0, plain},
	}},
	{kind: KindMass, words: "mass", si: "kg", example: "2.5 kg", chain: [][]string{{"lb", "oz"}}, units: []unitRow{
		{"kg", "kilogram kilograms", 1, 0, plain},
		{"g", "gram grams", 1e-3, 0, plain},
		{"mg", "", 1e-6, 0, plain},
		{"t", "tonne tonnes", 1e3, 0, plain},
		{"lb", "lbs lbm pound pounds", pound, 0, plain},
		{"oz", "ounce ounces", pound / 16, 0, plain},
	}},
	{kind: KindStress, words: "stress", si: "Pa", example: "41 MPa", units: []unitRow{
		{"Pa", "N/m2", 1, 0, plain},
		{"kPa", "", 1e3, 0, plain},
		{"MPa", "N/mm2", 1e6, 0, plain},
		{"GPa", "kN/mm2", 1e9, 0, plain},
		{"bar", "", bar, 0, plain},
		{"psi", "lbf/in2", psi, 0, plain},
		{"ksi", "kip/in2", 1e3 * psi, 0, plain},
		{"Mpsi", "", 1e6 * psi, 0, plain},
	}},
	{kind: KindConductance, words: "sonic conductance", si: "m3/(s.Pa)", example: "1.2 dm3/(s.bar)", units: []unitRow{
		{"m3/(s.Pa)", "m3/s/Pa", 1, 0, plain},
		{"dm3/(s.bar)", "dm3/s/bar L/(s.bar) L/s/bar", 1e-8, 0, plain},
		{"L/(min.bar)", "L/min/bar dm3/(min.bar) dm3/min/bar", 1e-8 / 60, 0, plain},
		{"dm3/(s.kPa)", "L/(s.kPa)", 1e-6, 0, plain},
	}},
	{kind: KindFrequency, words: "frequency", si: "1/s", example: "12 per h", units: []unitRow{
		{"1/s", "/s per.s Hz", 1, 0, plain},
		{"per min", "1/min /min rpm", 1.0 / 60, 0, plain},
		{"per h", "1/h /h starts/h 1/hr /hr per.hour per.hr", 1.0 / 3600, 0, plain},
		{"per day", "1/d /d /day per.d", 1.0 / 86400, 0, plain},
	}},
	{kind: KindExpansion, words: "linear expansion", si: "1/K", example: "16.9 um/(m.K)", units: []unitRow{
		{"1/K", "/K /°C 1/°C per.K", 1, 0, plain},
		{"um/(m.K)", "um/m/K um/(m.°C) um/m/°C ppm/K", 1e-6, 0, plain},
		{"mm/(m.K)", "mm/m/K mm/(m.°C) mm/m/°C", 1e-3, 0, plain},
		{"1/°F", "/°F per.F in/in/°F", 1.8, 0, plain},
		{"uin/(in.°F)", "uin/in/°F ppm/°F", 1.8e-6, 0, plain},
	}},
	{kind: KindHeatCapacity, words: "specific heat or gas constant", si: "J/(kg.K)", example: "287.05 J/(kg.K)", units: []unitRow{
		{"J/(kg.K)", "J/kg/K", 1, 0, plain},
		{"kJ/(kg.K)", "kJ/kg/K", 1e3, 0, plain},
		{"ft.lbf/(lb.°R)", "ft.lbf/lb/°R", footPound / pound / fahren, 0, plain},
	}},
	{kind: KindRatio, words: "ratio", example: "50 %", units: []unitRow{
		{"%", "percent pct %rh %.rh", 0.01, 0, plain},
		{"ppm", "", 1e-6, 0, plain},
		// Time out of time, as people say how long a tool is used.
		{"min/h", "min.an.hour minutes.an.hour min.per.hour minutes.per.hour min/hour min/hr", 1.0 / 60, 0, plain},
		{"s/min", "s.a.minute seconds.a.minute seconds.per.minute sec/min", 1.0 / 60, 0, plain},
	}},
}

// energyUnits serve both mechanical and electrical energy.
var energyUnits = []unitRow{
	{"J", "joule N.m Nm", 1, 0, plain},
	{"kJ", "", 1e3, 0, plain},
	{"MJ", "", 1e6, 0, plain},
	{"Wh", "W.h", 3600, 0, plain},
	{"kWh", "kW.h", 3.6e6, 0, plain},
	{"ft.lbf", "ft.lb ftlb lbf.ft", footPound, 0, plain},
	{"Btu", "", btu, 0, plain},
}
