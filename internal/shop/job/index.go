package job

import (
	"fmt"
	"strings"

	"dropleg/engine/geom"
)

// Index knows the things of one job by id. It is built in one pass and holds
// pointers into the job, which is not to be changed through them.
type Index struct {
	job     *Job
	things  map[ID]any
	ends    map[ID][]RunEnd
	outlets map[ID][]*Outlet
	byHose  map[ID]*Outlet
	byPart  map[ID]*Outlet
	rooms   []bounds
}

// RunEnd is one end of a run at a point.
type RunEnd struct {
	Run  *Run
	Port string
	AtTo bool // its end To, else From
}

// bounds is a room's rectangle, to pass over most rooms quickly.
type bounds struct{ low, high geom.Flat }

// NewIndex indexes a job. Of things that share an id (which Validate refuses)
// the first counts.
func NewIndex(j *Job) *Index {
	ix := &Index{
		job: j, things: make(map[ID]any, 2*len(j.Net.Points)+2*len(j.Net.Runs)),
		ends: make(map[ID][]RunEnd, len(j.Net.Points)), outlets: map[ID][]*Outlet{},
		byHose: map[ID]*Outlet{}, byPart: map[ID]*Outlet{},
	}
	for _, l := range lists() {
		for i := range l.size(j) {
			if id := l.id(j, i); ix.things[id] == nil {
				ix.things[id] = l.thing(j, i)
			}
		}
	}
	for i := range j.Net.Runs {
		r := &j.Net.Runs[i]
		ix.ends[r.From.Point] = append(ix.ends[r.From.Point], RunEnd{Run: r, Port: r.From.Port})
		ix.ends[r.To.Point] = append(ix.ends[r.To.Point], RunEnd{Run: r, Port: r.To.Port, AtTo: true})
	}
	for i := range j.Outlets {
		o := &j.Outlets[i]
		ix.outlets[o.Point] = append(ix.outlets[o.Point], o)
		if o.Hose != nil {
			ix.byHose[o.Hose.ID] = o
		}
		for k := range o.Hang {
			if id := o.Hang[k].ID; id != "" {
				ix.byPart[id] = o
			}
		}
	}
	for i := range j.Building.Rooms {
		low, high, _ := geom.Bounds(j.Building.Rooms[i].Outline)
		ix.rooms = append(ix.rooms, bounds{low, high})
	}
	return ix
}

// Job is the job indexed.
func (ix *Index) Job() *Job { return ix.job }

// Has says whether a thing of the job has the id, hoses and hanging parts
// included.
func (ix *Index) Has(id ID) bool {
	return ix.things[id] != nil || ix.byHose[id] != nil || ix.byPart[id] != nil
}

// find is the thing of an id if it is of type T, else nil.
func find[T any](ix *Index, id ID) *T {
	t, _ := ix.things[id].(*T)
	return t
}

// Zone is the zone of an id, or nil.
func (ix *Index) Zone(id ID) *Zone { return find[Zone](ix, id) }

// Room is the room of an id, or nil.
func (ix *Index) Room(id ID) *Room { return find[Room](ix, id) }

// Wall is the wall of an id, or nil.
func (ix *Index) Wall(id ID) *Wall { return find[Wall](ix, id) }

// Opening is the opening of an id, or nil.
func (ix *Index) Opening(id ID) *Opening { return find[Opening](ix, id) }

// Obstacle is the obstacle of an id, or nil.
func (ix *Index) Obstacle(id ID) *Obstacle { return find[Obstacle](ix, id) }

// Point is the point of an id, or nil.
func (ix *Index) Point(id ID) *Point { return find[Point](ix, id) }

// Run is the run of an id, or nil.
func (ix *Index) Run(id ID) *Run { return find[Run](ix, id) }

// Outlet is the outlet of an id, or nil.
func (ix *Index) Outlet(id ID) *Outlet { return find[Outlet](ix, id) }

// Tool is the tool of an id, or nil.
func (ix *Index) Tool(id ID) *Tool { return find[Tool](ix, id) }

// Set is the set of an id, or nil.
func (ix *Index) Set(id ID) *Set { return find[Set](ix, id) }

// Offer is the offer of an id, or nil.
func (ix *Index) Offer(id ID) *Offer { return find[Offer](ix, id) }

// Plan is the plan of an id, or nil.
func (ix *Index) Plan(id ID) *Plan { return find[Plan](ix, id) }

// Record is the record of an id, or nil.
func (ix *Index) Record(id ID) *Record { return find[Record](ix, id) }

// OutletOfHose is the outlet at which a hose is plugged in, or nil.
func (ix *Index) OutletOfHose(hose ID) *Outlet { return ix.byHose[hose] }

// OutletOfPart is the outlet at which a part with an id of its own hangs, or nil.
func (ix *Index) OutletOfPart(part ID) *Outlet { return ix.byPart[part] }

// Ends lists the run ends at a point in the order of the runs.
func (ix *Index) Ends(point ID) []RunEnd { return ix.ends[point] }

// OutletsAt lists the outlets at a point in the order of the job.
func (ix *Index) OutletsAt(point ID) []*Outlet { return ix.outlets[point] }

// Other is the point at the run's other end.
func (e RunEnd) Other() ID {
	if e.AtTo {
		return e.Run.From.Point
	}
	return e.Run.To.Point
}

// taken says whether an id is or was a thing of the job.
func (ix *Index) taken(id ID) bool { return ix.Has(id) || isRetired(ix.job, id) }

// FreshID is an id that no thing of the job has or had: the stem itself
// ("point.tee"), or with the first free number behind it ("point.tee-2").
func (ix *Index) FreshID(stem ID) ID { return freshID(stem, ix.taken) }

// freshID tries the stem, then the stem with a number. A number that the stem
// ends in is counted on from, so that line.main-3 gives line.main-4.
func freshID(stem ID, taken func(ID) bool) ID {
	if !taken(stem) {
		return stem
	}
	base, n := string(stem), 2
	if i := strings.LastIndexByte(base, '-'); i > 0 {
		var k int
		if _, err := fmt.Sscanf(base[i+1:], "%d", &k); err == nil && k >= 0 && k < 1e9 && fmt.Sprint(k) == base[i+1:] {
			base, n = base[:i], k+1
		}
	}
	for ; ; n++ {
		if id := ID(fmt.Sprintf("%s-%d", base, n)); !taken(id) {
			return id
		}
	}
}

// PartAt is the part that an element of the net is: that of a point, or one that hangs at
// an outlet, which need not have an id of its own and is then known by its kind and row;
// nil for none.
func (ix *Index) PartAt(id, outlet ID, kind, item string) *Part {
	if pt := ix.Point(id); pt != nil {
		return &pt.Part
	}
	if o := ix.Outlet(outlet); o != nil {
		for i := range o.Hang {
			h := &o.Hang[i]
			if h.ID != "" && h.ID == id || h.ID == "" && h.Kind == kind && h.Item == item {
				return h
			}
		}
	}
	return nil
}
