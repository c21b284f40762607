package day

import (
	"context"
	"math"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// levels is how far apart two receivers may stand, Pa, while all that the compressors deliver
// passes from one to the other, to count as one store: what a shop's gauge just shows;
// common practice, no source.
const levels = 10e3

// place is a store of a shop: receivers that stand side by side.
type place struct {
	nodes  []int // of the model, one per receiver
	ids    []job.ID
	volume float64 // m³, of the receivers
	start  float64 // Pa abs, as the shop opens
}

// stores finds what holds air: receivers with the lines that stand open to them, each
// group of receivers that levels out at once a store of its own, the one that is fed most first.
func (s *shop) stores(ctx context.Context) string {
	m := s.m
	rest, err := m.NewSolver().Solve(ctx, model.Case{Supply: model.CutOut, Idle: true})
	if err != nil || !rest.Solved {
		return "the net has no answer at rest"
	}
	if err := s.gather(ctx, rest); err != nil {
		return "the net has no answer between its receivers"
	}
	if len(s.stand) == 0 {
		return "the volume of the receiver is not known"
	}
	near := s.nearest()
	fed := make([]float64, len(s.stand))
	for i, c := range m.Compressors() {
		v := near[s.feeds(c)]
		if v < 0 {
			return "the volume of the receiver that " + string(c.ID) + " feeds is not known"
		}
		s.plant.Machines[i].Vessel = v
		fed[v] += s.plant.Machines[i].Flow
	}
	s.fill(rest, near, fed)
	return ""
}

// gather groups the receivers that air reaches.
func (s *shop) gather(ctx context.Context, rest *model.Result) error {
	for _, r := range s.m.Receivers() {
		if r.Volume <= 0 || !rest.Known[r.Node] {
			continue
		}
		start := float64(rest.Pressure[r.Node])
		joined := false
		for k := range s.stand {
			one, err := s.levelOut(ctx, s.stand[k].nodes[0], r.Node)
			if err != nil {
				return err
			}
			if one {
				p := &s.stand[k]
				p.nodes, p.ids, p.volume = append(p.nodes, r.Node), append(p.ids, r.ID), p.volume+float64(r.Volume)
				p.start = max(p.start, start)
				joined = true
				break
			}
		}
		if !joined {
			s.stand = append(s.stand, place{[]int{r.Node}, []job.ID{r.ID}, float64(r.Volume), start})
		}
	}
	return nil
}

// levelOut says whether two receivers level out at once: either way all that is delivered
// passes at the least difference.
func (s *shop) levelOut(ctx context.Context, a, b int) (bool, error) {
	high, delivered := math.Inf(1), 0.0
	for _, k := range s.plant.Machines {
		high, delivered = min(high, k.CutIn), delivered+k.Flow
	}
	for _, pair := range [][2]int{{a, b}, {b, a}} {
		from, to := unit.AbsPressure(high), unit.AbsPressure(high-levels)
		r, err := s.m.NewSolver().Solve(ctx, model.Case{Supply: model.CutIn, Idle: true, Stores: []model.Store{
			{Node: pair[0], Back: from, Held: true}, {Node: pair[1], Back: to, Held: true},
		}})
		if err != nil {
			return false, err
		}
		if !r.Solved || -float64(r.Stores[1].Out) < delivered {
			return false, nil
		}
	}
	return true, nil
}

// feeds is the node of the first receiver that a compressor feeds; its own where it has none.
func (s *shop) feeds(c model.Compressor) int {
	for _, k := range s.m.Sources() {
		if len(c.Sources) > 0 && k.ID == c.Sources[0] {
			return k.Node
		}
	}
	return c.Node
}

// nearest is the store that each node is nearest to, by length of line; −1 where no line
// leads to any.
func (s *shop) nearest() []int {
	m := s.m
	at := make([][]int, len(m.Nodes()))
	for i, e := range m.Elements() {
		at[e.From], at[e.To] = append(at[e.From], i), append(at[e.To], i)
	}
	near, far := make([]int, len(at)), make([]float64, len(at))
	for i := range near {
		near[i], far[i] = -1, math.Inf(1)
	}
	var queue []int
	for k, p := range s.stand {
		for _, n := range p.nodes {
			near[n], far[n] = k, 0
			queue = append(queue, n)
		}
	}
	for len(queue) > 0 {
		n := queue[0]
		queue = queue[1:]
		for _, i := range at[n] {
			e := &m.Elements()[i]
			to, d := e.From+e.To-n, far[n]+float64(e.Length)
			if d < far[to] {
				near[to], far[to] = near[n], d
				queue = append(queue, to)
			}
		}
	}
	return near
}

// fill sets the plant's stores: volumes with lines, what is set aside for leaks and for
// dryers behind the receivers, by what each is fed.
func (s *shop) fill(rest *model.Result, near []int, fed []float64) {
	const open = 100.0 // Pa: at rest nothing is lost but behind a regulator or a check valve
	volume := make([]float64, len(s.stand))
	for k, p := range s.stand {
		volume[k] = p.volume
	}
	for _, e := range s.m.Elements() {
		k := near[e.From]
		if k >= 0 && e.Length > 0 && e.Bore > 0 && rest.Known[e.From] && float64(rest.Pressure[e.From]) > s.stand[k].start-open {
			volume[k] += math.Pi / 4 * float64(e.Bore) * float64(e.Bore) * float64(e.Length)
		}
	}
	s.plant.Temperature = float64(air.ISO1217.Temperature)
	delivered := 0.0
	for k := range volume {
		s.plant.Volume += volume[k]
		delivered += fed[k]
	}
	if len(s.stand) == 1 {
		return
	}
	most := 0
	for k := range fed {
		if fed[k] > fed[most] {
			most = k
		}
	}
	s.swap(volume, fed, most)
	for k, p := range s.stand {
		share := 0.0
		if delivered > 0 {
			share = fed[k] / delivered
		}
		s.plant.Vessels = append(s.plant.Vessels, Vessel{Volume: volume[k], Start: p.start, Leak: share * s.leak / s.low, Purge: share * s.purge})
	}
}

// swap brings a store to the front.
func (s *shop) swap(volume, fed []float64, to int) {
	s.stand[0], s.stand[to] = s.stand[to], s.stand[0]
	volume[0], volume[to] = volume[to], volume[0]
	fed[0], fed[to] = fed[to], fed[0]
	for i := range s.plant.Machines {
		switch v := &s.plant.Machines[i].Vessel; *v {
		case 0:
			*v = to
		case to:
			*v = 0
		}
	}
}

// between is the network between the stores while some tools run.
type between struct {
	ctx    context.Context
	s      *shop
	solver *model.Solver
	uses   []job.InUse
	pairs  []int
}

func (s *shop) between(ctx context.Context, solver *model.Solver, uses []job.InUse) *between {
	b := &between{ctx: ctx, s: s, solver: solver, uses: uses, pairs: make([]int, len(uses))}
	for i, use := range uses {
		p, _ := s.m.PairOf(use)
		b.pairs[i] = p.Index
	}
	return b
}

// Held implements Net.
func (b *between) Held(p []float64) (Flows, error) {
	return b.solve(func(k int) model.Store { return model.Store{Back: unit.AbsPressure(p[k]), Held: true} })
}

// Exchanged implements Net.
func (b *between) Exchanged(back, gives []float64) (Flows, error) {
	return b.solve(func(k int) model.Store { return model.Store{Back: unit.AbsPressure(back[k]), Gives: gives[k]} })
}

func (b *between) solve(store func(k int) model.Store) (Flows, error) {
	c := model.Case{Running: b.uses, Supply: model.CutIn, Idle: true}
	for k, p := range b.s.stand {
		one := store(k)
		if one.Back <= 0 {
			return Flows{}, nil
		}
		one.Node = p.nodes[0]
		c.Stores = append(c.Stores, one)
	}
	r, err := b.solver.Solve(b.ctx, c)
	if err != nil || !r.Solved {
		return Flows{}, err
	}
	f := Flows{Known: true}
	for _, st := range r.Stores {
		f.Pressure, f.Out = append(f.Pressure, float64(st.Pressure)), append(f.Out, float64(st.Out))
	}
	for _, k := range b.pairs {
		f.Tools = append(f.Tools, float64(r.Tools[k].Pressure)+b.s.atm)
	}
	return f, nil
}

// dayBetween is a day of several stores.
func (s *shop) dayBetween(ctx context.Context, d *done, o Options) error {
	sets, uses, keys := make([]Switch, len(d.turns)), make([][]job.InUse, len(d.turns)), make([]string, len(d.turns))
	for i, t := range d.turns {
		var who []int
		uses[i], who = s.running(t)
		sets[i] = Switch{At: t.At, Who: who, Least: s.least(uses[i])}
		keys[i] = s.keep(uses[i])
	}
	o.Coarse = !o.Trace
	o.Short = func(set, tool int, seconds float64) { d.short[spoil{tool, keys[set]}] += seconds }
	// A solver of its own, or the same seed would not give the same day to the last digit.
	solver := s.m.NewSolver()
	var err error
	d.course, err = March(ctx, s.plant, sets, func(set int) Net { return s.between(ctx, solver, uses[set]) }, o)
	return err
}
