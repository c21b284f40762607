package screen

import (
	"strconv"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// fallback is what holds at a place while it is empty, and where that comes from;
// "" where nothing is known.
func (s *Shop) fallback(v *view, p *place, m meter) (text string, why *Origin) {
	if p.Of == "Rules" {
		return s.ruleDefault(v, p.Key, m)
	}
	if text, why = s.assumedAt(v, p); text != "" {
		return text, why
	}
	if text, why = s.siteDefault(v, p); text != "" {
		return text, why
	}
	if text, why = s.lineDefault(v, p); text != "" {
		return text, why
	}
	return s.toolDefault(v, p)
}

// ruleDefault is the default of a rule.
func (s *Shop) ruleDefault(v *view, key string, m meter) (string, *Origin) {
	for _, d := range job.Defaults() {
		if d.Key == key && m.si != nil {
			return v.plain(m.kind, d.Value), from("Default", d.Words).by(d.Ref)
		}
	}
	if key == "allowed_stocks" {
		return "every stock that is fit for air", from("Default", "no stock is ruled out")
	}
	return "", nil
}

// assumedKeys are the keys of assumptions that go by another name in the file. It
// is never written to.
var assumedKeys = map[string]string{
	"rated_flow": "free_air", "flow": "free_air", "free_air": "free_air", "set": "set", "nozzle": "nozzle", "displacement": "",
}

// assumedAt is the figure that the network takes for want of a stated one.
func (s *Shop) assumedAt(v *view, p *place) (string, *Origin) {
	want := stem(p.Key)
	if other, ok := assumedKeys[want]; ok {
		want = other
	}
	var found *model.Assumption
	for i, a := range v.model.Assumptions() {
		if a.ID != p.id || stem(a.Key) != want && !(want == "set" && stem(a.Key) == "cracking") {
			continue
		}
		if found != nil && p.sec.own == "" && p.id.Word() == "outlet" {
			return "", nil // of which of the parts that hang here, is not told
		}
		found = &v.model.Assumptions()[i]
	}
	if found == nil {
		return "", nil
	}
	o := from("Taken for want of better", found.Words).by(found.Ref)
	if found.Row != "" {
		o.Inputs = append(o.Inputs, "catalogue row "+found.Row)
	}
	at := func(x float64) string { return v.figure(job.Figure{Key: found.Key, Value: x}) }
	if found.High > found.Low {
		o.Range = at(found.Low) + " to " + at(found.High)
	}
	if p.Key == "share" {
		return v.plain(unit.KindRatio, found.Value), o
	}
	return at(found.Value), o
}

// siteDefault is what holds for the place and its climate.
func (s *Shop) siteDefault(v *view, p *place) (string, *Origin) {
	climate := "as outside on the site's design days; a heated room at 18 °C in winter, indoors 5 K over the hot day in summer"
	switch p.Of + "." + p.Key {
	case "Site.altitude_m":
		return "sea level", from("Default", "the standard atmosphere at sea level").by(atmosphereRef())
	case "Site.barometer_kPa_abs":
		return v.plain(unit.KindBarometer, float64(v.env.Atmosphere)), from("Standard atmosphere", "by the altitude").by(atmosphereRef())
	case "Site.units":
		return "metric", from("Default", "the page's own choice of units goes before it")
	case "Site.flow_reference", "Flow.reference":
		return choiceWords("reference", "iso1217"), from("Default", "free air: dry, 100 kPa, 20 °C")
	case "Site.hot_C", "Site.cold_C":
		return v.plain(unit.KindTemperature, float64(s.job.ClimateOf(nil).Winter)), from("Default", "room temperature, where nothing is stated")
	case "Zone.winter_C":
		return v.plain(unit.KindTemperature, float64(s.job.ClimateOf(s.index.Zone(p.id)).Winter)), from("Climate", climate)
	case "Zone.summer_C":
		return v.plain(unit.KindTemperature, float64(s.job.ClimateOf(s.index.Zone(p.id)).Summer)), from("Climate", climate)
	case "Labour.rate_1_h":
		return "hours without a price", from("Default", "no rate is stated")
	case "Labour.margin", "Labour.tax":
		return "none", from("Default", "nothing is put on top")
	case "Prices.currency":
		if s.job.Site.Currency != "" {
			return s.job.Site.Currency, from("Default", "the currency of the site")
		}
	}
	return "", nil
}

// lineDefault is what holds for lines and parts.
func (s *Shop) lineDefault(v *view, p *place) (string, *Origin) {
	switch p.Of + "." + p.Key {
	case "Point.state", "Run.state":
		return choiceWords("state", "planned"), from("Default", "what is drawn is planned until it is said to stand")
	case "Run.zone":
		if z := s.index.ZoneOf(s.index.Run(p.id)); z != nil {
			return s.named(z.ID), from("Drawn", "the zone of the room in which its middle is")
		}
	case "Run.condition":
		return "new", from("Default", "roughness as new")
	case "Run.length_m":
		if l, ok := s.index.LengthOf(s.index.Run(p.id)); ok {
			return v.text(unit.KindLength, float64(l)), from("Drawn", "length of the drawn line, corner to corner")
		}
	case "Part.size":
		point := p.id
		if o := s.outletOf(p.id); o != nil {
			point = o.Point
		}
		for _, e := range s.index.Ends(point) {
			return e.Run.Size, from("Drawn", "the size of the line at its first port")
		}
	case "Part.condition":
		return "loaded at cut-in, clean at cut-out", from("Default", "the hard case and the easy one are both worked out")
	case "Part.kind":
		return "joint", from("Default", "a plain place on a line")
	case "Compressor.control":
		if m, ok := s.study.Catalog().Machine(p.sec.part.Item); ok && m.Control != "" {
			return choiceWords("control", m.Control), from("Catalogue", "row "+m.Machine).by(m.Ref)
		}
	}
	return "", nil
}

// toolDefault is what holds for a tool by its class.
func (s *Shop) toolDefault(v *view, p *place) (string, *Origin) {
	t := s.index.Tool(p.id)
	if t == nil || p.Of != "Tool" {
		return "", nil
	}
	row, known := s.study.Catalog().Tool(t.Item)
	class := func(text string) (string, *Origin) {
		if !known || text == "" {
			return "", nil
		}
		return text, from("Catalogue", "class "+row.Words).by(row.Ref)
	}
	switch p.Key {
	case "count":
		return "1", from("Default", "one of it")
	case "burst_s":
		for _, m := range v.model.Tools() {
			if m.ID == t.ID && known {
				return class(v.plain(unit.KindDuration, float64(m.Burst)))
			}
		}
	case "most_kPa_g":
		if row.Most > 0 {
			return class(v.plain(unit.KindGauge, float64(row.Most)))
		}
	case "water_class":
		return class(row.Water)
	case "oil_class":
		return class(row.Oil)
	case "particle_class":
		return class(row.Particles)
	}
	return "", nil
}

// bare says whether a text is a number without a unit.
func bare(text string) bool {
	_, err := unit.Parse(text, unit.KindNumber, unit.Env{})
	if err != nil {
		_, err = strconv.ParseFloat(text, 64)
	}
	return err == nil
}
