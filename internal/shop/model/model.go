package model

import (
	"dropleg/engine/air"
	"dropleg/engine/element"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Model is a job as a network; immutable, safe for concurrent use.
type Model struct {
	elements []Element
	links    []link
	nodes    []Node
	pairs    []Pair
	outlets  []OutletNode
	tools    []Tool
	sources  []Source
	plant    []Compressor
	stores   []Receiver
	dryers   []Dryer
	assumed  []Assumption
	findings []job.Finding
	atm      unit.AbsPressure
	gas      element.Gas // at the tools
	fed      []bool      // nodes that air reaches

	// What is looked up often.
	linksAt    [][]int             // by node
	isSource   []bool              // by node
	plantAt    map[int][]int       // node → compressors
	pointNodes map[job.ID][]portAt // by point
	pairAt     map[job.InUse]int
	toolAt     map[job.ID]int

	sets [len(variants)]lawSet // made on first need and shared by all solvers
}

// portAt is a node of a point.
type portAt struct {
	port string
	node int
}

// index fills the look-ups.
func (m *Model) index() {
	m.linksAt = make([][]int, len(m.nodes))
	for i := range m.links {
		m.linksAt[m.links[i].From] = append(m.linksAt[m.links[i].From], i)
		m.linksAt[m.links[i].To] = append(m.linksAt[m.links[i].To], i)
	}
	m.isSource = make([]bool, len(m.nodes))
	for _, s := range m.sources {
		m.isSource[s.Node] = true
	}
	m.plantAt = map[int][]int{}
	for i, c := range m.plant {
		m.plantAt[c.Node] = append(m.plantAt[c.Node], i)
	}
	m.pairAt = make(map[job.InUse]int, len(m.pairs))
	for i, p := range m.pairs {
		m.pairAt[job.InUse{Tool: p.Tool, Outlet: p.Outlet}] = i
	}
	m.toolAt = make(map[job.ID]int, len(m.tools))
	for i, t := range m.tools {
		m.toolAt[t.ID] = i
	}
}

// toolOf finds a tool; the zero Tool where there is none.
func (m *Model) toolOf(id job.ID) Tool {
	if i, ok := m.toolAt[id]; ok {
		return m.tools[i]
	}
	return Tool{}
}

// Tools lists the tools with every figure filled in; treat as read-only.
func (m *Model) Tools() []Tool { return m.tools }

// Outlets lists where each outlet's pressure is read, in the job's order.
func (m *Model) Outlets() []OutletNode { return m.outlets }

// PairOf finds the pair of a tool at an outlet.
func (m *Model) PairOf(use job.InUse) (Pair, bool) {
	if i, ok := m.pairAt[use]; ok {
		return m.pairs[i], true
	}
	return Pair{}, false
}

// Elements lists the links; treat as read-only.
func (m *Model) Elements() []Element { return m.elements }

// Nodes lists the nodes; treat as read-only.
func (m *Model) Nodes() []Node { return m.nodes }

// Pairs lists every tool at every outlet where it is used; treat as read-only.
func (m *Model) Pairs() []Pair { return m.pairs }

// Sources lists where pressure is held; treat as read-only.
func (m *Model) Sources() []Source { return m.sources }

// Compressors lists the compressors as their plates are read; treat as read-only.
func (m *Model) Compressors() []Compressor { return m.plant }

// Receivers lists all receivers, fed by a compressor or not; treat as read-only.
func (m *Model) Receivers() []Receiver { return m.stores }

// Assumptions lists the figures that the job does not state, in the job's order.
func (m *Model) Assumptions() []Assumption { return m.assumed }

// Findings says what of the job could not be taken into the network, and what
// of it had to be assumed against custom (a compressor without a receiver).
func (m *Model) Findings() []job.Finding { return m.findings }

// Atmosphere is the local pressure: the barometer, else the altitude's, else sea level.
func (m *Model) Atmosphere() unit.AbsPressure { return m.atm }

// freeAir is a mass flow as ISO 1217 free air.
func freeAir(flow unit.MassFlow) unit.FreeAir { return air.FreeAir(flow) }
