package network

import (
	"errors"
	"fmt"
	"math"

	"dropleg/engine/air"
	"dropleg/engine/document"
	"dropleg/engine/element"
	"dropleg/engine/unit"
)

// Read decodes a network file strictly and checks it whole: all problems at
// once, each with its path.
func Read(data []byte) (*Document, []document.Problem) {
	var d Document
	problems := document.Decode(data, &d)
	if len(problems) > 0 {
		return nil, problems
	}
	if _, problems = d.Network(); len(problems) > 0 {
		for i := range problems {
			problems[i].Line = document.Locate(data, problems[i].Path)
		}
		return nil, problems
	}
	return &d, nil
}

// standardAtmosphere is where outflows go unless the gas says otherwise, Pa
// (ISO 2533).
const standardAtmosphere = 101325

// builder turns a document into a network and collects what is wrong.
type builder struct {
	doc      *Document
	gas      element.Gas
	back     float64
	net      Network
	index    map[string]int
	problems []document.Problem
}

// Network is the document as nodes and laws, in its order.
func (d *Document) Network() (*Network, []document.Problem) {
	b := &builder{doc: d, index: make(map[string]int, len(d.Nodes))}
	if problems := b.build(); len(problems) > 0 {
		return nil, problems
	}
	return &b.net, nil
}

func (b *builder) build() []document.Problem {
	d := b.doc
	b.air()
	for i := range d.Nodes {
		b.node(i)
		b.exponent(fmt.Sprintf("nodes[%d].m", i), d.Nodes[i].M)
	}
	seen := make(map[string]int, len(d.Links))
	for i := range d.Links {
		b.link(i, seen)
		b.exponent(fmt.Sprintf("links[%d].m", i), d.Links[i].M)
	}
	if len(d.Nodes) == 0 {
		b.wrong("nodes", "an empty list", "at least one node")
	}
	return b.problems
}

func (b *builder) wrong(path, read, want string) {
	b.problems = append(b.problems, document.Problem{Path: path, Read: read, Want: want})
}

// exponent refuses an m of zero, which a law would take for its own default.
func (b *builder) exponent(path string, m *float64) {
	if m != nil && *m == 0 {
		b.wrong(path, "0", "a number above zero, 1 at most")
	}
}

// air fills what the gas leaves out: dry air, with Z at the highest pressure.
func (b *builder) air() {
	g := b.doc.Gas
	b.gas = element.Gas{Temperature: g.Temperature, R: air.GasConstant, Z: 1, Viscosity: float64(air.Sutherland(unit.Temperature(g.Temperature)))}
	if !(g.Temperature >= 100 && g.Temperature <= 2000) {
		b.wrong("gas.temperature_K", fmt.Sprint(g.Temperature), "a number from 100 to 2000")
		b.gas.Temperature = 293.15 // so that the links can still be looked at
	}
	top := 0.0
	for _, n := range b.doc.Nodes {
		if n.Pressure != nil {
			top = max(top, *n.Pressure)
		}
	}
	if z, err := air.Compressibility(unit.AbsPressure(top), unit.Temperature(g.Temperature)); err == nil && z > 0 {
		b.gas.Z = float64(z)
	}
	b.back = standardAtmosphere
	for _, f := range []struct {
		key       string
		given     *float64
		into      *float64
		low, high float64
	}{
		{"gas_constant_J_kgK", g.GasConstant, &b.gas.R, 1, 1e5},
		{"compressibility", g.Compressibility, &b.gas.Z, 0.01, 100},
		{"viscosity_Pa_s", g.Viscosity, &b.gas.Viscosity, 1e-9, 1},
		{"atmosphere_Pa_abs", g.Atmosphere, &b.back, 0, maxPressure},
	} {
		if f.given == nil {
			continue
		}
		if !(*f.given >= f.low && *f.given <= f.high) {
			b.wrong("gas."+f.key, fmt.Sprint(*f.given), fmt.Sprintf("a number from %v to %v", f.low, f.high))
			continue
		}
		*f.into = *f.given
	}
}

func (b *builder) node(i int) {
	n := &b.doc.Nodes[i]
	path := fmt.Sprintf("nodes[%d]", i)
	if n.ID == "" {
		b.wrong(path+".id", `""`, "a name")
	}
	if before, twice := b.index[n.ID]; twice {
		b.wrong(path+".id", fmt.Sprintf("%q", n.ID), fmt.Sprintf("a name not yet used (nodes[%d] has it)", before))
	}
	b.index[n.ID] = i
	out := n.C != nil || n.B != nil || n.M != nil
	if count := toInt(n.Pressure != nil) + toInt(n.Demand != nil) + toInt(out); count > 1 {
		b.wrong(path, "more than one of a pressure, a demand and an outflow", "one of them or none")
	}
	v := Node{Name: n.ID, Back: b.back}
	if n.Pressure != nil {
		if !(*n.Pressure >= 0 && *n.Pressure <= maxPressure) {
			b.wrong(path+".pressure_Pa_abs", fmt.Sprint(*n.Pressure), fmt.Sprintf("a number from 0 to %v", float64(maxPressure)))
		}
		v.Fixed, v.Pressure = true, *n.Pressure
	}
	if n.Demand != nil {
		if !(math.Abs(*n.Demand) <= maxFlow) {
			b.wrong(path+".demand_kg_s", fmt.Sprint(*n.Demand), fmt.Sprintf("a number up to %v", float64(maxFlow)))
		}
		v.Demand = *n.Demand
	}
	switch {
	case out && (n.C == nil || n.B == nil):
		b.wrong(path, "an outflow without its C_m3_s_Pa or b", "both, and m where it is not 0.5")
	case out:
		law, err := element.NewISO6358(b.gas, element.ISO6358Spec{C: *n.C, B: *n.B, Index: or(n.M, 0.5), OneWay: true})
		b.figure(path, err)
		if err == nil {
			v.Outflow = law
		}
	}
	b.net.AddNode(v)
}

// keyOf gives the file's key for the figure that a law refuses.
var keyOf = map[string]string{
	"C": "C_m3_s_Pa", "b": "b", "m": "m", "bore": "bore_m", "length": "length_m",
	"roughness": "roughness_m", "K": "k", "reverse K": "k_reverse", "cd": "cd",
	"cracking pressure": "cracking_Pa", "set pressure": "set_Pa_abs", "droop": "droop_Pa_s_kg",
}

// figure files a law's refusal as a problem at its key.
func (b *builder) figure(path string, err error) {
	if err == nil {
		return
	}
	var p *element.ParamError
	if !errors.As(err, &p) || keyOf[p.Name] == "" {
		b.wrong(path, err.Error(), "figures that a law can be made from")
		return
	}
	b.wrong(path+"."+keyOf[p.Name], fmt.Sprint(p.Got), p.Want)
}

func or(v *float64, other float64) float64 {
	if v == nil {
		return other
	}
	return *v
}

func toInt(b bool) int {
	if b {
		return 1
	}
	return 0
}
