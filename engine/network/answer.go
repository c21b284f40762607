package network

import (
	"context"
	"errors"
	"fmt"
	"math"

	"dropleg/engine/document"
	"dropleg/engine/element"
)

// Answer solves the document. What cannot be had stands in Refused, with the
// answer to the rest; problems are those of the document itself, and the error
// is that of ctx.
func (d *Document) Answer(ctx context.Context, trace Trace) (*Answer, []document.Problem, error) {
	b := &builder{doc: d, index: make(map[string]int, len(d.Nodes))}
	if problems := b.build(); len(problems) > 0 {
		return nil, problems, nil
	}
	top, err := b.net.Compile()
	if err != nil {
		return nil, nil, fmt.Errorf("ordering the network: %w", err)
	}
	s := top.NewSolver()
	s.Trace = trace
	state, err := s.Solve(ctx)
	var none *NoAnswer
	if err != nil && (!errors.As(err, &none) || state == nil) {
		return nil, nil, fmt.Errorf("solving the network: %w", err)
	}
	return b.answer(state, none), nil, nil
}

// answer writes a state in the document's words.
func (b *builder) answer(s *State, none *NoAnswer) *Answer {
	d := b.doc
	g := b.gas
	a := &Answer{
		Title: d.Title,
		Gas: GasSpec{
			Temperature: g.Temperature, GasConstant: &g.R, Compressibility: &g.Z,
			Viscosity: &g.Viscosity, Atmosphere: d.Gas.Atmosphere,
		},
		Nodes: make([]NodeAnswer, len(d.Nodes)), Links: make([]LinkAnswer, len(d.Links)),
		Residuals: Residuals{s.Residual.Mass, s.Residual.Law}, Iterations: s.Iterations,
	}
	for i := range d.Nodes {
		n := &a.Nodes[i]
		n.NodeSpec = d.Nodes[i]
		if n.C != nil {
			n.Outflow = &s.Taken[i]
		}
		if n.Undetermined = !s.Determined[i]; !n.Undetermined {
			n.Pressure = &s.Pressure[i]
		}
	}
	for i := range d.Links {
		l := &a.Links[i]
		l.LinkSpec = d.Links[i]
		l.Flow = s.Flow[i]
		link := &b.net.Links[i]
		if bored, ok := link.Law.(element.Bored); ok {
			b.speed(l, bored.Area(), s.Pressure[link.From], s.Pressure[link.To])
		}
	}
	if none != nil {
		a.Refused = &Refusal{Reason: none.Reason}
		for _, n := range none.Nodes {
			a.Refused.Nodes = append(a.Refused.Nodes, RefusedShort{n.Name, n.Demand, n.Most})
		}
	}
	return a
}

// speed adds velocity and Mach number at the downstream end. In a choked end
// the pressure inside is higher than in the node behind it: there the velocity
// is that of isothermal choking, √(Z R T), and no more.
func (b *builder) speed(l *LinkAnswer, area, pFrom, pTo float64) {
	down := pTo
	if l.Flow < 0 {
		down = pFrom
	}
	rt := b.gas.RT()
	v := math.Abs(l.Flow) * rt / area
	if limit := math.Sqrt(rt); v > limit*down {
		v = limit
		if l.Flow == 0 {
			v = 0
		}
	} else if v > 0 {
		v /= down
	}
	mach := v / b.gas.SpeedOfSound()
	l.Velocity, l.Mach = &v, &mach
}
