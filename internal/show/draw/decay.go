package draw

import (
	"fmt"
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/show/scene"
)

// DecayPoint is one reading of a shut section.
type DecayPoint struct {
	At       unit.Duration
	Pressure unit.GaugePressure
}

// DecayLine is the line through the readings and what it must stay above, at one moment.
type DecayLine struct {
	At    unit.Duration
	Fit   unit.GaugePressure
	Half  unit.PressureDiff  // 95 %
	Least unit.GaugePressure // where the section would stand with the leak that it may have
}

// DecayCourse is a decay test as it is drawn. Pressures are brought to the temperature of
// the first reading, so that only what is lost falls.
type DecayCourse struct {
	Title  string
	Points []DecayPoint
	Line   []DecayLine // empty while there is one reading
}

// DecayHigh is how high the chart is in mm.
const DecayHigh = 44.0

// Decay draws the pressure of a shut section over time with its band and, dotted, what it
// must stay above. One metre of the scene is a metre of paper.
func Decay(c DecayCourse, sheet Sheet) scene.Scene {
	out := scene.Scene{Title: c.Title, Max: at(sheet.Width, sheet.Height)}
	low, high, end := math.Inf(1), math.Inf(-1), 1.0
	take := func(p float64, t unit.Duration) { low, high, end = min(low, p), max(high, p), max(end, float64(t)) }
	for _, p := range c.Points {
		take(float64(p.Pressure), p.At)
	}
	for _, l := range c.Line {
		take(float64(l.Fit)-float64(l.Half), l.At)
		take(float64(l.Fit)+float64(l.Half), l.At)
	}
	floor := low - max(3*(high-low), 0.05*math.Abs(high)) // what is allowed may lie far below all readings
	for _, l := range c.Line {
		take(max(float64(l.Least), floor), l.At)
	}
	d := &dayChart{course: Course{To: unit.Duration(end)}, sheet: sheet, base: dayFoot, top: sheet.Height - dayHead}
	d.left, d.right = DayPlot(sheet.Width)
	if len(c.Points) == 0 || d.right <= d.left {
		out.Fill()
		return out
	}
	step := stepFor((high-low)*1.3+100, sheet.Units)
	d.low, d.high = math.Floor(low/step-0.1)*step, math.Ceil(high/step+0.1)*step
	out.Layers = []scene.Layer{
		{ID: "grid", Title: "time and pressure", Items: append(d.levels(""), d.minutes()...)},
		{ID: "needs", Title: "band and least", Items: d.decayBand(c.Line)},
		{ID: "way", Title: "readings", Items: d.decayPoints(c)},
	}
	out.Fill()
	return out
}

// minutes are the ends of the time axis.
func (d *dayChart) minutes() []scene.Item {
	words := func(t unit.Duration) string { return d.sheet.Units.Text(unit.KindDuration, float64(t), d.sheet.Env) }
	return []scene.Item{
		scene.Polyline("", "", scene.Solid(0.18, "faint"), at(d.left, d.base), at(d.right, d.base)),
		scene.Words("", "0", at(d.left, d.base-4), scene.Point{}, dayType, "middle", "soft"),
		scene.Words("", words(d.course.To), at(d.right, d.base-4), scene.Point{}, dayType, "end", "soft"),
	}
}

// decayBand is the band of the line, its middle, and what it must stay above.
func (d *dayChart) decayBand(line []DecayLine) []scene.Item {
	if len(line) == 0 {
		return nil
	}
	var top, middle, bottom, least []scene.Point
	for _, l := range line {
		x := d.x(l.At)
		top = append(top, at(x, d.y(float64(l.Fit)+float64(l.Half))))
		bottom = append(bottom, at(x, d.y(float64(l.Fit)-float64(l.Half))))
		middle = append(middle, at(x, d.y(float64(l.Fit))))
		if float64(l.Least) >= d.low {
			least = append(least, at(x, d.y(float64(l.Least))))
		}
	}
	edge := scene.Solid(0.2, "soft")
	return []scene.Item{
		scene.Polyline("", "upper end of the band, 95 %", edge, top...),
		scene.Polyline("", "lower end of the band, 95 %", edge, bottom...),
		scene.Polyline("", "line through all readings", scene.Solid(0.4, "ink"), middle...),
		scene.Polyline("", "what it must stay above", scene.Stroke{Width: 0.45, Color: "accent", Dash: []float64{0.6, 1}}, least...),
	}
}

func (d *dayChart) decayPoints(c DecayCourse) []scene.Item {
	var out []scene.Item
	stroke := scene.Solid(0.3, "ink")
	for i, p := range c.Points {
		dot := scene.Path{D: "M-1 0A1 1 0 1 0 1 0A1 1 0 1 0 -1 0Z", Stroke: &stroke, Fill: "paper"}
		out = append(out, scene.Item{
			Title: fmt.Sprintf("reading %d: %s", i+1, d.sheet.Units.Text(unit.KindGauge, float64(p.Pressure), d.sheet.Env)),
			Mark:  &scene.Mark{At: at(d.x(p.At), d.y(float64(p.Pressure))), Parts: []scene.Path{dot}},
		})
	}
	return out
}
