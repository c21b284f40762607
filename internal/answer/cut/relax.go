package cut

import (
	"context"
	"math"

	"dropleg/engine/num/lp"
)

// relaxation is the linear programme that allows parts of bars: each pattern of a pool
// any number of times, whole or not, so that every piece is cut. Its rows are those of
// the kinds, of the bars that are scarce, of the joint, and those that a search adds.
type relaxation struct {
	ctx   context.Context
	shape *shape
	pool  *pool
	lp    *lp.Program
	unit  float64 // cost 1 of the programme, in smallest coins
	sense []lp.Sense
	need  []int64 // right sides
	limit []int   // row of the number of each bar, -1 for plenty
	joint int     // row of the number of ends; the next one is that of their length
	added [][]int // patterns of the rows that a search added, the last ones
	most  []int64 // how often a pattern can be used at all
}

func relax(ctx context.Context, s *shape, p *pool) *relaxation {
	r := &relaxation{ctx: ctx, shape: s, pool: p, unit: 1}
	for _, b := range s.bars {
		r.unit = max(r.unit, float64(b.price))
	}
	for _, k := range s.kinds {
		r.row(lp.AtLeast, int64(k.need))
	}
	for _, b := range s.bars {
		if !b.scarce {
			r.limit = append(r.limit, -1)
			continue
		}
		r.limit = append(r.limit, len(r.need))
		r.row(lp.AtMost, int64(b.most))
	}
	if s.joint.size > 0 {
		r.joint = len(r.need)
		r.row(lp.AtMost, 2)
		r.row(lp.AtLeast, 1)
	}
	right := make([]float64, len(r.need))
	for i, n := range r.need {
		right[i] = float64(n)
	}
	// What no pattern serves can be bought for more than any plan costs.
	r.lp = lp.New(r.sense, right, float64(s.limit)/r.unit+10)
	for i := range p.len() {
		r.addColumn(i)
	}
	return r
}

func (r *relaxation) row(sense lp.Sense, need int64) {
	r.sense, r.need = append(r.sense, sense), append(r.need, need)
}

func (r *relaxation) addColumn(i int) {
	b := int(r.pool.bar[i])
	parts := r.pool.at(i)
	entries := make([]lp.Entry, 0, len(parts)+3)
	most := int64(0)
	for _, part := range parts {
		entries = append(entries, lp.Entry{Row: int(part.kind), Value: float64(part.times)})
		most = max(most, ceilDiv(int64(r.shape.kinds[part.kind].need), int64(part.times)))
	}
	if row := r.limit[b]; row >= 0 {
		entries = append(entries, lp.Entry{Row: row, Value: 1})
	}
	if end := r.pool.end[i]; end > 0 {
		most = max(most, 2)
		share := float64(end) / float64(r.shape.joint.size)
		entries = append(entries, lp.Entry{Row: r.joint, Value: 1}, lp.Entry{Row: r.joint + 1, Value: share})
	}
	r.most = append(r.most, min(most, int64(r.shape.bars[b].most)))
	r.lp.AddColumn(float64(r.shape.bars[b].price)/r.unit, entries)
}

// use gives the patterns that the solution uses.
func (r *relaxation) use() []used {
	var use []used
	r.lp.Each(func(column int, value float64) { use = append(use, used{column, value}) })
	return use
}

// multipliers gives whole multipliers of the rows, in fine parts, near those of the
// solution and of the sign that their row allows.
func (r *relaxation) multipliers() []int64 {
	y := r.lp.Multipliers()
	out := make([]int64, len(y))
	scale := r.unit * float64(r.shape.fine)
	for i, v := range y {
		w := int64(math.Floor(v * scale))
		if r.sense[i] == lp.AtMost {
			out[i] = min(w, 0)
		} else {
			out[i] = max(w, 0)
		}
	}
	return out
}

// worth says what the multipliers of the first rows mean.
func (r *relaxation) worth(y []int64) worth {
	w := worth{kind: y[:len(r.shape.kinds)], bar: make([]int64, len(r.shape.bars))}
	for b, bar := range r.shape.bars {
		w.bar[b] = bar.price * r.shape.fine
		if row := r.limit[b]; row >= 0 {
			w.bar[b] -= y[row]
		}
	}
	if r.shape.joint.size > 0 {
		w.ends, w.joint = -y[r.joint], y[r.joint+1]
	}
	return w
}

// overrun gives what a load costs beyond its worth.
func (w worth) overrun(j joint, l load) int64 {
	c := w.bar[l.bar]
	for _, part := range l.parts {
		c -= w.kind[part.kind] * int64(part.times)
	}
	if l.end > 0 {
		c -= w.endWorth(j, l.end)
	}
	return c
}

// bound gives what every plan of the pool's patterns that keeps the rows costs at
// least, in fine parts. It is exact whatever the multipliers are: where they overrate
// a pattern, what can be gained by it is taken off, counted one by one or by bars.
func (r *relaxation) bound(y []int64) int64 {
	bound := int64(0)
	for i, n := range r.need {
		bound += y[i] * n
	}
	w := r.worth(y)
	over := make([]int64, r.pool.len())
	for i := range over {
		over[i] = w.overrun(r.shape.joint, r.pool.load(i))
	}
	first := len(r.need) - len(r.added)
	for k, members := range r.added {
		if rise := y[first+k]; rise != 0 {
			for _, i := range members {
				over[i] -= rise
			}
		}
	}
	single, worst := int64(0), make([]int64, len(r.shape.bars))
	for i, c := range over {
		if c < 0 {
			single -= c * r.most[i]
			b := r.pool.bar[i]
			worst[b] = max(worst[b], -c)
		}
	}
	bars := int64(0)
	for b, c := range worst {
		bars += c * int64(r.shape.bars[b].most)
	}
	return bound - min(single, bars)
}

// addRow adds a row that sums patterns, each as often as it is named.
func (r *relaxation) addRow(sense lp.Sense, need int64, members []int) {
	r.lp.AddRow(sense, float64(need), members)
	r.added = append(r.added, members)
	r.row(sense, need)
}

// dropRow takes the last row away.
func (r *relaxation) dropRow() {
	last := len(r.need) - 1
	r.need, r.sense = r.need[:last], r.sense[:last]
	r.added = r.added[:len(r.added)-1]
	r.lp.DropRow()
}
