package model

import (
	"fmt"
	"math"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Defaults of the class "any shop compressor": custom of the trade, no source.
const (
	anyCutIn      = 620e3   // Pa g, 90 psi
	anyBand       = 200e3   // Pa between cut-in and cut-out
	anyVolumetric = 0.7     // delivered over displaced, single stage at its working pressure
	perWatt       = 2.53e-6 // m³/s of free air per watt of motor: 4 cfm per horsepower
)

// findSources decides where pressure is held. Compressors feed every receiver
// that air reaches from them without passing another receiver, by links in the
// direction they let it; a compressor that feeds none is a source itself.
// Sources that air can pass between without a regulator or check valve stand at
// one pressure: the lowest cut-in of them all, so that the answer is the worst
// moment, and the highest cut-out, which the last to stop brings everywhere.
func (b *builder) findSources(m *Model) {
	w := newWalk(m)
	for i := range b.plant {
		if p := &b.plant[i]; p.supplies {
			m.plant = append(m.plant, b.readCompressor(p))
		}
	}
	receivers := map[int]*plantPoint{}
	for i := range b.plant {
		if p := &b.plant[i]; p.stores {
			receivers[p.node] = p
		}
	}
	at := map[int]int{} // node → source
	for i := range m.plant {
		c := &m.plant[i]
		fed := w.fedFrom(c.Node, func(n int) bool { return receivers[n] != nil })
		for _, n := range fed {
			r := receivers[n]
			s := b.sourceAt(m, at, n, r.point.ID)
			s.Volume = b.volumeOf(r, c.machine)
			addCompressor(s, c)
		}
		if len(fed) == 0 {
			s := b.sourceAt(m, at, c.Node, c.ID)
			addCompressor(s, c)
			b.trouble("no-receiver", job.Note,
				fmt.Sprintf("%s feeds no receiver: pressure is taken as held at the compressor itself", c.ID),
				"without a receiver the pressure swings with every tool that starts", c.ID)
		}
	}
	b.shareBand(m, w)
	b.listReceivers(m, w)
	if len(m.sources) == 0 {
		b.trouble("no-source", job.Fault, "no compressor feeds the net: no pressure can be worked out", "air has to come from somewhere")
	}
	w.shutOff(b, m)
}

// volumeOf is a receiver's volume: stated, else that of the usual receiver
// under the compressor's class; 0 where neither is known.
func (b *builder) volumeOf(r *plantPoint, machine string) unit.Volume {
	if v := r.point.Part.Volume; v != nil {
		return max(0, *v)
	}
	row, ok := b.shelf.Machine(machine)
	if !ok || row.Receiver <= 0 || b.volumeTold[r.point.ID] {
		return row.Receiver
	}
	b.volumeTold[r.point.ID] = true
	return unit.Volume(b.assumeSure(r.point.ID, "volume: the usual receiver of the compressor's class", "volume_m3", float64(row.Receiver), row.Machine, row.Ref))
}

// listReceivers lists every receiver with the source it stands open to.
func (b *builder) listReceivers(m *Model, w *walk) {
	zone := w.zones()
	for i := range b.plant {
		p := &b.plant[i]
		if !p.stores {
			continue
		}
		r := Receiver{ID: p.point.ID, Node: p.node, Source: -1}
		if v := p.point.Part.Volume; v != nil {
			r.Volume = max(0, *v)
		}
		for k, s := range m.sources {
			if s.Node == p.node {
				r.Source, r.Volume = k, s.Volume
				break
			}
			if r.Source < 0 && zone[s.Node] == zone[p.node] {
				r.Source = k
			}
		}
		m.stores = append(m.stores, r)
	}
}

// sourceAt finds or makes the source of a node.
func (b *builder) sourceAt(m *Model, at map[int]int, node int, id job.ID) *Source {
	i, ok := at[node]
	if !ok {
		i = len(m.sources)
		at[node] = i
		m.sources = append(m.sources, Source{ID: id, Node: node, CutIn: unit.GaugePressure(math.Inf(1))})
	}
	return &m.sources[i]
}

// addCompressor counts a compressor to a source.
func addCompressor(s *Source, c *Compressor) {
	s.Compressors = append(s.Compressors, c.ID)
	s.FreeAir += c.FreeAir
	s.CutIn = min(s.CutIn, c.CutIn)
	s.CutOut = max(s.CutOut, c.CutOut)
	c.Sources = append(c.Sources, s.ID)
}

// shareBand gives sources that stand open to each other one band.
func (b *builder) shareBand(m *Model, w *walk) {
	zone := w.zones()
	for i := range m.sources {
		for k := range m.sources {
			if zone[m.sources[i].Node] == zone[m.sources[k].Node] {
				m.sources[i].CutIn = min(m.sources[i].CutIn, m.sources[k].CutIn)
				m.sources[i].CutOut = max(m.sources[i].CutOut, m.sources[k].CutOut)
			}
		}
	}
}

// readCompressor fills in what a plate leaves out.
func (b *builder) readCompressor(p *plantPoint) Compressor {
	id, part := p.point.ID, &p.point.Part
	plate := job.Compressor{}
	if part.Compressor != nil {
		plate = *part.Compressor
	}
	row, known := b.shelf.Machine(part.Item)
	out := Compressor{ID: id, Node: p.node, Control: plate.Control, machine: part.Item}
	if out.Control == "" {
		out.Control = row.Control
	}
	switch {
	case plate.CutIn != nil:
		out.CutIn = *plate.CutIn
	case plate.CutOut != nil:
		out.CutIn = unit.GaugePressure(b.assumeSure(id, "cut-in: the usual band under cut-out", "cut_in_Pa_g", math.Max(0, float64(*plate.CutOut)-anyBand), "", custom))
	case known && row.CutIn > 0:
		out.CutIn = unit.GaugePressure(b.assumeSure(id, "cut-in", "cut_in_Pa_g", float64(row.CutIn), row.Machine, row.Ref))
	default:
		out.CutIn = unit.GaugePressure(b.assumeSure(id, "cut-in", "cut_in_Pa_g", anyCutIn, "", custom))
	}
	switch {
	case plate.CutOut != nil:
		out.CutOut = *plate.CutOut
	case known && row.CutOut > out.CutIn:
		out.CutOut = unit.GaugePressure(b.assumeSure(id, "cut-out", "cut_out_Pa_g", float64(row.CutOut), row.Machine, row.Ref))
	default:
		out.CutOut = unit.GaugePressure(b.assumeSure(id, "cut-out: the usual band above cut-in", "cut_out_Pa_g", float64(out.CutIn)+anyBand, "", custom))
	}
	out.FreeAir = b.delivered(id, part, &plate)
	if !(out.FreeAir >= 0 && out.FreeAir <= mostFreeAir) {
		b.trouble("figure-out-of-range", job.Fault, string(id)+" delivers a flow beyond any compressor; it counts as nothing", "a figure of its plate is mistyped", id)
		out.FreeAir = 0
	}
	if !(out.CutIn >= 0 && out.CutIn <= mostPressure && out.CutOut <= mostPressure) {
		b.trouble("figure-out-of-range", job.Fault, string(id)+" starts or stops at no usable pressure; the usual band is taken", "a figure of its plate is mistyped", id)
		out.CutIn, out.CutOut = anyCutIn, anyCutIn+anyBand
	}
	out.CutOut = max(out.CutOut, out.CutIn)
	out.readMotor(&plate, &row)
	return out
}

// readMotor takes what the motor has and bears from the plate, else from the row.
func (c *Compressor) readMotor(plate *job.Compressor, row *catalog.Machine) {
	c.StartsMost, c.DutyMost, c.Power = row.StartsPerH, unit.Ratio(row.DutyMost), row.Power
	if plate.Power != nil {
		c.Power = *plate.Power
	}
	if plate.StartsPerH != nil {
		c.StartsMost = *plate.StartsPerH
	}
	if plate.DutyMost != nil {
		c.DutyMost = *plate.DutyMost
	}
}

// delivered is the free air a compressor gives: by its timed pump-up, which
// counts most, else its plate, its displacement, its catalogue row, its motor.
// A plate's figure is taken as it stands: its fall with pressure is package day's.
func (b *builder) delivered(id job.ID, part *job.Part, plate *job.Compressor) unit.FreeAir {
	row, known := b.shelf.Machine(part.Item)
	switch {
	case plate.PumpUp != nil && plate.PumpUp.Time > 0:
		// Isothermal fill at 20 °C: m = V Δp / (R T).
		u := plate.PumpUp
		mass := float64(u.Volume) * float64(u.To-u.From) / (air.GasConstant * lineTemperature) / float64(u.Time)
		return freeAir(unit.MassFlow(math.Max(0, mass)))
	case plate.FreeAir != nil:
		return b.freeAirOf(id, plate.FreeAir)
	case plate.Displacement != nil:
		swept := float64(b.freeAirOf(id, plate.Displacement))
		return unit.FreeAir(b.assume(Assumption{
			ID: id, Words: "delivered, as a share of the displacement", Key: "free_air_m3_s",
			Value: anyVolumetric * swept, Low: 0.6 * swept, High: 0.85 * swept, Ref: custom,
		}))
	case known && row.FreeAir.Value > 0:
		return unit.FreeAir(b.assumeSpan(id, "free air delivered", "free_air_m3_s", row.FreeAir, row.Machine))
	case plate.Power != nil && *plate.Power > 0:
		w := float64(*plate.Power)
		return unit.FreeAir(b.assume(Assumption{
			ID: id, Words: "free air delivered, by the motor's power", Key: "free_air_m3_s",
			Value: perWatt * w, Low: 0.7 * perWatt * w, High: 1.15 * perWatt * w, Ref: custom,
		}))
	}
	b.trouble("compressor-flow-unknown", job.Caution, fmt.Sprintf("what %s delivers is not known; it counts as nothing", id),
		"whether the supply keeps up cannot be said", id)
	return 0
}
