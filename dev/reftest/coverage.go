package reftest

// Covered says which evaluators hold a law of the program, so that the page can
// tell which laws nothing from outside has been put to.
type Covered struct {
	Kind string   // "element law" or "formula"
	Name string   // as element.Laws or calc.All names it
	By   []string // Law.Name of the evaluators
	// Open is what no row reaches, in a few words; "" if nothing stands out.
	Open string
}

// Coverage lists every law of flow and every formula; the test holds that none
// is missing.
func Coverage() []Covered {
	const law, formula = "element law", "formula"
	const tables, chart = "handbook loss table, schedule 40, 100 psig, 60 °F, 0.0018 in rough", "pneumatic loss chart, schedule 40, 0.045 mm rough, scfm taken at 14.7 psia and 68 °F"
	line := []string{tables, chart, "hose friction example, 3/4 in bore, smooth rubber", "isothermal line, with the gas constants of the rows", "steady network: every pressure and flow"}
	hole := []string{"hole to the atmosphere", "choking", "conductance of an ideal nozzle"}
	component := []string{"flow through a component", "components in series and side by side"}
	saturation := []string{"saturation pressure over water and ice"}
	return []Covered{
		{law, "pipe", line, "no measured line with bends; no choked line; hose by one chart reading"},
		{law, "minor", []string{"K by Le/D and fT against the printed K", "K of one fitting"}, "K is read, a drop measured on a fitting is not"},
		{law, "iso6358", component, "no maker's curve and no measured component: the rows are the standard's equation worked elsewhere, and one solved network has such links"},
		{law, "orifice", hole, "subsonic flow and coefficients by one table to 100 psig"},
		{law, "rated", nil, "how the loss of a filter or dryer moves with flow and density"},
		{law, "regulator", nil, "droop and the change to wide open"},
		{law, "check", nil, "the one-way form of the law by C and b"},
		{law, "check-k", nil, "the cracking pressure before a loss by K"},
		{law, "valve", nil, "open it is a minor loss, which is held as such"},
		{law, "tool", nil, "how the flow of a running tool follows pressure"},
		{law, "constant", nil, "nothing to verify: it is a stated flow"},
		{law, "leak", nil, "an orifice, held as such; that many leaks act as one is not"},
		{law, "compressor", nil, "the machine in a network; its delivery at altitude is held by a formula of its own"},
		{formula, "pipe", line, ""},
		{formula, "friction", []string{"Colebrook's friction factor", "laminar friction factor"}, "the join from Re 2000 to 4000 is ours"},
		{formula, "coupler", component, "as for the law of C and b; of Kv and Cv, which are not taken, one read row has the ratio"},
		{formula, "leak", hole, ""},
		{formula, "air", []string{"equation of state: density and Z", "heat capacities and speed of sound", "viscosity by the transport equation", "transport equations at a stated density"}, ""},
		{formula, "altitude", []string{"standard atmosphere"}, ""},
		{formula, "humid", append(saturation, "moist air: water held, volume", "enhancement factor"), ""},
		{formula, "dewpoint", []string{"dew point moved with pressure"}, "no printed dew point chart: the rows are worked from other vapour pressures"},
		{formula, "freeair", []string{"density of a reference state", "volume ratio between two references", "actual volume at a site", "stated reference states"}, ""},
		{formula, "power", []string{"work and power", "stages and discharge temperature", "change of power with pressure and intake temperature", "reciprocating compressor at altitude"}, "theoretical work only: no measured machine"},
		{formula, "receiver", []string{"pump-up time", "leak from a measured pressure fall", "leak at the starting pressure", "receiver for an intermittent demand", "starts per hour", "cycle between two pressures"}, "filling is held by arithmetic; the fall by one measured test"},
		{formula, "decay", []string{"pressure decay corrected for temperature"}, "no measured test with changing temperature; the uncertainty is ours"},
		{formula, "energy", []string{"constants of the stored-energy rule", "stored energy and distance"}, ""},
		{formula, "growth", []string{"copper offsets and coil loops, handbook table", "growth between two temperatures", "offsets, loops and plastic legs"}, ""},
		{formula, "offset", nil, "its legs and loops are those of growth, held there; the stress of a leg and the second side of an offset by arithmetic and a frame solved apart"},
		{formula, "held", nil, "Hooke and Euler: held by arithmetic in the package's own tests"},
		{formula, "corner", nil, "a corner of any two legs against a frame solved by stiffnesses, in the package's own tests"},
		{formula, "thread", []string{"threads"}, ""},
		{formula, "line", []string{"outside, wall, bore", "points of pressure against temperature", "the rating that governs"}, ""},
	}
}

// Evidence counts the rows that a law was put to, by how they came about and only
// where they were answered.
type Evidence struct{ Read, Solved, Computed, Recalled int }

// Evidence of a law among the results.
func (c Covered) Evidence(results []Result) Evidence {
	var e Evidence
	for _, r := range results {
		if r.Law != nil && len(r.Figures) > 0 && oneOf(r.Law.Name, c.By) {
			e.add(r)
		}
	}
	return e
}

func oneOf(name string, list []string) bool {
	for _, n := range list {
		if n == name {
			return true
		}
	}
	return false
}
