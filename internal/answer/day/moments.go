package day

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"sort"

	"dropleg/engine/air"
	"dropleg/internal/shop/job"
)

// Moments looked at in a day whose sets are too many to solve: some at any time, and
// some of every tool while it runs, so that a tool of few minutes is seen as well.
const (
	anyTime   = 60
	whileRuns = 4
)

// look solves the network at moments of a day drawn by chance and books for each tool
// how often it had less than it needs. Each moment counts for the time that it stands
// for: one over the density that all ways of drawing it have together (the balance
// heuristic: E. Veach and L. J. Guibas, Optimally Combining Sampling Techniques, 1995;
// recalled).
func (s *shop) look(ctx context.Context, rng *rand.Rand, d *done, end float64) error {
	w := newWatch(s, d, end)
	for k, ran := range w.ran {
		d.course.Tools[k].Ran = ran
	}
	solver := s.m.NewSolver()
	for _, at := range w.draw(rng) {
		turn := w.turnAt(at)
		uses := w.uses[turn]
		if len(uses) == 0 {
			continue
		}
		p := w.pressureAt(at)
		r, err := solver.Solve(ctx, s.held(uses, p))
		if err != nil {
			return err
		}
		if !r.Solved {
			continue // no answer is no shortage; what is left out is left out of both sums
		}
		weight := 1 / w.density(turn)
		out := s.leaks(p) + float64(air.Mass(r.Drawn()))
		d.laws = append(d.laws, lawAt{pressure: p, uses: uses, out: out})
		for i, use := range uses {
			t := &d.course.Tools[w.who[turn][i]]
			t.Weighed += weight
			pair, ok := s.m.PairOf(use)
			if !ok || r.Tools[pair.Index].Pressure >= pair.Least {
				continue
			}
			t.Short += weight
			d.short[spoil{w.who[turn][i], s.company(uses)}] += weight
		}
	}
	return nil
}

// lawAt is what a set really took at a pressure.
type lawAt struct {
	pressure float64
	uses     []job.InUse
	out      float64
}

// seen gathers what was seen over days.
func seen(days []done) []lawAt {
	var all []lawAt
	for _, d := range days {
		all = append(all, d.laws...)
	}
	return all
}

func compareUse(a, b job.InUse) int {
	return cmp.Or(cmp.Compare(a.Tool, b.Tool), cmp.Compare(a.Outlet, b.Outlet))
}

// company names a set by its tools, wherever they run, and keeps it for telling.
func (s *shop) company(uses []job.InUse) string {
	sorted := slices.Clone(uses)
	slices.SortFunc(sorted, compareUse)
	names := make([]job.ID, len(sorted))
	for i, use := range sorted {
		names[i] = use.Tool
	}
	key := fmt.Sprint(names)
	s.mu.Lock()
	defer s.mu.Unlock()
	// The least of the places, or the same seed would not tell the same.
	if e, ok := s.tables[key]; !ok || slices.CompareFunc(sorted, e.uses, compareUse) < 0 {
		s.tables[key] = &entry{uses: sorted}
	}
	return key
}

// watch is a day laid out for looking at.
type watch struct {
	d     *done
	end   float64
	uses  [][]job.InUse // by turn
	who   [][]int
	ran   []float64   // by tool, s
	spans [][]stretch // by tool
}

// stretch is a turn in which a tool runs, and how long the tool had run before.
type stretch struct {
	turn   int
	before float64
}

func newWatch(s *shop, d *done, end float64) *watch {
	n := len(s.tools)
	w := &watch{d: d, end: end, ran: make([]float64, n), spans: make([][]stretch, n)}
	for i, t := range d.turns {
		uses, who := s.running(t)
		w.uses, w.who = append(w.uses, uses), append(w.who, who)
		for _, k := range who {
			w.spans[k] = append(w.spans[k], stretch{i, w.ran[k]})
			w.ran[k] += w.until(i) - t.At
		}
	}
	return w
}

func (w *watch) until(turn int) float64 {
	if turn+1 < len(w.d.turns) {
		return w.d.turns[turn+1].At
	}
	return w.end
}

// draw gives moments, in order: each way of drawing has its time cut in equal pieces
// and one moment in each.
func (w *watch) draw(rng *rand.Rand) []float64 {
	var out []float64
	for i := range anyTime {
		out = append(out, (float64(i)+rng.Float64())*w.end/anyTime)
	}
	for k, ran := range w.ran {
		if ran <= 0 {
			continue
		}
		for i := range whileRuns {
			in := (float64(i) + rng.Float64()) * ran / whileRuns
			spans := w.spans[k]
			j := sort.Search(len(spans), func(j int) bool { return spans[j].before > in }) - 1
			out = append(out, w.d.turns[spans[j].turn].At+in-spans[j].before)
		}
	}
	slices.Sort(out)
	return out
}

// density is how many moments per second are drawn in a turn.
func (w *watch) density(turn int) float64 {
	q := anyTime / w.end
	for _, k := range w.who[turn] {
		q += whileRuns / w.ran[k]
	}
	return q
}

func (w *watch) turnAt(at float64) int {
	return sort.Search(len(w.d.turns), func(i int) bool { return w.d.turns[i].At > at }) - 1
}

// pressureAt reads the course; between its points the pressure is all but straight.
func (w *watch) pressureAt(at float64) float64 {
	trace := w.d.course.Trace
	i := sort.Search(len(trace), func(i int) bool { return trace[i].At > at })
	if i == len(trace) {
		return trace[i-1].Pressure
	}
	a, b := trace[i-1], trace[i]
	return a.Pressure + (b.Pressure-a.Pressure)*(at-a.At)/(b.At-a.At)
}

// fit finds how much less the tools take together than apart, by least squares over
// what was seen.
func (a *apart) fit(s *shop, seen []lawAt) {
	above, below := 0.0, 0.0
	for _, l := range seen {
		base, sum := a.at(s, l)
		above += (base + sum - l.out) * sum * sum
		below += math.Pow(sum, 4)
	}
	if below > 0 {
		a.less = max(0, above/below)
	}
}

// off is by what share of the flow the law misses what was seen, root mean square.
func (a *apart) off(s *shop, seen []lawAt) float64 {
	squares := 0.0
	for _, l := range seen {
		base, sum := a.at(s, l)
		miss := base + a.together(sum) - l.out
		squares += miss / l.out * miss / l.out
	}
	return math.Sqrt(squares / float64(max(1, len(seen))))
}

// at is what a set takes apart at a pressure: with nobody at work, and by its tools.
func (a *apart) at(s *shop, l lawAt) (base, sum float64) {
	read := func(col []float64) float64 {
		t := Table{Pressure: a.pressure, Out: col}
		v, _ := t.out(t.span(l.pressure, true), l.pressure)
		return v
	}
	for _, use := range l.uses {
		sum += read(a.tool[use])
	}
	return read(a.rest) + s.leaks(l.pressure), sum
}
