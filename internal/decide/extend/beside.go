package extend

import (
	"fmt"
	"slices"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

const (
	teeRoom    = 0.2 // m, the least straight piece that takes a tee
	partsApart = 0.3 // m, between what is set into its line; no leg of it is shorter than half of that
)

// later is how much lower the second compressor's band lies, so that both do not start at
// once: common practice, no source.
const later = unit.GaugePressure(20e3)

// beside puts a compressor of a class beside the one that delivers least, with a line of its
// own to that one's delivery line: a flexible link, a check valve and a valve to lock in it.
func (d *draft) beside(m *model.Model, class string) error {
	now := d.least(m)
	if now == nil {
		return refuse("no-compressor", "machine", "the job has no compressor that another could stand beside", "draw the compressor with its line to the receiver")
	}
	stands, ok := d.study.Index().Where(d.study.Index().Point(now.ID))
	if !ok {
		return refuse("no-place", "machine", "the compressor has no place in the drawing", "place it first")
	}
	into, along, at, err := d.delivery(now.ID)
	if err != nil {
		return err
	}
	way, err := d.room(stands, into, at)
	if err != nil {
		return err
	}
	id, err := d.stand(m, now, class, way[0])
	if err != nil {
		return err
	}
	line := &fit.Line{
		From: fit.Anchor{Point: id}, To: fit.Anchor{Run: into.ID, Along: new(unit.Length(along))},
		Stock: into.Stock, Size: into.Size, Role: "link", State: "planned", Flexible: true,
	}
	for _, p := range way[1 : len(way)-1] {
		line.Via = append(line.Via, fit.Place{At: &p})
	}
	if _, err := d.do(line); err != nil {
		return err
	}
	return d.fitOut(id)
}

// stand places the compressor and gives the two an order.
func (d *draft) stand(m *model.Model, now *model.Compressor, class string, at geom.Point) (job.ID, error) {
	row, _ := d.study.Catalog().Machine(class)
	kind, ok := cure.KindWith(d.study.Catalog(), catalog.Supplies, 1)
	if !ok {
		return "", refuse("no-kind", "machine", "the catalogue has no compressor to draw", "")
	}
	last := 1
	for i := range m.Compressors() {
		if p := d.study.Index().Point(m.Compressors()[i].ID); p != nil && p.Part.Compressor != nil {
			last = max(last, p.Part.Compressor.Lead)
		}
	}
	plate := &job.Compressor{Control: row.Control, Lead: last + 1}
	if low, high := now.CutIn-later, now.CutOut-later; row.CutOut >= high && low > 0 {
		plate.CutIn, plate.CutOut = &low, &high
	}
	if p := d.study.Index().Point(now.ID); p.Part.Compressor != nil && p.Part.Compressor.Lead == 0 {
		if err := d.take(cure.Set(now.ID, "part.compressor.lead", 1)); err != nil {
			return "", err
		}
	}
	made, err := d.do(&fit.Plant{
		Kind: kind.Kind, Item: row.Machine, Name: "Second compressor", At: &fit.Place{At: &at}, State: "planned",
		Figures: fit.Figures{Compressor: plate},
	})
	if err != nil {
		return "", err
	}
	return made[0], nil
}

// delivery is the last line from a compressor before what cools, dries, filters or stores its
// air, and the middle of its longest straight piece.
func (d *draft) delivery(from job.ID) (r *job.Run, along float64, at geom.Point, err error) {
	ix, shelf := d.study.Index(), d.study.Catalog()
	for point, going := from, true; going; {
		ways := slices.DeleteFunc(slices.Clone(ix.Ends(point)), func(e job.RunEnd) bool {
			return r != nil && e.Run.ID == r.ID || d.isSide(e)
		})
		if len(ways) == 0 || point != from && len(ways) > 1 {
			break
		}
		r, point = ways[0].Run, ways[0].Other()
		k, ok := shelf.Kind(ix.Point(point).Part.Kind)
		going = ok && k.Group != catalog.Treatment && !k.Has(catalog.Stores)
	}
	if r == nil {
		return nil, 0, at, refuse("nothing-stands", "machine", "no line leaves the compressor", "draw its line to the receiver first")
	}
	long, before := 0.0, 0.0
	way := ix.Centreline(r)
	for k := 1; k < len(way); k++ {
		piece := way[k].Distance(way[k-1])
		if piece > long {
			long, along, at = piece, before+piece/2, way[k-1].Plus(way[k]).Times(0.5)
		}
		before += piece
	}
	if long < teeRoom {
		return nil, 0, at, refuse("no-room", "machine", fmt.Sprintf("the compressor's line has no straight piece of %.1f m for a tee", teeRoom), "draw the second compressor's line by hand")
	}
	return r, along, at, nil
}

// isSide says whether a line only leads to something that hangs beside a delivery line: a
// drain, a relief valve, a gauge, an end.
func (d *draft) isSide(e job.RunEnd) bool {
	ix := d.study.Index()
	far := e.Other()
	k, ok := d.study.Catalog().Kind(ix.Point(far).Part.Kind)
	return ok && len(ix.Ends(far)) == 1 && (k.Has(catalog.Drains) || k.Has(catalog.Relieves) || k.Has(catalog.Gauges) || k.Has(catalog.Ends))
}

// fitOut sets a check valve, and behind it a valve to lock, into the line of a compressor.
func (d *draft) fitOut(compressor job.ID) error {
	shelf := d.study.Catalog()
	for _, is := range []func(catalog.Kind) bool{
		func(k catalog.Kind) bool { return k.Has(catalog.Checks) },
		func(k catalog.Kind) bool { return k.Has(catalog.Locks) && k.Has(catalog.Vents) },
	} {
		kinds := shelf.Kinds()
		i := slices.IndexFunc(kinds, func(k catalog.Kind) bool {
			return k.InLine() && is(k)
		})
		if i < 0 {
			return refuse("no-fitting", "machine", "the catalogue has no check valve, or no valve that locks and vents, for the second compressor's line", "")
		}
		r, _, _, err := d.delivery(compressor)
		if err != nil {
			return err
		}
		ix := d.study.Index()
		long, _ := ix.LengthOf(r)
		along := min(partsApart, float64(long)/2)
		made, err := d.do(&fit.Plant{Kind: kinds[i].Kind, Into: &fit.Anchor{Run: r.ID, Along: new(unit.Length(along))}, State: "planned"})
		if err == nil && kinds[i].Has(catalog.Vents) {
			err = d.turnRound(made[0])
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// turnRound puts a part of two ports into its line the other way round. A venting valve lets
// down the side behind it: shut for work on the compressor, that has to be the compressor's
// side, and not the receiver, which the other one fills.
func (d *draft) turnRound(part job.ID) error {
	ends := d.study.Index().Ends(part)
	if len(ends) != 2 {
		return nil
	}
	var edits []job.Edit
	for i, e := range ends {
		end := "from"
		if e.AtTo {
			end = "to"
		}
		edits = append(edits, &job.Connect{Run: e.Run.ID, End: end, Point: part, Port: ends[1-i].Port})
	}
	return d.take(job.AllOf("turned the valve round", edits...))
}
