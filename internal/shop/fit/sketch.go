package fit

import (
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// sketch is a copy of the net that a gesture draws on. Its difference from the
// job is the edit, so that a thing drawn on and left as it was is no change.
type sketch struct {
	ix      *job.Index
	shelf   *catalog.Catalog
	points  []*node
	runs    []*job.Run
	outlets []*job.Outlet
	sets    []*job.Set
	byPoint map[job.ID]*node
	byRun   map[job.ID]*job.Run
	byEnds  map[job.ID][]end    // run ends by point; nil when runs have changed
	taken   map[job.ID]bool     // ids made here
	pieces  map[job.ID][]job.ID // what a run was cut into, itself first
	dirty   map[job.ID]bool     // points whose part is to be made true
	made    []job.ID            // new things in the order they were made
}

// node is a point with its place worked out.
type node struct {
	job.Point
	where  geom.Point
	placed bool
}

// end is one end of a run at a point.
type end struct {
	run  *job.Run
	atTo bool
}

func (e end) at() *job.End {
	if e.atTo {
		return &e.run.To
	}
	return &e.run.From
}

func (e end) other() *job.End {
	if e.atTo {
		return &e.run.From
	}
	return &e.run.To
}

// sketchOf copies the net of a job.
func sketchOf(ix *job.Index, shelf *catalog.Catalog) *sketch {
	j := ix.Job()
	full, _ := shelf.With(j.Catalogue) // rows of the job that cannot be used are told by its validation
	s := &sketch{
		ix: ix, shelf: full, byPoint: make(map[job.ID]*node, len(j.Net.Points)), byRun: make(map[job.ID]*job.Run, len(j.Net.Runs)),
		taken: map[job.ID]bool{}, pieces: map[job.ID][]job.ID{}, dirty: map[job.ID]bool{},
	}
	for i := range j.Net.Points {
		n := &node{Point: j.Net.Points[i]}
		n.where, n.placed = ix.Where(&j.Net.Points[i])
		s.points = append(s.points, n)
		s.byPoint[n.ID] = n
	}
	for i := range j.Net.Runs {
		r := j.Net.Runs[i]
		r.Path = slices.Clone(r.Path)
		s.runs = append(s.runs, &r)
		s.byRun[r.ID] = &r
	}
	for i := range j.Outlets {
		o := j.Outlets[i]
		o.Tools = slices.Clone(o.Tools)
		s.outlets = append(s.outlets, &o)
	}
	for i := range j.Work.Sets {
		t := j.Work.Sets[i]
		t.Running = slices.Clone(t.Running)
		s.sets = append(s.sets, &t)
	}
	return s
}

// fresh is an id that no thing of the job or the sketch has or had.
func (s *sketch) fresh(stem job.ID) job.ID {
	id := s.ix.FreshID(stem)
	for s.taken[id] {
		id = s.ix.FreshID(next(id))
	}
	s.taken[id] = true
	s.made = append(s.made, id)
	return id
}

// ends lists the run ends at a point in the order of the runs.
func (s *sketch) ends(point job.ID) []end {
	if s.byEnds == nil {
		s.byEnds = make(map[job.ID][]end, len(s.points))
		for _, r := range s.runs {
			s.byEnds[r.From.Point] = append(s.byEnds[r.From.Point], end{run: r})
			s.byEnds[r.To.Point] = append(s.byEnds[r.To.Point], end{run: r, atTo: true})
		}
	}
	return s.byEnds[point]
}

// outletsAt lists the outlets at a point.
func (s *sketch) outletsAt(point job.ID) []*job.Outlet {
	var out []*job.Outlet
	for _, o := range s.outlets {
		if o.Point == point {
			out = append(out, o)
		}
	}
	return out
}

// outlet is the outlet of an id, or nil.
func (s *sketch) outlet(id job.ID) *job.Outlet {
	for _, o := range s.outlets {
		if o.ID == id {
			return o
		}
	}
	return nil
}

// addPoint adds a point; its part is made true at the end if it is a fitting.
func (s *sketch) addPoint(stem job.ID, at spot, part job.Part, state string) *node {
	n := &node{Point: job.Point{ID: s.fresh(stem), Part: part, State: state}, where: at.at, placed: true}
	s.points = append(s.points, n)
	s.byPoint[n.ID] = n
	s.dirty[n.ID] = true
	if n.On = at.on; at.on == nil {
		p := at.at
		n.At = &p
	}
	return n
}

// addRun adds a run like another one.
func (s *sketch) addRun(stem job.ID, like job.Run, from, to job.End, path []geom.Point) *job.Run {
	r := like
	r.ID, r.From, r.To, r.Path, r.Length = s.fresh(stem), from, to, path, nil
	s.runs = append(s.runs, &r)
	s.byRun[r.ID] = &r
	s.moved(&r)
	return &r
}

// moved notes that a run's ends or way changed.
func (s *sketch) moved(r *job.Run) {
	s.byEnds = nil
	s.dirty[r.From.Point], s.dirty[r.To.Point] = true, true
}

// lead leads one end of a run to another point and port.
func (s *sketch) lead(e end, to job.End) {
	s.dirty[e.at().Point] = true
	*e.at() = to
	s.moved(e.run)
}

// dropRun takes a run out.
func (s *sketch) dropRun(r *job.Run) {
	s.moved(r)
	s.runs = slices.DeleteFunc(s.runs, func(x *job.Run) bool { return x == r })
	delete(s.byRun, r.ID)
	s.unmake(r.ID)
}

// dropPoint takes a point out that nothing is joined to.
func (s *sketch) dropPoint(n *node) {
	s.points = slices.DeleteFunc(s.points, func(x *node) bool { return x == n })
	delete(s.byPoint, n.ID)
	delete(s.dirty, n.ID)
	s.unmake(n.ID)
}

func (s *sketch) unmake(id job.ID) {
	s.made = slices.DeleteFunc(s.made, func(x job.ID) bool { return x == id })
}

// way is a run's centreline; nil where an end has no place or the run states its
// length instead.
func (s *sketch) way(r *job.Run) []geom.Point {
	from, to := s.byPoint[r.From.Point], s.byPoint[r.To.Point]
	if r.Length != nil || from == nil || to == nil || !from.placed || !to.placed {
		return nil
	}
	out := make([]geom.Point, 0, len(r.Path)+2)
	out = append(append(out, from.where), r.Path...)
	return append(out, to.where)
}

// leaving is the direction in which a run leaves the point at one of its ends.
func (s *sketch) leaving(e end) (geom.Point, bool) {
	return geom.Heading(s.way(e.run), e.atTo)
}

// kind is the kind of a part, empty for one that the shelf does not know.
func (s *sketch) kind(p *job.Part) catalog.Kind {
	k, _ := s.shelf.Kind(p.Kind)
	return k
}

// state is the state of new things: as asked, else that of the line they stand in.
func stateOr(asked, of string) string {
	if asked != "" {
		return asked
	}
	return of
}
