package page

import (
	"dropleg/internal/show/scene"
)

// Head is a column of a table on paper.
type Head struct {
	Words string
	Right bool // figures
	Wide  bool // takes the room that is left, shared where several do
}

// Row is one row of a table on paper.
type Row struct {
	Cells []string
	Group bool // its first cell is a heading across
	Total bool // it adds up those above it
}

// Table is rows of texts under heads, which stand again on every leaf.
type Table struct {
	Columns []Head
	Rows    []Row
	Size    float64 // of type, mm; 0: as usual
	Least   float64 // height of a row, mm: more than its words take where a hand is to write in it
	Whole   bool    // it stands on one leaf
}

// The distances in a table, in mm.
const (
	gutter  = 3.0
	rowPad  = 0.9
	tabType = 2.9
)

func (t Table) onto(c *composer) {
	size := t.letters()
	wide := t.widths(c.right()-c.left(), size)
	if t.Whole {
		c.need(t.high(c))
	}
	headed := false
	group := ""
	heads, headHigh := t.heads(wide, size)
	for i := range t.Rows {
		r := &t.Rows[i]
		cells, high := t.lines(r, wide, size)
		more := 0.0
		if r.Group && i+1 < len(t.Rows) {
			_, more = t.lines(&t.Rows[i+1], wide, size)
		}
		if !headed {
			more += headHigh
		}
		if before := len(c.leaves); c.y-high-more < c.bottom() && c.y < c.top() {
			c.turn()
			headed = headed && len(c.leaves) == before
		}
		if !headed {
			headed = true
			t.set(c, &Row{}, heads, headHigh, wide, size, true)
			c.put(scene.Polyline("", "", scene.Solid(0.35, "ink"), scene.Point{c.left(), c.y}, scene.Point{c.right(), c.y}))
			if group != "" && !r.Group {
				again := &Row{Group: true, Cells: []string{group + goesOn}}
				lines, tall := t.lines(again, wide, size)
				t.set(c, again, lines, tall, wide, size, true)
			}
		}
		if r.Group {
			group = r.Cells[0]
		}
		t.set(c, r, cells, high, wide, size, r.Group || r.Total)
		c.put(scene.Polyline("", "", scene.Solid(0.1, "soft"), scene.Point{c.left(), c.y}, scene.Point{c.right(), c.y}))
	}
	c.y -= 2
}

// letters is the size of its type.
func (t *Table) letters() float64 {
	if t.Size == 0 {
		return tabType
	}
	return t.Size
}

// goesOn follows the heading of a group that goes on on another leaf.
const goesOn = " (goes on)"

// heads are the heads in lines, and how high they are; nobody writes in them.
func (t *Table) heads(wide []float64, size float64) (cells [][]string, high float64) {
	var r Row
	for _, h := range t.Columns {
		r.Cells = append(r.Cells, h.Words)
	}
	plain := *t
	plain.Least = 0
	return plain.lines(&r, wide, size)
}

// high is how high all of it is.
func (t *Table) high(c *composer) float64 {
	size := t.letters()
	wide := t.widths(c.right()-c.left(), size)
	_, sum := t.heads(wide, size)
	for i := range t.Rows {
		_, high := t.lines(&t.Rows[i], wide, size)
		sum += high
	}
	return sum
}

// lines are a row's cells in lines, and how high the row is.
func (t *Table) lines(r *Row, wide []float64, size float64) (cells [][]string, high float64) {
	most := 1
	for k := range t.Columns {
		if k >= len(r.Cells) || r.Group && k > 0 {
			break
		}
		room := wide[k]
		if r.Group {
			room = 1e4
		}
		lines := wrap(r.Cells[k], room, size, true)
		cells = append(cells, lines)
		most = max(most, len(lines))
	}
	return cells, max(float64(most)*size*1.25+2*rowPad, t.Least)
}

func (t *Table) set(c *composer, r *Row, cells [][]string, high float64, wide []float64, size float64, bold bool) {
	x := c.left()
	for k, lines := range cells {
		at, anchor := x, "start"
		if t.Columns[k].Right && !r.Group {
			at, anchor = x+wide[k], "end"
		}
		for n, line := range lines {
			if line == "□" || line == "■" { // to be ticked by a hand on a ladder
				c.write(line, at, c.y-rowPad-size*1.15, size*1.5, anchor, false)
				continue
			}
			c.write(line, at, c.y-rowPad-size*(0.95+1.25*float64(n)), size, anchor, bold)
		}
		x += wide[k] + gutter
	}
	c.y -= high
}

// widths shares the room among the columns: each gets what it needs; where that is too
// much, the widest give way, down to their longest word.
func (t *Table) widths(room, size float64) []float64 {
	wide, least := make([]float64, len(t.Columns)), make([]float64, len(t.Columns))
	sum := gutter * float64(len(wide)-1)
	for k, h := range t.Columns {
		take := func(text string) { wide[k] = max(wide[k], scene.PrintWidth(text, size, true)) }
		take(h.Words)
		for i := range t.Rows {
			if r := &t.Rows[i]; !r.Group && k < len(r.Cells) {
				take(r.Cells[k])
			}
		}
		wide[k] += 0.1
		least[k] = min(wide[k], 9)
		if h.Right {
			least[k] = wide[k]
		}
		sum += wide[k]
	}
	for ; sum > room; sum -= 0.5 {
		k := widest(wide, least)
		if k < 0 {
			break
		}
		wide[k] -= 0.5
	}
	share := 0
	for _, h := range t.Columns {
		if h.Wide {
			share++
		}
	}
	for k, h := range t.Columns {
		if h.Wide && sum < room {
			wide[k] += (room - sum) / float64(share)
		}
	}
	return wide
}

// widest is the widest column that may give way, -1 for none.
func widest(wide, least []float64) int {
	best := -1
	for k := range wide {
		if wide[k]-0.5 >= least[k] && (best < 0 || wide[k] > wide[best]) {
			best = k
		}
	}
	return best
}
