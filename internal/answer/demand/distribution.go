package demand

import "math"

// Part is a group of tools that depend on each other and on nobody else: the
// ways they can run, with their chances, which add up to one.
type Part struct{ Ways []Way }

// Way is one way a part can run.
type Way struct {
	Chance float64
	Number int     // tools that run
	Flow   float64 // what they take
}

// Solo is a tool that runs for a share of the time, whatever the others do.
func Solo(share, flow float64) Part {
	return Part{[]Way{{Chance: 1 - share}, {Chance: share, Number: 1, Flow: flow}}}
}

// Numbers is the chance that exactly n tools run, n from 0 to all, by
// convolution of the parts: exact but for rounding (Poisson-binomial where all
// are solo).
func Numbers(parts []Part) []float64 {
	out := []float64{1}
	for _, p := range parts {
		most := 0
		for _, w := range p.Ways {
			most = max(most, w.Number)
		}
		next := make([]float64, len(out)+most)
		for _, w := range p.Ways {
			for n, c := range out {
				next[n+w.Number] += c * w.Chance
			}
		}
		out = next
	}
	return out
}

// Together is the least number of tools that is exceeded in at most the share
// rare of the time (Hunter 1940, NBS BMS65). A chance that equals rare but for
// rounding counts as not above it.
func Together(chance []float64, rare float64) int {
	const rounding = 1e-9
	above := 0.0
	for n := len(chance) - 1; n > 0; n-- {
		if above+chance[n] > rare*(1+rounding)+1e-15 {
			return n
		}
		above += chance[n]
	}
	return 0
}

// Flows is the chance of each flow on a grid: Chance[i] for a flow of i steps.
type Flows struct {
	Step   float64
	Chance []float64
	mean   float64
	spread float64 // variance
}

// FlowsOf convolves what the parts take on a grid of the step given; each way's
// flow is rounded to the grid, mean and deviation are of the flows as they are.
func FlowsOf(parts []Part, step float64) Flows {
	f := Flows{Step: step}
	room := 1
	for _, p := range parts {
		most := 0
		for _, w := range p.Ways {
			most = max(most, cell(w.Flow, step))
		}
		room += most
	}
	// Two rows take turns: made anew for each part they would fill the memory.
	now, next := append(make([]float64, 0, room), 1), make([]float64, 0, room)
	for _, p := range parts {
		most, mean, square := 0, 0.0, 0.0
		for _, w := range p.Ways {
			most = max(most, cell(w.Flow, step))
			mean += w.Chance * w.Flow
			square += w.Chance * w.Flow * w.Flow
		}
		f.mean += mean
		f.spread += math.Max(0, square-mean*mean)
		next = next[:len(now)+most]
		clear(next)
		for _, w := range p.Ways {
			if w.Chance == 0 {
				continue
			}
			shift := cell(w.Flow, step)
			into := next[shift:]
			for i, c := range now {
				into[i] += c * w.Chance
			}
		}
		now, next = next, now
	}
	f.Chance = now
	return f
}

func cell(flow, step float64) int { return int(math.Round(flow / step)) }

// Mean is the average flow.
func (f Flows) Mean() float64 { return f.mean }

// SD is the standard deviation of the flow.
func (f Flows) SD() float64 { return math.Sqrt(f.spread) }

// Level is the least flow whose cumulative chance reaches the share.
func (f Flows) Level(share float64) float64 {
	sum := 0.0
	for i, c := range f.Chance {
		sum += c
		if sum >= share-1e-12 {
			return float64(i) * f.Step
		}
	}
	return float64(len(f.Chance)-1) * f.Step
}

// Above is the chance that more than a flow is taken.
func (f Flows) Above(flow float64) float64 {
	sum := 0.0
	for i := len(f.Chance) - 1; i >= 0 && float64(i)*f.Step > flow*(1+1e-12); i-- {
		sum += f.Chance[i]
	}
	return sum
}
