package screen

import (
	"dropleg/engine/unit"
	"dropleg/internal/answer/water"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// stand is a thing on the way, before its states are known.
type stand struct {
	id    job.ID
	words string // "" for a line
	line  *water.Line
	long  unit.Length
	dryer *water.Dryer
	cools bool
	zone  *job.Zone
}

// stands lists what on a way tells of water: compressor, lines, and the parts that do
// something to it.
func (d *damp) stands(s *water.Season, start int, way []passed) []stand {
	lines, dryers := map[job.ID]*water.Line{}, map[job.ID]*water.Dryer{}
	for i := range s.Lines {
		lines[s.Lines[i].ID] = &s.Lines[i]
	}
	for i := range s.Dryers {
		dryers[s.Dryers[i].ID] = &s.Dryers[i]
	}
	var out []stand
	for _, c := range d.model.Compressors() {
		if c.Node == start {
			out = append(out, stand{id: c.ID, words: "compressor", zone: d.zoneAt(c.ID)})
			break
		}
	}
	stores := func(node int) {
		for _, r := range d.model.Receivers() {
			if r.Node == node {
				out = append(out, stand{id: r.ID, words: "receiver", cools: true, zone: d.zoneAt(r.ID)})
			}
		}
	}
	stores(start)
	for _, p := range way {
		e := p.element
		kind, _ := d.partOf(e)
		if run := d.index.Run(e.ID); run != nil {
			if l := lines[e.ID]; l != nil {
				out = append(out, stand{id: e.ID, line: l, long: e.Length, zone: d.index.ZoneOf(run)})
			}
		} else if words := partWord(kind); words != "" {
			at := e.ID
			if e.Outlet != "" {
				at = e.Outlet
			}
			out = append(out, stand{id: e.ID, words: words, dryer: dryers[e.ID], cools: kind.Has(catalog.Cools), zone: d.zoneAt(at)})
		}
		stores(p.to)
	}
	return out
}

// zoneAt is the zone about a point, or about what hangs at an outlet.
func (d *damp) zoneAt(id job.ID) *job.Zone {
	if o := d.index.Outlet(id); o != nil {
		id = o.Point
	}
	if at, ok := d.index.Where(d.index.Point(id)); ok {
		return d.index.ZoneAt(at)
	}
	return nil
}
