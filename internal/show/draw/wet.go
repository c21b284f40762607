package draw

import (
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/show/scene"
)

// Moisture is the way of the air from a compressor to an outlet, with what tells
// whether its water stays in it.
type Moisture struct {
	Title string
	End   string // short name of the outlet
	Steps []Moist
}

// Moist is one thing on the way: a part at its place, or a line. In and Out are as the
// air passes it.
type Moist struct {
	ID     string
	Words  string // a part's short name, written under it; "" for what has none
	Title  string // read out
	Place  string // room that it stands in
	Length unit.Length
	In     Air
	Out    Air
	Stands unit.Temperature // of the thing at rest: that of its room
	// Hot stands before the first thing that cools: its temperatures go over the top
	// of the chart, or all behind it would be flat.
	Hot bool
	// Warm: no water falls out in it, however cold its room: it stays warm while the shop works.
	Warm bool
}

// Air is the state of the air at a place; Dew is nil where it holds no water at all.
type Air struct {
	Warmth unit.Temperature
	Dew    *unit.Temperature // under pressure
}

const (
	freezing = 273.15 // K
	wetSize  = 2.5    // mm, of all words on the chart
)

// wet lays out one chart in mm of paper.
type wet struct {
	sheet       Sheet
	way         Moisture
	low, high   float64 // K, of the axis
	left, right float64
	base, top   float64
	field       field
	ends        []float64 // x of the end of every step
	air, stands []curve
	dew         []curve
	soaked      []soaked
}

// curve is a run of points, x in mm and y in K.
type curve []scene.Point

// Wet draws the air's temperature, that of the lines and the pressure dew point along
// the way. Where the dew point stands over the line, water falls out there: hatched. One
// metre of the scene is a metre of paper.
func Wet(way Moisture, sheet Sheet) scene.Scene {
	w := &wet{sheet: sheet, way: way, left: 9, right: sheet.Width - 15, base: 14, top: sheet.Height - 5}
	w.field.sheet = box{w.left, w.base, w.right, w.top}
	out := scene.Scene{Title: way.Title, Max: scene.Point{sheet.Width / 1000, sheet.Height / 1000}}
	if len(way.Steps) == 0 || w.right-w.left < 10 || w.top-w.base < 10 {
		out.Fill()
		return out
	}
	w.lay()
	w.trace()
	bands := w.bands()
	grid := w.axis()
	w.soak()
	out.Layers = []scene.Layer{
		{ID: "parts", Title: "parts on the way", Items: bands},
		{ID: "grid", Title: "temperature", Items: grid},
		{ID: "wet", Title: "where water falls out", Items: w.rain()},
		{ID: "stands", Title: "temperature of the lines", Items: w.paint(w.stands, "the lines", scene.Stroke{Width: 0.75, Color: "soft", Dash: []float64{2.2, 1.4}})},
		{ID: "air", Title: "temperature of the air", Items: w.paint(w.air, "the air", scene.Stroke{Width: 0.4, Color: "ink"})},
		{ID: "dew", Title: "pressure dew point", Items: w.paint(w.dew, "pressure dew point", scene.Stroke{Width: 0.8, Color: "line", Dash: []float64{0.01, 1.3}, Round: true})},
		{ID: "ends", Title: "figures at the end", Items: w.finish()},
		{ID: "names", Title: "names", Items: w.names()},
		{ID: "words", Title: "what happens", Items: w.words()},
	}
	out.Fill()
	return out
}

// lay gives every step its breadth: parts alike, lines by the root of their length, so
// that short ones before the dryer are seen beside a long main.
func (w *wet) lay() {
	weights, sum := make([]float64, len(w.way.Steps)), 0.0
	for i, s := range w.way.Steps {
		weights[i] = 0.9
		if s.Words == "" {
			weights[i] = 0.15 + math.Sqrt(math.Max(float64(s.Length), 0))
		}
		sum += weights[i]
	}
	along := w.left
	for _, x := range weights {
		along += x / sum * (w.right - w.left)
		w.ends = append(w.ends, along)
	}
}

// x is where step i begins.
func (w *wet) x(i int) float64 {
	if i == 0 {
		return w.left
	}
	return w.ends[i-1]
}

// y is the place of a temperature on the paper.
func (w *wet) y(t float64) float64 {
	return w.base + (t-w.low)/(w.high-w.low)*(w.top-w.base)
}

// trace follows the three temperatures, each step by a curve of its own.
func (w *wet) trace() {
	for i := range w.way.Steps {
		s := &w.way.Steps[i]
		var air, dew curve
		parts := 1
		if s.Length > 0 {
			parts = 16
		}
		for k := range parts + 1 {
			share := float64(k) / float64(parts)
			x := w.x(i) + share*(w.ends[i]-w.x(i))
			warmth := s.warmth(share)
			air = append(air, scene.Point{x, warmth})
			if d, ok := s.dewAt(share, warmth); ok {
				dew = append(dew, scene.Point{x, d})
			}
		}
		w.air, w.dew = append(w.air, air), append(w.dew, dew)
		w.stands = append(w.stands, curve{{w.x(i), float64(s.Stands)}, {w.ends[i], float64(s.Stands)}})
	}
}

// warmth is the air's temperature at a share of the way through a step. In a line the
// difference to the room falls off by the same share in every metre.
func (s *Moist) warmth(share float64) float64 {
	in, out, room := float64(s.In.Warmth), float64(s.Out.Warmth), float64(s.Stands)
	if a, b := in-room, out-room; s.Length > 0 && a*b > 0 {
		return room + a*math.Pow(b/a, share)
	}
	return in + share*(out-in)
}

// dewAt is the dew point at a share of a step: in a line in which water falls it is that
// of the air where the air is colder. ok is false where the air holds no water.
func (s *Moist) dewAt(share, warmth float64) (dew float64, ok bool) {
	if s.In.Dew == nil || s.Out.Dew == nil {
		return 0, false
	}
	in, out := float64(*s.In.Dew), float64(*s.Out.Dew)
	if s.Length > 0 && in != out {
		return min(max(in, out), max(warmth, min(in, out))), true
	}
	return in + share*(out-in), true
}

// axis sets round ends and draws the levels, and the one at which water freezes.
func (w *wet) axis() []scene.Item {
	w.span()
	zero, one, step := w.degrees()
	var items []scene.Item
	for n := math.Ceil((w.low - zero) / one / step); ; n++ {
		t := zero + n*step*one
		if t > w.high+one*step/100 {
			break
		}
		y := w.y(t)
		if math.Abs(t-freezing) > 1e-6 {
			items = append(items, scene.Polyline("", "", scene.Solid(0.18, "faint"), at(w.left, y), at(w.right, y)))
		}
		items = append(items, scene.Words("", trim(math.Round(n*step)), at(w.left-1.2, y-0.9), scene.Point{}, wetSize, "end", "soft"))
	}
	if w.low < freezing && w.high > freezing {
		y := w.y(freezing)
		items = append(items, scene.Polyline("", "water freezes below", scene.Solid(0.3, "soft"), at(w.left, y), at(w.right, y)))
		w.field.draw(scene.Point{w.left, y}, scene.Point{w.right, y}, 0.2, 1.5)
	}
	_, word := w.sheet.Units.Split(unit.KindTemperature, w.high, w.sheet.Env)
	return append(items, scene.Words("", word, at(w.left-1.2, w.top+2), scene.Point{}, wetSize, "end", "soft"))
}

// degrees are those of the person's units: where they count from and how large one is,
// in K, and the step between two levels, in degrees.
func (w *wet) degrees() (zero, one, step float64) {
	zero, one = freezing, 1
	if w.sheet.Units == unit.US {
		zero, one = 459.67/1.8, 1/1.8
	}
	most := max(3, (w.top-w.base)/6.5) // levels that have room
	for _, step = range []float64{5, 10, 20, 25, 50, 100} {
		if (w.high-w.low)/one/step <= most {
			break
		}
	}
	return zero, one, step
}

// span finds the ends of the axis: all behind the first thing that cools, and the rooms.
func (w *wet) span() {
	all := true // nothing cools: all of it is told
	for _, s := range w.way.Steps {
		all = all && s.Hot
	}
	low, high := math.Inf(1), math.Inf(-1)
	hold := func(t unit.Temperature) { low, high = min(low, float64(t)), max(high, float64(t)) }
	for _, s := range w.way.Steps {
		hold(s.Stands)
		if s.Hot && !all {
			continue
		}
		for _, a := range []Air{s.In, s.Out} {
			hold(a.Warmth)
			if a.Dew != nil {
				hold(*a.Dew)
			}
		}
	}
	const least = 15.0 // K; less would make mountains of nothing
	if gap := least - (high - low); gap > 0 {
		low, high = low-gap/2, high+gap/2
	}
	room := 0.06 * (high - low)
	w.low, w.high = low-room, high+room
	if float64(w.way.Steps[0].In.Warmth) > w.high {
		w.high += room // for the words that say so
	}
}
