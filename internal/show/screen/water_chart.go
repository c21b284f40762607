package screen

import (
	"fmt"
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/answer/water"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
)

// chart draws the way to an outlet, fills its steps and gives them as rows of a table.
func (d *damp) chart(s *water.Season, out *WaterSeason, outlet job.ID) [][]string {
	way := draw.Moisture{Title: "Wet or dry on the way to an outlet"}
	if outlet != "" {
		way.End = "outlet " + d.outletMark(outlet)
		way.Title = fmt.Sprintf("Wet or dry on the way to outlet %s, %s season", d.outletMark(outlet), s.Name)
	}
	var rows [][]string
	if start, elements, ok := d.wayTo(outlet); ok {
		stands := d.stands(s, start, elements)
		way.Steps = d.moist(s, stands, outlet)
		for i := range way.Steps {
			step := d.step(s, stands[i].id, &way.Steps[i])
			out.Steps = append(out.Steps, step)
			rows = append(rows, d.row(s, step.Words, stands[i].id, &way.Steps[i]))
		}
	}
	out.Scene = draw.Wet(way, d.sheet)
	return rows
}

// moist gives every thing on a way the air before and behind it: of lines and dryers as
// the answer has it, of the others as it comes to the next line, or to the outlet.
func (d *damp) moist(s *water.Season, stands []stand, outlet job.ID) []draw.Moist {
	ends := draw.Air{}
	for _, o := range s.Outlets {
		if o.ID == outlet {
			ends = draw.Air{Warmth: o.Air, Dew: o.Dew}
		}
	}
	next := func(i int) draw.Air {
		for _, t := range stands[i:] {
			if t.line != nil {
				return draw.Air{Warmth: t.line.In, Dew: t.line.Dew}
			}
		}
		return ends
	}
	var out []draw.Moist
	hot := false
	for _, t := range stands {
		hot = hot || t.cools
	}
	now := next(0)
	for i, t := range stands {
		m := draw.Moist{ID: string(d.onDrawing(t.id)), Words: t.words, Length: t.long, Stands: d.climate(s, t.zone), In: now, Hot: hot}
		if t.zone != nil {
			m.Place = lower(or(t.zone.Name, tail(t.zone.ID)))
		}
		switch {
		case t.line != nil:
			m.In, m.Out = d.through(t.line, now)
		case i+1 == len(stands) || stands[i+1].line != nil:
			m.Out = next(i + 1)
		default:
			m.Out = d.partway(t, now, next(i+1))
		}
		m.Warm = t.line != nil && !wetLine(t.line) || t.line == nil && m.Hot && fallen(s, t.id) <= 0
		m.Title = d.within(t.id) + ": " + d.airWords(m.Out)
		now, hot = m.Out, hot && !t.cools
		out = append(out, m)
	}
	return out
}

// climate is how warm a zone is in a season.
func (d *damp) climate(s *water.Season, z *job.Zone) unit.Temperature {
	c := d.job.ClimateOf(z)
	if s.Name == coldSeason {
		return c.Winter
	}
	return c.Summer
}

// through is the air of a line at its two ends, as a way passes them. In a ring the air
// may come from the far side: the end that is nearer to the air now goes first.
func (d *damp) through(l *water.Line, now draw.Air) (in, out draw.Air) {
	in, out = draw.Air{Warmth: l.In, Dew: l.Dew}, draw.Air{Warmth: l.Out, Dew: l.Dew}
	if l.Dew != nil && l.Out < *l.Dew {
		out.Dew = &l.Out
	}
	off := func(a draw.Air) float64 { return math.Abs(float64(a.Warmth - now.Warmth)) }
	if off(out) < off(in)-1e-6 {
		return out, in
	}
	return in, out
}

// partway is the air behind a part that another follows without a line between: then is
// what comes to the next line.
func (d *damp) partway(t stand, now, then draw.Air) draw.Air {
	switch {
	case t.dryer != nil:
		now.Dew = t.dryer.Out
	case t.cools:
		now.Warmth = then.Warmth
		if now.Dew != nil && *now.Dew > now.Warmth {
			now.Dew = &now.Warmth
		}
	}
	return now
}

// airWords says how warm and how dry air is.
func (d *damp) airWords(a draw.Air) string {
	return "air " + d.warmth(a.Warmth) + ", dew point " + d.dew(a.Dew)
}

// fallen is the water that falls out at a thing, litres a day.
func fallen(s *water.Season, id job.ID) float64 {
	for _, f := range s.Falls {
		if f.ID == id {
			return f.Likely
		}
	}
	return 0
}

// step words one step of the chart.
func (d *damp) step(s *water.Season, id job.ID, m *draw.Moist) WaterStep {
	out := WaterStep{
		ID: m.ID, Words: d.named(id), Place: m.Place, Air: d.warmth(m.Out.Warmth), Dew: d.dew(m.Out.Dew),
		Line: d.warmth(m.Stands), Falls: d.litres(fallen(s, id)),
	}
	if m.In.Dew != nil && *m.In.Dew > m.Stands && !m.Warm {
		if out.State = "water falls out"; m.Stands < freezing {
			out.State = "water freezes"
		}
	}
	return out
}

// heads stand over the table, with the units of its figures.
func (d *damp) heads() []string {
	_, degree := d.ask.System.Split(unit.KindTemperature, freezing, d.env)
	_, litre := d.ask.System.Split(unit.KindVolume, 1e-3, d.env)
	return []string{"season", "station", "air, " + degree, "pressure dew point, " + degree, "line, " + degree, "water that falls, " + litre + " a day"}
}

// row is a step as bare figures; a cell is empty where air holds no water.
func (d *damp) row(s *water.Season, words string, id job.ID, m *draw.Moist) []string {
	bare := func(k unit.Kind, x float64) string {
		number, _ := d.ask.System.Split(k, x, d.env)
		return number
	}
	dew := ""
	if m.Out.Dew != nil {
		dew = bare(unit.KindTemperature, float64(*m.Out.Dew))
	}
	return []string{
		s.Name, words, bare(unit.KindTemperature, float64(m.Out.Warmth)), dew, bare(unit.KindTemperature, float64(m.Stands)),
		bare(unit.KindVolume, fallen(s, id)*1e-3),
	}
}
