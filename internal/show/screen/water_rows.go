package screen

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	humid "dropleg/engine/air"
	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/answer/water"
)

const (
	freezing   = 273.15 // K
	coldSeason = "cold" // water.Season.Name
)

// alike is the share by which amounts may differ for being summed in another order.
const alike = 1e-6

// mostFirst orders places by their water.
func mostFirst(a, b water.Gather) int {
	if math.Abs(a.Likely-b.Likely) <= alike*a.Likely {
		return 0
	}
	return cmp.Compare(b.Likely, a.Likely)
}

// warmth words a temperature.
func (d *damp) warmth(t unit.Temperature) string { return d.plain(unit.KindTemperature, float64(t)) }

// dew words a dew point; nil is air without any water.
func (d *damp) dew(t *unit.Temperature) string {
	if t == nil {
		return "bone dry"
	}
	return d.warmth(*t)
}

// litres words water by its volume; what would print as nothing is a trace.
func (d *damp) litres(litres float64) string {
	number, u := d.ask.System.Split(unit.KindVolume, litres*1e-3, d.env)
	if number == "0" && litres > 0 {
		return "a trace"
	}
	return number + " " + u
}

// spread is the range of an amount of water a day.
func (d *damp) spread(l water.Litres) string {
	if !(l.High > l.Low) {
		return notKnown
	}
	return d.litres(l.Low) + " to " + d.litres(l.High)
}

// how says in words how water leaves a place. Whether a receiver has its drain on the drawing
// is a finding's matter.
func (d *damp) how(g water.Gather) string {
	for _, r := range d.model.Receivers() {
		if r.ID == g.ID && g.How == water.ByDrain {
			return "at the bottom of the receiver, to be drained there"
		}
	}
	switch g.How {
	case water.ByDrain:
		return "by its drain"
	case water.LowPoint:
		return "stays: a low point without a drain"
	case water.AtOutlet:
		return "with the air, at the outlet"
	case water.InDryer:
		return "in the dryer"
	}
	return g.How
}

// place words where water comes together.
func (d *damp) place(s *water.Season, g water.Gather) WaterPlace {
	o := from("Water that comes together", "what falls out on the way here: dry air × (humidity ratio before - humidity ratio of air that is full behind), by mean flows, downhill along the drawn lines",
		"worked "+d.plain(unit.KindDuration, d.a.Hours*3600)+" a day", "free air in the mean "+d.plain(unit.KindFlow, d.a.Mean))
	o.by(humid.HumidFormula().Cite...)
	for _, f := range s.Falls {
		if f.To == g.ID {
			o.Inputs = append(o.Inputs, "from "+d.named(f.ID)+" "+d.litres(f.Likely))
		}
	}
	o.Range = d.spread(g.Litres)
	if o.Range != notKnown {
		o.Range += " a day, by the heat that lines give off and how near coolers and receivers come to the room"
	}
	return WaterPlace{
		ID: string(g.ID), Name: d.named(g.ID), Figure: d.litres(g.Likely), Range: d.spread(g.Litres),
		How: d.how(g), Freezes: g.Freezes, From: *o,
	}
}

// dryer words what a dryer sees and leaves.
func (d *damp) dryer(k *water.Dryer) DryerRow {
	flow := func(f unit.FreeAir) string { return d.plain(unit.KindFlow, float64(f)) }
	row := DryerRow{
		ID: string(k.ID), Name: d.named(k.ID), Sees: flow(k.Flow), Able: notKnown, Dew: d.dew(k.Out), Takes: d.litres(k.Takes.Likely), Idle: k.Untaking,
	}
	o := from("Dew point behind a dryer", "the dew point on its plate, higher where it sees more than it is able to take here; able = rated flow × factor of the inlet's temperature × factor of the pressure; never above that of the air that comes",
		"on its plate "+d.warmth(k.Stated), "air that comes "+d.warmth(k.Inlet))
	o.by(cite.Ref{Source: "iso7183", Place: "rating conditions", How: cite.Recalled},
		cite.Ref{Source: "common-practice", Place: "factors of published tables", How: cite.Recalled})
	words := "sees the " + k.Sees + "' " + row.Sees
	if k.Rated > 0 {
		row.Able = flow(k.Able)
		o.Inputs = append(o.Inputs, "rated "+flow(k.Rated), "able here "+row.Able, "sees "+row.Sees)
		words += ", able to take " + row.Able + " here"
		if k.Flow > k.Able {
			words = "overloaded: " + words
		}
	}
	words += "; it leaves a pressure dew point of " + row.Dew
	if k.Untaking {
		words += ", that of the air that comes: it has nothing to take"
	}
	if k.Filling > 0 {
		words += "; " + d.lasts(k, &row)
	}
	if k.Purge > 0 {
		row.Purge = flow(k.Purge)
		words += "; it blows off " + row.Purge + " to dry its bed"
	}
	row.Words, row.From = words, *o
	return row
}

// outlet words the air at an outlet against what its tools want.
func (d *damp) outlet(s *water.Season, o *water.Outlet) WaterRow {
	row := WaterRow{ID: string(o.ID), Mark: d.outletMark(o.ID), Dew: d.dew(o.Dew), Air: d.warmth(o.Air), Class: o.Class, State: NotSeen}
	if at := d.index.Outlet(o.ID); at != nil {
		row.Name = at.Name
	}
	from := d.airOrigin(s).by(cite.Ref{Source: "iso8573-1", Place: "classes of water", How: cite.Read})
	if o.Liquid > 0 {
		from.Inputs = append(from.Inputs, "liquid water "+d.plain(unit.KindDensity, o.Liquid*1e-3)+" of free air")
	}
	var wants []string
	lacking := false
	for _, n := range o.Needs {
		text := d.toolName(n.Tool) + " class " + n.Class
		if n.Supposed {
			text += " (supposed)"
		}
		wants = append(wants, text)
		lacking = lacking || !n.Met
	}
	row.Wants, row.From = strings.Join(wants, ", "), *from
	row.Purity = fmt.Sprintf("%s:%s:%s", or(o.Claim.Particles, "-"), o.Class, or(o.Claim.Oil, "-"))
	row.Claim = d.claim(&o.Claim)
	switch {
	case len(wants) == 0:
		row.Words = "no tool is used here"
	case lacking:
		row.State, row.Words = Short, "too wet: "+d.wants(o)
	default:
		row.State, row.Words = Enough, "dry enough for its tools"
	}
	return row
}

// airOrigin tells how the air is followed.
func (d *damp) airOrigin(s *water.Season) *Origin {
	o := from("Water followed from the intake", "nothing is lost: what air holds more than saturated at its temperature and pressure falls out; along a line the difference to the room falls as exp(-U π D L/(m c)); a dryer takes what its dew point leaves",
		"the "+s.Name+" season", "taken in "+d.plain(unit.KindMass, s.In)+" of water a day", "free air in the mean "+d.plain(unit.KindFlow, d.a.Mean))
	for _, words := range d.a.Supposed {
		o.Inputs = append(o.Inputs, "supposed: "+d.namesIn(words))
	}
	return o.by(humid.HumidFormula().Cite...)
}

// line words a line that stands colder than the dew point in it.
func (d *damp) line(l *water.Line) WetLine {
	row := WetLine{
		ID: string(l.ID), Name: d.named(l.ID), Stands: d.warmth(l.Room), Dew: d.dew(l.Dew),
		Falls: d.litres(l.Litres.Likely), Freezes: l.Freezes,
	}
	o := from("Dew point against the line", "water collects where the pressure dew point of the air that enters stands over the line's temperature; at rest a line is as warm as its room, and below 0 °C what collects freezes",
		"line "+row.Stands, "dew point "+row.Dew, "air comes at "+d.warmth(l.In)+" and leaves at "+d.warmth(l.Out)+" while it flows").by(humid.HumidFormula().Cite...)
	if o.Range = d.spread(l.Litres); o.Range != notKnown {
		o.Range += " a day"
	}
	row.From = *o
	return row
}

// wettest is the outlet with the wettest air; nil where there is none.
func wettest(s *water.Season) *water.Outlet {
	var pick *water.Outlet
	for i := range s.Outlets {
		if o := &s.Outlets[i]; pick == nil || wetter(o, pick) {
			pick = o
		}
	}
	return pick
}

// wetter says whether one outlet's air is wetter than another's: by liquid, then by dew
// point; of two alike the colder, where water would show first.
func wetter(a, b *water.Outlet) bool {
	rank := func(o *water.Outlet) []float64 {
		dew := math.Inf(-1)
		if o.Dew != nil {
			dew = math.Round(10 * float64(*o.Dew))
		}
		return []float64{math.Round(100 * o.Liquid), dew, -math.Round(10 * float64(o.Air))}
	}
	return slices.Compare(rank(a), rank(b)) > 0
}

// wetLine says whether water falls out in a line: one that stays warm while the shop works
// collects none, however cold its room.
func wetLine(l *water.Line) bool { return l.Collects && l.Litres.High > 0 }
