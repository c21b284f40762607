package parts

import (
	"cmp"
	"fmt"
	"strings"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// mouth is an opening that is to be joined: a port of a part or the end of a pipe.
type mouth struct {
	side   Side
	way    string        // "pipe", else as the catalogue says that the port is joined; "" not known
	stock  catalog.Stock // of the pipe, or of the line that the part is made for
	size   string        // of the pipe, or of a port that is joined as the stock is
	thread string        // size of the thread, of a port or of the stock's own
	stated bool          // the size is its own, not that of the line
	state  State
}

// form is how a mouth meets another.
type form string

// The forms: threads, and a tube and what it goes into by the stock's own way of
// joining. Other ways of the catalogue are forms of their own.
const (
	male   form = "male"
	female form = "female"
	tube   form = "tube"
	cup    form = "cup"
)

// usual is the usual way of joining a stock, "" where it is not known.
func usual(s catalog.Stock) string {
	if len(s.Joining) == 0 {
		return ""
	}
	return s.Joining[0]
}

// form reads how the mouth meets another: of a stock that is threaded the pipe is a
// male thread and a port for it a female one.
func (m mouth) form() form {
	threaded := usual(m.stock) == threadJoint
	switch m.way {
	case "pipe":
		if threaded {
			return male
		}
		return tube
	case "stock", "":
		if threaded {
			return female
		}
		return cup
	case "thread-female":
		return female
	case "thread-male":
		return male
	}
	return form(m.way)
}

const threadJoint = "thread"

// portOf is a port of a part as a mouth. stock and size are of the line that the part
// is made for.
func (c *counter) portOf(thing string, part *job.Part, port, stock, size string, state State) mouth {
	m := mouth{side: Side{thing, port}, state: state}
	m.stock, _ = c.shelf.Stock(stock)
	kind, known := c.shelf.Kind(part.Kind)
	if !known {
		return m
	}
	p, ok := kind.Port(port)
	if !ok || port == "" {
		return m
	}
	m.way = p.Joint
	own := part.Size
	if p.Size == "branch" {
		own = part.Size2
	}
	if row, ok := c.shelf.Treat(part.Item); ok {
		own = cmp.Or(own, row.Size)
	}
	m.size, m.stated = cmp.Or(own, size), own != ""
	m.thread = c.threadFor(m.size, m.stock)
	return m
}

// pipeEnd is the end of a run as a mouth; which piece it is shows when it is cut.
func (c *counter) pipeEnd(e runEnd) mouth {
	m := mouth{way: "pipe", size: e.run.Size, state: stateOf(e.run.State), stated: true}
	m.stock, _ = c.shelf.Stock(e.run.Stock)
	m.thread = c.threadFor(e.run.Size, m.stock)
	return m
}

// threadFor is the thread of a size: the size itself where it is one of a thread,
// else the one that goes with that size of the stock; "" not known.
func (c *counter) threadFor(size string, s catalog.Stock) string {
	z, ok := s.Size(size)
	if ok && z.ThreadFor != "" {
		return z.ThreadFor
	}
	if t, ok := c.shelf.Thread(c.threads, size); ok {
		return t.Size
	}
	return ""
}

// sameSystem says whether two stocks are joined alike: one usual way, and sizes of
// one measure. Copper and composite pipe are not, nor inch and metric tube.
func sameSystem(a, b catalog.Stock) bool {
	return a.Stock == b.Stock || usual(a) == usual(b) && a.Metric() == b.Metric()
}

// link is what goes between two mouths that do not meet.
type link struct {
	word          string
	first, second form // facing the first mouth and the second
}

// between says what goes between two forms; the zero link is nothing. A pair that is
// not here, either way round, cannot be joined.
var between = map[[2]form]link{
	{male, female}:     {},
	{tube, cup}:        {},
	{"socket", "plug"}: {},
	{female, female}:   {"nipple", male, male},
	{male, male}:       {"threaded socket", female, female},
	{tube, female}:     {"adapter", cup, male},
	{tube, male}:       {"adapter", cup, female},
	{cup, female}:      {"adapter", tube, male},
	{cup, male}:        {"adapter", tube, female},
	{cup, cup}:         {"short length", tube, tube},
}

// links looks up what goes between two forms.
func links(a, b form) (l link, ok bool) {
	if l, ok = between[[2]form{a, b}]; ok {
		return l, true
	}
	l, ok = between[[2]form{b, a}]
	l.first, l.second = l.second, l.first
	return l, ok
}

// line is a link between two mouths as it is bought: by the stock and size of the
// pipe and the size of the thread, or by the sizes of its threads alone.
func (l link) line(a, b mouth) Line {
	stock, other, end := a, b, l.second
	if !l.first.ofStock() {
		stock, other, end = b, a, l.first
	}
	line := Line{Group: Fitting, Stock: stock.stock.Stock, Size: stock.size, Words: l.word + " " + SizeWords(stock.size)}
	switch {
	case !l.first.ofStock() && !l.second.ofStock():
		line.Stock, line.Size = "", a.thread
		if b.thread != a.thread {
			line.Size += " x " + b.thread
		}
		line.Words = l.word + " " + SizeWords(strings.ReplaceAll(line.Size, " x ", " × "))
	case !end.ofStock():
		line.Size = fmt.Sprintf("%s x %s %s", stock.size, other.thread, end)
		line.Words += fmt.Sprintf(" to %s, %s thread", SizeWords(other.thread), end)
	}
	line.Article = strings.TrimSpace(line.Stock + " " + l.word + " " + line.Size)
	if line.Stock != "" {
		line.Words += ", " + stock.stock.Words
	}
	return line
}

// ofStock says whether a form is joined by the stock's own way.
func (f form) ofStock() bool { return f == tube || f == cup }
