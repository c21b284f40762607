package screen

import (
	"fmt"
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/decide/calibrate"
	"dropleg/internal/decide/find"
)

// calibrationWords words one answer in a system of units.
type calibrationWords struct {
	shop   *Shop
	system unit.System
	answer *calibrate.Answer
}

func (w calibrationWords) state() string {
	switch {
	case !w.answer.Fits:
		return Unfit
	case w.answer.Change() == nil:
		return Untold
	}
	return Fits
}

// sentence is what it comes to. A sum of squares says nothing to people: its root, by the
// reading, is how many times farther they lie off than gauges and plates explain.
func (w calibrationWords) sentence() string {
	a := w.answer
	off := func(sum float64) string { return timesOff(math.Sqrt(sum / math.Max(1, float64(a.Used)))) }
	s := fmt.Sprintf("%s weighed. What is computed lay off by %s times what gauges and plates explain, and now by %s times. ",
		upper(plural(a.Used, "reading", "readings")), off(a.Before), off(a.After))
	switch w.state() {
	case Unfit:
		return s + "They do not fit: no roughness, leak or state of the filters shows what was read. Something else is not as drawn: look for a fault first."
	case Untold:
		return s + "They fit, and tell none of the figures closer than it was known before."
	}
	return s + "They fit."
}

func (w calibrationWords) name(f *calibrate.Figure) string {
	switch f.What {
	case calibrate.Roughness:
		words := "roughness of " + f.Stock
		if k, ok := w.shop.study.Catalog().Stock(f.Stock); ok {
			words = "roughness of " + k.Words
		}
		if f.Worn != "" {
			words += ", " + f.Worn
		}
		return words + " (" + plural(len(f.IDs), "line", "lines") + ")"
	case calibrate.Filter:
		return "loss at rated flow: " + w.shop.named(f.IDs[0])
	}
	return "share of the supply that leaks"
}

func (w calibrationWords) figure(f *calibrate.Figure, x float64) string {
	switch f.What {
	case calibrate.Roughness:
		return unit.Metric.Text(unit.KindLength, x, unit.Env{}) // tables of roughness have mm
	case calibrate.Filter:
		return w.system.Text(unit.KindPressureDiff, x, unit.Env{})
	}
	return leakShare(x)
}

// timesOff is how many times, to two figures and without powers of ten.
func timesOff(x float64) string {
	if x >= 99.5 {
		return fmt.Sprintf("%.0f", x)
	}
	return fmt.Sprintf("%.2g", math.Round(x*1e3)/1e3)
}

// leakShare tells a share down to a ten-thousandth of a percent.
func leakShare(x float64) string { return fmt.Sprintf("%.3g %%", math.Round(x*1e6)/1e4) }

func (w calibrationWords) row(f *calibrate.Figure) CalibratedRow {
	row := CalibratedRow{
		Name: upper(w.name(f)), Before: w.figure(f, f.Before), Now: w.figure(f, f.Value),
		Low: w.figure(f, f.Low), High: w.figure(f, f.High), Told: f.Told, Things: []string{},
	}
	for _, id := range f.IDs {
		row.Things = append(row.Things, string(w.shop.onDrawing(id)))
	}
	switch {
	case !f.Told:
		row.Words = w.untold(f)
	case f.Odd:
		row.Words = "Far from what such a thing is: look for a fault before this is taken over."
	}
	return row
}

// untold says why a figure stays as it was.
func (w calibrationWords) untold(f *calibrate.Figure) string {
	switch {
	case f.Why == calibrate.Alike && f.Like >= 0:
		return "The readings move with it as with another, and tell the two only together: " + w.name(&w.answer.Figures[f.Like]) + "."
	case f.Why == calibrate.Alike:
		return "The readings move with it as with what is not known of couplers, tools and fittings."
	}
	return "No reading moves with it by more than gauges and plates are off."
}

func (w calibrationWords) look(l *calibrate.Look) LookRow {
	name, show, off := "Turns of the compressor: share that leaks", leakShare, leakShare
	if l.Reading != nil {
		name, show, off = w.reading(l.Reading)
	}
	row := LookRow{Name: name, Read: show(l.Read)}
	if l.Known {
		row.Before, row.Now = withSign(l.Read-l.Before, off), withSign(l.Read-l.After, off)
	}
	return row
}

// withSign is a difference with its sign.
func withSign(x float64, show func(float64) string) string {
	if x < 0 {
		return "−" + show(-x)
	}
	return "+" + show(x)
}

// reading is the name of one, and how its figures and their differences are shown.
func (w calibrationWords) reading(r *find.Reading) (name string, show, off func(float64) string) {
	text := func(k unit.Kind) func(float64) string {
		return func(x float64) string { return w.system.Text(k, x, unit.Env{}) }
	}
	switch r.Kind {
	case find.PumpUp:
		return "Time to pump up", text(unit.KindDuration), text(unit.KindDuration)
	case find.Fall:
		return "Time to fall", text(unit.KindDuration), text(unit.KindDuration)
	}
	name = w.shop.named(r.Place.At)
	if r.Place.Tool != "" {
		name = "before the " + w.shop.toolName(r.Place.Tool) + " at " + name
	}
	var running []string
	for _, u := range r.Running {
		running = append(running, "the "+w.shop.toolName(u.Tool))
	}
	ran := "nothing running"
	if len(running) > 0 {
		ran = listed(running) + " running"
	}
	return upper(name) + ", " + ran, text(unit.KindGauge), text(unit.KindPressureDiff)
}
