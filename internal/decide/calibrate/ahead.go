package calibrate

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/network"
	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/find"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// sight is what is computed for one reading, in Pa or as ln of a flow.
type sight struct {
	known bool
	mean  float64
	by    []float64 // by the figures, in x
	nu    []float64 // by what is not known and not adjusted, each in its deviation
	noise float64   // variance of the reading by itself
	shown float64   // what was read, as mean is
}

// bench computes readings for jobs that differ in the figures alone.
type bench struct {
	study   *study.Study
	model   *model.Model
	figures []figure
	ask     Ask
	doubts  find.Doubts
	store   store
	solvers []*network.Solver // by pressure reading
	fitted  map[int]bool      // elements whose whole loss is a figure
	inexact []float64         // by element: ln of what it passes, as its own figures are known
}

// little is the step in x by which a law's change with its figure is taken.
const little = 1e-3

func newBench(ctx context.Context, s *study.Study, figures []figure, ask Ask) (*bench, error) {
	m, err := s.Model(ctx)
	if err != nil {
		return nil, fmt.Errorf("reading the job as a network: %w", err)
	}
	b := &bench{study: s, model: m, figures: figures, ask: ask, doubts: ask.doubts(), store: storeOf(m), fitted: map[int]bool{}}
	for _, f := range figures {
		if f.what == Filter {
			b.fitted[f.links[0]] = true
		}
	}
	n := network.Network{}
	for range m.Nodes() {
		n.AddNode(network.Node{})
	}
	laws := m.Laws(model.Likely, false)
	for i, e := range m.Elements() {
		n.AddLink(network.Link{From: e.From, To: e.To, Law: laws.Links[i]})
	}
	for _, src := range m.Sources() {
		n.Nodes[src.Node].Fixed, n.Nodes[src.Node].Pressure = true, float64(src.CutIn.Abs(m.Atmosphere()))
	}
	top, err := n.Compile()
	if err != nil {
		return nil, fmt.Errorf("compiling the network: %w", err)
	}
	if b.inexact, err = b.known(ctx); err != nil {
		return nil, err
	}
	for range ask.Readings {
		b.solvers = append(b.solvers, top.NewSolver())
	}
	return b, nil
}

// known is how well each element is known with all figures in the middle of their priors: by
// what it passes with its own at their best over that with them at their worst.
func (b *bench) known(ctx context.Context) ([]float64, error) {
	m, err := b.with(make([]float64, len(b.figures))).Model(ctx)
	if err != nil {
		return nil, fmt.Errorf("reading the job as a network: %w", err)
	}
	best, worst := m.Laws(model.Best, false).Links, m.Laws(model.Worst, false).Links
	out := make([]float64, len(best))
	for i := range out {
		const in, behind = 8e5, 7.9e5 // Pa abs: what shops have and lose
		most, _, _ := best[i].Flow(in, behind)
		least, _, _ := worst[i].Flow(in, behind)
		out[i] = find.LeastDoubt
		if most > least && least > 0 {
			out[i] = math.Hypot(out[i], math.Log(most/least)/2/oddsOfNormal)
		}
	}
	return out, nil
}

// with is the study of the job whose figures stand at x.
func (b *bench) with(x []float64) *study.Study {
	j := *b.study.Job()
	j.Net.Runs, j.Net.Points, j.Outlets = slices.Clone(j.Net.Runs), slices.Clone(j.Net.Points), slices.Clone(j.Outlets)
	for i := range j.Outlets {
		j.Outlets[i].Hang = slices.Clone(j.Outlets[i].Hang)
	}
	ix := job.NewIndex(&j)
	for i, f := range b.figures {
		v := f.at(x[i])
		switch f.what {
		case Roughness:
			for _, id := range f.ids {
				ix.Run(id).Wall = new(unit.Length(v))
			}
		case Filter:
			e := &b.model.Elements()[f.links[0]]
			ix.PartAt(e.ID, e.Outlet, e.Kind, e.Item).Found = new(unit.PressureDiff(v))
		case Leak:
			j.Rules.Leak = new(unit.Ratio(min(v, mostLeak)))
		}
	}
	return b.study.Next(&j)
}

// mostLeak is the most that the rule of a job takes.
const mostLeak = 0.9

// look computes all readings with the figures at x.
func (b *bench) look(ctx context.Context, x []float64) ([]sight, error) {
	here, err := b.with(x).Model(ctx)
	if err != nil {
		return nil, fmt.Errorf("reading the job as a network: %w", err)
	}
	up := slices.Clone(x)
	for i := range up {
		up[i] += little
	}
	there, err := b.with(up).Model(ctx)
	if err != nil {
		return nil, fmt.Errorf("reading the job as a network: %w", err)
	}
	v := &view{bench: b, here: here, laws: here.Laws(model.Likely, false), next: there.Laws(model.Likely, false), leak: b.leakAt(x)}
	var out []sight
	for i := range b.ask.Readings {
		r := &b.ask.Readings[i]
		one := v.timed(r)
		if r.Kind == find.Pressure {
			if one, err = v.pressure(ctx, r, b.solvers[i]); err != nil {
				return nil, err
			}
		}
		out = append(out, one)
	}
	for i := range b.ask.Timings {
		out = append(out, v.onOff(&b.ask.Timings[i]))
	}
	return out, nil
}

// leakAt is the leak at mid band, kg/s.
func (b *bench) leakAt(x []float64) float64 {
	for i, f := range b.figures {
		if f.what == Leak {
			return f.at(x[i]) * b.store.supply
		}
	}
	return 0
}

// view is the job at one x.
type view struct {
	*bench
	here *model.Model
	laws model.Laws
	next model.Laws // with every figure a little larger
	leak float64
}

// blank is a sight with room for its slopes: elements, tools, where it leaks, then gauges' bias,
// volume, plate.
func (v *view) blank() sight {
	return sight{by: make([]float64, len(v.figures)), nu: make([]float64, len(v.model.Elements())+len(v.model.Pairs())+len(v.model.Outlets())+3)}
}

// column of what is not known beside elements and tools.
func column(s *sight, i int) *float64 { return &s.nu[len(s.nu)-1-i] }

const (
	colBias = iota
	colVolume
	colPlate
)

// pressure solves the moment of a reading.
func (v *view) pressure(ctx context.Context, r *find.Reading, net *network.Solver) (sight, error) {
	node := r.Place.Node(v.model)
	took := v.set(r, net)
	state, err := net.Solve(ctx)
	var none *network.NoAnswer
	if errors.As(err, &none) {
		net.Forget()
		return sight{}, nil
	}
	if err != nil {
		return sight{}, fmt.Errorf("solving the network: %w", err)
	}
	if node < 0 || !state.Determined[node] {
		return sight{}, nil
	}
	s := v.blank()
	s.known, s.shown, s.noise = true, float64(r.Pressure), v.doubts.Gauge*v.doubts.Gauge
	s.mean = state.Pressure[node] - float64(v.model.Atmosphere())
	pull := make([]float64, len(v.model.Nodes()))
	net.Sensitivity().Of(node, pull)
	v.slopes(&s, state, pull)
	v.toolSlopes(&s, r, state, pull, took)
	*column(&s, colBias) = v.doubts.Bias
	return s, nil
}

// set lays laws, what runs and what leaks into a solver; took is what tools of a constant flow
// take, by node.
func (v *view) set(r *find.Reading, net *network.Solver) (took map[int]float64) {
	for i, law := range v.laws.Links {
		net.SetLaw(i, law)
	}
	for _, src := range v.model.Sources() {
		net.SetPressure(src.Node, float64(r.Receiver.Abs(v.model.Atmosphere())))
	}
	took = map[int]float64{}
	for _, u := range r.Running {
		pair, ok := v.model.PairOf(u)
		if !ok {
			continue
		}
		if law := v.laws.Tools[pair.Index]; law != nil {
			net.SetOutflow(pair.Node, law, float64(v.model.Atmosphere()))
		} else {
			took[pair.Node] = v.laws.Taken[pair.Index]
		}
	}
	demand := map[int]float64{}
	for n, t := range took {
		demand[n] += t
	}
	for _, n := range v.leaky() {
		demand[n] += v.leakFrom(r.Receiver) / float64(len(v.leaky()))
	}
	for n, d := range demand {
		net.SetDemand(n, d)
	}
	return took
}

// leaky are the nodes at which a shop leaks: its outlets, alike (common practice, no source).
func (v *view) leaky() []int {
	var out []int
	for _, o := range v.model.Outlets() {
		if o.Node >= 0 {
			out = append(out, o.Node)
		}
	}
	return out
}

// leakFrom is the leak at a pressure of the receiver: choked holes.
func (v *view) leakFrom(p unit.GaugePressure) float64 {
	if v.leak == 0 {
		return 0
	}
	return v.leak * float64(p.Abs(v.model.Atmosphere())) / v.store.mid
}
