package job

import "dropleg/engine/document"

// leaning checks what stands on a thing that changed: the runs at a point; the
// points and openings on a wall, and the runs at those points.
func (d *draft) leaning(t any, id ID) error {
	on := map[ID]bool{}
	var found []Finding
	switch t.(type) {
	case *Point:
		on[id] = true
	case *Wall:
		for i := range d.job.Net.Points {
			if p := &d.job.Net.Points[i]; p.On != nil && p.On.Wall == id {
				on[p.ID] = true
				found = append(found, d.faults(p, p.ID, id)...)
			}
		}
		for i := range d.job.Building.Openings {
			if o := &d.job.Building.Openings[i]; o.Wall == id {
				found = append(found, d.faults(o, o.ID, id)...)
			}
		}
	}
	if len(on) > 0 {
		for i := range d.job.Net.Runs {
			if r := &d.job.Net.Runs[i]; on[r.From.Point] || on[r.To.Point] {
				found = append(found, d.faults(r, r.ID, id)...)
			}
		}
	}
	if found != nil {
		return &Refusal{found}
	}
	return nil
}

// faults inspects a thing that leans on another.
func (d *draft) faults(thing any, id, on ID) []Finding {
	var out []Finding
	for _, s := range inspect(thing, d) {
		if s.severity == Fault {
			f := finding(s.code, Fault, document.Problem{Path: string(id) + ": " + s.key, Read: s.read, Want: s.want, Nearest: s.nearest})
			f.Where = []ID{on, id}
			out = append(out, f)
		}
	}
	return out
}
