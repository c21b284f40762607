package model

import (
	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Tool is a tool of the job with every figure filled in that the job leaves to
// the catalogue or to custom.
type Tool struct {
	ID       job.ID
	Name     string
	FreeAir  unit.FreeAir // while running at Rated; of a nozzle: what it passes there
	Low      unit.FreeAir // plausible range of FreeAir
	High     unit.FreeAir
	Rated    unit.GaugePressure
	Nozzle   unit.Length // 0: none
	Constant bool
	Least    unit.GaugePressure
	Most     unit.GaugePressure // 0: none stated
	Share    float64            // of the working time, 0..1
	Burst    unit.Duration
	Spells   []job.Spell // by timetable, since the day began; none: by chance
	Count    int
	Later    bool
	NotWith  []job.ID
	With     []job.ID
}

// Defaults of the class "any tool", where neither job nor catalogue says more:
// custom of the trade, no source.
const (
	anyRated   = 620e3 // Pa g, 90 psi, what nameplates quote at
	anyFlow    = 0.0047
	anyFlowLow = 0.0014 // 3 cfm
	anyFlowTop = 0.0118 // 25 cfm
	anyShare   = 0.25
	anyBurst   = 30.0 // s
	nozzleCd   = 0.9  // rounded nozzle; a sharp hole has less
)

var custom = cite.Ref{Source: "common-practice", How: cite.Common}

// readTool fills in one tool, noting what was assumed.
func (b *builder) readTool(t *job.Tool) Tool {
	row, known := b.shelf.Tool(t.Item)
	out := Tool{
		ID: t.ID, Name: t.Name, Constant: t.Constant || (t.Flow == nil && row.Constant), Count: max(1, t.Count),
		Later: t.Later, NotWith: t.NotWith, With: t.With,
	}
	b.readToolPressures(t, row, known, &out)
	b.readToolFlow(t, row, known, &out)
	b.readTimetable(t, &out)
	switch {
	case len(out.Spells) > 0:
	case t.Share != nil:
		out.Share = float64(*t.Share)
	case known:
		out.Share = b.assumeSpan(t.ID, "share of working time in use", "share", row.Share, row.Tool)
	default:
		out.Share = b.assume(Assumption{ID: t.ID, Words: "share of working time in use", Key: "share", Value: anyShare, Low: 0.1, High: 0.5, Ref: custom})
	}
	out.Share = min(1, max(0, out.Share))
	b.soundTool(&out)
	switch {
	case len(out.Spells) > 0:
	case t.Burst != nil:
		out.Burst = *t.Burst
	case known && row.Burst > 0:
		out.Burst = row.Burst
	default:
		out.Burst = anyBurst
	}
	return out
}

// Workday is how long a working day is taken to be: custom of the trade, no source.
const Workday unit.Duration = 8 * 3600

// readTimetable reads when a tool runs by the clock, since the day began. What lies outside
// the working day is left out and told; its share and its usual burst are those of the rest.
func (b *builder) readTimetable(t *job.Tool, out *Tool) {
	opens := b.j.Work.Opens()
	outside := false
	all := unit.Duration(0)
	for _, s := range t.Timetable() {
		from, to := max(0, s.From-opens), min(Workday, s.To-opens)
		outside = outside || s.From < opens || s.To > opens+Workday
		if to > from {
			out.Spells = append(out.Spells, job.Spell{From: from, To: to})
			all += to - from
		}
	}
	if outside {
		b.trouble("outside-the-day", job.Caution, string(t.ID)+" runs by timetable outside the working day; that time is not counted", "a day is eight hours from when the shop opens", t.ID)
	}
	if len(out.Spells) > 0 {
		out.Share, out.Burst = float64(all/Workday), all/unit.Duration(len(out.Spells))
	}
}

// Bounds of what a tool or compressor of any shop can be: beyond them a figure
// is mistyped, and would only overflow.
const (
	mostFreeAir  = 1e3 // m³/s
	mostPressure = 1e8 // Pa
	mostNozzle   = 1.0 // m
)

// soundTool reports figures beyond all sense and leaves them out.
func (b *builder) soundTool(t *Tool) {
	if !(t.FreeAir >= 0 && t.FreeAir <= mostFreeAir && t.Low >= 0 && t.High <= mostFreeAir && t.Nozzle <= mostNozzle) {
		b.trouble("figure-out-of-range", job.Fault, string(t.ID)+" takes a flow beyond any tool; it counts as taking none", "its flow or its nozzle is mistyped", t.ID)
		t.FreeAir, t.Low, t.High, t.Nozzle = 0, 0, 0, 0
	}
	if !(t.Rated > 0 && t.Rated <= mostPressure) {
		b.trouble("figure-out-of-range", job.Fault, string(t.ID)+" is rated at no usable pressure; the usual one is taken", "flow follows pressure from its rated point", t.ID)
		t.Rated = anyRated
	}
}

// readToolPressures fills rated, least and greatest pressure.
func (b *builder) readToolPressures(t *job.Tool, row catalog.Tool, known bool, out *Tool) {
	gauge := func(words, key string, p unit.GaugePressure, from string, ref cite.Ref) unit.GaugePressure {
		v := float64(p)
		return unit.GaugePressure(b.assume(Assumption{ID: t.ID, Words: words, Key: key, Value: v, Low: v, High: v, Ref: ref, Row: from}))
	}
	switch {
	case t.At != nil:
		out.Rated = *t.At
	case known && row.At > 0:
		out.Rated = gauge("pressure at which its flow is rated", "at_Pa_g", row.At, row.Tool, row.Ref)
	default:
		out.Rated = gauge("pressure at which its flow is rated", "at_Pa_g", anyRated, "", custom)
	}
	switch {
	case t.Least != nil:
		out.Least = *t.Least
	case known && row.Least > 0:
		out.Least = gauge("least working pressure", "least_Pa_g", row.Least, row.Tool, row.Ref)
	default:
		out.Least = gauge("least working pressure: that of its rated flow", "least_Pa_g", out.Rated, "", custom)
	}
	switch {
	case t.Most != nil:
		out.Most = *t.Most
	case known:
		out.Most = row.Most
	}
}

// readToolFlow fills the flow while running: stated flow, stated nozzle, the
// row's nozzle or flow, else the class default, which is worth a finding.
func (b *builder) readToolFlow(t *job.Tool, row catalog.Tool, known bool, out *Tool) {
	switch {
	case t.Flow != nil:
		out.FreeAir = b.freeAirOf(t.ID, t.Flow)
		out.Low, out.High = out.FreeAir, out.FreeAir
	case t.Nozzle != nil || (known && row.Nozzle > 0):
		if t.Nozzle != nil {
			out.Nozzle = *t.Nozzle
		} else {
			out.Nozzle = unit.Length(b.assumeSure(t.ID, "bore of the nozzle", "nozzle_m", float64(row.Nozzle), row.Tool, row.Ref))
		}
		out.FreeAir = nozzleFlow(out.Nozzle, out.Rated.Abs(b.atm), b.atm, b.gasIn(""))
		out.Low, out.High = out.FreeAir, out.FreeAir
	case known && row.Flow.Value > 0:
		out.FreeAir = unit.FreeAir(b.assumeSpan(t.ID, "flow while running", "free_air_m3_s", row.Flow, row.Tool))
		f := lessIsBetter(row.Flow)
		out.Low, out.High = unit.FreeAir(f.best), unit.FreeAir(f.worst)
	default:
		out.FreeAir = unit.FreeAir(b.assume(Assumption{
			ID: t.ID, Words: "flow while running: nothing is known of this tool", Key: "free_air_m3_s",
			Value: anyFlow, Low: anyFlowLow, High: anyFlowTop, Ref: custom,
		}))
		out.Low, out.High = anyFlowLow, anyFlowTop
	}
}
