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
// are solo). With a crew no more than that many run: the chances are those on
// condition of it.
func Numbers(parts []Part, crew int) []float64 {
	all := 0
	for _, p := range parts {
		all += p.most()
	}
	if crew > 0 {
		all = min(all, crew)
	}
	out := []float64{1}
	for _, p := range parts {
		out = add(out, p, all)
	}
	total := 0.0
	for _, c := range out {
		total += c
	}
	for i := range out {
		out[i] /= total
	}
	return out
}

// most is how many of a part run at once at most.
func (p Part) most() int {
	most := 0
	for _, w := range p.Ways {
		most = max(most, w.Number)
	}
	return most
}

// add convolves a distribution of numbers with a part, up to a number.
func add(now []float64, p Part, up int) []float64 {
	next := make([]float64, min(len(now)+p.most(), up+1))
	for _, w := range p.Ways {
		for n, c := range now {
			if n+w.Number < len(next) {
				next[n+w.Number] += c * w.Chance
			}
		}
	}
	return next
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
	// Within is by how much a flow may be off the grid at most: half a step for each
	// tool that runs at once.
	Within float64
	mean   float64
	spread float64 // variance
}

// FlowsOf convolves what the parts take on a grid of the step given; each way's
// flow is rounded to the grid, mean and deviation are of the flows as they are.
// With a crew no more tools than that run at once, as in [Numbers].
func FlowsOf(parts []Part, step float64, crew int) Flows {
	f := Flows{Step: step}
	all := 0
	for _, p := range parts {
		all += p.most()
	}
	f.mean, f.spread = moments(parts, crew)
	if crew <= 0 || crew >= all {
		f.Within = float64(all) * step / 2
		f.Chance = convolve(parts, step, 0)[0]
		return f
	}
	f.Within = float64(crew) * step / 2
	total := 0.0
	for _, row := range convolve(parts, step, crew) {
		f.Chance = append(f.Chance, make([]float64, max(0, len(row)-len(f.Chance)))...)
		for i, c := range row {
			f.Chance[i] += c
			total += c
		}
	}
	for i := range f.Chance {
		f.Chance[i] /= total
	}
	return f
}

// convolve gives the chance of each flow in rows by the number of tools that run, up to
// the crew; without a crew in one row.
func convolve(parts []Part, step float64, crew int) [][]float64 {
	reach := make([]int, crew+1) // greatest flow of a row so far, in steps; −1: nothing
	for n := 1; n <= crew; n++ {
		reach[n] = -1
	}
	room := 1
	for _, p := range parts {
		most := 0
		for _, w := range p.Ways {
			most = max(most, cell(w.Flow, step))
		}
		room += most
	}
	// Two sets of rows take turns: made anew for each part they would fill the memory.
	now, next := make([][]float64, crew+1), make([][]float64, crew+1)
	for n := range now {
		now[n], next[n] = make([]float64, room), make([]float64, room)
	}
	now[0][0] = 1
	for _, p := range parts {
		further := make([]int, crew+1)
		for n := range further {
			further[n] = -1
			clear(next[n])
		}
		for _, w := range p.Ways {
			shift := cell(w.Flow, step)
			for n, end := range reach {
				to := n + w.Number
				if crew == 0 {
					to = 0
				}
				if end < 0 || to > crew || w.Chance == 0 {
					continue
				}
				further[to] = max(further[to], end+shift)
				into := next[to][shift:]
				for i, c := range now[n][:end+1] {
					into[i] += c * w.Chance
				}
			}
		}
		now, next, reach = next, now, further
	}
	for n := range now {
		now[n] = now[n][:reach[n]+1]
	}
	return now
}

// moments is mean and variance of the flow, exactly: without a crew the parts add up;
// with one, chance, mean and square are carried along for each number that runs.
func moments(parts []Part, crew int) (mean, variance float64) {
	if crew <= 0 {
		for _, p := range parts {
			m, square := 0.0, 0.0
			for _, w := range p.Ways {
				m += w.Chance * w.Flow
				square += w.Chance * w.Flow * w.Flow
			}
			mean += m
			variance += math.Max(0, square-m*m)
		}
		return mean, variance
	}
	now := make([][3]float64, crew+1)
	now[0][0] = 1
	for _, p := range parts {
		next := make([][3]float64, crew+1)
		for _, w := range p.Ways {
			for n, m := range now {
				if to := n + w.Number; to <= crew {
					next[to][0] += w.Chance * m[0]
					next[to][1] += w.Chance * (m[1] + w.Flow*m[0])
					next[to][2] += w.Chance * (m[2] + 2*w.Flow*m[1] + w.Flow*w.Flow*m[0])
				}
			}
		}
		now = next
	}
	sum := [3]float64{}
	for _, m := range now {
		for i := range sum {
			sum[i] += m[i]
		}
	}
	mean = sum[1] / sum[0]
	return mean, math.Max(0, sum[2]/sum[0]-mean*mean)
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
