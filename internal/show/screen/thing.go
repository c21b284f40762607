package screen

import (
	"context"
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// TheJob is the id under which Thing tells of the job itself.
const TheJob job.ID = "job"

// Thing tells what is known of one thing on the drawing, or of the job itself, and
// what of it can be stated.
func (s *Shop) Thing(ctx context.Context, ask Ask, id job.ID) (Thing, error) {
	v, err := s.look(ctx, ask)
	if err != nil {
		return Thing{}, err
	}
	if id != TheJob && !s.index.Has(id) {
		return Thing{}, &NotThere{string(id)}
	}
	out := Thing{ID: string(id), Title: upper(s.named(id)), Facts: []Fact{}, Cautions: s.cautionsOf(id), Groups: s.groups(v, id)}
	add := func(facts []Fact) { out.Facts = append(out.Facts, facts...) }
	if id == TheJob {
		out.Title = s.job.Title
		add(s.jobFacts(v))
	}
	if r := s.index.Run(id); r != nil {
		add(s.runFacts(v, r))
	}
	if p := s.index.Point(id); p != nil {
		add(s.pointFacts(v, p))
	}
	if o := s.index.Outlet(id); o != nil {
		add(s.outletFacts(v, o))
	}
	if t := s.index.Tool(id); t != nil {
		add(s.toolFacts(v, t))
	}
	if v.state != nil {
		for _, e := range v.state.Elements {
			if e.ID == id && e.Known {
				add(s.elementFacts(v, e))
			}
		}
	}
	add(s.buildingFacts(v, id))
	return out, nil
}

// jobFacts are the figures of the whole job.
func (s *Shop) jobFacts(v *view) []Fact {
	o := from("Standard atmosphere", "p = 101.325 kPa (T / 288.15 K)^5.2559, T = 288.15 K - 0.0065 K/m h; the barometer where one is stated")
	o.Sources = append(o.Sources, citedAll(atmosphereRef())...)
	switch {
	case s.job.Site.Barometer != nil:
		o = stated()
	case s.job.Site.Altitude != nil:
		o.Inputs = append(o.Inputs, "altitude h "+v.plain(unit.KindLength, float64(*s.job.Site.Altitude)))
	default:
		o.Inputs = append(o.Inputs, "altitude not stated: sea level")
	}
	facts := []Fact{{Words: "Air pressure here", Figure: v.plain(unit.KindBarometer, float64(v.env.Atmosphere)), From: o}}
	for i, c := range s.counts(v) {
		words := []string{"On the drawing", "Lines", "Without a length"}[i]
		facts = append(facts, Fact{Words: words, Figure: c, From: counted("what the drawing has, whether it stands, is planned or is for later")})
	}
	return facts
}

func (s *Shop) runFacts(v *view, r *job.Run) []Fact {
	facts := []Fact{}
	stock, known := s.study.Catalog().Stock(r.Stock)
	if known {
		facts = append(facts, Fact{Words: "Stock", Figure: stock.Words, From: from("Catalogue", "row "+stock.Stock).by(stock.Ref)})
	}
	if size, ok := s.study.Catalog().Size(r.Stock, r.Size); ok {
		facts = append(facts, Fact{
			Words: "Bore", Figure: v.text(unit.KindLength, float64(size.Bore)),
			From: from("Catalogue", "bore = outside - 2 wall", "size "+size.Size, "outside "+v.plain(unit.KindLength, float64(size.Outside)),
				"wall "+v.plain(unit.KindLength, float64(size.Wall))).by(size.Ref),
		})
	}
	if known {
		facts = append(facts, s.ratingFact(v, r, stock))
	}
	if l, ok := s.index.LengthOf(r); ok {
		o := from("Drawn", "length of the drawn line, corner to corner", plural(len(r.Path), "corner", "corners")+" between its ends")
		if r.Length != nil {
			o = stated()
		}
		facts = append(facts, Fact{Words: "Length", Figure: v.text(unit.KindLength, float64(l)), From: o})
	}
	if r.Slope != nil && *r.Slope != 0 {
		facts = append(facts, Fact{Words: "Fall", Figure: v.plain(unit.KindRatio, float64(*r.Slope)), From: stated()})
	}
	return facts
}

// ratingFact is what a line bears on the hot day where it runs.
func (s *Shop) ratingFact(v *view, r *job.Run, stock catalog.Stock) Fact {
	hot := s.job.ClimateOf(s.index.ZoneOf(r)).Summer
	p, basis, ref, ok := stock.Rating(r.Size, hot, "")
	o := from("Working pressure by temperature", "linear between the points of the row; of all that apply the lowest governs",
		"hot day "+v.plain(unit.KindTemperature, float64(hot)), basis).by(ref)
	if !ok {
		return Fact{Words: "Bears", Figure: notKnown, From: o}
	}
	return Fact{Words: "Bears", Figure: v.text(unit.KindGauge, float64(p)), From: o}
}

func (s *Shop) pointFacts(v *view, p *job.Point) []Fact {
	facts := []Fact{}
	if c := p.Part.Compressor; c != nil {
		for _, made := range v.model.Compressors() {
			if made.ID != p.ID {
				continue
			}
			facts = append(facts,
				Fact{Words: "Delivers", Figure: v.plain(unit.KindFlow, float64(made.FreeAir)), From: s.compressorOrigin(v, made, c)},
				Fact{Words: "Cuts in at", Figure: v.text(unit.KindGauge, float64(made.CutIn)), From: s.toolFigure(v, p.ID, "cut_in")},
				Fact{Words: "Cuts out at", Figure: v.text(unit.KindGauge, float64(made.CutOut)), From: s.toolFigure(v, p.ID, "cut_out")})
		}
	}
	if at, ok := s.index.Where(p); ok {
		o := from("Drawn", "as placed")
		if p.On != nil {
			o = from("Drawn", "floor of the wall plus the height stated on it", "up "+v.plain(unit.KindLength, float64(p.On.Up)))
		}
		facts = append(facts, Fact{Words: "Height over the floor", Figure: v.text(unit.KindLength, at[2]), From: o})
	}
	return facts
}

func (s *Shop) outletFacts(v *view, o *job.Outlet) []Fact {
	for _, r := range s.readings(v) {
		if r.outlet != o || r.flowing == nil {
			continue
		}
		low, high := 0.0, 0.0
		if r.tool != nil && r.tool.Range != nil {
			low, high = float64(r.tool.Range.Low), float64(r.tool.Range.High)
		}
		words := "Pressure at the outlet"
		if r.tool != nil {
			words = "Pressure at the " + s.toolName(r.tool.Tool)
		}
		return []Fact{{Words: words, Figure: v.text(unit.KindGauge, float64(*r.flowing)), From: s.networkOrigin(v, low, high)}}
	}
	return nil
}

func (s *Shop) toolFacts(v *view, t *job.Tool) []Fact {
	for _, m := range v.model.Tools() {
		if m.ID != t.ID {
			continue
		}
		return []Fact{
			{Words: "Takes while running", Figure: v.plain(unit.KindFlow, float64(m.FreeAir)), From: s.takenOrigin(v, t.ID)},
			{Words: "Needs at its inlet", Figure: v.text(unit.KindGauge, float64(m.Least)), From: s.toolFigure(v, t.ID, "least")},
			{Words: "In use", Figure: v.plain(unit.KindRatio, m.Share) + " of the time", From: s.toolFigure(v, t.ID, "share")},
		}
	}
	return nil
}

// elementFacts are what passes an element in the set shown.
func (s *Shop) elementFacts(v *view, e flow.Element) []Fact {
	prefix := ""
	if e.Leg != "" {
		prefix = upper(e.Leg) + ": "
	}
	net := s.networkOrigin(v, 0, 0)
	if still(e.Flow) {
		return []Fact{{Words: prefix + "Pressure", Figure: v.text(unit.KindGauge, float64(e.In)) + ", no air moves", From: net}}
	}
	air := passing{e.In, e.Out, e.Flow}
	facts := []Fact{
		{Words: prefix + "Pressure in and out", Figure: v.plain(unit.KindGauge, float64(e.In)) + " to " + v.plain(unit.KindGauge, float64(e.Out)), From: net},
		{Words: prefix + "Takes", Figure: v.plain(unit.KindPressureDiff, float64(e.Loss)), From: s.lossOrigin(v, v.model.Elements()[e.Index], air)},
		{Words: prefix + "Air passing", Figure: v.plain(unit.KindFlow, math.Abs(float64(e.Flow))), From: net},
	}
	if speed := max(e.VIn, e.VOut); speed > 0 {
		bore := v.model.Elements()[e.Index].Bore
		facts = append(facts, Fact{
			Words: prefix + "Speed, at most", Figure: v.plain(unit.KindVelocity, float64(speed)),
			From: from("Continuity", "v = m R T / (p A), at the end with the lower pressure", "bore "+v.plain(unit.KindLength, float64(bore)),
				"flow "+v.plain(unit.KindFlow, math.Abs(float64(e.Flow))), "pressure "+v.plain(unit.KindGauge, float64(min(e.In, e.Out)))),
		})
	}
	if e.Choked {
		facts = append(facts, Fact{
			Words: prefix + "Choked", Figure: "more suction would draw no more",
			From: from("Choking", "the air has reached the greatest speed that this element lets it have"),
		})
	}
	return facts
}

// buildingFacts are sizes that follow from the drawing.
func (s *Shop) buildingFacts(v *view, id job.ID) []Fact {
	drawn := from("Drawn", "from the corners as they are drawn")
	if r := s.index.Room(id); r != nil {
		return []Fact{
			{Words: "Floor area", Figure: v.plain(unit.KindArea, math.Abs(geom.Area(r.Outline))), From: drawn},
			{Words: "Height", Figure: v.text(unit.KindLength, float64(r.Ceiling-r.Floor)), From: from("Drawn", "ceiling less floor")},
		}
	}
	if w := s.index.Wall(id); w != nil {
		return []Fact{{Words: "Length", Figure: v.text(unit.KindLength, w.Frame().Length()), From: drawn}}
	}
	if z := s.index.Zone(id); z != nil {
		c := s.job.ClimateOf(z)
		law := from("Climate of a zone", "as stated; else outside as on the site's design days, a heated room at 18 °C in winter, indoors 5 K over the hot day in summer")
		return []Fact{
			{Words: "Cold night", Figure: v.plain(unit.KindTemperature, float64(c.Winter)), From: law},
			{Words: "Hot day", Figure: v.plain(unit.KindTemperature, float64(c.Summer)), From: law},
		}
	}
	return nil
}
