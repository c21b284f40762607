package mip

import (
	"context"
	"math"
	"slices"
)

// dictionary writes the variables in the basis as sums over the others:
// x[basic[i]] = Σ t[i,j]·x[out[j]], and the cost likewise with the reduced costs d.
// There is no constant column: rows are variables with bounds of their own. Since all
// bounds are finite, every dictionary is optimal but for broken bounds (dual
// feasible) once each variable outside stands at the bound its reduced cost likes.
type dictionary struct {
	ctx       context.Context
	m         *model
	t         []float64 // len(basic) rows of n
	d         []float64
	basic     []int
	out       []int
	at        []int // per variable: row in the basis, or -1-place outside
	x         []float64
	low, high []float64 // the bounds now in force, per variable
	up        []bool    // per variable outside: it stands at its upper bound
	pivots    int       // since the dictionary was last made afresh
	still     float64   // reduced costs of this size count as zero
	places    []int     // scratch: where a row is not zero
	steps     []step    // scratch of the ratio test
	weights   []float64 // scratch of proofs: per row, per column twice
	rest      []float64
	size      []float64
}

func newDictionary(ctx context.Context, m *model) *dictionary {
	g := &dictionary{ctx: ctx, m: m, still: 1e-12}
	for _, c := range m.cost {
		g.still = max(g.still, 1e-12*math.Abs(c))
	}
	g.restart()
	return g
}

// restart makes the dictionary in which every row stands in the basis.
func (g *dictionary) restart() {
	n, rows := g.m.n, len(g.m.rows)
	g.t = make([]float64, n*rows)
	g.d = append(g.d[:0], g.m.cost...)
	g.basic, g.out = make([]int, rows), make([]int, n)
	g.at = make([]int, n+rows)
	g.up = make([]bool, n+rows)
	g.x = make([]float64, n+rows)
	g.low = slices.Clone(g.m.low)
	g.high = slices.Clone(g.m.high)
	for j := range n {
		g.out[j], g.at[j] = j, -1-j
	}
	for i, row := range g.m.rows {
		g.basic[i], g.at[n+i] = n+i, i
		for _, e := range row {
			g.t[i*n+e.Column] = e.Value
		}
	}
	g.pivots = 0
	g.places = make([]int, 0, n)
}

func (g *dictionary) row(i int) []float64 { return g.t[i*g.m.n : (i+1)*g.m.n] }

// bound sets the bounds of the columns and puts every variable where it belongs.
func (g *dictionary) bound(low, high []float64) {
	copy(g.low, low[:g.m.n])
	copy(g.high, high[:g.m.n])
	g.place()
}

// place puts the variables outside to their bounds and computes those in the basis.
func (g *dictionary) place() {
	for j, v := range g.out {
		if d := g.d[j]; math.Abs(d) > g.still {
			g.up[v] = d < 0
		}
		g.x[v] = g.low[v]
		if g.up[v] {
			g.x[v] = g.high[v]
		}
	}
	for i, v := range g.basic {
		sum := 0.0
		for j, a := range g.row(i) {
			sum += a * g.x[g.out[j]]
		}
		g.x[v] = sum
	}
}

func (g *dictionary) value() float64 {
	sum := 0.0
	for j, d := range g.d {
		sum += d * g.x[g.out[j]]
	}
	return sum
}

// swap lets the variable at place q outside and the one in row r change places.
func (g *dictionary) swap(r, q int) {
	n := g.m.n
	row := g.row(r)
	p := 1 / row[q]
	g.places = g.places[:0]
	for j, a := range row {
		if a == 0 || j == q {
			continue
		}
		if math.Abs(a) < 1e-13 {
			row[j] = 0
			continue
		}
		row[j] = -a * p
		g.places = append(g.places, j)
	}
	row[q] = p
	for i := range g.basic {
		if f := g.t[i*n+q]; f != 0 && i != r {
			g.spread(g.t[i*n:(i+1)*n], row, f, q)
		}
	}
	g.spread(g.d, row, g.d[q], q)
	in, gone := g.out[q], g.basic[r]
	g.out[q], g.basic[r] = gone, in
	g.at[gone], g.at[in] = -1-q, r
	g.pivots++
}

func (g *dictionary) spread(to, row []float64, f float64, q int) {
	if 3*len(g.places) > 2*len(row) {
		to[q] = 0
		for j, a := range row {
			to[j] += f * a
		}
		return
	}
	to[q] = f * row[q]
	for _, j := range g.places {
		to[j] += f * row[j]
	}
}

// renew computes the dictionary of the present basis afresh from the rows. When the
// basis turns out to be none, the one of all rows takes its place.
func (g *dictionary) renew() {
	n := g.m.n
	wanted := slices.Clone(g.basic)
	low, high, up := g.low, g.high, g.up
	g.restart()
	copy(g.low, low)
	copy(g.high, high)
	copy(g.up, up)
	stays := make([]bool, len(g.at))
	for _, v := range wanted {
		stays[v] = true
	}
	for _, v := range wanted {
		if v >= n {
			continue
		}
		q, best, r := -1-g.at[v], 1e-7, -1
		for i, b := range g.basic {
			if a := math.Abs(g.t[i*n+q]); a > best && !stays[b] {
				best, r = a, i
			}
		}
		if r < 0 {
			break
		}
		g.swap(r, q)
	}
	g.pivots = 0
	g.place()
}

// grow takes rows into the dictionary that were added to the model since.
func (g *dictionary) grow() {
	n := g.m.n
	for i := len(g.basic); i < len(g.m.rows); i++ {
		fresh := make([]float64, n)
		for _, e := range g.m.rows[i] {
			at := g.at[e.Column]
			if at < 0 {
				fresh[-1-at] += e.Value
				continue
			}
			for j, a := range g.row(at) {
				fresh[j] += e.Value * a
			}
		}
		g.t = append(g.t, fresh...)
		g.basic = append(g.basic, n+i)
		g.at = append(g.at, i)
		g.up, g.x = append(g.up, false), append(g.x, 0)
		g.low, g.high = append(g.low, g.m.low[n+i]), append(g.high, g.m.high[n+i])
	}
	g.place()
}

// copyFrom makes the dictionary equal to another one of the same model.
func (g *dictionary) copyFrom(o *dictionary) {
	g.ctx, g.m, g.still, g.pivots = o.ctx, o.m, o.still, o.pivots
	g.t, g.d, g.x = append(g.t[:0], o.t...), append(g.d[:0], o.d...), append(g.x[:0], o.x...)
	g.basic, g.out, g.at = append(g.basic[:0], o.basic...), append(g.out[:0], o.out...), append(g.at[:0], o.at...)
	g.low, g.high, g.up = append(g.low[:0], o.low...), append(g.high[:0], o.high...), append(g.up[:0], o.up...)
}

// rename follows a model that lost rows: moved gives the new number of each variable,
// -1 for one that is gone. A row in the basis goes without a trace; with one outside
// the basis goes too, and the dictionary begins again.
func (g *dictionary) rename(moved []int) {
	for j, v := range g.out {
		if moved[v] < 0 {
			g.restart()
			g.place()
			return
		}
		g.out[j] = moved[v]
	}
	kept := 0
	for i, v := range g.basic {
		if moved[v] < 0 {
			continue
		}
		copy(g.row(kept), g.row(i))
		g.basic[kept] = moved[v]
		kept++
	}
	g.basic, g.t = g.basic[:kept], g.t[:kept*g.m.n]
	for old, v := range moved {
		if v >= 0 {
			g.x[v], g.up[v], g.low[v], g.high[v] = g.x[old], g.up[old], g.low[old], g.high[old]
		}
	}
	size := g.m.n + kept
	g.x, g.up, g.low, g.high, g.at = g.x[:size], g.up[:size], g.low[:size], g.high[:size], g.at[:size]
	for i, v := range g.basic {
		g.at[v] = i
	}
	for j, v := range g.out {
		g.at[v] = -1 - j
	}
}
