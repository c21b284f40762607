package model

import (
	"math"

	"dropleg/engine/element"
	"dropleg/engine/network"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// kappa is cp/cv of air for the speed of sound.
const kappa = 1.4

// held is the pressure of source i in a case.
func (m *Model) held(i int, c Case) unit.GaugePressure {
	if p, ok := c.Held[m.sources[i].ID]; ok {
		return p
	}
	if c.Supply == CutOut {
		return m.sources[i].CutOut
	}
	return m.sources[i].CutIn
}

// fill turns a state of the network into a result.
func (s *Solver) fill(r *Result, st *network.State, running []bool) {
	m := s.m
	r.Pressure = make([]unit.AbsPressure, len(m.nodes))
	r.Known = make([]bool, len(m.nodes))
	if !r.Case.Ends {
		r.Flows = make([]LinkFlow, len(m.links))
	}
	r.Tools = make([]ToolState, len(m.pairs))
	r.Sources = make([]SourceState, len(m.sources))
	if st == nil {
		return
	}
	r.Iterations = st.Iterations
	for i, p := range st.Pressure {
		// A section that is shut off stands at the atmosphere while a tool in it
		// is open, says the network; but nobody knows what was left in it.
		if st.Determined[i] && m.fed[i] {
			r.Pressure[i], r.Known[i] = unit.AbsPressure(p), true
		}
	}
	for i := range r.Flows {
		r.Flows[i] = m.linkFlow(i, s.set.links[i], st)
	}
	for i := range m.pairs {
		p := &m.pairs[i]
		t := ToolState{Running: running[i], Known: r.Known[p.Node]}
		if t.Known {
			t.Pressure = r.Pressure[p.Node].Gauge(m.atm)
			t.Outlet = r.Pressure[p.At].Gauge(m.atm)
		}
		if running[i] {
			t.Flow = freeAir(unit.MassFlow(st.Taken[p.Node]))
		}
		r.Tools[i] = t
	}
	m.fillSources(r, st)
	m.fillStores(r, st)
}

// linkFlow reads one link. Velocity is m R T Z / (p A) on the element's bore.
func (m *Model) linkFlow(i int, law element.Law, st *network.State) LinkFlow {
	l := &m.links[i]
	if !m.fed[l.From] || !m.fed[l.To] || !st.Determined[l.From] || !st.Determined[l.To] {
		return LinkFlow{}
	}
	flow := st.Flow[i]
	up, down := st.Pressure[l.From], st.Pressure[l.To]
	if flow < 0 || (flow == 0 && up < down) {
		up, down = down, up
	}
	f := LinkFlow{Known: true, Mass: unit.MassFlow(flow), Loss: unit.PressureDiff(up - down)}
	if bore := float64(l.Bore); bore > 0 && flow != 0 {
		v := math.Abs(flow) * l.rt / (math.Pi / 4 * bore * bore)
		f.In, f.Out = unit.Velocity(v/math.Max(up, 1)), unit.Velocity(v/math.Max(down, 1))
		f.Mach = unit.Ratio(float64(f.Out) / math.Sqrt(kappa*l.rt))
	}
	f.Choked = m.choked(i, law, st)
	return f
}

// choked: the flow no longer answers to the pressure downstream.
func (m *Model) choked(i int, law element.Law, st *network.State) bool {
	l, flow := &m.links[i], st.Flow[i]
	up, down := st.Pressure[l.From], st.Pressure[l.To]
	// Nothing chokes while most of the pressure is left.
	if math.Min(up, down) > 0.8*math.Max(up, down) || flow == 0 {
		return false
	}
	_, d1, d2 := law.Flow(up, down)
	if flow < 0 {
		d2 = d1
	}
	return d2 == 0
}

// fillSources sums what leaves each source and what its compressors bring.
func (m *Model) fillSources(r *Result, st *network.State) {
	for i := range m.sources {
		s := &m.sources[i]
		out, in := 0.0, 0.0
		for _, l := range m.linksAt[s.Node] {
			flow := st.Flow[l]
			if m.links[l].To == s.Node {
				flow = -flow
			}
			if flow > 0 {
				out += flow
			} else {
				in -= flow
			}
		}
		if len(m.plantAt[s.Node]) > 0 && r.Case.Supply == CutIn && !r.Case.Idle {
			for _, c := range m.plantAt[s.Node] {
				in += massOf(m.plant[c].FreeAir)
			}
		}
		// A tool that drinks right at the source.
		out += math.Max(0, st.Taken[s.Node])
		stands := m.held(i, r.Case)
		if len(r.Case.Stores) > 0 {
			stands = r.Pressure[s.Node].Gauge(m.atm)
		}
		r.Sources[i] = SourceState{
			Pressure: stands, Out: freeAir(unit.MassFlow(out)), In: freeAir(unit.MassFlow(in)),
		}
	}
}

// AtPoint is the pressure at a point of the net; false where it is shut off or
// does not exist. Of a part with several ports it is that of the port named,
// else the highest.
func (m *Model) AtPoint(r *Result, point job.ID, port string) (unit.GaugePressure, bool) {
	best, found := unit.AbsPressure(0), false
	for _, n := range m.pointNodes[point] {
		if !r.Known[n.node] || (port != "" && n.port != port) {
			continue
		}
		best, found = max(best, r.Pressure[n.node]), true
	}
	if !found && port != "" {
		return m.AtPoint(r, point, "")
	}
	return best.Gauge(m.atm), found
}

// AtOutlet is the pressure at an outlet, before its last coupler.
func (m *Model) AtOutlet(r *Result, outlet job.ID) (unit.GaugePressure, bool) {
	for _, o := range m.outlets {
		if o.ID == outlet && o.Node >= 0 && r.Known[o.Node] {
			return r.Pressure[o.Node].Gauge(m.atm), true
		}
	}
	return 0, false
}

// Drawn is the free air that leaves all sources together, less what enters them.
func (r *Result) Drawn() unit.FreeAir {
	sum := unit.FreeAir(0)
	for _, s := range r.Sources {
		sum += s.Out - s.In
	}
	return sum
}

// HeldAt holds every source at one pressure, for Case.Held.
func (m *Model) HeldAt(p unit.GaugePressure) map[job.ID]unit.GaugePressure {
	held := make(map[job.ID]unit.GaugePressure, len(m.sources))
	for _, s := range m.sources {
		held[s.ID] = p
	}
	return held
}

// MidBand holds every source in the middle of its band: where it stands in the mean.
func (m *Model) MidBand() map[job.ID]unit.GaugePressure {
	held := make(map[job.ID]unit.GaugePressure, len(m.sources))
	for _, s := range m.sources {
		held[s.ID] = (s.CutIn + s.CutOut) / 2
	}
	return held
}
