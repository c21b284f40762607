package draw

import (
	"fmt"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// Course is a stretch of a working day.
type Course struct {
	Title       string
	Opens       unit.Duration      // when the day begins, since midnight
	From, To    unit.Duration      // since it began
	CutIn       unit.GaugePressure // the lowest of the compressors'
	CutOut      unit.GaugePressure // the highest
	Stands      []Stand            // by rising time
	Apart       []Trace            // of several receivers that stand apart, the first that of Stands; none: there is one
	Compressors []Lane             // when each is under load
	Tools       []Lane             // when each runs; none: only the pressure is drawn
}

// Trace is the pressure in one of several receivers.
type Trace struct {
	Words  string
	Stands []Stand
}

// Stand is the receiver's pressure at a time.
type Stand struct {
	At       unit.Duration
	Pressure unit.GaugePressure
}

// Lane is one machine or tool, and when it works.
type Lane struct {
	ID    string
	Words string
	On    [][2]unit.Duration
}

// The parts of a chart of a day in mm: words left of the time axis, a lane, the pressure.
const (
	dayLeft, dayRight = 24.0, 2.0
	laneHigh          = 4.4
	dayFoot           = 6.0
	dayHead           = 4.0
	dayPressure       = 26.0
	mostLanes         = 14
	dayType           = 2.4
)

// DayHigh is how high a chart of a day is in mm with so many lanes.
func DayHigh(lanes int) float64 {
	return dayHead + dayPressure + dayFoot + laneHigh*float64(min(lanes, mostLanes)) + 2
}

// DayPlot is where time begins and ends on a chart of a day so wide, in mm from its left edge.
func DayPlot(width float64) (left, right float64) { return dayLeft, width - dayRight }

// dayChart lays out one stretch of a day in mm of paper.
type dayChart struct {
	course      Course
	sheet       Sheet
	left, right float64
	base, top   float64 // of the pressure
	low, high   float64 // Pa, of the axis
}

// Day draws the receiver's pressure against time, and under it when the compressors
// and the tools work. One metre of the scene is a metre of paper.
func Day(course Course, sheet Sheet) scene.Scene {
	lanes := slices.Concat(course.Compressors, course.Tools)
	more := max(0, len(lanes)-mostLanes)
	lanes = lanes[:len(lanes)-more]
	d := &dayChart{course: course, sheet: sheet}
	d.left, d.right = DayPlot(sheet.Width)
	d.top = sheet.Height - dayHead
	d.base = dayFoot + laneHigh*float64(len(lanes)) + 2
	out := scene.Scene{Title: course.Title, Max: at(sheet.Width, sheet.Height)}
	if len(course.Stands) == 0 || course.To <= course.From || d.top <= d.base {
		out.Fill()
		return out
	}
	d.scale()
	out.Layers = []scene.Layer{
		{ID: "grid", Title: "time and pressure", Items: append(d.hours(), d.levels("receiver, ")...)},
		{ID: "lanes", Title: "who works", Items: d.lanes(lanes, more)},
		{ID: "needs", Title: "cut-in and cut-out", Items: d.band()},
		{ID: "way", Title: "pressure in the receiver", Items: d.lines()},
	}
	out.Fill()
	return out
}

// x is where a time lies.
func (d *dayChart) x(t unit.Duration) float64 {
	share := float64((t - d.course.From) / (d.course.To - d.course.From))
	return d.left + min(max(share, 0), 1)*(d.right-d.left)
}

func (d *dayChart) y(p float64) float64 {
	return d.base + (p-d.low)/(d.high-d.low)*(d.top-d.base)
}

// scale sets round ends to the pressure axis; the band is always on it.
func (d *dayChart) scale() {
	low, high := float64(d.course.CutIn), float64(d.course.CutOut)
	all := [][]Stand{d.course.Stands}
	for _, t := range d.course.Apart {
		all = append(all, t.Stands)
	}
	for _, s := range slices.Concat(all...) {
		low, high = min(low, float64(s.Pressure)), max(high, float64(s.Pressure))
	}
	step := stepFor((high-low)*1.3+1, d.sheet.Units)
	d.low, d.high = max(0, math.Floor(low/step-0.1)*step), math.Ceil(high/step+0.1)*step
}

// levels are the lines of the pressure axis with their figures; as many as there is room for.
func (d *dayChart) levels(what string) []scene.Item {
	step := stepFor((d.high-d.low)*1.3, d.sheet.Units)
	for (d.top-d.base)*step/(d.high-d.low) < 4 {
		step *= 2
	}
	var items []scene.Item
	for p := math.Ceil(d.low/step-1e-9) * step; p <= d.high+step/100; p += step {
		y := d.y(p)
		items = append(items,
			scene.Polyline("", "", scene.Solid(0.18, "faint"), at(d.left, y), at(d.right, y)),
			scene.Words("", d.sheet.short(unit.KindGauge, p), at(d.left-1.2, y-0.8), scene.Point{}, dayType, "end", "soft"))
	}
	_, word := d.sheet.Units.Split(unit.KindGauge, d.high, d.sheet.Env)
	return append(items, scene.Words("", what+word, at(d.left-1.2, d.top+2.6), scene.Point{}, dayType, "end", "soft"))
}

// ticks are how far apart times may be written, s.
var ticks = []float64{60, 120, 300, 600, 1800, 3600, 7200, 4 * 3600}

// hours are the lines of the time axis.
func (d *dayChart) hours() []scene.Item {
	const apart = 9.5 // mm that a time takes
	span := float64(d.course.To - d.course.From)
	step := ticks[len(ticks)-1]
	for _, t := range ticks {
		if t/span*(d.right-d.left) >= apart {
			step = t
			break
		}
	}
	var items []scene.Item
	// Round times by the clock.
	opens := float64(d.course.Opens)
	for t := math.Ceil((opens+float64(d.course.From))/step)*step - opens; t <= float64(d.course.To)+1e-6; t += step {
		x := d.x(unit.Duration(t))
		items = append(items, scene.Polyline("", "", scene.Solid(0.18, "faint"), at(x, dayFoot-1), at(x, d.top)))
		anchor := "middle"
		if x > d.right-4 {
			anchor, x = "end", d.right+dayRight
		}
		items = append(items, scene.Words("", job.Clock(d.course.Opens+unit.Duration(t)), at(x, 1.6), scene.Point{}, dayType, anchor, "soft"))
	}
	return append(items, scene.Words("", "time of day", at(d.left-4.2, 1.6), scene.Point{}, dayType, "end", "soft"))
}

// band is the levels at which the compressor starts and stops, named where there is room.
func (d *dayChart) band() []scene.Item {
	var items []scene.Item
	for _, l := range []struct {
		p     unit.GaugePressure
		words string
		over  bool
	}{{d.course.CutOut, "cut-out", true}, {d.course.CutIn, "cut-in", false}} {
		y := d.y(float64(l.p))
		under := y - dayType*0.95
		if l.over {
			under = y + 0.6
		}
		text := l.words + " " + d.sheet.short(unit.KindGauge, float64(l.p))
		items = append(items,
			scene.Polyline("", text, scene.Stroke{Width: 0.3, Color: "ink", Dash: []float64{0.5, 0.9}}, at(d.left, y), at(d.right, y)),
			scene.Words("", text, at(d.right, under), scene.Point{}, dayType, "end", "ink"))
	}
	return items
}

// finest is the width in mm within which only the highest and the lowest are drawn.
const finest = 0.15

// far are the strokes of receivers behind the first.
var far = []scene.Stroke{
	{Width: 0.4, Color: "accent", Dash: []float64{1.6, 0.8}},
	{Width: 0.4, Color: "accent", Dash: []float64{0.6, 0.6}},
	{Width: 0.4, Color: "accent", Dash: []float64{2.4, 0.7, 0.5, 0.7}},
}

// lines are the pressures of all receivers, with names where there are several.
func (d *dayChart) lines() []scene.Item {
	first := scene.Stroke{Width: 0.4, Color: "line", Round: true}
	if len(d.course.Apart) == 0 {
		return d.line("pressure in the receiver", d.course.Stands, first)
	}
	var items []scene.Item
	x := d.left
	for i, t := range d.course.Apart {
		stroke := first
		if i > 0 {
			stroke = far[(i-1)%len(far)]
		}
		items = append(items, d.line("pressure in "+t.Words, t.Stands, stroke)...)
		// The key runs along the top.
		words := cropped(t.Words, dayType, 40)
		items = append(items,
			scene.Polyline("", "", stroke, at(x, d.top+2.2+dayType/3), at(x+8, d.top+2.2+dayType/3)),
			scene.Words("", words, at(x+9.2, d.top+2.2), scene.Point{}, dayType, "start", "ink"))
		x += 9.2 + scene.TextWidth(words, dayType, false) + 5
	}
	return items
}

// line is a pressure, of each finest stretch of paper its first, lowest and highest.
func (d *dayChart) line(words string, stands []Stand, stroke scene.Stroke) []scene.Item {
	var points []scene.Point
	for i := 0; i < len(stands); {
		x := d.x(stands[i].At)
		first, low, high := float64(stands[i].Pressure), math.Inf(1), math.Inf(-1)
		k := i
		for ; k < len(stands) && (k == i || d.x(stands[k].At)-x < finest); k++ {
			low, high = min(low, float64(stands[k].Pressure)), max(high, float64(stands[k].Pressure))
		}
		points = append(points, at(x, d.y(first)))
		if high > low {
			points = append(points, at(x, d.y(high)), at(x, d.y(low)))
		}
		if last := float64(stands[k-1].Pressure); last != low && k-1 > i {
			points = append(points, at(d.x(stands[k-1].At), d.y(last)))
		}
		i = k
	}
	if len(points) == 1 {
		points = append(points, at(d.right, points[0][1]*1000))
	}
	return []scene.Item{scene.Polyline("", words, stroke, points...)}
}

// lanes are the machines and tools, a bar for each time that they work.
func (d *dayChart) lanes(lanes []Lane, more int) []scene.Item {
	var items []scene.Item
	for i, l := range lanes {
		y := d.base - 2 - laneHigh*(float64(i)+0.5)
		color := "ink"
		if i < len(d.course.Compressors) {
			color = "accent"
		}
		items = append(items,
			scene.Words(l.ID, cropped(l.Words, dayType, d.left-1.6), at(d.left-1.2, y-0.8), scene.Point{}, dayType, "end", "ink"),
			scene.Polyline("", "", scene.Solid(0.12, "faint"), at(d.left, y), at(d.right, y)))
		for _, on := range joined(l.On, unit.Duration(finest)*(d.course.To-d.course.From)/unit.Duration(d.right-d.left)) {
			x0, x1 := d.x(on[0]), d.x(on[1])
			if x1 <= d.left || x0 >= d.right {
				continue
			}
			x1 = max(x1, x0+finest)
			bar := scene.Area{Points: []scene.Point{at(x0, y-1.1), at(x1, y-1.1), at(x1, y+1.1), at(x0, y+1.1)}, Fill: color}
			items = append(items, scene.Item{ID: l.ID, Title: l.Words, Area: &bar})
		}
	}
	if more > 0 {
		items = append(items, scene.Words("", fmt.Sprintf("and %d more", more), at(d.right, dayFoot-1.2), scene.Point{}, dayType, "end", "soft"))
	}
	return items
}

// joined makes one of stretches that lie closer than paper can show.
func joined(on [][2]unit.Duration, close unit.Duration) [][2]unit.Duration {
	var out [][2]unit.Duration
	for _, s := range on {
		if n := len(out); n > 0 && s[0]-out[n-1][1] < close {
			out[n-1][1] = max(out[n-1][1], s[1])
			continue
		}
		out = append(out, s)
	}
	return out
}
