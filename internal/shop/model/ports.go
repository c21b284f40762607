package model

import (
	"slices"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// gatherEnds lists the run ends at each point and settles which port each
// takes: the one stated; else, for a part with several, the first that fits the
// direction drawn (a run leaves by "out" and arrives by "in") and is free. An
// outlet that names none takes "out", else the first that is free.
func (b *builder) gatherEnds() {
	taken := map[job.ID]map[string]bool{}
	take := func(e job.End) {
		if taken[e.Point] == nil {
			taken[e.Point] = map[string]bool{}
		}
		taken[e.Point][e.Port] = true
	}
	for i := range b.j.Net.Runs {
		take(b.j.Net.Runs[i].From)
		take(b.j.Net.Runs[i].To)
	}
	for i := range b.j.Outlets {
		take(job.End{Point: b.j.Outlets[i].Point, Port: b.j.Outlets[i].Port})
	}
	for i := range b.j.Net.Runs {
		r := &b.j.Net.Runs[i]
		for _, to := range []bool{false, true} {
			end, want := r.From, "out"
			if to {
				end, want = r.To, "in"
			}
			port := end.Port
			if port == "" {
				port = b.freePort(end.Point, want, taken[end.Point])
				take(job.End{Point: end.Point, Port: port})
			}
			b.ends[end.Point] = append(b.ends[end.Point], runEnd{run: i, to: to, port: port})
		}
	}
	b.hangs = make([]string, len(b.j.Outlets))
	for i := range b.j.Outlets {
		o := &b.j.Outlets[i]
		b.hangs[i] = o.Port
		b.hung[o.Point] = append(b.hung[o.Point], i)
		if o.Port == "" {
			b.hangs[i] = b.freePort(o.Point, "out", taken[o.Point])
			take(job.End{Point: o.Point, Port: b.hangs[i]})
		}
	}
}

// freePort picks a port for an end that names none; "" where the kind is unknown.
func (b *builder) freePort(point job.ID, want string, taken map[string]bool) string {
	pt := b.point(point)
	if pt == nil {
		return ""
	}
	kind, ok := b.shelf.Kind(pt.Part.Kind)
	if !ok || len(kind.Ports) == 0 {
		return ""
	}
	if len(kind.Ports) == 1 {
		return kind.Ports[0].ID
	}
	first, aside := "", ""
	for _, p := range kind.Ports {
		switch {
		case taken[p.ID]:
		case p.ID == want:
			return p.ID
		case p.ID == "drain" || p.ID == "relief": // nothing is joined there unless it says so
			aside = p.ID
		case first == "":
			first = p.ID
		}
	}
	if first == "" {
		return aside
	}
	return first
}

// usedPorts lists the ports, in the kind's order, that a run or an outlet is joined to.
func (b *builder) usedPorts(pt *job.Point, kind catalog.Kind) []catalog.Port {
	var out []catalog.Port
	for _, p := range kind.Ports {
		if slices.ContainsFunc(b.ends[pt.ID], func(e runEnd) bool { return e.port == p.ID }) ||
			slices.ContainsFunc(b.hung[pt.ID], func(i int) bool { return b.hangs[i] == p.ID }) {
			out = append(out, p)
		}
	}
	return out
}
