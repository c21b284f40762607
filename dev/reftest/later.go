package reftest

// later is why rows have no law here.
type later struct {
	file string
	of   []string // quantities by their first words; none: all
	why  string
}

const (
	noLaw     = "no law: a limit or a rule that a check or a sheet applies"
	laterPart = "a later part of the program"
)

// laters lists the quantities that nothing answers, each with its reason.
func laters() []later {
	return []later{
		{airFile, []string{"molar mass of dry air", "universal gas constant"}, "a constant of a standard, which enters by its gas constant"},
		{airFile, []string{"specific gas constant of dry air (CODATA"}, "another choice of constants, not used here"},
		{humidityFile, []string{"water removed by refrigerated dryer"}, "the row does not state the aftercooler it starts from"},
		{humidityFile, []string{"rule: vapour-holding"}, "a rule of thumb in °F, no law of ours"},
		{referenceFile, []string{
			"reference pressure, free air, US Army", "reference temperature, free air, US Army",
			"reference pressure, free air of the schedule-40", "reference temperature, free air of the schedule-40",
			"reference pressure, standard air in older", "reference temperature, standard air in older",
		}, "a reference state that is not offered by name"},
		{frictionFile, []string{"Darcy friction factor, Haaland", "Darcy friction factor, Swamee"}, "an approximation to Colebrook, which is solved exactly here"},
		{frictionFile, []string{"rule for other pressures", "empirical pressure-drop formula", "Harris pipe formula"}, "an older rule that the isothermal law replaces"},
		{orificeFile, []string{"yearly cost", "price of compressed air"}, "a price for each volume of air; here air costs what its electricity does"},
		{orificeFile, []string{"nozzle coefficient", "multiplier, well-rounded"}, "a coefficient that is typed in, no law"},
		{isoFile, []string{"conversion", "Kv/Cv", "Kv per Cv", "gas flow from Cv"}, "Kv and Cv are not taken: a component is asked for C and b"},
		{receiverFile, []string{"leak-rate regression"}, "a fit to the table above it, no law"},
		{receiverFile, []string{"power lost", "energy lost"}, "a flow by a plant's own air for each kW: a division, no law"},
		{receiverFile, []string{"rule of thumb", "storage for 1 m3/min"}, "a rule of thumb"},
		{powerFile, []string{"cost of air, total"}, "the sum of the two rows before it"},
		{powerFile, []string{"inlet-modulation", "part-load power"}, "controls that the program does not offer"},
		{powerFile, []string{"default specific power"}, "what is taken where no power is known, with its range"},
		{powerFile, []string{"electrical power per hp", "rule: power change", "typical delivery"}, "a range of the trade, no law"},
		{testFile, nil, noLaw},
		{demandFile, []string{"diversity", "laboratory", "simultaneity"}, "tables for other kinds of building; here tools are counted"},
		{demandFile, nil, noLaw},
		{dryerFile, nil, "a figure of the trade, which a dryer without its maker’s figures is taken by"},
		{purityFile, nil, "particles and oil are the makers’ claims; liquid water stands as a range"},
		{checksFile, []string{"fitting Le"}, "equivalent lengths for air: the program works by K"},
		{checksFile, []string{"test pressure", "label"}, noLaw},
		{ratingFile, nil, "not a point of pressure against temperature"},
		{bendFile, []string{"loop_formula"}, "held inside engine/solid: the row is the formula itself"},
		{fittingFile, []string{"Le_ft"}, "equivalent lengths: the program works by K"},
		{fittingFile, []string{"K, "}, "not on the shelf: another fitting, or K for all sizes at once where the shelf goes by size"},
		{"piping/couplers.csv", nil, "a description of a profile, without C and b"},
		{"piping/labels.csv", nil, "marking of lines: " + laterPart},
	}
}

// laterOf is the first reason that speaks of the row, nil if none does.
func laterOf(list []later, r Row) *later {
	for i := range list {
		if list[i].file == r.File && begins(r.Quantity, list[i].of) {
			return &list[i]
		}
	}
	return nil
}

func laterWhy(r Row) string {
	if l := laterOf(laters(), r); l != nil {
		return l.why
	}
	return ""
}
