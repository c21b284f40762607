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
	c := &counter{
		job: j, shelf: shelf, index: job.NewIndex(j), system: system, threads: "r", lines: book{}, implied: book{},
		cutAt: map[job.ID]bool{}, coupled: map[job.ID]bool{}, taken: map[string]bool{}, bent: map[string]bool{},
		pieceNo: map[job.ID]int{}, couplingNo: map[job.ID]int{}, kinds: shelf.Kinds(),
	}
	c.straight = c.coupling()
	if system == unit.US {
		c.threads = "npt"
	}
	c.runs()
	c.points()
	c.outlets()
	c.tools()
	c.connect()
	return c.answer()
}

// connect cuts the lines to pieces, makes every joint and numbers it, and lists what
// making them takes.
func (c *counter) connect() {
	c.settle()
	w := &walk{counter: c, at: map[job.ID][]exit{}, own: map[job.ID][]*Joint{}}
	strands := c.lay()
	for _, s := range strands {
		c.strand(s)
	}
	c.faces(w)
	c.hangings(w)
	w.number(strands)
	c.supplies()
	c.labels()
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
	mass   float64 // kg
	litres float64
	rooms  map[job.ID]*Room
}

// counter walks the job once.
type counter struct {
	job     *job.Job
	shelf   *catalog.Catalog
	index   *job.Index
	system  unit.System
	threads string // kind of pipe thread in this country, as the catalogue names it
	lines   book   // what is drawn
	implied book   // what is not

	kinds    []catalog.Kind
	straight catalog.Kind // the coupling

	ends    map[job.ID][]runEnd
	hangs   []string        // by outlet: the port that it takes
	cutAt   map[job.ID]bool // plain places where a ring of plain places is cut
	coupled map[job.ID]bool // plain places whose coupling is counted
	taken   map[string]bool // ids of joints
	bent    map[string]bool // bends that lie in a piece

	cuts                []*Piece
	joints              []*Joint
	pieceNo, couplingNo map[job.ID]int
}

// book holds lines being counted.
type book map[key]*tally

// tally finds or opens the line of an article.
func (b book) tally(l Line, state State, each unit.Length) *tally {
	k := key{l.Article, state, each}
	t := b[k]
	if t == nil {
		l.State = state
		t = &tally{line: l, rooms: map[job.ID]*Room{}}
		b[k] = t
	}
	return t
}

// pieces counts n pieces of an article that is drawn.
func (c *counter) pieces(l Line, state State, n int, from string, at job.ID) {
	c.lines.pieces(l, state, n, from, at)
}

// pieces counts n pieces of an article.
func (b book) pieces(l Line, state State, n int, from string, at job.ID) {
	t := b.tally(l, state, lengthOf(l.Length))
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

// answer puts all in order, prices the lines and leads from things to them.
func (c *counter) answer() *Answer {
	a := &Answer{
		Currency: c.job.Money(), Lines: c.listed(c.lines), Implied: c.listed(c.implied),
		Pieces: make([]Piece, len(c.cuts)), Joints: make([]Joint, len(c.joints)), Tools: c.toolbox(), Rules: rules(),
	}
	c.stack(a)
	for i, j := range c.joints {
		a.Joints[i] = *j
	}
	a.Totals = a.total()
	c.price(a)
	a.link()
	return a
}

// listed puts the lines of a book in order.
func (c *counter) listed(b book) []Line {
	lines := make([]Line, 0, len(b))
	for _, t := range b {
		l := t.line
		switch {
		case l.Group == Supplies:
			l.Joints, l.Pieces = l.Pieces, 0
			if t.metres > 0 {
				l.Length = long(rounded(t.metres, 1e3))
			}
			l.Mass, l.Paste = unit.Mass(rounded(t.mass, 1e4)), unit.Volume(rounded(t.litres, 1e4)/1000)
			l.Counted = c.counted(&l)
		case l.Group == Stock:
			l.Length = long(rounded(t.metres, 1e6))
		}
		for _, r := range t.rooms {
			if r.Length != nil {
				r.Length = long(rounded(float64(*r.Length), 1e6))
			}
			l.Rooms = append(l.Rooms, *r)
		}
		slices.SortFunc(l.Rooms, func(x, y Room) int { return cmp.Compare(x.Room, y.Room) })
		if len(c.job.Building.Rooms) == 0 {
			l.Rooms = nil
		}
		lines = append(lines, l)
	}
	slices.SortFunc(lines, compareLines)
	return lines
}

// rounded takes off what adding up leaves in the last places: a micrometre, a cent.
func rounded(x, steps float64) float64 { return math.Round(x*steps) / steps }

// compareLines orders by state (planned first), group, article and length.
func compareLines(x, y Line) int {
	return cmp.Or(
		compareStates(x.State, y.State),
		cmp.Compare(slices.Index(Groups(), x.Group), slices.Index(Groups(), y.Group)),
		cmp.Compare(x.Article, y.Article),
		cmp.Compare(lengthOf(x.Length), lengthOf(y.Length)),
	)
}

// compareStates puts what is to be built first.
func compareStates(x, y State) int {
	states := []State{Planned, Existing, Stub}
	return cmp.Compare(slices.Index(states, x), slices.Index(states, y))
}
