package parts

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// place is where a joint is and which room that is.
type place struct {
	at   *geom.Point
	room job.ID
}

// placeAt is the place of a point of the drawing.
func (c *counter) placeAt(p *job.Point) place {
	at, ok := c.index.Where(p)
	if !ok {
		return place{}
	}
	return place{&at, c.roomAt(at, true)}
}

// join makes the joints between two mouths, from the first to the second: one, or
// two with what has to go between them. id is that of the joint at one of them, the
// first unless second says so.
func (c *counter) join(id string, a, b mouth, second bool, where place) []*Joint {
	state := later(a.state, b.state)
	gap, ok := links(a.form(), b.form())
	mixed := c.mixed(a, b)
	if !ok || mixed != "" || gap.word == "" {
		j := c.joint(id, a, b, state, where)
		j.Mixed, j.Problem = mixed != "" || !ok, cmp.Or(mixed, j.Problem)
		if !ok {
			j.Problem = fmt.Sprintf("%s and %s do not join", spoken(a.form()), spoken(b.form()))
		}
		return []*Joint{j}
	}
	thing := id + "-" + strings.ReplaceAll(gap.word, " ", "-")
	first, rest := id, thing+"/end"
	if second {
		first, rest = rest, first
	}
	c.implied.pieces(gap.line(a, b), state, 1, thing, where.room)
	return []*Joint{
		c.joint(first, a, a.turned(gap.first, thing), state, where),
		c.joint(rest, b.turned(gap.second, thing), b, state, where),
	}
}

// turned is the mouth of a link that faces m, which lends it its stock and sizes.
func (m mouth) turned(f form, thing string) mouth {
	ways := map[form]string{male: "thread-male", female: "thread-female", tube: "pipe", cup: "stock"}
	m.way, m.side = ways[f], Side{Thing: thing}
	return m
}

// mixed says what is wrong where two systems of joining meet in one joint; "" nothing.
func (c *counter) mixed(a, b mouth) string {
	if a.way != "stock" && a.way != "" || b.way != "pipe" && b.way != "stock" {
		return ""
	}
	if a.stock.Stock == "" || b.stock.Stock == "" || sameSystem(a.stock, b.stock) {
		return ""
	}
	return fmt.Sprintf("%s in a part for %s: two systems of joining, with no part between them", b.stock.Stock, a.stock.Stock)
}

// joint makes one joint between two mouths that meet.
func (c *counter) joint(id string, a, b mouth, state State, where place) *Joint {
	j := &Joint{ID: c.unique(id), Sides: [2]Side{a.side, b.side}, State: state, Room: where.room, At: where.at}
	threaded := func(f form) bool { return f == male || f == female }
	switch fa, fb := a.form(), b.form(); {
	case threaded(fa) && threaded(fb):
		j.Kind, j.Size = threadJoint, b.thread
		if a.stated && !b.stated {
			j.Size = a.thread
		}
		if a.stated && b.stated && a.thread != b.thread {
			j.Problem = fmt.Sprintf("%s meets %s: a bush is missing", a.thread, b.thread)
		}
	case fa.ofStock() || fb.ofStock():
		pipe := b
		if fa == tube {
			pipe = a
		}
		j.Kind, j.Size = usual(pipe.stock), pipe.size
		if a.stated && b.stated && !sameSize(a, b) {
			j.Problem = fmt.Sprintf("%s meets %s: a reducer is missing", a.size, b.size)
		}
	default:
		row, _ := c.shelf.JointAt(catalog.Port{Joint: b.way}, b.stock, "")
		j.Kind, j.Size = row.Joint, b.size
	}
	c.needs(j)
	c.joints = append(c.joints, j)
	return j
}

// sameSize says whether two mouths of the stock are of one size, however it is written;
// a part may be known by the thread that goes with it.
func sameSize(a, b mouth) bool {
	x, ok1 := a.stock.Size(a.size)
	y, ok2 := b.stock.Size(b.size)
	if ok1 && ok2 {
		return x.Size == y.Size
	}
	return a.size == b.size || a.thread == b.thread
}

// unique keeps the ids apart where a job that is not valid takes one port twice.
func (c *counter) unique(id string) string {
	name := id
	for n := 2; c.taken[name]; n++ {
		name = fmt.Sprintf("%s-%d", id, n)
	}
	c.taken[name] = true
	return name
}

// needs fills in what a joint takes by the catalogue.
func (c *counter) needs(j *Joint) {
	row, ok := c.shelf.Joint(j.Kind)
	if !ok {
		j.Words = "way of joining not known"
		return
	}
	j.Words = row.Words["en"]
	j.Needs.Tools = row.Tools
	i := slices.IndexFunc(row.Steps, func(s string) bool { return strings.Contains(s, "tape") || strings.Contains(s, "paste") })
	if i >= 0 {
		j.Needs.Seal = row.Steps[i]
	}
	if j.Kind != threadJoint {
		return
	}
	t, ok := c.shelf.Thread(c.threads, j.Size)
	if !ok {
		return
	}
	// A row without a make-up ends at its useful thread (ISO 7): as far as it may go.
	in := cmp.Or(t.MakeUp, t.Effective)
	j.Needs.Thread, j.Needs.Engagement = t.Kind+" "+t.Size, in
	if t.Pitch > 0 {
		j.Needs.Turns = math.Round(float64((in-t.HandTight)/t.Pitch)*10) / 10
	}
}

// spoken names a form for people.
func spoken(f form) string {
	switch f {
	case male, female:
		return string(f) + " thread"
	case tube:
		return "pipe"
	case cup:
		return "port for pipe"
	}
	return string(f)
}

// later is the state of what is made of two things: of the one that comes last.
func later(a, b State) State {
	order := []State{Existing, Planned, Stub}
	if slices.Index(order, a) > slices.Index(order, b) {
		return a
	}
	return b
}
