package hold

import (
	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// shop is the work on one job.
type shop struct {
	j      *job.Job
	ix     *job.Index
	shelf  *catalog.Catalog
	air    Temps
	kinds  map[string]catalog.Kind
	elbows []catalog.Kind // that turn a line of stock
	tubes  map[[2]string]*tube
	lines  []*line
	nodes  map[job.ID]*node // of points
	order  []*node          // all nodes, those of corners too
	bars   []*bar
	chains []*chain
	spans  []*span
	untils []until
	a      *Answer
}

// line is a run with a drawing that is held by supports or parts.
type line struct {
	run     *job.Run
	path    []geom.Point
	long    float64
	tube    *tube
	climate Range
	state   string
	bars    []*bar // along it
}

// Of tells how the lines of a job are held, read by shelf. Runs that have no drawing,
// or lie in the ground, are listed and not held.
func Of(j *job.Job, shelf *catalog.Catalog, air Temps) *Answer {
	s := work(j, shelf, air)
	s.tell()
	s.fixings()
	s.links()
	s.marks()
	return s.a
}

// work finds the supports, what moves and what gives way.
func work(j *job.Job, shelf *catalog.Catalog, air Temps) *shop {
	s := &shop{
		j: j, ix: job.NewIndex(j), shelf: shelf, air: air, kinds: map[string]catalog.Kind{}, tubes: map[[2]string]*tube{},
		nodes: map[job.ID]*node{},
		a: &Answer{
			Runs: []Run{}, Supports: []Support{}, Gaps: []Gap{}, Fixings: []Fixing{}, Anchors: []Anchor{}, Stretches: []Stretch{}, Legs: []Leg{},
			Held: []Held{}, Loops: []Loop{}, Links: []Link{}, Bends: []Bend{}, Walls: []Wall{}, Rules: rules(),
		},
	}
	s.readKinds()
	s.readRuns()
	s.readNodes()
	s.bends()
	s.chain()
	for _, c := range s.chains {
		s.lay(c)
	}
	s.stretch()
	s.settleLegs()
	return s
}

// readKinds finds what turns a line of stock: two ports joined as the stock is.
func (s *shop) readKinds() {
	for _, k := range s.shelf.Kinds() {
		s.kinds[k.Kind] = k
		if k.Has(catalog.Turns) && len(k.Ports) == 2 && k.Ports[0].Joint == k.Ports[1].Joint {
			s.elbows = append(s.elbows, k)
		}
	}
}

// kindOf is the kind of a part; what is not known is a kind without roles.
func (s *shop) kindOf(p *job.Part) catalog.Kind {
	if k, ok := s.kinds[p.Kind]; ok {
		return k
	}
	k, _ := s.shelf.Kind(p.Kind)
	return k
}

// readRuns lists the runs, and as lines those that can be held.
func (s *shop) readRuns() {
	for i := range s.j.Net.Runs {
		r := &s.j.Net.Runs[i]
		t := s.tubeOf(r.Stock, r.Size)
		told := Run{
			ID: r.ID, State: stateOf(r.State), Horizontal: t.level, Vertical: t.upright, Unknown: t.unknown,
		}
		path := drawn(s.ix, r)
		if path == nil {
			told.Unknown = append([]string{"drawing"}, t.unknown...)
			told.Climate = s.climate(r, nil)
			s.a.Runs = append(s.a.Runs, told)
			continue
		}
		long := geom.Length(path)
		told.Climate = s.climate(r, path)
		told.Drawn, told.Swept = unit.Length(long), unit.Length(long)
		s.a.Runs = append(s.a.Runs, told)
		if r.Support == "buried" || t.stock.Form == "hose" {
			continue
		}
		s.lines = append(s.lines, &line{run: r, path: path, long: long, tube: t, climate: told.Climate, state: told.State})
	}
}

// drawn is a run's way without double places; nil where it states its length instead
// or has no way.
func drawn(ix *job.Index, r *job.Run) []geom.Point {
	if r.Length != nil {
		return nil
	}
	var path []geom.Point
	for _, p := range ix.Centreline(r) {
		if !p.Finite() {
			return nil
		}
		if len(path) == 0 || p.Distance(path[len(path)-1]) > geom.Tiny {
			path = append(path, p)
		}
	}
	if len(path) < 2 {
		return nil
	}
	return path
}

func stateOf(state string) string {
	if state == "" {
		return "planned"
	}
	return state
}

// climate is how cold and how warm a line gets: in the zones of its ends and its
// middle, or in the one that it states; outside and unheated ones are never warmer in
// winter than the site.
func (s *shop) climate(r *job.Run, path []geom.Point) Range {
	zones := []*job.Zone{s.ix.Zone(r.Zone)}
	if r.Zone == "" && path != nil {
		middle, _, _ := geom.OnPath(path, geom.Length(path)/2)
		zones = zones[:0]
		for _, p := range []geom.Point{middle, path[0], path[len(path)-1]} {
			if z := s.ix.ZoneAt(p); z != nil || len(zones) == 0 {
				zones = append(zones, z)
			}
		}
	}
	out := Range{HotFrom: "room"}
	for i, z := range zones {
		c := s.j.ClimateOf(z)
		if z != nil && (z.Climate == "outside" || z.Climate == "unheated") && s.j.Site.Cold != nil {
			c.Winter = min(c.Winter, *s.j.Site.Cold)
		}
		if i == 0 {
			out.Cold, out.Hot = c.Winter, c.Summer
		}
		out.Cold, out.Hot = min(out.Cold, c.Winter), max(out.Hot, c.Summer)
		out.Assumed = out.Assumed || c.Assumed
	}
	// Absolute temperatures beneath that of liquid nitrogen or of a red heat are no line's.
	if t, ok := s.air[r.ID]; ok && t > 77 && t < 800 && t > out.Hot {
		out.Hot, out.HotFrom = t, "air"
	}
	out.Cold = min(out.Cold, out.Hot)
	return out
}
