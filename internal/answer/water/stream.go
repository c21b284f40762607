package water

import (
	"context"
	"math"

	"dropleg/engine/air"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// stream is dry air led through the net, kg/s.
type stream struct {
	flow []float64 // by element, from From to To
	feed []float64 // by node: what enters there
	take []float64 // by node: what leaves there
}

func newStream(m *model.Model) stream {
	return stream{flow: make([]float64, len(m.Elements())), feed: make([]float64, len(m.Nodes())), take: make([]float64, len(m.Nodes()))}
}

// add lays a solved case over the stream, so many times.
func (s *stream) add(m *model.Model, r *model.Result, times float64) {
	net := make([]float64, len(s.feed))
	for i, e := range m.Elements() {
		if f := float64(r.Flows[i].Mass) * times; f != 0 {
			s.flow[i] += f
			net[e.From] += f
			net[e.To] -= f
		}
	}
	for n, f := range net {
		if f > 0 {
			s.feed[n] += f
		} else {
			s.take[n] -= f
		}
	}
}

// streams are the two parts of the net with their pressures.
type streams struct {
	supply, use stream
	running     float64 // share of the time that the compressors deliver
	pressure    []float64
	leak        float64 // kg/s, at the receivers
	mean        float64 // kg/s, delivered
	capacity    float64 // kg/s
	base        model.Result
}

// held is the middle of each source's band.
func held(m *model.Model, running ...job.InUse) model.Case {
	return model.Case{Running: running, Supply: model.CutIn, Held: m.MidBand(), Idle: len(running) > 0}
}

// streamsOf leads each tool's mean flow as the net leads it when it runs alone.
func streamsOf(ctx context.Context, j *job.Job, m *model.Model) (*streams, string, error) {
	if len(m.Sources()) == 0 {
		return nil, "no compressor feeds the net", nil
	}
	solver := m.NewSolver()
	rest, err := solver.Solve(ctx, held(m))
	if err != nil {
		return nil, "", err
	}
	capacity := 0.0
	for _, c := range m.Compressors() {
		capacity += float64(air.Mass(c.FreeAir))
	}
	if !rest.Solved || capacity <= 0 {
		return nil, "what the compressor delivers is not known", nil
	}
	s := &streams{supply: newStream(m), use: newStream(m), pressure: make([]float64, len(m.Nodes()))}
	for i, p := range rest.Pressure {
		s.pressure[i] = float64(p)
	}
	base := *rest // the solver's next answer may not write over this one
	base.Flows = append([]model.LinkFlow(nil), rest.Flows...)
	if err := s.tools(ctx, m, solver); err != nil {
		return nil, "", err
	}
	s.leak, s.capacity = capacity*float64(j.RuleLeak().Value), capacity
	s.base = base
	return s, "", nil
}

// fill lets the compressors deliver what is taken; false where they cannot.
func (s *streams) fill(m *model.Model) bool {
	taken, enough := 0.0, true
	for _, f := range s.use.feed {
		taken += f
	}
	if most := s.capacity - s.leak; taken > most {
		s.use.scale(most / taken)
		taken, enough = most, false
	}
	s.mean = taken + s.leak
	s.running = s.mean / s.capacity
	s.supply.add(m, &s.base, s.running)
	return enough
}

// tools adds what the tools take in the mean.
func (s *streams) tools(ctx context.Context, m *model.Model, solver *model.Solver) error {
	share, places := map[job.ID]float64{}, map[job.ID]int{}
	for _, t := range m.Tools() {
		share[t.ID] = t.Share * float64(max(1, t.Count))
	}
	for _, p := range m.Pairs() {
		places[p.Tool]++
	}
	for i, p := range m.Pairs() {
		mean := share[p.Tool] * float64(air.Mass(p.FreeAir)) / float64(places[p.Tool])
		if p.Later || mean <= 0 {
			continue
		}
		r, err := solver.Solve(ctx, held(m, job.InUse{Tool: p.Tool, Outlet: p.Outlet}))
		if err != nil {
			return err
		}
		if flow := float64(air.Mass(r.Tools[i].Flow)); r.Solved && flow > 0 {
			s.use.add(m, r, mean/flow)
		}
	}
	s.use.uncircle(m)
	return nil
}

func (s *stream) scale(by float64) {
	for _, list := range [][]float64{s.flow, s.feed, s.take} {
		for i := range list {
			list[i] *= by
		}
	}
}

// way is an element as the air passes it.
type way struct{ link, from, to int }

// downstream lists the ways out of every node.
func (s *stream) downstream(m *model.Model) [][]way {
	out := make([][]way, len(s.feed))
	for i, e := range m.Elements() {
		switch f := s.flow[i]; {
		case f > 0:
			out[e.From] = append(out[e.From], way{i, e.From, e.To})
		case f < 0:
			out[e.To] = append(out[e.To], way{i, e.To, e.From})
		}
	}
	return out
}

// uncircle takes out flow that runs round a ring: laid over each other, single answers
// may leave some. What enters and leaves every node stays as it was.
func (s *stream) uncircle(m *model.Model) {
	for {
		ring := s.circle(m)
		if ring == nil {
			return
		}
		least := math.Inf(1)
		for _, w := range ring {
			least = math.Min(least, math.Abs(s.flow[w.link]))
		}
		for _, w := range ring {
			f := s.flow[w.link]
			if math.Abs(f) <= least {
				s.flow[w.link] = 0
			} else {
				s.flow[w.link] = f - math.Copysign(least, f)
			}
		}
	}
}

// circle finds one ring of flow; nil for none.
func (s *stream) circle(m *model.Model) []way {
	out := s.downstream(m)
	state := make([]int, len(out)) // 1 on the path, 2 done
	var path []way
	var visit func(int) []way
	visit = func(n int) []way {
		state[n] = 1
		for _, w := range out[n] {
			switch state[w.to] {
			case 0:
				path = append(path, w)
				if ring := visit(w.to); ring != nil {
					return ring
				}
				path = path[:len(path)-1]
			case 1:
				start := len(path)
				for start > 0 && path[start-1].to != w.to {
					start--
				}
				return append(append([]way(nil), path[start:]...), w)
			}
		}
		state[n] = 2
		return nil
	}
	for n := range out {
		if state[n] == 0 {
			if ring := visit(n); ring != nil {
				return ring
			}
		}
	}
	return nil
}

// order lists the nodes, each after all that it is fed from.
func (s *stream) order(out [][]way) []int {
	in := make([]int, len(out))
	for _, ways := range out {
		for _, w := range ways {
			in[w.to]++
		}
	}
	var list []int
	for n := range out {
		if in[n] == 0 {
			list = append(list, n)
		}
	}
	for i := 0; i < len(list); i++ {
		for _, w := range out[list[i]] {
			if in[w.to]--; in[w.to] == 0 {
				list = append(list, w.to)
			}
		}
	}
	return list
}

// draw takes more air at a node, brought along the ways by which air comes there.
func (s *stream) draw(m *model.Model, node int, kg float64) {
	out := s.downstream(m)
	s.take[node] += kg
	in := make([][]way, len(out))
	for _, ways := range out {
		for _, w := range ways {
			in[w.to] = append(in[w.to], w)
		}
	}
	more := make([]float64, len(out))
	more[node] = kg
	order := s.order(out)
	for i := len(order) - 1; i >= 0; i-- {
		n := order[i]
		if more[n] <= 0 {
			continue
		}
		sum := s.feed[n]
		for _, w := range in[n] {
			sum += math.Abs(s.flow[w.link])
		}
		by := more[n] / sum
		s.feed[n] += s.feed[n] * by
		for _, w := range in[n] {
			f := s.flow[w.link] * by
			s.flow[w.link] += f
			more[w.from] += math.Abs(f)
		}
	}
}
