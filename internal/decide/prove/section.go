package prove

import (
	"slices"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/engine/vessel"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// bounds are the roles at which a section ends.
func bounds() []catalog.Role {
	return []catalog.Role{catalog.Isolates, catalog.Supplies, catalog.Stores, catalog.Dries, catalog.Cools, catalog.Regulates}
}

// End is where a section ends at a valve or at plant.
type End struct {
	Point job.ID `json:"point"`
	Shuts bool   `json:"shuts"` // a valve; else plant that has to be isolated otherwise
}

// part is something in a section beside its lines.
type part struct {
	id     job.ID
	part   *job.Part
	kind   catalog.Kind
	outlet job.ID
}

// stretch is what a section is made of.
type stretch struct {
	runs    []*job.Run
	points  []job.ID
	ends    []End
	parts   []part
	hoses   []job.ID // that no coupler takes off
	outlets []job.ID // whose chain begins here
}

// stretches cuts the net at valves and plant. What is for later is left out.
func (w *work) stretches() []stretch {
	seen := map[job.ID]bool{}
	var out []stretch
	for i := range w.job.Net.Runs {
		if r := &w.job.Net.Runs[i]; !seen[r.ID] && r.State != stub {
			out = append(out, w.from(r, seen))
		}
	}
	return out
}

const stub = "stub"

// from gathers the section that a run lies in.
func (w *work) from(first *job.Run, seen map[job.ID]bool) stretch {
	var s stretch
	at := map[job.ID]bool{}
	queue := []*job.Run{first}
	seen[first.ID] = true
	for len(queue) > 0 {
		r := queue[0]
		queue = queue[1:]
		s.runs = append(s.runs, r)
		for _, id := range []job.ID{r.From.Point, r.To.Point} {
			p := w.index.Point(id)
			if p == nil || at[id] {
				continue
			}
			at[id] = true
			kind, _ := w.shelf.Kind(p.Part.Kind)
			if slices.ContainsFunc(bounds(), kind.Has) {
				s.ends = append(s.ends, End{id, kind.Has(catalog.Isolates)})
				continue
			}
			w.pass(&s, p, kind)
			for _, e := range w.index.Ends(id) {
				if e.Run.State != stub && !seen[e.Run.ID] {
					seen[e.Run.ID] = true
					queue = append(queue, e.Run)
				}
			}
		}
	}
	return s
}

// pass takes a point that a section passes, with what hangs there before it can be shut.
func (w *work) pass(s *stretch, p *job.Point, kind catalog.Kind) {
	s.points = append(s.points, p.ID)
	s.parts = append(s.parts, part{p.ID, &p.Part, kind, ""})
	for _, o := range w.index.OutletsAt(p.ID) {
		s.outlets = append(s.outlets, o.ID)
		if w.hung(s, o) && o.Hose != nil && o.Hose.Plug == "" {
			s.hoses = append(s.hoses, o.Hose.ID)
		}
	}
}

// hung takes what hangs at an outlet up to the first part that shuts it; open is true
// where nothing does.
func (w *work) hung(s *stretch, o *job.Outlet) (open bool) {
	for i := range o.Hang {
		h := &o.Hang[i]
		kind, _ := w.shelf.Kind(h.Kind)
		id := h.ID
		if id == "" {
			id = o.ID
		}
		s.parts = append(s.parts, part{id, h, kind, o.ID})
		if kind.Has(catalog.Isolates) || kind.Has(catalog.Couples) {
			return false
		}
	}
	return true
}

// volume is that of the lines; unknown are those whose length or bore nobody states.
func (w *work) volume(s *stretch) (v unit.Volume, unknown []job.ID) {
	for _, r := range s.runs {
		length, known := w.index.LengthOf(r)
		size, ok := w.shelf.Size(r.Stock, r.Size)
		bore := size.Bore
		if hose, is := w.shelf.Hose(r.Stock); !ok && is {
			bore, ok = hose.Bore, true
		}
		if !known || !ok || bore <= 0 {
			unknown = append(unknown, r.ID)
			continue
		}
		v += vessel.PipeVolume(bore, length)
	}
	return v, unknown
}

// away is how far from a section one can get within the rooms: the farthest corner from
// the line nearest to it. ok is false where no room or no line is drawn.
func (w *work) away(s *stretch) (far unit.Length, ok bool) {
	var places []geom.Point
	for _, r := range s.runs {
		places = append(places, w.index.Centreline(r)...)
	}
	if len(places) == 0 {
		return 0, false
	}
	for i := range w.job.Building.Rooms {
		room := &w.job.Building.Rooms[i]
		for _, corner := range room.Outline {
			near := unit.Length(-1)
			for _, p := range places {
				d := unit.Length(p.Distance(geom.Point{corner[0], corner[1], p[2]}))
				if near < 0 || d < near {
					near = d
				}
			}
			far, ok = max(far, near), true
		}
	}
	return far, ok
}
