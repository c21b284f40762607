package day

import "math"

// farthest is how far a pressure may move in one step of a coarse day, Pa.
const farthest = 3e3

// stride tries a step of the implicit Euler rule.
func (m *marcher) stride(net Net, tools int, h float64) (leap, error) {
	w := leap{h: h, weights: [3]float64{0, 0, 1}, from: m.at, endIn: make([]float64, len(m.c))}
	var err error
	if w.end, err = m.stage(net, tools, m.at.Pressure, h, w.endIn); err != nil {
		return w, err
	}
	if w.from.Tools == nil {
		w.from.Tools = w.end.Tools
	}
	w.from.Out, w.fromIn = w.end.Out, w.endIn
	w.mid, w.midIn = Flows{Out: w.end.Out, Pressure: mixed(w.from.Pressure, w.end.Pressure), Tools: mixed(w.from.Tools, w.end.Tools)}, w.endIn
	moved := 1.0
	for i, p := range w.end.Pressure {
		moved = max(moved, math.Abs(p-w.from.Pressure[i]))
	}
	w.fits = farthest / moved
	return w, nil
}

// mixed is where straight lines from a to b stand at the end of a first stage.
func mixed(a, b []float64) []float64 {
	out := make([]float64, len(a))
	for i := range a {
		out[i] = a[i] + part*(b[i]-a[i])
	}
	return out
}
