package model

import (
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// PurgeShare is what a bed that dries itself without heat blows off, of its rated flow
// (reference data, dryers.csv DRYE-0045: 14 to 20 %, recalled).
const PurgeShare = 0.15

// Dew points of dryers that state none, under pressure: custom of the trade, no source.
const (
	coolingDew = 273.15 + 3
	beddingDew = 273.15 - 40
	freezing   = 273.15
)

// Dryer is what dries the air.
type Dryer struct {
	ID       job.ID
	Element  int
	DewPoint unit.Temperature // under pressure
	Supposed bool             // the dew point: neither its plate nor its row states one
	Rated    unit.FreeAir     // 0: unknown
	// Regenerates: it blows off part of its air to dry its bed again. A dew point under
	// freezing is a bed's: what cools would fill with ice. A filling that is changed loads
	// up, one that is blown dry does not.
	Regenerates bool
	// Delivery: it lies between the compressors and their receivers, and sees what they deliver.
	Delivery bool
}

// Dryers lists the dryers of the net and of the outlets, by element.
func (m *Model) Dryers() []Dryer { return m.dryers }

// readDryers reads the plates of all that dries.
func (b *builder) readDryers(m *Model) []Dryer {
	var out []Dryer
	for i := range m.elements {
		e := &m.elements[i]
		kind, _ := b.shelf.Kind(e.Kind)
		if !kind.Has(catalog.Dries) {
			continue
		}
		part := b.idx.PartAt(e.ID, e.Outlet, e.Kind, e.Item)
		if part == nil {
			continue
		}
		row, known := b.shelf.Treat(part.Item)
		d := Dryer{ID: e.ID, Element: i, Rated: row.RatedFlow}
		switch {
		case part.DewPoint != nil:
			d.DewPoint = *part.DewPoint
		case known && row.DewPoint != nil:
			d.DewPoint = unit.Celsius(*row.DewPoint)
		case kind.Has(catalog.Collects):
			d.DewPoint, d.Supposed = coolingDew, true
		default:
			d.DewPoint, d.Supposed = beddingDew, true
		}
		if part.Flow != nil {
			d.Rated = b.freeAirOf(e.ID, part.Flow)
		}
		clean, loaded := row.Clean, row.Loaded
		if part.Clean != nil && part.Loaded != nil {
			clean, loaded = *part.Clean, *part.Loaded
		}
		d.Regenerates = d.DewPoint < freezing && !kind.Has(catalog.Collects) && loaded <= clean
		out = append(out, d)
	}
	if len(out) > 0 {
		delivery := m.delivery()
		for i := range out {
			out[i].Delivery = delivery[out[i].Element]
		}
	}
	return out
}

// delivery marks the elements that air passes on its way from a compressor to the first
// receivers.
func (m *Model) delivery() []bool {
	marked := make([]bool, len(m.elements))
	stores := make(map[int]bool, len(m.stores))
	for _, r := range m.stores {
		stores[r.Node] = true
	}
	seen := map[int]bool{}
	var queue []int
	for _, c := range m.plant {
		queue = append(queue, c.Node)
	}
	for len(queue) > 0 {
		n := queue[0]
		queue = queue[1:]
		if seen[n] || stores[n] {
			continue
		}
		seen[n] = true
		for _, i := range m.linksAt[n] {
			marked[i] = true
			queue = append(queue, m.elements[i].From+m.elements[i].To-n)
		}
	}
	return marked
}
