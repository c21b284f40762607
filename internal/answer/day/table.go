package day

import (
	"math"
	"slices"
)

// Table is what leaves the store for a set of running tools, and what the tools
// get, over the store's pressure. Between its rows all is linear.
type Table struct {
	Pressure []float64   // Pa abs, rising
	Out      []float64   // kg/s
	Tools    [][]float64 // by row: pressure at each tool's inlet, Pa abs; each Table's own order
}

// Law is what a Table is made of: the flow out and the pressures at the tools at
// one pressure of the store. ok is false where the network has no answer there.
type Law func(p float64) (out float64, tools []float64, ok bool)

// within is how well a table's straight lines follow the law: share of the greatest
// outflow, and pressure.
const (
	withinFlow     = 2e-5
	withinPressure = 20 // Pa
)

// Tabulate samples a law between two pressures, at first there, then within
// each interval where a straight line would miss, until none does: in the middle, or
// where the lines on both sides of the interval meet, as they do at the pressure where
// a regulator begins to hold. Rows without an answer are left out; nil where none has one.
func Tabulate(law Law, low, high float64) *Table {
	const first, most = 2, 400
	t := &Table{}
	for i := range first {
		p := low + (high-low)*float64(i)/(first-1)
		if out, tools, ok := law(p); ok {
			t.insert(p, out, tools)
		}
	}
	if len(t.Pressure) == 0 {
		return nil
	}
	met := -1.0 // where lines met last: they meet there again, and the middle tells
	for i := 0; i+1 < len(t.Pressure) && len(t.Pressure) < most; {
		a, b := t.Pressure[i], t.Pressure[i+1]
		p, bent := t.bend(i)
		if bent = bent && p != met; !bent {
			p = (a + b) / 2
		}
		out, tools, ok := law(p)
		if !ok || b-a < withinPressure {
			i++
			continue
		}
		straight := t.follows(i, p, out, tools)
		t.insert(p, out, tools)
		if bent {
			met = p
		} else if straight {
			i += 2
		}
	}
	return t
}

// bend is where the lines before and behind an interval meet inside it, by the column
// that bends most; not ok where none does by as much as a table keeps.
func (t *Table) bend(i int) (at float64, ok bool) {
	if i == 0 || i+2 >= len(t.Pressure) {
		return 0, false
	}
	x := t.Pressure[i-1 : i+3]
	const edge = 0.02 // of the interval: nearer to a row it is the row
	most := 1.0
	try := func(y [4]float64, within float64) {
		before, behind := (y[1]-y[0])/(x[1]-x[0]), (y[3]-y[2])/(x[3]-x[2])
		p := (y[2] - y[1] + before*x[1] - behind*x[2]) / (before - behind)
		off := math.Abs(y[1]+before*(p-x[1])-(y[1]+(y[2]-y[1])*(p-x[1])/(x[2]-x[1]))) / within
		if margin := edge * (x[2] - x[1]); p > x[1]+margin && p < x[2]-margin && off > most {
			at, ok, most = p, true, off
		}
	}
	try([4]float64(t.Out[i-1:i+3]), withinFlow*t.Out[len(t.Out)-1])
	for k := range t.Tools[i] {
		try([4]float64{t.Tools[i-1][k], t.Tools[i][k], t.Tools[i+1][k], t.Tools[i+2][k]}, withinPressure)
	}
	return at, ok
}

// follows says whether a place within an interval lies on its straight line.
func (t *Table) follows(i int, p, out float64, tools []float64) bool {
	scale := t.Out[len(t.Out)-1]
	if line, _ := t.out(i, p); math.Abs(out-line) > withinFlow*scale {
		return false
	}
	for k, have := range tools {
		if line, _ := t.tool(k, i, p); math.Abs(have-line) > withinPressure {
			return false
		}
	}
	return true
}

func (t *Table) insert(p, out float64, tools []float64) {
	i, _ := slices.BinarySearch(t.Pressure, p)
	t.Pressure = slices.Insert(t.Pressure, i, p)
	t.Out = slices.Insert(t.Out, i, out)
	t.Tools = slices.Insert(t.Tools, i, tools)
}

// span finds the interval that holds p, seen in a direction: at a row itself the
// interval that lies ahead. −1 and len−1 are the open ends, where nothing changes.
func (t *Table) span(p float64, rising bool) int {
	i, at := slices.BinarySearch(t.Pressure, p)
	if at && rising {
		return i
	}
	return i - 1
}

// line is a value and its slope at p within a span.
func (t *Table) line(col func(i int) float64, span int, p float64) (value, slope float64) {
	last := len(t.Pressure) - 1
	switch {
	case span < 0:
		return col(0), 0
	case span >= last:
		return col(last), 0
	}
	slope = (col(span+1) - col(span)) / (t.Pressure[span+1] - t.Pressure[span])
	return col(span) + slope*(p-t.Pressure[span]), slope
}

func (t *Table) out(span int, p float64) (value, slope float64) {
	return t.line(func(i int) float64 { return t.Out[i] }, span, p)
}

func (t *Table) tool(k, span int, p float64) (value, slope float64) {
	return t.line(func(i int) float64 { return t.Tools[i][k] }, span, p)
}
