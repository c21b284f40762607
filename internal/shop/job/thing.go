package job

import (
	"strings"
	"sync"
)

// Word is the kind of a thing, the part of its id before the first dot.
func (id ID) Word() string {
	w, _, _ := strings.Cut(string(id), ".")
	return w
}

// list is one list of things of the job, whatever their type.
type list interface {
	word() string // "point": what its ids begin with
	path() string // "net.points"
	size(*Job) int
	id(j *Job, i int) ID
	idOf(thing any) ID
	thing(j *Job, i int) any         // pointer into the list
	fresh() any                      // pointer to a new thing
	copyOf(thing any) any            // pointer to a copy that shares nothing at its top
	own(*Job)                        // copies the list, so that it may be written
	put(j *Job, i int, thing any)    // in an owned list
	insert(j *Job, i int, thing any) // in an owned list
	cut(j *Job, i int)               // in an owned list
}

// listOf is the list of one type.
type listOf[T any] struct {
	w, p string
	in   func(*Job) *[]T
	key  func(*T) *ID
}

func (l listOf[T]) word() string            { return l.w }
func (l listOf[T]) path() string            { return l.p }
func (l listOf[T]) size(j *Job) int         { return len(*l.in(j)) }
func (l listOf[T]) id(j *Job, i int) ID     { return *l.key(&(*l.in(j))[i]) }
func (l listOf[T]) idOf(thing any) ID       { return *l.key(thing.(*T)) }
func (l listOf[T]) thing(j *Job, i int) any { return &(*l.in(j))[i] }
func (l listOf[T]) fresh() any              { return new(T) }

func (l listOf[T]) copyOf(thing any) any {
	c := *thing.(*T)
	return &c
}

func (l listOf[T]) own(j *Job) {
	s := l.in(j)
	fresh := make([]T, len(*s), len(*s)+len(*s)/4+1)
	copy(fresh, *s)
	*s = fresh
}

func (l listOf[T]) put(j *Job, i int, thing any) { (*l.in(j))[i] = *thing.(*T) }

func (l listOf[T]) insert(j *Job, i int, thing any) {
	s := l.in(j)
	var zero T
	*s = append(*s, zero)
	copy((*s)[i+1:], (*s)[i:])
	(*s)[i] = *thing.(*T)
}

func (l listOf[T]) cut(j *Job, i int) {
	s := l.in(j)
	*s = append((*s)[:i], (*s)[i+1:]...)
	if len(*s) == 0 {
		*s = nil // as a job that never had one
	}
}

// lists is every list of things, in the order of the document.
var lists = sync.OnceValue(func() []list {
	return []list{
		listOf[Zone]{"zone", "building.zones", func(j *Job) *[]Zone { return &j.Building.Zones }, func(t *Zone) *ID { return &t.ID }},
		listOf[Room]{"room", "building.rooms", func(j *Job) *[]Room { return &j.Building.Rooms }, func(t *Room) *ID { return &t.ID }},
		listOf[Wall]{"wall", "building.walls", func(j *Job) *[]Wall { return &j.Building.Walls }, func(t *Wall) *ID { return &t.ID }},
		listOf[Opening]{"opening", "building.openings", func(j *Job) *[]Opening { return &j.Building.Openings }, func(t *Opening) *ID { return &t.ID }},
		listOf[Obstacle]{"obstacle", "building.obstacles", func(j *Job) *[]Obstacle { return &j.Building.Obstacles }, func(t *Obstacle) *ID { return &t.ID }},
		listOf[Point]{"point", "net.points", func(j *Job) *[]Point { return &j.Net.Points }, func(t *Point) *ID { return &t.ID }},
		listOf[Run]{"line", "net.runs", func(j *Job) *[]Run { return &j.Net.Runs }, func(t *Run) *ID { return &t.ID }},
		listOf[Outlet]{"outlet", "outlets", func(j *Job) *[]Outlet { return &j.Outlets }, func(t *Outlet) *ID { return &t.ID }},
		listOf[Tool]{"tool", "tools", func(j *Job) *[]Tool { return &j.Tools }, func(t *Tool) *ID { return &t.ID }},
		listOf[Set]{"set", "work.sets", func(j *Job) *[]Set { return &j.Work.Sets }, func(t *Set) *ID { return &t.ID }},
		listOf[Offer]{"offer", "prices.offers", func(j *Job) *[]Offer { return &j.Prices.Offers }, func(t *Offer) *ID { return &t.ID }},
		listOf[Plan]{"plan", "plans", func(j *Job) *[]Plan { return &j.Plans }, func(t *Plan) *ID { return &t.ID }},
		listOf[Record]{"record", "records", func(j *Job) *[]Record { return &j.Records }, func(t *Record) *ID { return &t.ID }},
	}
})

// words lists the kinds of things that stand in lists of the job.
func words() []string {
	var out []string
	for _, l := range lists() {
		out = append(out, l.word())
	}
	return out
}

// listFor is the list of things of a kind; nil for none.
func listFor(word string) list {
	for _, l := range lists() {
		if l.word() == word {
			return l
		}
	}
	return nil
}

// inner lists the ids of what hangs within a thing: hose and parts of an outlet.
func inner(thing any) []ID {
	o, ok := thing.(*Outlet)
	if !ok {
		return nil
	}
	var out []ID
	if o.Hose != nil {
		out = append(out, o.Hose.ID)
	}
	for i := range o.Hang {
		if id := o.Hang[i].ID; id != "" {
			out = append(out, id)
		}
	}
	return out
}
