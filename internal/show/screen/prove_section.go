package screen

import (
	"fmt"
	"math"
	"strings"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/engine/vessel"
	"dropleg/internal/decide/prove"
)

// section words a section with its tests.
func (p *proved) section(s *prove.Section) SectionRow {
	row := SectionRow{
		ID: s.ID, Name: p.sectionName(s), Things: []string{}, Items: []ItemRow{}, Made: []MadeRow{}, State: s.Stands(),
		Limit: p.small(p.share(s)), Refused: p.refused(s), Pascals: float64(s.Design),
	}
	length := unit.Length(0)
	for _, id := range s.Runs {
		row.Things = append(row.Things, string(id))
		l, _ := p.index.LengthOf(p.index.Run(id))
		length += l
	}
	row.Words = fmt.Sprintf("%s of line, %s, %s", p.length(length), p.plain(unit.KindVolume, float64(s.Volume)), plural(len(s.Joints), "joint", "joints"))
	if len(s.Unknown) > 0 {
		row.Words += "; volume short by " + plural(len(s.Unknown), "line", "lines")
	}
	row.Test, row.Leak = p.test(s, s.Test), p.test(s, s.Leak)
	for i := range s.Items {
		row.Items = append(row.Items, p.item(&s.Items[i], s))
	}
	row.Hold = p.holdWords(s)
	for i := range s.Made {
		row.Made = append(row.Made, p.made(s, &s.Made[i]))
	}
	return row
}

// share is the leak that a section may have: by volume.
func (p *proved) share(s *prove.Section) unit.FreeAir {
	all := unit.Volume(0)
	for i := range p.a.Sections {
		all += p.a.Sections[i].Volume
	}
	if all <= 0 {
		return 0
	}
	return p.a.Limit * unit.FreeAir(s.Volume/all)
}

// refused says why a section is not tested above its working pressure.
func (p *proved) refused(s *prove.Section) string {
	switch s.Refused {
	case "no-design":
		return "No compressor with a cut-out pressure feeds it, so no test pressure can be told."
	case "no-volume":
		return "Neither lengths nor bores are known, so the energy of a test is not."
	case "no-rating":
		return "What its lines bear is not known at the warmest that they get, so nothing above working pressure is offered."
	case "over-rating":
		test := unit.GaugePressure(p.a.Rule.Factor) * s.Design
		words := p.named(s.Lowest.ID) + " bears " + p.plain(unit.KindGauge, float64(s.Lowest.Pressure))
		if s.Lowest.Temp > 0 {
			words += " at " + p.plain(unit.KindTemperature, float64(s.Lowest.Temp))
		}
		return upper(words) + "; the test would be " + p.plain(unit.KindGauge, float64(test)) + "."
	}
	return ""
}

// test words one way to put a section under pressure.
func (p *proved) test(s *prove.Section, t *prove.Test) *TestRow {
	if t == nil {
		return nil
	}
	row := &TestRow{
		Pressure: p.plain(unit.KindGauge, float64(t.Pressure)), Fits: t.Fits, Distance: p.whole(t.Distance, math.Ceil), Stages: []RiseRow{},
		Words: "stores " + p.plain(unit.KindEnergy, float64(t.Energy)),
	}
	switch {
	case s.Away == nil:
		row.Words += "; how far one can get away is not drawn"
	case t.Fits:
		row.Words += "; the rooms allow " + p.whole(*s.Away, math.Floor)
	default:
		row.Words += "; the rooms allow only " + p.whole(*s.Away, math.Floor) + ", so nobody stays in them"
	}
	if t.Relief > 0 {
		row.Relief = p.plain(unit.KindGauge, float64(t.Relief))
	}
	for _, g := range t.Stages {
		row.Stages = append(row.Stages, RiseRow{
			Pressure: p.plain(unit.KindGauge, float64(g.Pressure)), Share: fmt.Sprintf("%.0f %%", 100*g.Share),
			Words: stageDoes(g.Why) + " " + p.plain(unit.KindDuration, float64(g.Hold)),
		})
	}
	row.From = *from("Stored energy and distance", "E = 2.5 p V (1 − (101 kPa/p)^0.286); the greater of 20 (2 TNT)^⅓ and the rule's least",
		"volume "+p.plain(unit.KindVolume, float64(s.Volume)), "pressure "+row.Pressure, "blast "+p.length(t.Blast), "least "+p.length(t.Least)).
		by(cite.Ref{Source: "asme-pcc2", Place: "appendices II and III", How: cite.Read}, p.a.Rule.Ref)
	return row
}

// whole is a distance to pace out: metres or feet, rounded to the side that is careful.
func (p *proved) whole(x unit.Length, round func(float64) float64) string {
	if p.ask.System == unit.US {
		return fmt.Sprintf("%.0f ft", round(float64(x)/0.3048-1e-6))
	}
	return fmt.Sprintf("%.0f m", round(float64(x)-1e-6))
}

func stageDoes(why string) string {
	switch why {
	case "look":
		return "first look, hold"
	case "test":
		return "test, hold"
	}
	return "wait"
}

// item words what has to bear a test or be kept from it.
func (p *proved) item(x *prove.Item, s *prove.Section) ItemRow {
	row := ItemRow{Thing: string(x.ID), Name: upper(p.named(x.ID)), Stays: x.Stays, Task: x.Task, Written: x.Written}
	if x.Kind != "" && x.Outlet != "" {
		if kind, ok := p.study.Catalog().Kind(x.Kind); ok {
			row.Name = upper(kind.Name("en")) + " at " + p.named(x.Outlet)
		}
	}
	bears := ""
	if x.Bears != nil {
		bears = p.plain(unit.KindGauge, float64(*x.Bears))
	}
	switch {
	case x.What == "end" && x.Stays:
		row.Words = "shut, lock and tag it"
	case x.What == "end":
		row.Words = "plant: take it off or blank it, it is not part of the test"
	case x.What == "relief" && x.Stays:
		row.Words = "opens at " + bears + ", above the test"
	case x.What == "relief":
		row.Words = "take it out and plug its place"
	case x.Stays:
		row.Words = "bears " + bears + ", may stay"
	case bears != "":
		row.Words = "bears only " + bears + ": shut off or take out"
	default:
		row.Words = "nobody states what it bears: shut off or take out"
	}
	return row
}

// holdWords say how long a decay test has to last.
func (p *proved) holdWords(s *prove.Section) string {
	gauge, thermometer := prove.Usual()
	if s.Volume <= 0 || s.Design <= 0 || p.share(s) <= 0 {
		return ""
	}
	leak := massOf(p.share(s))
	at := vessel.Reading{Pressure: s.Design.Abs(p.env.Atmosphere), Temperature: unit.Celsius(20)}
	hold, err := vessel.Instruments{Gauge: gauge, Thermometer: thermometer}.Hold(s.Volume, at, leak)
	if err != nil {
		return ""
	}
	return fmt.Sprintf("to see a leak of %s with a gauge good to %s and a thermometer good to %s, hold for at least %s",
		p.small(p.share(s)), p.plain(unit.KindPressureDiff, float64(gauge)), p.plain(unit.KindTempDiff, float64(thermometer)), p.plain(unit.KindDuration, float64(max(hold, p.a.Rule.Hold))))
}

// small words a flow that is much less than a tool takes.
func (p *proved) small(q unit.FreeAir) string {
	text := p.plain(unit.KindFlow, float64(q))
	if number, u := p.ask.System.Split(unit.KindFlow, float64(q), p.env); strings.Trim(number, "-0.") == "" && q != 0 {
		scale := float64(q) * 60e3 // L/min
		if p.ask.System == unit.US {
			scale = float64(q) * 2118.88
		}
		return fmt.Sprintf("%.2g %s", scale, u)
	}
	return text
}
