package size

import (
	"math"
	"slices"
	"strings"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// mostWays bounds the ways to set couplers that must mate at several outlets: each is
// picked for by itself.
const mostWays = 256

// couplers makes the choices of all live couplers: the bodies of their profile. Where a tool
// is used at several outlets their ends change together.
func (w *work) couplers() {
	ways := 1
	for i := range w.model.Elements() {
		e := &w.model.Elements()[i]
		if !w.net.live[i] || e.Thing != model.ThingCoupler || w.choiceOf[i] >= 0 {
			continue
		}
		rows, outlets, atEnd := w.bench.CouplerSizes(e)
		if len(rows) < 2 {
			continue
		}
		c := &choice{ids: outlets, words: "couplers at the wall" + w.at(e.Outlet), held: !w.may(outlets...)}
		if atEnd {
			c.words = "couplers at the tool's end" + w.at(e.Outlet)
		}
		w.rows(c, rows, w.sees(e))
		if len(outlets) > 1 {
			if ways *= len(c.options); ways > mostWays {
				c.held = true
			}
		}
		w.add(c, func(x *model.Element) bool {
			return x.Thing == model.ThingCoupler && slices.Contains(outlets, x.Outlet) && (x.Leg == "end" || x.Tool != "") == atEnd
		})
	}
}

// treatment makes the choices of filters, dryers and regulators of which the catalogue has
// several sizes that do the same.
func (w *work) treatment() {
	for i := range w.model.Elements() {
		e := &w.model.Elements()[i]
		if !w.net.live[i] || e.Thing != model.ThingTreatment {
			continue
		}
		rows := w.bench.TreatmentSizes(e)
		if len(rows) < 2 {
			continue
		}
		c := &choice{ids: []job.ID{e.ID}, words: e.Words + w.at(e.Outlet), held: !w.may(e.ID, e.Outlet) || w.wish.Keep && w.installed(e.ID)}
		w.rows(c, rows, w.sees(e))
		for k := range c.options {
			c.options[k].flow = float64(air.Mass(unit.FreeAir(c.options[k].bore)))
			c.options[k].bore = 0
		}
		w.add(c, func(x *model.Element) bool { return x.Index == e.Index })
	}
}

// rows makes options of catalogue rows: those that bear the pressure, and the one that stands.
func (w *work) rows(c *choice, rows []cure.Size, sees unit.GaugePressure) {
	for _, z := range rows {
		if z.Rating > 0 && z.Rating < sees && !z.Now {
			continue
		}
		o := option{size: z.Size, words: z.Words, bore: z.Bore, item: z.Item, edits: z.Edits}
		for _, e := range z.Edits {
			if set, ok := e.(*job.Change); ok && strings.HasSuffix(set.Key, "plug") {
				o.plugs++
			}
		}
		o.sockets = z.Number - o.plugs
		if z.Now {
			c.now, o.edits = len(c.options), nil
		}
		c.options = append(c.options, o)
	}
}

// installed: a point stands already.
func (w *work) installed(id job.ID) bool {
	p := w.idx.Point(id)
	return p != nil && p.State == "existing"
}

// partPrices prices couplers by their halves and treatment by the piece.
func (w *work) partPrices(c *choice) {
	each := func(article string, n int) float64 {
		if n == 0 {
			return 0
		}
		price, ok := w.prices.piece[parts.Fold(article)]
		if !ok {
			return math.Inf(1)
		}
		return price * float64(n)
	}
	for k := range c.options {
		o := &c.options[k]
		if o.flow > 0 {
			o.price = each(o.item, 1)
		} else {
			o.price = each("socket "+o.item, o.sockets) + each("plug "+o.item, o.plugs)
		}
	}
	w.leave(c, func(k int) string { return c.options[k].item })
}

// hosePrices prices hoses by the metre or the piece.
func (w *work) hosePrices(c *choice) {
	o := w.idx.OutletOfHose(c.ids[0])
	if o == nil {
		return
	}
	for k := range c.options {
		item := c.options[k].item
		name := parts.Fold(item)
		c.options[k].price = math.Inf(1)
		if each, ok := w.prices.metre[name]; ok {
			c.options[k].price = each * float64(o.Hose.Length)
		}
		if each, ok := w.prices.piece[name+" reel"]; ok && o.Hose.Reel {
			c.options[k].price = each
		}
	}
	w.leave(c, func(k int) string { return c.options[k].item })
}
