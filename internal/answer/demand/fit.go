package demand

import "math"

// crowd is the independent parts of a shop with the odds by which each group comes,
// so chosen that within all limits each runs for its share of the time.
type crowd struct {
	parts  []Part
	shapes []shape
	odds   []float64 // by group: chance of running over chance of not, if nobody kept it
	crew   int       // 0: no limit
	// cut is what the shares had to be multiplied by, because the crew has not
	// that many hands; 1 where nothing had to be.
	cut float64
}

// shape is the ways of a part: the groups that run in each.
type shape struct {
	groups []int
	masks  []int // a bit for each of groups
}

// The fit ends when every share is met this well, or after so many rounds: shares that
// cannot all be had at once come as near as that.
const (
	fitted = 1e-11
	rounds = 400
	// busiest is the share of all hands' time that the shares may ask for: at the
	// whole of it nobody ever puts a tool down.
	busiest = 0.98
	surely  = 1 - 1e-9 // a share of 1, with odds that are a number
	// longest is the greatest odds: shares that the crew can never give would drive them on
	// without end, until the sums lose their digits.
	longest = 1e12
)

// fit finds the odds by iterative proportional fitting: each group's odds are corrected
// by what its share lacks, until none does (W. E. Deming, F. F. Stephan, 1940; recalled).
func (c *cast) fit(shapes []shape, crew int) *crowd {
	w := &crowd{shapes: shapes, crew: crew, cut: 1, odds: make([]float64, len(c.members))}
	want := c.wanted(w)
	for _, s := range shapes {
		sum := 0.0
		for _, g := range s.groups {
			sum += want[g]
		}
		for _, g := range s.groups {
			rest := 1 - want[g]
			if len(s.masks) == len(s.groups)+1 { // one at a time
				rest = max(1-sum, 1-surely)
			}
			w.odds[g] = want[g] / rest
		}
	}
	for range rounds {
		w.weigh(c)
		if w.correct(want) < fitted {
			break
		}
	}
	w.weigh(c)
	return w
}

// wanted is the share of each group, cut where they ask for more than there is.
func (c *cast) wanted(w *crowd) []float64 {
	want := make([]float64, len(c.members))
	hands := 0.0
	for g := range want {
		want[g] = min(c.share(g), surely)
		hands += want[g] * float64(len(c.members[g]))
	}
	if most := busiest * float64(w.crew); w.crew > 0 && hands > most {
		w.cut = most / hands
	}
	for _, s := range w.shapes {
		if len(s.masks) != len(s.groups)+1 || len(s.groups) == 1 {
			continue
		}
		sum := 0.0
		for _, g := range s.groups {
			sum += want[g]
		}
		for _, g := range s.groups {
			want[g] /= max(1, sum)
		}
	}
	for g := range want {
		want[g] *= w.cut
	}
	return want
}

// weigh makes the parts of the odds.
func (w *crowd) weigh(c *cast) {
	w.parts = w.parts[:0]
	for _, s := range w.shapes {
		p, total := Part{}, 0.0
		for _, mask := range s.masks {
			way := Way{Chance: 1}
			for i, g := range s.groups {
				if mask>>i&1 == 1 {
					way.Chance *= w.odds[g]
					way.Number += len(c.members[g])
					way.Flow += c.flow(g)
				}
			}
			total += way.Chance
			p.Ways = append(p.Ways, way)
		}
		for i := range p.Ways {
			p.Ways[i].Chance /= total
		}
		w.parts = append(w.parts, p)
	}
}

// correct brings the odds nearer and tells the greatest lack.
func (w *crowd) correct(want []float64) float64 {
	lack := 0.0
	others := w.others()
	for i, s := range w.shapes {
		runs := make([]float64, len(s.groups))
		total := 0.0
		for k, way := range w.parts[i].Ways {
			chance := way.Chance * w.room(others[i], way.Number)
			total += chance
			for b := range s.groups {
				if s.masks[k]>>b&1 == 1 {
					runs[b] += chance
				}
			}
		}
		for b, g := range s.groups {
			has := runs[b] / total
			lack = max(lack, math.Abs(has-want[g]))
			if has > 0 && has < 1 && want[g] > 0 {
				w.odds[g] = min(longest, w.odds[g]*want[g]/has*(1-has)/(1-want[g]))
			}
		}
	}
	return lack
}

// room is the chance that the others leave hands for so many.
func (w *crowd) room(others []float64, number int) float64 {
	if w.crew == 0 {
		return 1
	}
	sum := 0.0
	for n := 0; n < len(others) && n+number <= w.crew; n++ {
		sum += others[n]
	}
	return sum
}

// others is, for each part, the chance of how many of all other parts run.
func (w *crowd) others() [][]float64 {
	out := make([][]float64, len(w.parts))
	if w.crew == 0 {
		return out
	}
	after := make([][]float64, len(w.parts)+1)
	after[len(w.parts)] = []float64{1}
	for i := len(w.parts) - 1; i >= 0; i-- {
		after[i] = add(after[i+1], w.parts[i], w.crew)
	}
	before := []float64{1}
	for i, p := range w.parts {
		out[i] = both(before, after[i+1], w.crew)
		before = add(before, p, w.crew)
	}
	return out
}

// both convolves two distributions of numbers, up to most.
func both(a, b []float64, most int) []float64 {
	out := make([]float64, min(len(a)+len(b)-1, most+1))
	for i, x := range a {
		for k, y := range b {
			if i+k < len(out) {
				out[i+k] += x * y
			}
		}
	}
	return out
}
