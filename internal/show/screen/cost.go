package screen

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"

	"dropleg/engine/unit"
	"dropleg/internal/answer/energy"
)

// Cost is a year's electricity of a shop.
type Cost struct {
	Sentence    string      `json:"sentence"`
	Brief       string      `json:"brief"`            // the sum alone
	Untold      string      `json:"untold,omitempty"` // why nothing can be told
	Facts       []Fact      `json:"facts"`
	Compressors []CostRow   `json:"compressors"`
	Leaks       []LeakRow   `json:"leaks"`    // by their bore
	Measures    []SavingRow `json:"measures"` // what saves most first
	Notes       []string    `json:"notes"`    // what was supposed, as the job does not say
}

// Spent is electricity of a year, and what it costs.
type Spent struct {
	Electricity string `json:"electricity"`
	Range       string `json:"range"`
	Money       string `json:"money,omitempty"` // "" where no price is known
}

// CostRow is a compressor's year.
type CostRow struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Motor string `json:"motor"` // power at the shaft
	Spent
	From Origin `json:"from"`
}

// LeakRow is what a hole costs while the line stands under pressure.
type LeakRow struct {
	Bore   string `json:"bore"`
	Loses  string `json:"loses"`
	Work   Spent  `json:"work"`   // over a year's working hours
	Always Spent  `json:"always"` // where the line is never shut off
	From   Origin `json:"from"`
}

// SavingRow is something to do, and what it saves in a year.
type SavingRow struct {
	What  string `json:"what"`
	Words string `json:"words"`
	Tool  string `json:"tool,omitempty"`
	Spent
	Share string `json:"share"` // "2.4 % of the year's electricity"
	From  Origin `json:"from"`
}

// year is an answer about a year while it is worded.
type year struct {
	*Shop
	*view
	a *energy.Answer
}

// Cost tells a year's electricity and what would save.
func (s *Shop) Cost(ctx context.Context, ask Ask) (Cost, error) {
	out := Cost{Facts: []Fact{}, Compressors: []CostRow{}, Leaks: []LeakRow{}, Measures: []SavingRow{}, Notes: []string{}}
	a, err := s.study.Energy(ctx)
	if err != nil {
		return out, fmt.Errorf("reckoning a year: %w", err)
	}
	v, err := s.plainView(ctx, ask)
	if err != nil {
		return out, err
	}
	y := &year{Shop: s, view: v, a: a}
	if a.Untold != "" {
		out.Untold = s.namesIn(a.Untold)
		out.Brief = "A year cannot be told: " + out.Untold + "."
		out.Sentence = out.Brief
		return out, nil
	}
	for _, words := range a.Supposed {
		out.Notes = addOnce(out.Notes, s.namesIn(words))
	}
	measures := slices.Clone(a.Measures)
	slices.SortStableFunc(measures, func(a, b energy.Measure) int { return cmp.Compare(b.Saves.Energy, a.Saves.Energy) })
	out.Sentence, out.Brief, out.Facts = y.sentence(measures), y.brief(), y.facts()
	for i := range a.Machines {
		out.Compressors = append(out.Compressors, y.machine(&a.Machines[i]))
	}
	for i := range a.Holes {
		out.Leaks = append(out.Leaks, y.leak(&a.Holes[i]))
	}
	for i := range measures {
		out.Measures = append(out.Measures, y.saving(&measures[i]))
	}
	return out, nil
}

// spent words electricity and money.
func (y *year) spent(s energy.Sum) Spent {
	out := Spent{Electricity: y.plain(unit.KindElectricity, float64(s.Energy)), Range: y.between(unit.KindElectricity, float64(s.Low), float64(s.High))}
	if s.Money != nil {
		out.Money = y.money(math.Round(*s.Money))
	}
	return out
}

func (y *year) money(x float64) string {
	text := strconv.FormatFloat(x, 'f', -1, 64)
	if y.a.Currency == "" {
		return text
	}
	return text + " " + y.a.Currency
}

// roughly keeps two figures: no year is known better.
func roughly(x float64) float64 {
	if x == 0 {
		return 0
	}
	one := math.Pow(10, math.Floor(math.Log10(math.Abs(x)))-1)
	return math.Round(x/one) * one
}

// about is electricity in two figures, with its unit.
func (y *year) about(e unit.Energy) string {
	return y.plain(unit.KindElectricity, roughly(float64(e)/kWh)*kWh)
}

const kWh = 3.6e6 // J

// sentence is the year in two or three short ones.
func (y *year) sentence(measures []energy.Measure) string {
	all := y.a.All
	if all.Energy <= 0 {
		return "No electricity goes into air: nothing runs."
	}
	number := func(e unit.Energy) string {
		n, _ := y.ask.System.Split(unit.KindElectricity, roughly(float64(e)/kWh)*kWh, y.env)
		return n
	}
	text := fmt.Sprintf("About %s a year (%s to %s)", y.about(all.Energy), number(all.Low), number(all.High))
	if all.Money != nil {
		text += ", " + y.money(roughly(*all.Money))
	}
	text += "."
	var best, idle *energy.Measure
	for i := range measures {
		switch m := &measures[i]; {
		case m.What == overNight:
			idle = m
		case best == nil:
			best = m
		}
	}
	if best != nil {
		text += fmt.Sprintf(" The best saving is %s: %s.", y.todo(best), y.about(best.Saves.Energy))
	}
	if idle != nil {
		text += fmt.Sprintf(" If the lines stay under pressure while nobody works, their leaks add %s.", y.about(idle.Saves.Energy))
	}
	return text
}

// overNight is the measure that is no part of the year: what it saves comes on top where
// the line is left under pressure.
const overNight = "shut-off"

// todo says within a sentence what to do.
func (y *year) todo(m *energy.Measure) string {
	if m.Tool != "" {
		return "at the " + y.toolName(m.Tool) + ", to " + y.namesIn(m.Words)
	}
	return "to " + y.namesIn(m.Words)
}
