package find

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"dropleg/engine/document"
	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// chainColumns are those of a chain of main parts. Only the first is always needed.
var chainColumns = []string{"part", "name", "item", "size", "stock", "length", "flow", "pressure", "cut-in", "cut-out", "volume"}

// ReadChain makes a job of the main parts of an installation, in the order in which
// the air goes: compressor, receiver, what treats the air, mains, and after each main
// its drops with what hangs there. It is enough to look for a fault in, and no
// drawing: places stand as far apart as the lengths say. What a row leaves out is that
// of the catalogue, and the job's note says so. All problems are told at once.
func ReadChain(text io.Reader, shelf *catalog.Catalog) (*job.Job, []document.Problem) {
	rows := tableOf(text)
	head, err := rows.Read()
	if err != nil {
		return nil, []document.Problem{{Line: 1, Read: "no table", Want: "a head with " + strings.Join(chainColumns, ", ")}}
	}
	c := newChain(shelf)
	for _, name := range head {
		name = strings.ReplaceAll(strings.ToLower(strings.TrimSpace(name)), "_", "-")
		c.head = append(c.head, name)
		if near := unit.Nearest(name, chainColumns); near != name {
			c.problem(1, name, name, "one of the columns "+strings.Join(chainColumns, ", "), near)
		}
	}
	if len(c.problems) > 0 {
		return nil, c.problems
	}
	for {
		cells, err := rows.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		line := lineOf(rows, err)
		if err != nil {
			c.problem(line, "", "", "a row of a table in CSV", "")
			break
		}
		c.link(line, cells)
	}
	c.finish()
	c.j.Site.Units = string(c.system)
	if len(c.problems) > 0 {
		return nil, c.problems
	}
	return c.j, nil
}

// chain is a job while it grows from the compressor on.
type chain struct {
	table
	shelf *catalog.Catalog
	at    geom.Point // of the last place
	end   job.End    // what the next part joins on to
	size  string     // of the last line
	stock string
	// main is a line whose far end is the next part; nil for none.
	main   *job.Run
	outlet int // in the job's outlets; -1 before a drop
	free   unit.FreeAir
	count  map[string]int
	system unit.System // that figures were written in
}

// chainRow is one part as it is read.
type chainRow struct {
	line  int
	word  string
	cells map[string]string
}

// parts says what is made of each word. Words are people's, kinds the catalogue's.
func (c *chain) parts() map[string]func(chainRow) {
	treat := func(kind string) func(chainRow) { return func(r chainRow) { c.treat(r, kind) } }
	return map[string]func(chainRow){
		"compressor": c.compressor, "receiver": c.receiver,
		"filter": treat("particle-filter"), "fine filter": treat("coalescing-filter"), "dryer": treat("refrigerated-dryer"),
		"desiccant dryer": treat("desiccant-dryer"), "separator": treat("separator"), "regulator": treat("regulator"),
		"filter-regulator": treat("filter-regulator"), "lubricator": treat("lubricator"), "aftercooler": treat("aftercooler"),
		"valve": c.valve, "main": c.pipe, "drop": c.drop, "coupler": c.coupler, "hose": c.hose, "tool": c.tool,
	}
}

func newChain(shelf *catalog.Catalog) *chain {
	j := &job.Job{Version: 1, Title: "An installation by its main parts"}
	return &chain{table: table{j: j}, shelf: shelf, at: geom.Point{0, 0, aloft}, outlet: -1, count: map[string]int{}, system: unit.Metric}
}

// Heights and spans of a chain, m: what is not said has no other.
const (
	aloft = 3.0 // of mains
	apart = 0.3 // between parts of the plant
	bench = 1.0 // of outlets
)

func (c *chain) link(line int, cells []string) {
	r := chainRow{line: line, cells: map[string]string{}}
	for i, cell := range cells {
		if i < len(c.head) {
			r.cells[c.head[i]] = strings.TrimSpace(cell)
			if strings.Contains(cell, "psi") || strings.Contains(cell, "cfm") {
				c.system = unit.US
			}
		}
	}
	r.word = strings.ToLower(r.cells["part"])
	if r.word == "" {
		return
	}
	parts := c.parts()
	put, known := parts[r.word]
	if !known {
		var words []string
		for w := range parts {
			words = append(words, w)
		}
		c.problem(line, "part", r.word, "a part: compressor, receiver, filter, dryer, regulator, valve, main, drop, coupler, hose, tool", unit.Nearest(r.word, words))
		return
	}
	put(r)
}

// finish looks for what no search can do without.
func (c *chain) finish() {
	if c.main != nil {
		c.problem(0, "main", "", "a drop after the last main: a line that leads to no tool starves none", "")
	}
	want := func(have bool, what string) {
		if !have && len(c.problems) == 0 {
			c.problem(0, "part", "", what, "")
		}
	}
	want(c.count["compressor"] > 0, "a row of the compressor, the first of all")
	want(c.count["receiver"] > 0, "a row of the receiver, with its volume")
	want(len(c.j.Tools) > 0, "a row of a tool, the last of all")
}

// gauge reads a pressure of a row; nil where it has none.
func (c *chain) gauge(r chainRow, column string) *unit.GaugePressure {
	cell := r.cells[column]
	if cell == "" {
		return nil
	}
	return new(unit.GaugePressure(c.figure(r.line, column, cell, unit.KindGauge)))
}

// length reads a length, that is wanted.
func (c *chain) length(r chainRow) unit.Length {
	cell := r.cells["length"]
	if cell == "" {
		c.problem(r.line, "length", "", "the length of the "+r.word+", such as 12 m or 40 ft", "")
		return 1
	}
	x := c.figure(r.line, "length", cell, unit.KindLength)
	if !(x > 0) || x > 500 {
		c.problem(r.line, "length", cell, "a length above nothing and at most 500 m", "")
		return 1
	}
	return unit.Length(x)
}

// flow reads a flow of free air; nil where the row has none.
func (c *chain) flow(r chainRow) *job.Flow {
	cell := r.cells["flow"]
	if cell == "" {
		return nil
	}
	f, err := unit.ParseFlow(cell)
	if err != nil || f.Mass {
		c.problem(r.line, "flow", cell, "a flow of free air with its unit, such as 18 cfm or 500 L/min", "")
		return nil
	}
	reference := string(f.Reference)
	if f.Reference == unit.RefJob {
		reference = ""
	}
	return &job.Flow{Value: f.Value, Reference: reference, Read: cell}
}

// named is a new id of a sort, after the name where there is one.
func (c *chain) named(sort, name string) job.ID {
	slug := strings.Trim(strings.Map(func(x rune) rune {
		if x >= 'a' && x <= 'z' || x >= '0' && x <= '9' {
			return x
		}
		return '-'
	}, strings.TrimPrefix(strings.ToLower(name), "the ")), "-")
	for strings.Contains(slug, "--") {
		slug = strings.ReplaceAll(slug, "--", "-")
	}
	c.count[sort+slug]++
	if n := c.count[sort+slug]; slug == "" || n > 1 {
		slug = strings.Trim(fmt.Sprintf("%s-%d", slug, n), "-")
	}
	return job.ID(sort + "." + slug)
}

// assume writes down what was taken for want of better.
func (c *chain) assume(format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	if !strings.Contains(c.j.Note, text) {
		c.j.Note = strings.TrimSpace(c.j.Note + " " + text)
	}
}

// line takes size and stock of a row for the lines from here on.
func (c *chain) line(r chainRow) {
	size := nonEmpty(r.cells["size"], c.size)
	if size == "" {
		size = usualSize
		c.assume("Lines whose size was not said were taken as %s.", size)
	}
	stock := r.cells["stock"]
	if stock != "" {
		if _, ok := c.shelf.Stock(stock); !ok {
			c.problem(r.line, "stock", stock, "a stock of the catalogue", c.shelf.Nearest(catalog.Stocks, stock))
			return
		}
		if _, ok := c.shelf.Size(stock, size); !ok {
			c.problem(r.line, "size", size, "a size of "+stock, "")
			return
		}
		c.size, c.stock = size, stock
		return
	}
	for _, try := range append([]string{c.stock}, usualStocks...) {
		if _, ok := c.shelf.Size(try, size); ok && try != "" {
			if try != c.stock {
				c.assume("Lines of %s were taken as %s.", size, try)
			}
			c.size, c.stock = size, try
			return
		}
	}
	c.problem(r.line, "size", size, "a size as sold, such as 3/4 or 22; or the column stock with a stock that has it", "")
}

// What lines are taken as where nobody says: common practice, no source.
var usualStocks = []string{"steel-sch40", "aluminium-metric", "copper-en1057-thin", "nylon-metric", "nylon-inch"}

const (
	usualSize    = "3/4"
	usualCoupler = "industrial-1/4"
	usualHose    = "3/8"
)
