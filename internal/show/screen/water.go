package screen

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/water"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/scene"
)

// Water is what becomes of the water in the air of a shop.
type Water struct {
	Sentence string        `json:"sentence"`
	Untold   string        `json:"untold,omitempty"` // why nothing can be told
	Facts    []Fact        `json:"facts"`
	Seasons  []WaterSeason `json:"seasons"` // cold, warm
	// Unclaimed is what tools want of particles and oil that no maker of what is fitted
	// claims, "" for nothing.
	Unclaimed string   `json:"unclaimed,omitempty"`
	Notes     []string `json:"notes"` // what was supposed, as the job does not say
	table     [][]string
}

// WaterSeason is one end of the year.
type WaterSeason struct {
	Season   string       `json:"season"` // cold, warm
	Sentence string       `json:"sentence"`
	Places   []WaterPlace `json:"places"` // drains and low points, most water first
	Dryers   []DryerRow   `json:"dryers"`
	Outlets  []WaterRow   `json:"outlets"`
	Lines    []WetLine    `json:"lines"` // where water collects or freezes
	// Outlet is the one that the chart leads to; Steps are the chart's figures, in the
	// order of the air.
	Outlet string      `json:"outlet"`
	Steps  []WaterStep `json:"steps"`
	Scene  scene.Scene `json:"scene"`
	From   Origin      `json:"from"` // of the figures of the chart
}

// WaterPlace is where water comes together.
type WaterPlace struct {
	ID      string `json:"id"`
	Name    string `json:"name"`
	Figure  string `json:"figure"` // a day
	Range   string `json:"range"`
	How     string `json:"how"` // how it leaves
	Freezes bool   `json:"freezes"`
	From    Origin `json:"from"`
}

// DryerRow is what a dryer sees and leaves.
type DryerRow struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Sees  string `json:"sees"`      // flow while it works
	Able  string `json:"able"`      // flow that it can dry here; "not known" without a rated flow
	Dew   string `json:"dew_point"` // pressure dew point that it leaves
	Takes string `json:"takes"`     // water a day
	Purge string `json:"purge,omitempty"`
	Lasts string `json:"lasts,omitempty"` // a filling that is changed
	Idle  bool   `json:"idle"`            // the air that comes is drier than it makes it
	Words string `json:"words"`
	From  Origin `json:"from"` // of Dew
}

// WaterRow is the air at one outlet.
type WaterRow struct {
	ID    string `json:"id"`
	Mark  string `json:"mark"`
	Name  string `json:"name"`
	Dew   string `json:"dew_point"` // under pressure
	Air   string `json:"air"`       // its temperature
	Class string `json:"class"`     // of water, ISO 8573-1
	// Purity is the three classes in the order of the standard, particles:water:oil; "-" where
	// nobody claims one. Claim is what the makers of the filters on the way claim for particles and oil, ISO
	// 8573-1.
	Purity string `json:"purity"`
	Claim  string `json:"claim"`
	Wants  string `json:"wants"` // what its tools want; "" where none is used here
	State  State  `json:"state"`
	Words  string `json:"words"`
	From   Origin `json:"from"` // of Dew and Class
}

// WetLine is a line that stands colder than the dew point of the air in it.
type WetLine struct {
	ID      string `json:"id"`
	Name    string `json:"name"`
	Stands  string `json:"line"`      // its temperature at rest
	Dew     string `json:"dew_point"` // of the air that enters
	Falls   string `json:"falls"`     // water a day
	Freezes bool   `json:"freezes"`
	From    Origin `json:"from"`
}

// WaterStep is one thing on the way of the air; figures are those behind it.
type WaterStep struct {
	ID    string `json:"id"`
	Words string `json:"words"`
	Place string `json:"place"` // room
	Air   string `json:"air"`
	Dew   string `json:"dew_point"`
	Line  string `json:"line"` // temperature of the thing at rest
	Falls string `json:"falls"`
	State string `json:"state"` // "", "water falls out", "water freezes"
}

// The sheet of the chart in mm: the width of the page's side.
const (
	wetWidth  = 90
	wetHeight = 66
)

// Water tells the water of the shop with all figures as the job has them.
func (s *Shop) Water(ctx context.Context, ask Ask) (Water, error) {
	return s.WaterTo(ctx, ask, "", wetWidth, wetHeight)
}

// WaterTo is Water with the charts for a sheet of the given size in mm and leading to one
// outlet; "" is the wettest. An outlet that is not there is a *NotThere.
func (s *Shop) WaterTo(ctx context.Context, ask Ask, outlet job.ID, width, height float64) (Water, error) {
	if outlet != "" && s.index.Outlet(outlet) == nil {
		return Water{}, &NotThere{string(outlet)}
	}
	a, err := s.study.Wet(ctx)
	if err != nil {
		return Water{}, fmt.Errorf("following the water: %w", err)
	}
	return s.tellWater(ctx, ask, a, outlet, draw.Sheet{Width: width, Height: height})
}

// WaterOf words an answer about this shop's water.
func (s *Shop) WaterOf(ctx context.Context, ask Ask, a *water.Answer) (Water, error) {
	return s.tellWater(ctx, ask, a, "", draw.Sheet{Width: wetWidth, Height: wetHeight})
}

// damp is an answer about water while it is worded.
type damp struct {
	*Shop
	*view
	a     *water.Answer
	sheet draw.Sheet
}

func (s *Shop) tellWater(ctx context.Context, ask Ask, a *water.Answer, outlet job.ID, sheet draw.Sheet) (Water, error) {
	v, err := s.plainView(ctx, ask)
	if err != nil {
		return Water{}, err
	}
	d := &damp{Shop: s, view: v, a: a, sheet: sheet}
	d.sheet.Units, d.sheet.Env = d.ask.System, d.env
	out := Water{Facts: []Fact{}, Seasons: []WaterSeason{}, Notes: []string{}}
	if a.Untold != "" {
		out.Untold = s.namesIn(a.Untold)
		out.Sentence = "Water cannot be told: " + out.Untold + "."
		return out, nil
	}
	for _, words := range a.Supposed {
		out.Notes = append(out.Notes, s.namesIn(words))
	}
	out.Facts = []Fact{
		{Words: "Worked a day", Figure: d.plain(unit.KindDuration, a.Hours*3600), From: from("Hours a day", "a fifth of the week that the job states, else as supposed", out.Notes...)},
		{Words: "Free air in the mean", Figure: d.plain(unit.KindFlow, a.Mean), From: from("Mean over the time worked", "every tool's share of the time × its rated flow, and what is set aside for leaks; no more than the compressors deliver")},
	}
	out.table = [][]string{d.heads()}
	for i := range a.Seasons {
		season, rows := d.season(&a.Seasons[i], outlet)
		out.Seasons = append(out.Seasons, season)
		out.table = append(out.table, rows...)
	}
	out.Sentence, out.Unclaimed = d.sentence(), d.unclaimed()
	return out, nil
}

// CSV is the chart of both seasons as a table, heads first.
func (w Water) CSV() [][]string { return w.table }

// namesIn puts names in the place of ids in words of an answer.
func (s *Shop) namesIn(words string) string {
	list := strings.Split(words, " ")
	for i, w := range list {
		id := strings.TrimRight(w, ":;,.")
		if s.index.Has(job.ID(id)) {
			list[i] = s.named(job.ID(id)) + w[len(id):]
		}
	}
	return strings.Join(list, " ")
}

// season words one season, and the rows of its table.
func (d *damp) season(s *water.Season, outlet job.ID) (WaterSeason, [][]string) {
	out := WaterSeason{
		Season: s.Name, Places: []WaterPlace{}, Dryers: []DryerRow{}, Outlets: []WaterRow{}, Lines: []WetLine{},
		Steps: []WaterStep{}, Sentence: d.seasonSentence(s), From: *d.airOrigin(s),
	}
	gathered := slices.Clone(s.Gathered)
	slices.SortStableFunc(gathered, mostFirst)
	for _, g := range gathered {
		out.Places = append(out.Places, d.place(s, g))
	}
	for i := range s.Dryers {
		out.Dryers = append(out.Dryers, d.dryer(&s.Dryers[i]))
	}
	for i := range s.Outlets {
		out.Outlets = append(out.Outlets, d.outlet(s, &s.Outlets[i]))
	}
	for i := range s.Lines {
		if l := &s.Lines[i]; wetLine(l) {
			out.Lines = append(out.Lines, d.line(l))
		}
	}
	if outlet == "" {
		if w := wettest(s); w != nil {
			outlet = w.ID
		}
	}
	out.Outlet = string(outlet)
	rows := d.chart(s, &out, outlet)
	return out, rows
}
