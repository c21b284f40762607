package route

import (
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// mouth is where a main begins: its first straight piece with room, and the point before it.
type mouth struct {
	from, to geom.Point
	before   job.ID
}

// partsAtMouth is how many fittings what belongs to a beginning stands between: a link, a union
// and a valve, and those at the ends of the piece.
const partsAtMouth = 4

// mouthOf is the first straight piece of a main that holds what belongs to its beginning: one
// further on where those before it are short and nothing leaves before its end.
func (x *line) mouthOf(path []geom.Point, before job.ID, room float64) mouth {
	m := mouth{path[0], path[1], before}
	for k := 1; k < len(path); k++ {
		if p, q := path[k-1], path[k]; p.Distance(q) >= room {
			return mouth{p, q, before}
		}
		if len(x.legs) > 0 && x.legs[0].at.Distance(path[k]) <= room {
			break
		}
	}
	return m
}

// supply sets into the beginning of a main what belongs there and does not stand before it
// yet, one after the other: a flexible link, a union by which treatment comes out without
// cutting, and a valve, one that can be locked shut and vents.
func (a *artist) supply(m mouth) {
	n := netOf(job.NewIndex(a.job), a.shelf)
	var kinds []string
	flexes := func(k catalog.Kind) bool { return k.Has(catalog.Flexes) }
	if !n.before(m.before, flexes, catalog.Stores) {
		kinds = append(kinds, a.inLine(flexes))
	}
	if n.stands(m.before) && n.kind(m.before).Group == catalog.Treatment {
		kinds = append(kinds, a.inLine(func(k catalog.Kind) bool { return k.Has(catalog.Unions) && !k.Has(catalog.Flexes) }))
	}
	valve := a.valve
	locks := func(k catalog.Kind) bool { return k.Has(catalog.Locks) && k.Has(catalog.Vents) }
	if !n.before(m.before, locks, "") {
		if kind := a.inLine(locks); kind != "" {
			valve = kind
		}
	}
	kinds = append(kinds, valve)
	long := m.from.Distance(m.to)
	step := math.Min(math.Max(valveFrom/2, a.gap), long/float64(len(kinds)+1))
	for i, kind := range kinds {
		if kind == "" {
			continue
		}
		if at := m.from.Plus(m.to.Minus(m.from).Times(float64(i+1) * step / long)); a.setIn(kind, at) && kind == valve {
			a.set++
		}
	}
}

// before says whether a part of some kind stands on the way from the compressor to a point,
// itself included; what stands before a part with a role does not count.
func (n *net) before(point job.ID, is func(catalog.Kind) bool, from catalog.Role) bool {
	for at := point; at != ""; at = n.by[at] {
		switch {
		case is(n.kind(at)):
			return true
		case from != "" && n.kind(at).Has(from):
			return false
		}
	}
	return false
}

// inLine is the plainest kind of part that is set into a line; "" for none.
func (a *artist) inLine(is func(catalog.Kind) bool) string {
	for _, k := range a.shelf.Kinds() {
		if k.InLine() && !k.Has(catalog.Outlets) && is(k) {
			return k.Kind
		}
	}
	return ""
}

// dried says whether a dryer stands before the lines, be it with a way round it.
func (a *artist) dried() bool {
	n := netOf(job.NewIndex(a.job), a.shelf)
	return slices.ContainsFunc(a.job.Net.Points, func(p job.Point) bool {
		_, reached := n.depth[p.ID]
		return reached && n.kind(p.ID).Has(catalog.Dries) && (p.ID == n.mouth || !n.isBehind(p.ID))
	})
}

// catchWater hangs a drip leg with its drain first at outlets that have no opening for a
// drain, in front of all else.
func (a *artist) catchWater(f *foot) error {
	n := netOf(job.NewIndex(a.job), a.shelf)
	pocket := ""
	for _, k := range a.shelf.Kinds() {
		if k.Group == catalog.Drainage && k.Has(catalog.Collects) && len(k.Ports) > 2 {
			pocket = k.Kind
			break
		}
	}
	if pocket == "" || a.drain == "" {
		return nil
	}
	for _, id := range f.outlets {
		o := n.ix.Outlet(id)
		hang := []job.Part{{Kind: pocket}, {Kind: a.drain}}
		caught := false
		for _, p := range o.Hang {
			k, _ := a.shelf.Kind(p.Kind)
			caught = caught || k.Has(catalog.Dries) || k.Has(catalog.Collects) || k.Has(catalog.Drains)
		}
		if caught {
			continue
		}
		g := &fit.Compose{Outlet: o.ID, Hang: append(hang, o.Hang...), Tools: o.Tools}
		if o.Hose != nil {
			hose := fit.Hose(*o.Hose)
			g.Hose = &hose
		}
		if _, err := a.do(g); err != nil {
			return err
		}
	}
	return nil
}
