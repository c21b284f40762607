package energy

import (
	"context"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// What is taken where the job does not say.
const (
	Hours = 40.0 // a week that the shop works: common practice, no source
	Weeks = 50.0 // a year: common practice, no source

	// Motor is electricity to shaft of a shop's motor: common practice, no source
	// (0.80 for 2 kW to 0.91 for 15 kW).
	Motor, motorLow, motorHigh = 0.87, 0.80, 0.92
	// Idle is what a compressor takes unloaded, of its full power (US DOE sourcebook,
	// appendix on controls: 15 % reciprocating, 25 % oil-injected screw; recalled).
	Idle, idleLow, idleHigh = 0.25, 0.15, 0.35
	// specific is W of shaft power per m³/s of free air where no power is known: 18 kW per
	// 100 cfm, 16 to 28 by size (US DOE tip sheets; recalled).
	specific, specificLow, specificHigh = 18e3 / cfm100, 16e3 / cfm100, 28e3 / cfm100
	cfm100                              = 100 * 0.028316846592 / 60

	sharpEdged = 0.61 // discharge of a hole in a wall, far below choking 0.6 to 0.65; a rounded one 0.97
)

// Sum is electricity over a year, and what it costs.
type Sum struct {
	Energy unit.Energy `json:"energy_J_1_a"`
	Low    unit.Energy `json:"energy_low_J_1_a"`
	High   unit.Energy `json:"energy_high_J_1_a"`
	Money  *float64    `json:"money_1_a,omitempty"` // null: no price is known
}

// Machine is a compressor's year.
type Machine struct {
	ID       job.ID     `json:"id"`
	Power    unit.Power `json:"power_W"` // of the motor, at the shaft
	Supposed bool       `json:"supposed,omitempty"`
	Sum
}

// Hole is what a leak of a bore costs while the line stands under pressure.
type Hole struct {
	Bore unit.Length  `json:"bore_m"`
	Air  unit.FreeAir `json:"free_air_m3_s"`
	Work Sum          `json:"work"`   // in working hours
	All  Sum          `json:"always"` // all year, where the line is never shut off
}

// Measure is something to do, and what it saves in a year.
type Measure struct {
	What  string  `json:"what"`  // lower-pressure, shut-off, mend-leaks, regulate
	Words string  `json:"words"` // what to do
	Tool  job.ID  `json:"tool,omitempty"`
	Share float64 `json:"share"` // of the year's electricity
	Saves Sum     `json:"saves"`
}

// Answer is the year of a shop.
type Answer struct {
	Hours    float64   `json:"hours_1_a"` // worked
	Price    *float64  `json:"price_1_kWh,omitempty"`
	Currency string    `json:"currency,omitempty"`
	Machines []Machine `json:"compressors"`
	All      Sum       `json:"all"`
	// Specific is the electricity for a cubic metre of free air.
	Specific float64   `json:"specific_J_1_m3"`
	Holes    []Hole    `json:"holes"`
	Measures []Measure `json:"measures"`
	Supposed []string  `json:"supposed"` // figures that the job does not state
	Untold   string    `json:"untold,omitempty"`
}

// Of tells the year by days worked through. The error is that of ctx or of the program;
// where there were no days, Untold says why.
func Of(ctx context.Context, j *job.Job, m *model.Model, days *day.Answer) (*Answer, error) {
	a := &Answer{Currency: j.Site.Currency, Price: j.Site.Electricity, Machines: []Machine{}, Holes: []Hole{}, Measures: []Measure{}, Supposed: []string{}}
	if a.Untold = days.Untold; a.Untold != "" {
		return a, nil
	}
	week := Hours
	if j.Work.Hours != nil {
		week = *j.Work.Hours
	} else {
		a.suppose("40 hours a week")
	}
	a.suppose("50 weeks a year")
	a.suppose("motors that turn 87 % of their electricity into power (80 to 92 %)")
	a.Hours = week * Weeks
	a.machines(m, days)
	delivered := 0.0
	for _, k := range days.Compressors {
		delivered += float64(k.Air)
	}
	if volume := delivered * a.Hours * 3600; volume > 0 {
		a.Specific = float64(a.All.Energy) / volume
	}
	a.holes(j, m)
	return a, a.measures(ctx, j, m, days)
}

func (a *Answer) suppose(words string) { a.Supposed = append(a.Supposed, words) }

// machines sums the compressors' years.
func (a *Answer) machines(m *model.Model, days *day.Answer) {
	seconds := a.Hours * 3600
	for i, k := range m.Compressors() {
		d := days.Compressors[i]
		shaft, low, high := float64(k.Power), float64(k.Power), float64(k.Power)
		if k.Power <= 0 {
			flow := float64(k.FreeAir)
			shaft, low, high = specific*flow, specificLow*flow, specificHigh*flow
			a.suppose(string(k.ID) + ": a motor as usual for what it delivers")
		}
		year := func(shaft, motor, idle float64) unit.Energy {
			return Year(unit.Power(shaft), motor, Load(float64(d.Duty), float64(d.Idle), idle), unit.Duration(seconds))
		}
		one := Machine{ID: k.ID, Power: unit.Power(shaft), Supposed: k.Power <= 0, Sum: a.sum(
			year(shaft, Motor, Idle), year(low, motorHigh, idleLow), year(high, motorLow, idleHigh))}
		a.Machines = append(a.Machines, one)
		a.All = a.sum(a.All.Energy+one.Energy, a.All.Low+one.Low, a.All.High+one.High)
		if d.Idle > 0 {
			a.suppose("a quarter of its power while it runs unloaded (15 to 35 %)")
		}
	}
}

// Year is the electricity of a motor of some shaft power and efficiency that runs for a
// time at a mean load.
func Year(shaft unit.Power, motor, load float64, time unit.Duration) unit.Energy {
	return unit.Energy(float64(shaft) / motor * load * float64(time))
}

// Load is the mean power of a compressor as a share of its full power: its time under
// load, and its time unloaded at a share of it (load and unload with ample storage; what
// blowing down costs is left out, so that small receivers lie above).
func Load(duty, unloaded, idle float64) float64 { return duty + unloaded*idle }

// sum prices electricity.
func (a *Answer) sum(energy, low, high unit.Energy) Sum {
	s := Sum{Energy: energy, Low: low, High: high}
	if a.Price != nil {
		money := float64(energy) / 3.6e6 * *a.Price
		s.Money = &money
	}
	return s
}

// part is a share of the year's electricity.
func (a *Answer) part(share float64) Sum {
	x := unit.Energy(share)
	return a.sum(x*a.All.Energy, x*a.All.Low, x*a.All.High)
}

// flowing is the electricity of free air that flows for some hours.
func (a *Answer) flowing(flow unit.FreeAir, hours float64) Sum {
	if a.All.Energy <= 0 {
		return a.sum(0, 0, 0)
	}
	return a.part(float64(flow) * hours * 3600 * a.Specific / float64(a.All.Energy))
}
