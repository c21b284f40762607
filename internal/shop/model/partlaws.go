package model

import (
	"math"

	"dropleg/engine/cite"
	"dropleg/engine/element"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Defaults for parts of which neither job nor catalogue says anything: custom
// of the trade, no source.
const (
	anySet       = 620e3   // Pa g, 90 psi: what a shop's regulator is commonly left at
	anyBore      = 0.0158  // m, 1/2 in
	anyB         = 0.3     // critical ratio of small valves
	nozzleC      = 1.99e-3 // m³/(s·Pa·m²): sonic conductance of an ideal nozzle per area, 0.0404/√293.15/1.185
	openShare    = 0.35    // of that, what the seat of a regulator or check valve leaves
	anyCracking  = 3e3     // Pa
	anyRatedLoss = 10e3    // Pa at rated flow, clean
	loadedFactor = 3       // loss of a loaded element over a clean one
	viscous      = 0.5     // share of a treatment part's loss that is linear in flow, where nothing is known
	anyRatedAt   = 700e3   // Pa g at which treatment parts are commonly rated
)

// boreUnknown assumes a bore for a part with no line and no size to tell it.
func (b *builder) boreUnknown(p place) float64 {
	return b.assume(Assumption{ID: p.id, Words: "bore: neither size nor line tells it", Key: "bore_m", Value: anyBore, Low: 0.0095, High: 0.0266, Ref: custom})
}

// conduct is an ISO 6358 law by variant.
func conduct(gas element.Gas, c figure, crit, cracking float64, oneWay bool) lawOf {
	return func(v variant) (element.Law, error) {
		return element.NewISO6358(gas, element.ISO6358Spec{C: c.at(v.bias), B: crit, Cracking: cracking, OneWay: oneWay})
	}
}

// couplerLaw reads a coupler among the parts: the row its Item names, the mate
// plugged into it, the maker's own C and b where stated.
func (b *builder) couplerLaw(p place, in, out use) made {
	if p.part.C != nil {
		c, crit := float64(*p.part.C), anyB
		if p.part.B != nil {
			crit = float64(*p.part.B)
		}
		return made{law: conduct(b.gasIn(p.zone), sure(c), crit, 0, false), item: p.part.Item, bore: narrower(in, out)}
	}
	row, ok := b.shelf.Coupler(p.part.Item)
	if !ok {
		row, ok = b.shelf.anyCoupler(p.part.Size)
		if !ok {
			return made{none: true}
		}
		b.assumeSure(p.id, "coupler: a usual one of its size", "C_m3_s_Pa", float64(row.C), row.Coupler, row.Ref)
	}
	return b.couplerPair(p.id, row, p.mate, p.zone)
}

// couplerPair is a socket with a plug. A row stands for a socket and its own
// plug; with a plug of another row the lesser conductance of the two rules,
// whether they mate or not: that they do not is said elsewhere.
func (b *builder) couplerPair(id job.ID, socket catalog.Coupler, plug string, zone job.ID) made {
	row := socket
	if other, ok := b.shelf.Coupler(plug); ok && other.C < row.C {
		row = other
	}
	c := spanned(float64(row.C), float64(row.CHigh), float64(row.CLow))
	b.assume(Assumption{ID: id, Words: "conductance of the coupler", Key: "C_m3_s_Pa", Value: c.likely, Low: c.worst, High: c.best, Ref: row.Ref, Row: row.Coupler})
	return made{law: conduct(b.gasIn(zone), c, row.B, 0, false), bore: float64(row.Bore), item: socket.Coupler, words: couplerWords(socket), size: socket.Body}
}

// narrower is the narrower bore of two ports; 0 unknown.
func narrower(a, b use) float64 { return lesser(a.bore.likely, b.bore.likely) }

// openLaw reads conductance and critical ratio of a seat: stated, by the row,
// by area, in that order.
func (b *builder) openLaw(p place, row catalog.Treat, from, to use) (c, crit, bore float64) {
	bore, crit = narrower(from, to), anyB
	switch {
	case p.part.B != nil:
		crit = float64(*p.part.B)
	case row.B > 0:
		crit = row.B
	case p.kind.Law.B != nil:
		crit = *p.kind.Law.B
	}
	if p.part.C != nil {
		return float64(*p.part.C), crit, bore
	}
	if row.C > 0 {
		return b.assumeSure(p.id, "conductance wide open", "C_m3_s_Pa", float64(row.C), row.Item, row.Ref), crit, bore
	}
	if bore <= 0 {
		bore = b.boreUnknown(p)
	}
	perArea, ref := openShare*nozzleC, custom
	if p.kind.Law.CPerArea != nil {
		perArea, ref = *p.kind.Law.CPerArea, p.kind.Law.Ref
	}
	c = perArea * math.Pi / 4 * bore * bore
	return b.assumeSure(p.id, "conductance wide open, by its bore", "C_m3_s_Pa", c, "", ref), crit, bore
}

// conductanceLaw is a part with C and b.
func (b *builder) conductanceLaw(p place, in, out use) made {
	row := b.shelf.treat(p.part.Item, p.kind.Kind, p.part.Size)
	c, crit, bore := b.openLaw(p, row, in, out)
	return made{law: conduct(b.gasIn(p.zone), sure(c), crit, 0, false), bore: bore, item: row.Item}
}

// checkLaw is a check valve that opens at its cracking pressure: its seat by
// stated C and b, else by the loss coefficient of the part or its kind, else by
// its bore.
func (b *builder) checkLaw(p place, in, out use) made {
	row := b.shelf.treat(p.part.Item, p.kind.Kind, p.part.Size)
	crack := anyCracking
	switch {
	case p.part.Set != nil:
		crack = float64(*p.part.Set)
	case p.kind.Law.CrackingPa != nil:
		crack = b.assumeSure(p.id, "cracking pressure", "cracking_Pa", *p.kind.Law.CrackingPa, "", p.kind.Law.Ref)
	default:
		b.assumeSure(p.id, "cracking pressure", "cracking_Pa", crack, "", custom)
	}
	crack = math.Max(0, crack)
	gas := b.gasIn(p.zone)
	through, _ := b.lossOf(p)
	if bore := narrower(in, out); p.part.C == nil && row.C == 0 && bore > 0 && through(bore) > 0 {
		k := through(bore)
		return made{
			law:    func(variant) (element.Law, error) { return element.NewCheckK(gas, bore, k, crack) },
			oneWay: true, bore: bore, k: k, item: row.Item,
		}
	}
	c, crit, bore := b.openLaw(p, row, in, out)
	return made{law: conduct(gas, sure(c), crit, crack, true), oneWay: true, bore: bore, item: row.Item}
}

// regulatorLaw holds its set pressure behind it, with droop.
func (b *builder) regulatorLaw(p place, in, out use) made {
	row := b.shelf.treat(p.part.Item, p.kind.Kind, p.part.Size)
	set := unit.GaugePressure(anySet)
	if p.part.Set != nil {
		set = *p.part.Set
	} else {
		b.assumeSure(p.id, "set pressure of the regulator", "set_Pa_g", float64(set), "", custom)
	}
	c, crit, bore := b.openLaw(p, row, in, out)
	rated := b.ratedFlow(p, row)
	droop := 0.0
	switch {
	case p.part.Droop != nil:
		droop = float64(*p.part.Droop)
	case row.Droop > 0:
		droop = b.assumeSure(p.id, "droop at rated flow", "droop_Pa", float64(row.Droop), row.Item, row.Ref)
	}
	gas, abs := b.gasIn(p.zone), float64(set.Abs(b.atm))
	return made{
		law: func(variant) (element.Law, error) {
			slope := 0.0
			if rated > 0 {
				slope = droop / rated
			}
			return element.NewRegulator(gas, element.RegulatorSpec{Set: abs, Droop: slope, C: c, B: crit})
		},
		oneWay: true, bore: bore, item: row.Item,
	}
}

// ratedFlow is the flow a treatment part is rated at, kg/s; 0 unknown.
func (b *builder) ratedFlow(p place, row catalog.Treat) float64 {
	if p.part.Flow != nil {
		return massOf(b.freeAirOf(p.id, p.part.Flow))
	}
	return massOf(row.RatedFlow)
}

// ratedLossLaw is a filter, separator, dryer or cooler: its loss at rated flow
// and pressure, clean or loaded.
func (b *builder) ratedLossLaw(p place, in, out use) made {
	row := b.shelf.treat(p.part.Item, p.kind.Kind, p.part.Size)
	flow := b.ratedFlow(p, row)
	if flow <= 0 {
		bore := narrower(in, out)
		if bore <= 0 {
			bore = b.boreUnknown(p)
		}
		// 10 m/s in its bore at the usual rating: about what bodies are sold for.
		flow = massOf(unit.FreeAir(b.assumeSure(p.id, "rated flow, by its bore", "free_air_m3_s",
			float64(freeAir(unit.MassFlow(10*math.Pi/4*bore*bore*(anyRatedAt+float64(b.atm))/b.gasIn(p.zone).RT()))), "", custom)))
	} else if p.part.Flow == nil {
		b.assumeSure(p.id, "rated flow", "free_air_m3_s", float64(row.RatedFlow), row.Item, row.Ref)
	}
	at := unit.GaugePressure(anyRatedAt)
	switch {
	case p.part.At != nil:
		at = *p.part.At
	case row.RatedAt > 0:
		at = row.RatedAt
	}
	clean, loaded := b.lossStates(p, row)
	abs := float64(at.Abs(b.atm))
	return made{
		law: func(v variant) (element.Law, error) {
			loss := clean
			switch {
			case p.part.Found != nil:
				loss = float64(*p.part.Found)
			case p.part.Wear == "loaded", v.loaded && p.part.Wear != "clean":
				loss = loaded
			}
			return element.NewRated(element.RatedSpec{Drop: loss, Flow: flow, Pressure: abs, Viscous: viscous})
		},
		item: row.Item, clean: clean, loaded: loaded,
	}
}

// lossStates is the loss at rated flow, clean and loaded.
func (b *builder) lossStates(p place, row catalog.Treat) (clean, loaded float64) {
	switch {
	case p.part.Clean != nil:
		clean = float64(*p.part.Clean)
	case row.Clean > 0:
		clean = b.assumeSure(p.id, "loss at rated flow, clean", "clean_Pa", float64(row.Clean), row.Item, row.Ref)
	default:
		clean = b.assume(Assumption{ID: p.id, Words: "loss at rated flow, clean", Key: "clean_Pa", Value: anyRatedLoss, Low: 3e3, High: 30e3, Ref: custom})
	}
	usual, told := loadedLoss(p.kind, row, clean)
	switch {
	case p.part.Loaded != nil:
		loaded = float64(*p.part.Loaded)
	case told:
		loaded = b.assumeSure(p.id, "loss at rated flow, loaded", "loaded_Pa", usual, row.Item, row.Ref)
	case usual > clean:
		loaded = b.assume(Assumption{ID: p.id, Words: "loss at rated flow, loaded", Key: "loaded_Pa", Value: usual, Low: 2 * clean, High: 5 * clean, Ref: custom})
	}
	return clean, math.Max(clean, loaded)
}

// loadedLoss is the loss at rated flow, loaded, of a part of a kind of which nobody states one:
// told by its row, else by custom from its clean one. What does not load up, no loaded figure
// in its row and not a filter, keeps that.
func loadedLoss(kind catalog.Kind, row catalog.Treat, clean float64) (loaded float64, told bool) {
	switch {
	case row.Loaded > 0:
		return float64(row.Loaded), true
	case kind.Has(catalog.Filters):
		return loadedFactor * clean, false
	}
	return clean, false
}

// assumeSure records a figure without a range.
func (b *builder) assumeSure(id job.ID, words, key string, v float64, row string, ref cite.Ref) float64 {
	return b.assume(Assumption{ID: id, Words: words, Key: key, Value: v, Low: v, High: v, Ref: ref, Row: row})
}
