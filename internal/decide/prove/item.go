package prove

import (
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Item is something in a section that has to bear the test or be kept from it.
type Item struct {
	ID     job.ID              `json:"id"`
	Kind   string              `json:"kind,omitempty"`
	Outlet job.ID              `json:"outlet,omitempty"`
	What   string              `json:"what"` // bowl, gauge, regulator, drain, relief, flexible, hose, end
	Bears  *unit.GaugePressure `json:"bears_Pa_g,omitempty"`
	Stays  bool                `json:"stays"` // it bears the test pressure as stamped or by its row
	Task   string              `json:"task"`  // that a record of its isolation names
	// Written is how it was isolated, as somebody wrote it down; "" is not yet.
	Written string `json:"written,omitempty"`
}

// named are the roles that must bear a test or be kept from it, in the order in which they
// name a part. What lets pressure go by itself comes first.
func named() []struct {
	role catalog.Role
	what string
} {
	return []struct {
		role catalog.Role
		what string
	}{
		{catalog.Relieves, "relief"},
		{catalog.Regulates, "regulator"},
		{catalog.Filters, "bowl"},
		{catalog.Separates, "bowl"},
		{catalog.Lubricates, "bowl"},
		{catalog.Drains, "drain"},
		{catalog.Gauges, "gauge"},
		{catalog.Flexes, "flexible"},
	}
}

// items lists what of a section must bear its test or be kept from it, and the plant
// behind its ends.
func (w *work) items(s *stretch, test unit.GaugePressure) []Item {
	out := []Item{}
	for _, p := range s.parts {
		for _, n := range named() {
			if p.kind.Has(n.role) {
				out = append(out, w.item(p, n.what, test))
				break
			}
		}
	}
	for _, id := range s.hoses {
		item := Item{ID: id, What: "hose"}
		if b, ok := w.bears[id]; ok && b.Known {
			item.Bears, item.Stays = new(b.Pressure), b.Pressure >= test
		}
		out = append(out, w.task(item))
	}
	for _, e := range s.ends {
		out = append(out, w.task(Item{ID: e.Point, What: "end", Stays: e.Shuts}))
	}
	return out
}

func (w *work) item(p part, what string, test unit.GaugePressure) Item {
	item := Item{ID: p.id, Kind: p.part.Kind, Outlet: p.outlet, What: what}
	if b, ok := model.StampOf(w.shelf, p.part); ok {
		item.Bears, item.Stays = new(b.Pressure), b.Pressure >= test
	}
	if what == "relief" { // it opens at its setting, whatever it bears
		item.Bears, item.Stays = p.part.Set, p.part.Set != nil && *p.part.Set > test
	}
	return w.task(item)
}

// task names the record of an isolation, and finds it.
func (w *work) task(item Item) Item {
	item.Task = "isolate " + string(item.ID)
	if item.Kind != "" && item.Outlet == item.ID {
		item.Task += " " + item.Kind
	}
	if s, ok := w.tests[item.Task]; ok {
		item.Written = s.Last.Text
	}
	return item
}
