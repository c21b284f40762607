package model

import (
	"fmt"

	"dropleg/engine/element"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// builder reads one job into a graph.
type builder struct {
	j      *job.Job
	idx    *job.Index
	shelf  shelf
	atm    unit.AbsPressure
	system unit.System
	g      graph

	ends     map[job.ID][]runEnd // by point: the run ends there, in the net's order
	hangs    []string            // by outlet: the port it takes
	hung     map[job.ID][]int    // by point: the outlets there
	points   map[job.ID]*placed
	gases    map[job.ID]element.Gas // by zone
	z        float64
	plant    []plantPoint
	tools    []Tool
	pairs    []Pair
	outlets  []int // laid node of each outlet, by the job's order; -1: none
	assumed  []Assumption
	findings []job.Finding
	// volumeTold marks receivers whose volume was assumed already, for several
	// compressors may feed one.
	volumeTold map[job.ID]bool
}

// runEnd is one end of a run at a point.
type runEnd struct {
	run  int // index in the net
	to   bool
	port string // resolved
}

// placed is a point that has been laid: which node each of its ports is.
type placed struct {
	kind  catalog.Kind
	nodes []portAt // by port in use; none where the part is one node
	any   int      // the only node, or that of the first port
}

// plantPoint is a point with a compressor or a receiver.
type plantPoint struct {
	point    *job.Point
	node     int
	supplies bool
	stores   bool
}

// Build reads a job into a network. The job should be valid; what cannot be
// modelled all the same (an unknown kind, stock or point) is left out and
// reported, so that the rest can still be answered. The findings are those of
// [Model.Findings].
func Build(j *job.Job, cat *catalog.Catalog) (*Model, []job.Finding) {
	b := &builder{
		j: j, idx: job.NewIndex(j), shelf: newShelf(cat), system: systemOf(j),
		g:    newGraph(j),
		ends: map[job.ID][]runEnd{}, hung: map[job.ID][]int{},
		points: map[job.ID]*placed{},
		gases:  map[job.ID]element.Gas{}, volumeTold: map[job.ID]bool{},
		z: 1,
	}
	b.atm = b.atmosphere()
	b.z = b.compressibility()
	for i := range j.Tools {
		b.tools = append(b.tools, b.readTool(&j.Tools[i]))
	}
	b.gatherEnds()
	for i := range j.Net.Points {
		b.layPoint(&j.Net.Points[i])
	}
	for i := range j.Net.Runs {
		b.layRun(i)
	}
	for i := range j.Outlets {
		b.layOutlet(i)
	}
	m := b.finish()
	return m, m.findings
}

// finish numbers the nodes for good and finds the sources.
func (b *builder) finish() *Model {
	b.tryLaws()
	nodes, final := b.g.number()
	for i := range b.pairs {
		b.pairs[i].Node, b.pairs[i].At = final[b.pairs[i].Node], final[b.pairs[i].At]
	}
	for i := range b.plant {
		b.plant[i].node = final[b.plant[i].node]
	}
	outlets := make([]OutletNode, 0, len(b.outlets))
	for i, n := range b.outlets {
		if n >= 0 {
			n = final[n]
		}
		outlets = append(outlets, OutletNode{ID: b.j.Outlets[i].ID, Node: n})
	}
	m := &Model{
		links: b.g.links, nodes: nodes, pairs: b.pairs, outlets: outlets,
		pointNodes: b.pointNodes(final), tools: b.tools, atm: b.atm, gas: b.gasIn(""),
	}
	m.elements = make([]Element, len(m.links))
	for i, l := range m.links {
		m.elements[i] = l.Element
	}
	b.findSources(m)
	m.index()
	m.dryers = b.readDryers(m)
	m.assumed, m.findings = b.assumed, b.findings
	return m
}

// pointNodes maps points to their final nodes, the first port first.
func (b *builder) pointNodes(final []int) map[job.ID][]portAt {
	out := make(map[job.ID][]portAt, len(b.points))
	for id, here := range b.points {
		if len(here.nodes) == 0 {
			here.nodes = []portAt{{"", here.any}}
		}
		for i := range here.nodes {
			here.nodes[i].node = final[here.nodes[i].node]
		}
		out[id] = here.nodes
	}
	return out
}

// trouble reports what cannot be modelled.
func (b *builder) trouble(code string, sev job.Severity, title, why string, where ...job.ID) {
	b.findings = append(b.findings, job.Finding{Code: code, Severity: sev, Title: title, Why: why, Where: where})
}

// assume records a figure the job does not state and returns its likely value.
func (b *builder) assume(a Assumption) float64 {
	b.assumed = append(b.assumed, a)
	return a.Value
}

// assumeSpan records a span of a catalogue row.
func (b *builder) assumeSpan(id job.ID, words, key string, s catalog.Span, row string) float64 {
	f := spanned(s.Value, s.Low, s.High)
	return b.assume(Assumption{ID: id, Words: words, Key: key, Value: s.Value, Low: f.best, High: f.worst, Ref: s.Ref, Row: row})
}

// layPoint lays the part of a point with the ports that are in use.
func (b *builder) layPoint(pt *job.Point) {
	kind, ok := b.shelf.Kind(pt.Part.Kind)
	if !ok {
		b.trouble("unknown-kind", job.Fault, fmt.Sprintf("%s is of kind %q, which the catalogue does not know; air passes it without loss here", pt.ID, pt.Part.Kind),
			"its loss cannot be worked out", pt.ID)
	}
	here := &placed{kind: kind, any: -1}
	b.points[pt.ID] = here
	plain := onePlace(kind)
	if plain {
		here.any = b.g.node(Node{Key: string(pt.ID), Point: pt.ID})
	}
	p := place{
		id: pt.ID, key: string(pt.ID), part: &pt.Part, kind: kind, thing: thingOf(kind), zone: b.zoneOfPoint(pt),
		joined: b.joinedAt(pt),
	}
	for _, port := range b.usedPorts(pt, kind) {
		node := here.any
		if !plain {
			node = b.g.node(Node{Key: string(pt.ID) + "/" + port.ID, Point: pt.ID, Port: port.ID})
			here.nodes = append(here.nodes, portAt{port.ID, node})
			if here.any < 0 {
				here.any = node
			}
		}
		p.uses = append(p.uses, b.useAt(pt, port, node))
	}
	if here.any < 0 {
		here.any = b.g.node(Node{Key: string(pt.ID), Point: pt.ID})
	}
	b.notePlant(pt, kind, here.any)
	if !plain {
		b.lay(p)
	}
}

// onePlace says whether a part is a single node: with one port, or without a
// loss between its ports (a plain joint, a receiver, a cap).
func onePlace(k catalog.Kind) bool {
	switch k.Law.Name {
	case "minor", "tee", "coupler", "rated-loss", "regulator", "check", "conductance":
		return len(k.Ports) < 2
	}
	return true
}

// nodeAt is the node of a port of a laid point; the point's only node where
// the port is not known.
func (b *builder) nodeAt(point job.ID, port string) (int, bool) {
	here, ok := b.points[point]
	if !ok {
		return 0, false
	}
	for _, p := range here.nodes {
		if p.port == port {
			return p.node, true
		}
	}
	return here.any, true
}

// point finds a point of the net.
func (b *builder) point(id job.ID) *job.Point {
	return b.idx.Point(id)
}

// notePlant remembers compressors and receivers.
func (b *builder) notePlant(pt *job.Point, kind catalog.Kind, node int) {
	supplies, stores := kind.Law.Name == "source", kind.Law.Name == "storage"
	if supplies || stores {
		b.plant = append(b.plant, plantPoint{point: pt, node: node, supplies: supplies, stores: stores})
	}
}

// thingOf says what sort of thing a part is, by the shelf it stands on.
func thingOf(k catalog.Kind) Thing {
	switch k.Group {
	case catalog.Treatment:
		return ThingTreatment
	case catalog.Plant:
		return ThingPlant
	}
	if k.Has(catalog.Couples) {
		return ThingCoupler
	}
	return ThingFitting
}
