package screen

import (
	"fmt"
	"math"

	humid "dropleg/engine/air"
	"dropleg/engine/cite"
	"dropleg/engine/element"
	"dropleg/engine/unit"
	"dropleg/internal/answer/energy"
)

// facts are the figures of the year as a whole.
func (y *year) facts() []Fact {
	s := y.spent(y.a.All)
	facts := []Fact{{Words: "A year's electricity", Figure: s.Electricity, From: y.origin(y.a.All)}}
	if s.Money != "" {
		price := from("Electricity at its price", "electricity × price", "price "+y.price()+", stated in the job")
		facts = append(facts, Fact{Words: "What it costs", Figure: s.Money, From: price})
	}
	facts = append(facts, Fact{Words: "Worked in a year", Figure: y.plain(unit.KindDuration, y.a.Hours*3600), From: y.hoursOrigin()})
	if y.a.Specific > 0 {
		o := from("Electricity for free air", "electricity of the year / free air delivered in it; of the compressors as they run, not as their plates say")
		if all := y.a.All; all.Energy > 0 {
			o.Range = y.between(unit.KindSpecificEnergy, y.a.Specific*float64(all.Low/all.Energy), y.a.Specific*float64(all.High/all.Energy))
		}
		facts = append(facts, Fact{Words: "For a cubic metre of free air", Figure: y.plain(unit.KindElectricity, y.a.Specific), From: o})
	}
	return facts
}

// price is what a kWh costs.
func (y *year) price() string {
	if y.a.Price == nil {
		return notKnown
	}
	return y.money(*y.a.Price) + " a kWh"
}

func (y *year) hoursOrigin() *Origin {
	o := from("Hours worked", "hours a week × weeks a year, by the job where it states them")
	for _, words := range y.a.Supposed {
		o.Inputs = addOnce(o.Inputs, "supposed: "+y.namesIn(words))
	}
	return o.by(cite.Ref{Source: "common-practice", How: cite.Common})
}

// origin tells how electricity is reckoned.
func (y *year) origin(s energy.Sum) *Origin {
	o := from("Electricity of a year", "W = power at the shaft / efficiency of the motor × (share of the time under load + share unloaded × what it takes unloaded) × hours worked; shares by working days gone through",
		"worked "+y.plain(unit.KindDuration, y.a.Hours*3600)+" a year")
	for _, k := range y.a.Machines {
		o.Inputs = append(o.Inputs, y.named(k.ID)+": "+y.plain(unit.KindPower, float64(k.Power)))
	}
	for _, words := range y.a.Supposed {
		o.Inputs = addOnce(o.Inputs, "supposed: "+y.namesIn(words))
	}
	o.by(cite.Ref{Source: "doe-sourcebook", Place: "controls, part load", How: cite.Recalled}, cite.Ref{Source: "common-practice", How: cite.Common})
	o.Range = y.between(unit.KindElectricity, float64(s.Low), float64(s.High))
	return o
}

// machine words a compressor's year.
func (y *year) machine(k *energy.Machine) CostRow {
	row := CostRow{ID: string(k.ID), Name: y.named(k.ID), Motor: y.plain(unit.KindPower, float64(k.Power)), Spent: y.spent(k.Sum), From: *y.origin(k.Sum)}
	if k.Supposed {
		row.Motor += ", supposed"
	}
	return row
}

// leak words what a hole costs.
func (y *year) leak(h *energy.Hole) LeakRow {
	row := LeakRow{
		Bore: y.bore(h.Bore), Loses: y.plain(unit.KindFlow, float64(h.Air)),
		Work: y.spent(h.Work), Always: y.spent(h.All),
	}
	o := lawOrigin(element.LeakFormula())
	o.Inputs = append(o.Inputs, "bore "+row.Bore, "a sharp hole, cd 0.61", y.stands(), y.airCosts())
	o.Range = y.between(unit.KindElectricity, float64(h.Work.Low), float64(h.Work.High))
	row.From = *o
	return row
}

// stands is the pressure at which the first receiver stands on average.
func (y *year) stands() string {
	for _, s := range y.model.Sources() {
		return "the middle of its band, " + y.plain(unit.KindGauge, float64(s.CutIn+s.CutOut)/2)
	}
	return "no compressor"
}

func (y *year) airCosts() string {
	return y.plain(unit.KindElectricity, y.a.Specific) + " for a cubic metre of free air"
}

// saving words a measure.
func (y *year) saving(m *energy.Measure) SavingRow {
	row := SavingRow{What: m.What, Words: upper(y.namesIn(m.Words)), Tool: string(m.Tool), Spent: y.spent(m.Saves), From: *y.savingOrigin(m)}
	if m.Tool != "" {
		row.Words = upper(y.toolName(m.Tool)) + ": " + y.namesIn(m.Words)
	}
	row.Share = y.plain(unit.KindRatio, m.Share) + " of the year's electricity"
	if m.What == overNight {
		row.Share = y.plain(unit.KindRatio, m.Share) + " on top of the year's electricity"
	}
	return row
}

// savingOrigin tells how a saving is reckoned.
func (y *year) savingOrigin(m *energy.Measure) *Origin {
	var o *Origin
	switch {
	case m.Tool != "":
		o = from("Air beyond the rated flow", "what the tool draws at the pressure that it gets - its rated flow, over the time that it runs × electricity for free air", y.airCosts())
	case m.What == "lower-pressure":
		o = lawOrigin(humid.PowerFormula())
		o.Inputs = append(o.Inputs, "work at the lower pressure against that at "+y.stands(), "n = 1.4, one stage")
	default:
		o = y.leakOrigin(y.view)
		o.Law = "share of what the compressors deliver × hours × electricity for free air"
		o.Inputs = append(o.Inputs, y.airCosts())
	}
	o.Range = y.between(unit.KindElectricity, float64(m.Saves.Low), float64(m.Saves.High))
	return o
}

// bore words a small bore: in US units as a fraction of an inch, as drills are sold.
func (y *year) bore(d unit.Length) string {
	const inch, parts = 0.0254, 64
	n := int(math.Round(float64(d) / inch * parts))
	if y.ask.System != unit.US || n < 1 || math.Abs(float64(d)/inch*parts-float64(n)) > 1e-6 {
		return y.text(unit.KindLength, float64(d))
	}
	of := parts
	for n%2 == 0 && of > 1 {
		n, of = n/2, of/2
	}
	return fmt.Sprintf("%d/%d in", n, of)
}
