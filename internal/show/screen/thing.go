package screen

import (
	"context"
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
)

// Thing tells what is known of one thing on the drawing.
func (s *Shop) Thing(ctx context.Context, ask Ask, id job.ID) (Thing, error) {
	v, err := s.look(ctx, ask)
	if err != nil {
		return Thing{}, err
	}
	if !s.index.Has(id) {
		return Thing{}, &NotThere{string(id)}
	}
	out := Thing{ID: string(id), Title: upper(s.named(id)), Facts: []Fact{}}
	if r := s.index.Run(id); r != nil {
		out.Facts = append(out.Facts, s.runFacts(v, r)...)
	}
	if p := s.index.Point(id); p != nil {
		out.Facts = append(out.Facts, s.pointFacts(v, p)...)
	}
	if v.state != nil {
		for _, e := range v.state.Elements {
			if e.ID == id && e.Known {
				out.Facts = append(out.Facts, s.elementFacts(v, e)...)
			}
		}
	}
	return out, nil
}

func (s *Shop) runFacts(v *view, r *job.Run) []Fact {
	facts := []Fact{}
	if stock, ok := s.study.Catalog().Stock(r.Stock); ok {
		facts = append(facts, Fact{Words: "Stock", Figure: stock.Words, From: &Origin{Inputs: []string{}, Sources: []string{stock.Ref.Text()}}})
	}
	if size, ok := s.study.Catalog().Size(r.Stock, r.Size); ok {
		facts = append(facts, Fact{Words: "Size", Figure: size.Size}, Fact{
			Words: "Bore", Figure: v.text(unit.KindLength, float64(size.Bore)),
			From: &Origin{Inputs: []string{}, Sources: []string{size.Ref.Text()}},
		})
	}
	if l, ok := s.index.LengthOf(r); ok {
		law := "length of the drawn line, corner to corner"
		if r.Length != nil {
			law = "as stated in the job"
		}
		facts = append(facts, Fact{Words: "Length", Figure: v.text(unit.KindLength, float64(l)), From: &Origin{Law: law, Inputs: []string{}, Sources: []string{}}})
	}
	if r.Slope != nil && *r.Slope != 0 {
		facts = append(facts, Fact{Words: "Fall", Figure: v.plain(unit.KindRatio, float64(*r.Slope))})
	}
	return facts
}

func (s *Shop) pointFacts(v *view, p *job.Point) []Fact {
	facts := []Fact{}
	if k, ok := s.study.Catalog().Kind(p.Part.Kind); ok && p.Part.Kind != "" {
		facts = append(facts, Fact{Words: "Part", Figure: k.Name("en")})
	}
	if c := p.Part.Compressor; c != nil {
		for _, made := range v.model.Compressors() {
			if made.ID == p.ID {
				facts = append(facts,
					Fact{Words: "Delivers", Figure: v.plain(unit.KindFlow, float64(made.FreeAir))},
					Fact{Words: "Cuts in at", Figure: v.text(unit.KindGauge, float64(made.CutIn))},
					Fact{Words: "Cuts out at", Figure: v.text(unit.KindGauge, float64(made.CutOut))})
			}
		}
		if c.Power != nil {
			facts = append(facts, Fact{Words: "Power", Figure: v.plain(unit.KindPower, float64(*c.Power))})
		}
	}
	if p.Part.Volume != nil {
		facts = append(facts, Fact{Words: "Volume", Figure: v.plain(unit.KindVolume, float64(*p.Part.Volume))})
	}
	if p.Part.Set != nil {
		facts = append(facts, Fact{Words: "Set to", Figure: v.text(unit.KindGauge, float64(*p.Part.Set))})
	}
	if at, ok := s.index.Where(p); ok {
		facts = append(facts, Fact{Words: "Height over the floor", Figure: v.text(unit.KindLength, at[2])})
	}
	if p.Part.Shut {
		facts = append(facts, Fact{Words: "Stands", Figure: "shut"})
	}
	return facts
}

// elementFacts are what passes an element in the set shown.
func (s *Shop) elementFacts(v *view, e flow.Element) []Fact {
	prefix := ""
	if e.Leg != "" {
		prefix = upper(e.Leg) + ": "
	}
	if still(e.Flow) {
		return []Fact{{Words: prefix + "Pressure", Figure: v.text(unit.KindGauge, float64(e.In)) + ", no air moves"}}
	}
	var from *Origin
	for _, m := range v.model.Elements() {
		if m.ID == e.ID && m.Leg == e.Leg {
			from = s.lossOrigin(v, m, passing{e.In, e.Out, e.Flow})
		}
	}
	facts := []Fact{
		{Words: prefix + "Pressure in and out", Figure: v.plain(unit.KindGauge, float64(e.In)) + " to " + v.plain(unit.KindGauge, float64(e.Out))},
		{Words: prefix + "Takes", Figure: v.plain(unit.KindPressureDiff, float64(e.Loss)), From: from},
		{Words: prefix + "Air passing", Figure: v.plain(unit.KindFlow, math.Abs(float64(e.Flow)))},
	}
	if speed := max(e.VIn, e.VOut); speed > 0 {
		facts = append(facts, Fact{Words: prefix + "Speed, at most", Figure: v.plain(unit.KindVelocity, float64(speed))})
	}
	if e.Choked {
		facts = append(facts, Fact{Words: prefix + "Choked", Figure: "more suction would draw no more"})
	}
	return facts
}
