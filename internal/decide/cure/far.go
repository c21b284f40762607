package cure

import (
	"fmt"
	"slices"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// farAway is the place of a receiver away from the compressor, among proposals.
const farAway = "far"

// A second receiver in a branch, m³: a usual small one; and the line that takes it, m.
const (
	second   = 0.2
	secondUS = 50 * gallon
	roomFor  = 0.5
	besideBy = 0.4 // its relief valve stands so far above, its drain below
)

// farReceiver proposes a second receiver in the last line before a tool's outlet, with
// the relief valve and the drain that belong to it, rated and set as those by the
// compressor. The days follow it as a store of its own where its line is long.
func (b *Bench) farReceiver(w *spoiltMoment) []*proposal {
	run, ahead := b.lastLine(w)
	first := b.firstReceiver()
	if run == nil || first == nil {
		return nil
	}
	relief, ok1 := KindWith(b.shelf, catalog.Relieves, 1)
	drain, ok2 := KindWith(b.shelf, catalog.Drains, 1)
	set := b.reliefSet()
	if !ok1 || !ok2 || set == nil || first.Part.Rating == nil || !b.hasPorts(first.Part.Kind, "in", "out", "drain", "relief") {
		return nil
	}
	volume := second
	if b.system == unit.US {
		volume = secondUS
	}
	line := b.idx.Centreline(run)
	place, _, ok := geom.OnPath(line, geom.Length(line)/2)
	if !ok {
		return nil
	}
	id := b.idx.FreshID("point.far-receiver")
	held := unit.Volume(litres(volume) / 1e3)
	edits := []job.Edit{b.into(run, ahead, id, job.Part{Kind: first.Part.Kind, Volume: &held, Rating: first.Part.Rating})}
	if run.State == "existing" {
		edits = append(edits, Set(id, "state", "planned"))
	}
	edits = append(edits, b.onReceiver(id, "far-relief", "relief", place, besideBy, job.Part{Kind: relief.Kind, Set: set}, run)...)
	edits = append(edits, b.onReceiver(id, "far-drain", "drain", place, -besideBy, job.Part{Kind: drain.Kind}, run)...)
	return []*proposal{{
		words: fmt.Sprintf("a second receiver of %s in the %s%s, with relief valve and drain", b.text(unit.KindVolume, volume), role(run), at(b.idx, w.use.Outlet)),
		edits: edits, place: farAway,
	}}
}

// hasPorts: a kind has all these openings.
func (b *Bench) hasPorts(name string, ports ...string) bool {
	kind, ok := b.shelf.Kind(name)
	return ok && !slices.ContainsFunc(ports, func(p string) bool {
		_, has := kind.Port(p)
		return !has
	})
}

// onReceiver leads a short line from a port of a receiver to a part of its own.
func (b *Bench) onReceiver(receiver job.ID, stem, port string, at geom.Point, up float64, part job.Part, like *job.Run) []job.Edit {
	point := job.Point{ID: b.idx.FreshID(job.ID("point." + stem)), At: &geom.Point{at[0], at[1], at[2] + up}, Part: part}
	line := job.Run{
		ID: b.idx.FreshID(job.ID("line." + stem)), From: job.End{Point: receiver, Port: port}, To: job.End{Point: point.ID, Port: "in"},
		Stock: like.Stock, Size: like.Size, Role: "link",
	}
	return []job.Edit{job.AddOf(&point), job.AddOf(&line)}
}

// lastLine is the line nearest to the tool that has room for a receiver, and whether
// the air goes through it from its From end.
func (b *Bench) lastLine(w *spoiltMoment) (run *job.Run, ahead bool) {
	for i := len(w.path) - 1; i >= 0; i-- {
		e := &b.model.Elements()[w.path[i].Element]
		r := b.idx.Run(e.ID)
		if e.Thing != model.ThingLine || r == nil || geom.Length(b.idx.Centreline(r)) < roomFor {
			continue
		}
		return r, w.path[i].From == e.From
	}
	return nil, false
}

// firstReceiver is the point of a receiver that a compressor fills; nil where none is drawn.
func (b *Bench) firstReceiver() *job.Point {
	for _, r := range b.model.Receivers() {
		if p := b.idx.Point(r.ID); r.Source >= 0 && p != nil {
			return p
		}
	}
	return nil
}

// reliefSet is the lowest setting of the relief valves on the drawing; nil without any.
func (b *Bench) reliefSet() *unit.GaugePressure {
	var least *unit.GaugePressure
	for i := range b.job.Net.Points {
		p := &b.job.Net.Points[i].Part
		k, _ := b.shelf.Kind(p.Kind)
		if k.Has(catalog.Relieves) && p.Set != nil && (least == nil || *p.Set < *least) {
			least = p.Set
		}
	}
	return least
}
