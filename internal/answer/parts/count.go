package parts

import (
	"cmp"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Of is the take-off of a job that is valid, by the shelf with its own rows on
// top; what the shelf does not know is listed by the name it has in the job.
func Of(j *job.Job, shelf *catalog.Catalog) *Answer {
	system, err := unit.ParseSystem(j.Site.Units)
	if err != nil {
		system = unit.Metric
	}
	c := &counter{job: j, shelf: shelf, index: job.NewIndex(j), system: system, lines: map[key]*tally{}}
	c.runs()
	c.points()
	c.outlets()
	c.tools()
	return c.answer()
}

// key is what makes two things one article.
type key struct {
	article string
	state   State
	each    unit.Length // length of one, for hoses
}

// tally is a line being counted.
type tally struct {
	line   Line
	metres float64
	rooms  map[job.ID]*Room
}

// counter walks the job once.
type counter struct {
	job    *job.Job
	shelf  *catalog.Catalog
	index  *job.Index
	system unit.System
	lines  map[key]*tally
}

// tally finds or opens the line of an article.
func (c *counter) tally(l Line, state State, each unit.Length) *tally {
	k := key{l.Article, state, each}
	t := c.lines[k]
	if t == nil {
		l.State = state
		t = &tally{line: l, rooms: map[job.ID]*Room{}}
		c.lines[k] = t
	}
	return t
}

// pieces counts n pieces of an article.
func (c *counter) pieces(l Line, state State, n int, from string, at job.ID) {
	t := c.tally(l, state, lengthOf(l.Length))
	t.line.Pieces += n
	t.line.From = append(t.line.From, from)
	t.room(at).Pieces += n
}

func (t *tally) room(id job.ID) *Room {
	r := t.rooms[id]
	if r == nil {
		r = &Room{Room: id}
		t.rooms[id] = r
	}
	return r
}

// roomAt is the room of a place, "" outside.
func (c *counter) roomAt(p geom.Point, known bool) job.ID {
	if known {
		if r := c.index.RoomAt(p); r != nil {
			return r.ID
		}
	}
	return ""
}

// stateOf reads the state of a point or run; none stated is planned.
func stateOf(word string) State {
	if word == "" {
		return Planned
	}
	return State(word)
}

func lengthOf(l *unit.Length) unit.Length {
	if l == nil {
		return 0
	}
	return *l
}

// answer puts the lines in order and prices them.
func (c *counter) answer() *Answer {
	a := &Answer{Currency: cmp.Or(c.job.Prices.Currency, c.job.Site.Currency), Lines: []Line{}}
	for _, t := range c.lines {
		l := t.line
		if l.Group == Stock {
			l.Length = new(unit.Length(rounded(t.metres, 1e6)))
		}
		for _, r := range t.rooms {
			if r.Length != nil {
				r.Length = new(unit.Length(rounded(float64(*r.Length), 1e6)))
			}
			l.Rooms = append(l.Rooms, *r)
		}
		slices.SortFunc(l.Rooms, func(x, y Room) int { return cmp.Compare(x.Room, y.Room) })
		if len(c.job.Building.Rooms) == 0 {
			l.Rooms = nil
		}
		a.Lines = append(a.Lines, l)
	}
	slices.SortFunc(a.Lines, compareLines)
	c.price(a)
	return a
}

// rounded takes off what adding up leaves in the last places: a micrometre, a cent.
func rounded(x, steps float64) float64 { return math.Round(x*steps) / steps }

// compareLines orders by state (planned first), group, article and length.
func compareLines(x, y Line) int {
	states := []State{Planned, Existing, Stub}
	return cmp.Or(
		cmp.Compare(slices.Index(states, x.State), slices.Index(states, y.State)),
		cmp.Compare(slices.Index(Groups(), x.Group), slices.Index(Groups(), y.Group)),
		cmp.Compare(x.Article, y.Article),
		cmp.Compare(lengthOf(x.Length), lengthOf(y.Length)),
	)
}
