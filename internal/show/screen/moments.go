package screen

import (
	"context"
	"fmt"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/scene"
)

// Stretch is a part of a working day to look at closely.
type Stretch struct {
	From    float64     `json:"from_s"`
	To      float64     `json:"to_s"`
	Plot    [2]float64  `json:"plot_mm"` // where From and To lie on the chart, from its left edge
	Scene   scene.Scene `json:"scene"`
	Moments []Moment    `json:"moments"` // by rising time
}

// Moment is how the shop stands from a time on.
type Moment struct {
	At     float64 `json:"at_s"`
	Set    string  `json:"set"` // for Ask.Set: the drawing of that moment
	Figure string  `json:"figure"`
	Words  string  `json:"words"` // who works
}

// stretchTime is how much of a day a Stretch shows.
const stretchTime unit.Duration = 3600

// Stretch is the hour of the first working day that a time lies in, as a few days tell it
// or more.
func (s *Shop) Stretch(ctx context.Context, ask Ask, hour int) (Stretch, error) {
	a, err := s.study.Rough(ctx)
	if err != nil {
		return Stretch{}, fmt.Errorf("working a day through: %w", err)
	}
	v, err := s.plainView(ctx, ask)
	if err != nil {
		return Stretch{}, err
	}
	from := unit.Duration(hour) * stretchTime
	if a.Untold != "" || hour < 0 || from >= a.Time {
		return Stretch{}, &NotThere{fmt.Sprintf("hour %d of a working day", hour)}
	}
	to := min(a.Time, from+stretchTime)
	d := &told{shop: s, view: v, days: a}
	out := Stretch{From: float64(from), To: float64(to), Scene: d.chart(from, to, true, dayWidth), Moments: []Moment{}}
	out.Plot[0], out.Plot[1] = draw.DayPlot(dayWidth)
	for _, m := range d.within(from, to) {
		// What changes within a second cannot be pointed at.
		at := Moment{At: float64(m.At), Set: study.Moment(m.At), Figure: v.plain(unit.KindGauge, float64(m.Pressure)), Words: d.working(m)}
		if n := len(out.Moments); n > 0 && out.Moments[n-1].Words == at.Words && out.Moments[n-1].Figure == at.Figure {
			continue
		}
		out.Moments = append(out.Moments, at)
	}
	return out, nil
}

// within is the samples of a stretch, with how things stand at its beginning and end.
func (d *told) within(from, to unit.Duration) []day.Sample {
	var out []day.Sample
	if first, ok := d.days.At(from); ok {
		out = append(out, first)
	}
	for _, m := range d.days.Course {
		if m.At > from && m.At < to {
			out = append(out, m)
		}
	}
	if last, ok := d.days.At(to); ok {
		out = append(out, last)
	}
	return out
}

// working says who works at a moment.
func (d *told) working(m day.Sample) string {
	words := "Nobody draws air"
	if len(m.Running) > 0 {
		words = upper(d.shop.runningWords(m.Running, ""))
	}
	if len(m.Loaded) == 0 {
		return words + "; the compressor rests."
	}
	return words + "; the compressor delivers."
}

// chart is the receiver through a stretch of the first day, with the tools that work in it or
// without, on paper so many mm wide.
func (d *told) chart(from, to unit.Duration, tools bool, width float64) scene.Scene {
	samples := d.within(from, to)
	c := draw.Course{Title: "A working day: pressure in the receiver", Opens: d.shop.job.Work.Opens(), From: from, To: to}
	c.CutIn, c.CutOut = band(d.view.model)
	for _, m := range samples {
		c.Stands = append(c.Stands, draw.Stand{At: m.At, Pressure: m.Pressure})
	}
	for i, r := range d.days.Receivers {
		far := draw.Trace{Words: d.receiverNames(r)}
		for _, m := range samples {
			far.Stands = append(far.Stands, draw.Stand{At: m.At, Pressure: m.Receivers[i]})
		}
		c.Apart = append(c.Apart, far)
	}
	for _, k := range d.days.Compressors {
		if lane := d.lane(samples, k.ID, d.shop.named(k.ID), func(m day.Sample) bool { return slices.Contains(m.Loaded, k.ID) }); len(lane.On) > 0 {
			c.Compressors = append(c.Compressors, lane)
		}
	}
	if tools {
		for _, t := range d.worstFirst() {
			lane := d.lane(samples, t.ID, d.shop.toolName(t.ID), func(m day.Sample) bool {
				return slices.ContainsFunc(m.Running, func(use job.InUse) bool { return use.Tool == t.ID })
			})
			if len(lane.On) > 0 {
				c.Tools = append(c.Tools, lane)
			}
		}
	}
	sheet := draw.Sheet{Width: width, Height: draw.DayHigh(len(c.Compressors) + len(c.Tools)), Units: d.view.ask.System, Env: d.view.env}
	return draw.Day(c, sheet)
}

// lane is when something works.
func (d *told) lane(samples []day.Sample, id job.ID, words string, works func(day.Sample) bool) draw.Lane {
	lane := draw.Lane{ID: string(id), Words: words}
	was := false
	for i, m := range samples {
		on := works(m) && i+1 < len(samples)
		switch n := len(lane.On); {
		case on && !was:
			lane.On = append(lane.On, [2]unit.Duration{m.At, samples[len(samples)-1].At})
		case !on && was:
			lane.On[n-1][1] = m.At
		}
		was = on
	}
	return lane
}
