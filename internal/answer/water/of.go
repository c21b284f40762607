package water

import (
	"context"
	"fmt"
	"slices"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/answer/demand"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// shop is what both seasons have in common.
type shop struct {
	j       *job.Job
	m       *model.Model
	ground  ground
	streams *streams
	answer  *Answer
	peak    float64 // flow of the tools for 99 % of the time, over their mean
	purge   float64
	dryers  map[int]*plate // by element
	stores  map[int]job.ID // receivers by node
}

// Of tells the water of a job whose network is m, read by shelf. The error is that of
// ctx or of the program; where nothing can be told, Untold says why.
func Of(ctx context.Context, j *job.Job, shelf *catalog.Catalog, m *model.Model, ask Ask) (*Answer, error) {
	a := &Answer{Seasons: []Season{}, Supposed: []string{}}
	if a.Untold = ask.wrong(); a.Untold != "" {
		return a, nil
	}
	streams, why, err := streamsOf(ctx, j, m)
	if a.Untold = why; err != nil || why != "" {
		return a, err
	}
	w := &shop{
		j: j, m: m, ground: ground{job.NewIndex(j), shelf}, streams: streams, answer: a,
		dryers: map[int]*plate{}, stores: map[int]job.ID{}, purge: model.PurgeShare, peak: 1,
	}
	for _, r := range m.Receivers() {
		w.stores[r.Node] = r.ID
	}
	w.hours(ask)
	w.peaks()
	w.readDryers(ask)
	w.purges(&streams.use)
	if !streams.fill(m) {
		a.suppose("the tools' mean flow is more than the compressors deliver: it is cut down to that")
	}
	w.purges(&streams.supply)
	a.Mean = float64(air.FreeAir(unit.MassFlow(streams.mean)))
	w.supposeAlways()
	for _, cold := range []bool{true, false} {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		s, err := w.season(cold, ask)
		if err != nil {
			a.Untold = err.Error()
			return a, nil
		}
		a.Seasons = append(a.Seasons, *s)
	}
	return a, nil
}

// wrong says what of the question cannot be used; "" for nothing.
func (k Ask) wrong() string {
	switch {
	case !(k.Hours >= 0 && k.Hours <= 24):
		return fmt.Sprintf("hours a day read %g; wanted above 0, up to 24", k.Hours)
	case k.Humidity != nil && !(*k.Humidity >= 0 && *k.Humidity <= 1):
		return fmt.Sprintf("humidity read %g; wanted 0 to 1", float64(*k.Humidity))
	case k.Purge != nil && !(*k.Purge >= 0 && *k.Purge < 1):
		return fmt.Sprintf("purge share read %g; wanted 0 up to less than 1", float64(*k.Purge))
	}
	return ""
}

// suppose notes a figure once.
func (a *Answer) suppose(words string) {
	if !slices.Contains(a.Supposed, words) {
		a.Supposed = append(a.Supposed, words)
	}
}

func (w *shop) hours(ask Ask) {
	switch week := w.j.Work.Hours; {
	case ask.Hours > 0:
		w.answer.Hours = ask.Hours
	case week != nil:
		w.answer.Hours = min(24, *week/5)
		w.answer.suppose("five working days a week")
	default:
		w.answer.Hours = dayHours
		w.answer.suppose("8 hours a day")
	}
}

// peaks is by how much the tools' flow stands over its mean, but for 1 % of the time; a
// crew that has not the hands for every share has all of them cut.
func (w *shop) peaks() {
	d := demand.Of(w.j, w.m)
	w.streams.use.scale(d.Cut)
	for _, l := range d.Levels {
		if l.Share == 0.99 && d.Mean > 0 {
			w.peak = max(1, float64(l.Flow/d.Mean))
		}
	}
}

func (w *shop) supposeAlways() {
	a := w.answer
	a.suppose("lines give off 10 W/(m² K) (5 to 15), the heat of condensing left out")
	a.suppose("air-cooled aftercoolers leave the air 10 K over the room (6 to 15), receivers 5 K (0 to 10)")
	a.suppose("air leaves a compressor 90 K over its room")
	a.suppose("water that has fallen out does not evaporate again")
	a.suppose("leaks are at the receivers, and flow while the shop works")
}

// climate is the temperature at a zone in a season.
func (w *shop) climate(z *job.Zone, cold bool) float64 {
	c := w.j.ClimateOf(z)
	if c.Assumed {
		name := "places of no zone"
		if z != nil {
			name = string(z.ID)
		}
		w.answer.suppose(fmt.Sprintf("%s: %.0f °C in the cold, %.0f °C in the warm season", name, c.Winter.Celsius(), c.Summer.Celsius()))
	}
	if cold {
		return float64(c.Winter)
	}
	return float64(c.Summer)
}

// roomAt is the temperature about a point, or about what hangs at an outlet.
func (w *shop) roomAt(id job.ID, cold bool) float64 {
	if o := w.ground.ix.Outlet(id); o != nil {
		id = o.Point
	}
	if at, ok := w.ground.ix.Where(w.ground.ix.Point(id)); ok {
		return w.climate(w.ground.ix.ZoneAt(at), cold)
	}
	return w.climate(nil, cold)
}

// intake is the air that a compressor draws: outside air, warmed or cooled to the room.
func (w *shop) intake(id job.ID, cold bool, ask Ask) (current, error) {
	room := w.roomAt(id, cold)
	site, name, humidity, stated := w.j.Site.Hot, "hot", unit.Ratio(warmHumidity), w.j.Site.Humidity
	if cold {
		site, name, humidity, stated = w.j.Site.Cold, "cold", coldHumidity, nil
	}
	outside := room
	if site != nil {
		outside = float64(*site)
	} else {
		w.answer.suppose(fmt.Sprintf("outside in the %s season: as in the room of %s, %.0f °C", name, id, room-273.15))
	}
	switch {
	case ask.Humidity != nil:
		humidity = *ask.Humidity
	case stated != nil:
		humidity = *stated
	default:
		w.answer.suppose(fmt.Sprintf("outside air of %.0f %% relative humidity in the %s season", 100*float64(humidity), name))
	}
	p := w.m.Atmosphere()
	moist, err := air.MoistAt(p, unit.Temperature(outside), humidity, air.OverEither)
	if err != nil {
		return current{}, fmt.Errorf("the air drawn in: %w", err)
	}
	drawn, _, err := moist.At(p, unit.Temperature(room)).Settled()
	if err != nil {
		return current{}, fmt.Errorf("the air drawn in: %w", err)
	}
	c := current{vapour: float64(drawn.HumidityRatio()), temp: room + deliveryOver, known: true}
	if p := w.ground.ix.Point(id); p != nil {
		particles, oil := w.claimed(&p.Part)
		c.claim.pass(id, particles, oil)
	}
	return c, nil
}
