package screen

import (
	"context"
	"fmt"
	"math"
	"slices"

	humid "dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/decide/prove"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/scene"
)

// DecayRow is what a series of readings says so far.
type DecayRow struct {
	Figure string      `json:"figure"` // "0.12 ± 0.04 L/min"
	State  string      `json:"state"`
	Words  string      `json:"words"`
	Doubts []string    `json:"doubts"` // what to ask back: "read 8.2: bar or psi?"
	Scene  scene.Scene `json:"scene"`
	// Judged is the same in figures, for who reads no words.
	Judged *prove.Verdict `json:"-"`
}

func massOf(q unit.FreeAir) unit.MassFlow { return humid.ISO1217.Mass(unit.VolumeFlow(q)) }

// made words a test that was made in a section.
func (p *proved) made(s *prove.Section, m *prove.Made) MadeRow {
	row := MadeRow{Record: string(m.Record.ID), When: by(m.Record), State: "told", Words: or(m.Record.Text, m.Problem)}
	if m.Verdict != nil {
		chart := p.decay(s, m.Record.Test, m.Verdict)
		row.Chart, row.Figure, row.State, row.Words = &chart, chart.Figure, chart.State, chart.Words
		return row
	}
	row.Figure = or(m.Record.Found, "made")
	return row
}

// plant words a leak that was measured at the plant.
func (p *proved) plant(m *prove.Made) MadeRow {
	row := MadeRow{Record: string(m.Record.ID), When: by(m.Record), State: "told", Words: m.Problem}
	l := m.Leakage
	if l == nil {
		return row
	}
	row.Figure = p.small(l.FreeAir)
	if l.Share > 0 {
		row.Words = fmt.Sprintf("%.1f %% of what the compressors deliver", 100*l.Share)
		if l.Spread > 0 {
			row.Words += fmt.Sprintf(", ± %.1f by %d cycles", 100*l.Spread, l.Cycles)
		}
		if m.Problem != "" {
			row.Figure, row.Words = fmt.Sprintf("%.1f %%", 100*l.Share), upper(m.Problem)+"."
		}
	}
	return row
}

// Decay tells what a series of readings says before it is recorded.
func (s *Shop) Decay(ctx context.Context, ask Ask, t *job.Test) (DecayRow, error) {
	p, err := s.proved(ctx, ask)
	if err != nil {
		return DecayRow{}, err
	}
	for i := range p.a.Sections {
		if x := &p.a.Sections[i]; x.ID == t.Section {
			v := prove.Judge(t, prove.Ask{Volume: x.Volume, Atmosphere: p.env.Atmosphere, Limit: p.share(x)})
			return p.decay(x, t, &v), nil
		}
	}
	return DecayRow{}, &NotThere{t.Section}
}

// decay words and draws a series.
func (p *proved) decay(s *prove.Section, t *job.Test, v *prove.Verdict) DecayRow {
	row := DecayRow{State: v.Verdict, Words: p.verdict(v), Doubts: p.doubts(s, t), Judged: v}
	if v.Fit != nil {
		row.Figure = p.small(v.FreeAir) + " ± " + p.small(v.HalfAir)
	}
	row.Scene = draw.Decay(p.course(s, t, v), draw.Sheet{Width: 110, Height: draw.DecayHigh, Units: p.ask.System, Env: p.env})
	return row
}

// doubts asks back where a pressure can hardly be meant as it was taken: people type figures in
// the unit of their gauge and leave it out.
func (p *proved) doubts(s *prove.Section, t *job.Test) []string {
	typed := 1e5 // Pa, a bar
	if p.ask.System == unit.US {
		typed = 6894.757
	}
	out := []string{}
	for _, x := range t.Samples {
		number := math.Round(float64(x.Pressure)/typed*100) / 100
		if ask := prove.Doubt(number, x.Pressure, s.Design); ask != "" && !slices.Contains(out, ask) {
			out = append(out, ask)
		}
	}
	return out
}

// verdict says in words what the readings carry.
func (p *proved) verdict(v *prove.Verdict) string {
	limit := p.small(v.Limit)
	text := map[string]string{
		prove.Holds:   "It holds: the leak lies below " + limit + " with all its band.",
		prove.Leaks:   "It leaks: more than " + limit + " with all its band.",
		prove.Gains:   "It gained air: a valve lets some in, or the temperature read is not that of the air. That tells nothing about its leak.",
		prove.Useless: "Nothing can be told: " + v.Why + ".",
		prove.Open:    "No verdict yet: the band reaches across " + limit + ".",
	}[v.Verdict]
	switch v.Why {
	case "one-reading":
		text = "One reading tells nothing yet; take the next."
	case "no-volume":
		text = "Nothing can be told: the volume of the section is not known."
	}
	if v.Unread {
		text += " Without temperatures each kelvin counts as " + p.plain(unit.KindPressureDiff, float64(v.PerKelvin))
		if v.PerKelvinAir > 0 {
			text += ", a leak of " + p.small(v.PerKelvinAir) + " over this test"
		}
		text += "; 5 K of it are taken into the band."
	}
	if v.Scatter {
		text += " The readings scatter more than the instruments explain, so the scatter counts."
	}
	if v.Verdict == prove.Open && v.Hold > v.Lasted {
		text += " Hold for " + p.plain(unit.KindDuration, float64(v.Hold)) + " in all."
	}
	return text
}

// course is a series as it is drawn: at the temperature of its first reading.
func (p *proved) course(s *prove.Section, t *job.Test, v *prove.Verdict) draw.DecayCourse {
	c := draw.DecayCourse{Title: "Pressure of " + p.sectionName(s)}
	if len(t.Samples) == 0 {
		return c
	}
	first := unit.Celsius(20)
	if !v.Unread {
		first = *t.Samples[0].Temp
	}
	atm := p.env.Atmosphere
	for _, x := range t.Samples {
		pressure := x.Pressure
		if !v.Unread {
			pressure = (x.Pressure.Abs(atm) * unit.AbsPressure(first / *x.Temp)).Gauge(atm)
		}
		c.Points = append(c.Points, draw.DecayPoint{At: x.Time - t.Samples[0].Time, Pressure: pressure})
	}
	if v.Fit == nil {
		return c
	}
	const steps = 16
	start, _ := v.Fit.At(0, first)
	rate := float64(massOf(v.Limit)) * humid.GasConstant * float64(first) / float64(s.Volume)
	for i := range steps + 1 {
		at := v.Lasted * unit.Duration(i) / steps
		fit, half := v.Fit.At(at+t.Samples[0].Time, first)
		least := start - unit.AbsPressure(rate*float64(at))
		c.Line = append(c.Line, draw.DecayLine{At: at, Fit: fit.Gauge(atm), Half: half, Least: least.Gauge(atm)})
	}
	return c
}
