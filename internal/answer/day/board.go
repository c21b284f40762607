package day

import "math"

// board is the machines with their switches, and the books of a run.
type board struct {
	plant  Plant
	motors []motor
	idle   []float64 // s unloaded so far
	course *Course
}

// newBoard begins a run; at tells the pressure of the store that a machine feeds.
func newBoard(p Plant, o Options, at func(machine int) float64) board {
	n := len(p.Machines)
	b := board{plant: p, motors: make([]motor, n), idle: make([]float64, n), course: &Course{
		Machines: make([]Worked, n), Tools: make([]Served, o.Tools), Motors: make([]bool, n),
		Lowest: o.Start, Highest: o.Start,
	}}
	for i, m := range p.Machines {
		if at(i) <= m.CutIn {
			b.motors[i] = loaded
			b.course.Machines[i].Starts++
		}
	}
	return b
}

// nextStop is when the first unloaded motor stops.
func (b *board) nextStop() float64 {
	next := math.Inf(1)
	for i, m := range b.plant.Machines {
		if b.motors[i] == unloaded {
			next = min(next, max(0, m.RunOn-b.idle[i]))
		}
	}
	return next
}

// control switches the machines at the pressures reached; a switch within near of where
// it switches has come to it.
func (b *board) control(at func(machine int) float64, near float64) {
	for i, m := range b.plant.Machines {
		switch p := at(i); {
		case b.motors[i] == loaded && p >= m.CutOut-near:
			b.course.Full = true
			b.motors[i] = stopped
			if m.Control == LoadUnload {
				b.motors[i], b.idle[i] = unloaded, 0
			}
		case b.motors[i] != loaded && p <= m.CutIn+near:
			if b.motors[i] == stopped {
				b.course.Machines[i].Starts++
			}
			b.motors[i] = loaded
		case b.motors[i] == unloaded && b.idle[i] >= m.RunOn-1e-9:
			b.motors[i] = stopped
		}
	}
}

// worked books a stretch of time in which a machine delivered so much.
func (b *board) worked(i int, step, air float64) {
	k := &b.course.Machines[i]
	k.Air += air
	switch b.motors[i] {
	case loaded:
		k.Loaded += step
	case unloaded:
		k.Unloaded += step
		b.idle[i] += step
	}
}

// loaded says of each machine whether it delivers.
func (b *board) loaded() []bool {
	on := make([]bool, len(b.motors))
	for i, m := range b.motors {
		on[i] = m == loaded
	}
	return on
}

// close ends the books.
func (b *board) close() {
	for i, m := range b.motors {
		b.course.Motors[i] = m != stopped
	}
}
