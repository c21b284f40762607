package screen

import (
	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// atmosphereRef is the source of the pressure by altitude.
func atmosphereRef() cite.Ref { return cite.Ref{Source: "iso2533", How: cite.Computed} }

// cautionsOf are what can hurt about a thing whatever is stated of it.
func (s *Shop) cautionsOf(id job.ID) []string {
	out := []string{}
	if r := s.index.Run(id); r != nil {
		if stock, ok := s.study.Catalog().Stock(r.Stock); ok && stock.FitForAir != "yes" {
			out = append(out, stockCaution(stock))
		}
	}
	if p := s.index.Point(id); p != nil {
		if k, ok := s.study.Catalog().Kind(p.Part.Kind); ok {
			out = append(out, kindCautions(k)...)
		}
	}
	return out
}

// stockCaution says why a stock is not for air, or what limits it.
func stockCaution(stock catalog.Stock) string {
	text := upper(stock.Words) + " is not fit for compressed air"
	if stock.FitForAir == "limited" {
		text = upper(stock.Words) + " is fit for compressed air within limits"
	}
	if stock.Why != "" {
		text += ": " + stock.Why
	}
	for _, ref := range stock.Authority {
		return text + " (" + cited(ref) + ")."
	}
	return text + "."
}

func kindCautions(k catalog.Kind) []string {
	var out []string
	if k.Has(catalog.Supplies) {
		out = append(out, "A licensed electrician connects the compressor.")
	}
	if k.Has(catalog.Stores) {
		out = append(out, "A receiver can kill when it bursts: it comes under pressure-vessel law. Never weld, drill or patch one.")
	}
	if k.Has(catalog.Relieves) {
		out = append(out, "Never shut off, plug or screw down a relief valve, and put no valve between it and what it guards.")
	}
	return out
}

// partCaution stands at a field of a part at which a wrong figure can hurt.
func (s *Shop) partCaution(v *view, k catalog.Kind, key string, tools []job.ID) string {
	switch {
	case key == "set_kPa_g" && k.Has(catalog.Relieves):
		text := "Set it no higher than the lowest rating of what it guards"
		if p, id := s.leastRating(); id != "" {
			text += ": the " + lower(s.named(id)) + " bears " + v.plain(unit.KindGauge, float64(p)) + " at most"
		} else {
			text += ", which the job does not state yet: read it off the receiver's plate"
		}
		return text + "."
	case key == "set_kPa_g" && k.Has(catalog.Regulates):
		text := "Set it no higher than the least of what stands behind it bears"
		if p, id := s.leastMost(v, tools); id != "" {
			text += ": the " + s.toolName(id) + " bears " + v.plain(unit.KindGauge, float64(p)) + " at most"
		}
		return text + "."
	case key == "rating_kPa_g" && k.Has(catalog.Stores):
		return "Copy it from the plate, never guess it: cut-out and relief valve must stand below it."
	case key == "cut_out_kPa_g":
		text := "It must stay below the setting of the relief valve and the rating of the receiver"
		if p, id := s.leastRating(); id != "" {
			text += ": the " + lower(s.named(id)) + " bears " + v.plain(unit.KindGauge, float64(p)) + " at most"
		}
		return text + "."
	}
	return ""
}

// leastRating is the lowest stamped rating of what stores air; "" where none is stated.
func (s *Shop) leastRating() (least unit.GaugePressure, id job.ID) {
	for i := range s.job.Net.Points {
		p := &s.job.Net.Points[i]
		k, ok := s.study.Catalog().Kind(p.Part.Kind)
		if !ok || !k.Has(catalog.Stores) || p.Part.Rating == nil {
			continue
		}
		if id == "" || *p.Part.Rating < least {
			least, id = *p.Part.Rating, p.ID
		}
	}
	return least, id
}

// leastMost is the lowest pressure that a tool of these bears; "" where none is known.
func (s *Shop) leastMost(v *view, tools []job.ID) (least unit.GaugePressure, id job.ID) {
	for _, t := range v.model.Tools() {
		for _, want := range tools {
			if t.ID == want && t.Most > 0 && (id == "" || t.Most < least) {
				least, id = t.Most, t.ID
			}
		}
	}
	return least, id
}
