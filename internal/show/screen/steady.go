package screen

import (
	"context"
	"fmt"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/model"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/scene"
)

// Steady is working days in words and charts.
type Steady struct {
	Mark     Mark   `json:"mark"`
	Sentence string `json:"sentence"`
	// Rough: of a few days; a closer answer can be asked for.
	Rough       bool       `json:"rough"`
	Known       string     `json:"known"` // how many days, and how well the shares are known
	Facts       []Fact     `json:"facts"`
	Compressors []Turning  `json:"compressors"`
	Tools       []Served   `json:"tools"` // worst off first
	Remedies    []Remedy   `json:"remedies"`
	Notes       []string   `json:"notes"`
	Time        float64    `json:"time_s"` // of the day
	Plot        [2]float64 `json:"plot_mm"`
	// Day is the receiver through the first day, Chance how often each tool has its pressure.
	Day    scene.Scene `json:"day"`
	Chance scene.Scene `json:"chance"`
}

// Turning is what a compressor does.
type Turning struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	State State  `json:"state"` // short: more than its motor bears
	Facts []Fact `json:"facts"`
}

// Served is what a tool gets.
type Served struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Hours string `json:"hours"` // worked a day
	Short string `json:"short"` // "7.1 ± 0.4 %", "never"
	State State  `json:"state"`
	// Beside are the sets that it goes short in longest.
	Beside []string `json:"beside"`
	From   *Origin  `json:"from"`
}

// Remedy is what would do, or would not.
type Remedy struct {
	Words string `json:"words"`
	Does  bool   `json:"does"`
}

// The charts' width in mm, that of the page's side.
const dayWidth = 90

// Steady tells of the shop's working days: of a few where rough is asked for and no more
// are worked out yet.
func (s *Shop) Steady(ctx context.Context, ask Ask, rough bool) (Steady, error) {
	days := s.study.Steady
	if rough {
		days = s.study.Rough
	}
	a, err := days(ctx)
	if err != nil {
		return Steady{}, fmt.Errorf("working days through: %w", err)
	}
	out, err := s.Days(ctx, ask, a)
	out.Rough = a.Untold == "" && rough && a.Days == study.FewDays && (a.AsOne || !a.Known(study.HalfPoint))
	if out.Rough {
		out.Known += " A closer answer is being worked out."
	}
	return out, err
}

// Days puts working days into words.
func (s *Shop) Days(ctx context.Context, ask Ask, a *day.Answer) (Steady, error) {
	v, err := s.plainView(ctx, ask)
	if err != nil {
		return Steady{}, err
	}
	out := Steady{
		Mark: Unknown, Facts: []Fact{}, Compressors: []Turning{}, Tools: []Served{}, Remedies: []Remedy{}, Notes: []string{},
		Time: float64(a.Time),
	}
	out.Plot[0], out.Plot[1] = draw.DayPlot(dayWidth)
	out.Day.Fill()
	out.Chance.Fill()
	if a.Untold != "" {
		out.Sentence = "A working day cannot be told: " + a.Untold + "."
		return out, nil
	}
	d := &told{shop: s, view: v, days: a, rare: s.job.RuleRare().Value}
	out.Mark, out.Sentence = d.verdict()
	out.Known = d.known()
	out.Facts = d.facts()
	out.Notes = d.notes()
	for _, k := range a.Compressors {
		out.Compressors = append(out.Compressors, d.turning(k))
	}
	for _, t := range d.worstFirst() {
		out.Tools = append(out.Tools, d.served(t))
	}
	for _, r := range a.Remedies {
		out.Remedies = append(out.Remedies, d.remedy(r))
	}
	out.Day, out.Chance = d.chart(0, a.Time, false, dayWidth), d.chances(dayWidth)
	return out, nil
}

// band is the lowest cut-in and the highest cut-out.
func band(m *model.Model) (cutIn, cutOut unit.GaugePressure) {
	for i, c := range m.Compressors() {
		if i == 0 || c.CutIn < cutIn {
			cutIn = c.CutIn
		}
		cutOut = max(cutOut, c.CutOut)
	}
	return cutIn, cutOut
}

// chances is the chart of how often each tool has its pressure, worst off first, on paper so
// many mm wide.
func (d *told) chances(width float64) scene.Scene {
	var rows []draw.Chance
	for _, t := range d.worstFirst() {
		rows = append(rows, draw.Chance{
			ID: string(t.ID), Words: d.shop.toolName(t.ID), Enough: 1 - float64(t.Short), Within: float64(t.Within), Short: t.Short > d.rare,
		})
	}
	sheet := draw.Sheet{Width: width, Height: draw.ChanceHigh(len(rows)), Units: d.view.ask.System, Env: d.view.env}
	return draw.Chances("Chance of enough: share of each tool’s working time with its pressure", rows, 1-float64(d.rare), sheet)
}
