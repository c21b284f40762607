package draw

import (
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
)

// copied is the job with lists of its own, so that places in it can be changed.
func copied(j *job.Job) *job.Job {
	own := *j
	own.Net.Points, own.Net.Runs = slices.Clone(j.Net.Points), slices.Clone(j.Net.Runs)
	own.Building.Rooms, own.Building.Walls = slices.Clone(j.Building.Rooms), slices.Clone(j.Building.Walls)
	return &own
}

// moved is a site with its places moved together by a plot.
func (s site) moved(f *plot) site {
	old := s.given.Index
	j := copied(old.Job())
	out := s
	out.whole, out.short = map[job.ID][]legged{}, true
	for i := range j.Net.Points {
		if at, ok := old.Where(&j.Net.Points[i]); ok {
			at = f.point(at)
			j.Net.Points[i].At, j.Net.Points[i].On = &at, nil
		}
	}
	for i := range j.Net.Runs {
		r := &j.Net.Runs[i]
		legs := s.legs(r)
		r.Path = nil
		for k, l := range legs {
			drawn := l
			drawn.a, drawn.b = f.point(l.a), f.point(l.b)
			out.whole[r.ID] = append(out.whole[r.ID], drawn)
			corners, at := f.crossed(l.a, l.b)
			if len(at) > 0 {
				out.breaks = append(out.breaks, lineBreak{r.ID, drawn, at})
			}
			if r.Path = append(r.Path, corners...); k+1 < len(legs) {
				r.Path = append(r.Path, drawn.b)
			}
		}
	}
	out.faint = faintBreaks(&j.Building, f)
	moveBuilding(&j.Building, f)
	out.given = movedWork(s.given, f)
	out.given.Index = job.NewIndex(j)
	out.ends = slices.Clone(s.ends)
	for i := range out.ends {
		out.ends[i].at = f.point(out.ends[i].at)
	}
	if w := s.window; w != nil {
		out.window = &window{low: f.flat(w.low), high: f.flat(w.high)}
	}
	return out
}

// crossed are the corners that a stretch gets at the slabs that it crosses, and the middles of
// these, as drawn.
func (f *plot) crossed(a, b geom.Point) (corners, at []geom.Point) {
	for k := range 2 {
		for _, s := range f[k].slabs {
			if min(a[k], b[k]) > s.from || max(a[k], b[k]) < s.to {
				continue
			}
			on := func(v float64) geom.Point { return f.point(mixed(a, b, (v-a[k])/(b[k]-a[k]))) }
			two := []geom.Point{on(s.from), on(s.to)}
			at = append(at, mixed(two[0], two[1], 0.5))
			corners = append(corners, two...)
		}
	}
	from := f.point(a)
	slices.SortFunc(corners, func(p, q geom.Point) int {
		if p.Distance(from) < q.Distance(from) {
			return -1
		}
		return 1
	})
	return corners, at
}

func mixed(a, b geom.Point, t float64) geom.Point { return a.Plus(b.Minus(a).Times(t)) }

// faintBreaks are the breaks of the edges of floors and the tops of walls.
func faintBreaks(b *job.Building, f *plot) []lineBreak {
	var all []lineBreak
	edge := func(from, to geom.Point) {
		if _, at := f.crossed(from, to); len(at) > 0 {
			all = append(all, lineBreak{leg: legged{a: from, b: to}, at: at})
		}
	}
	for _, r := range b.Rooms {
		for i, c := range r.Outline {
			edge(c.At(float64(r.Floor)), r.Outline[(i+1)%len(r.Outline)].At(float64(r.Floor)))
		}
	}
	for i := range b.Walls {
		w := &b.Walls[i]
		edge(w.From.At(float64(w.Floor+w.Height)), w.To.At(float64(w.Floor+w.Height)))
	}
	return all
}

func moveBuilding(b *job.Building, f *plot) {
	for i := range b.Rooms {
		b.Rooms[i].Outline = slices.Clone(b.Rooms[i].Outline)
		for k, c := range b.Rooms[i].Outline {
			b.Rooms[i].Outline[k] = f.flat(c)
		}
	}
	for i := range b.Walls {
		b.Walls[i].From, b.Walls[i].To = f.flat(b.Walls[i].From), f.flat(b.Walls[i].To)
	}
}

// movedWork moves cuts and joints.
func movedWork(g Given, f *plot) Given {
	if g.Work == nil {
		return g
	}
	work := *g.Work
	work.Cuts, work.Joints = slices.Clone(work.Cuts), slices.Clone(work.Joints)
	for i := range work.Cuts {
		work.Cuts[i].A, work.Cuts[i].B = f.point(work.Cuts[i].A), f.point(work.Cuts[i].B)
	}
	for i := range work.Joints {
		work.Joints[i].At = f.point(work.Joints[i].At)
	}
	g.Work = &work
	return g
}

// straight are the ways of runs without the steps that they have at breaks.
func (s *site) straight() map[job.ID][]geom.Point {
	all := map[job.ID][]geom.Point{}
	for _, b := range s.breaks {
		if len(s.whole[b.run]) == 0 {
			continue
		}
		way := []geom.Point{s.whole[b.run][0].a}
		for _, l := range s.whole[b.run] {
			way = append(way, l.b)
		}
		all[b.run] = way
	}
	return all
}
