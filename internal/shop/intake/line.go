package intake

import (
	"fmt"
	"slices"
	"strings"

	"dropleg/internal/shop/job"
)

// entry is a row while it is read.
type entry struct {
	line     *Line
	row      *Row
	item     *Item
	known    *job.Offer // that the job has of this supplier under this number
	code     string
	words    string
	supplier string
	currency string
	date     string
	price    float64
	priced   per
	stated   bool // what the price is for is said
	pack     float64
	long     float64 // m, of one length; 0 for unsaid
}

// line reads one row.
func (c *clerk) line(row *Row, s *Sheet) Line {
	l := Line{Row: row.Number, Cells: make([]string, len(c.in.Columns))}
	for i := range row.Cells {
		l.Cells[i] = row.Cells[i].Text
	}
	switch {
	case slices.Contains(c.ask.Leave, row.Number):
		l.State = Left
		return l
	case row.filled() == 1 && !c.filledIn(row, Price), c.headAgain(row, s):
		l.State = Head
		return l
	}
	e := &entry{line: &l, row: row}
	c.troubles(e)
	e.code, e.words = c.text(e, Code), strings.TrimSpace(c.text(e, Words)+" "+c.text(e, Size))
	e.supplier = c.text(e, Supplier)
	if e.supplier == "" {
		e.supplier = c.ask.Supplier
	}
	c.money(e)
	c.day(e)
	c.what(e)
	c.unit(e)
	c.counts(e)
	if len(l.Problems) == 0 && (e.item != nil || e.known != nil) {
		c.amounts(e)
	}
	switch {
	case len(l.Problems) > 0:
		l.State, l.Offer, l.Price = Fault, nil, nil
	case e.item == nil && e.known == nil:
		l.State = Unsure
	default:
		l.State = Take
	}
	return l
}

func (c *clerk) filledIn(row *Row, f Field) bool {
	i, ok := c.column[f]
	return ok && row.cell(i).Text != ""
}

// headAgain tells a row that has the heads once more, as on each page of a printed list.
func (c *clerk) headAgain(row *Row, s *Sheet) bool {
	for i := range c.in.Columns {
		if c.in.Columns[i].Head != row.cell(i).Text {
			return false
		}
	}
	return c.in.Head > 0
}

// troubles are what keeps cells that matter from being read at all.
func (c *clerk) troubles(e *entry) {
	for _, f := range Fields() {
		i, ok := c.column[f]
		if !ok {
			continue
		}
		switch cell := e.row.cell(i); {
		case cell.Merged != "":
			e.problem(c, f, "merged", fmt.Sprintf("a cell that is merged with others, %s, reading %q", cell.Merged, cell.Text), "a cell of its own for each row", cell.Text)
		case cell.Fault != "":
			e.problem(c, f, "no-value", cell.Fault, "a value in the cell")
		}
	}
}

// text is what a row has in a field, "" for nothing of its own.
func (c *clerk) text(e *entry, f Field) string {
	i, ok := c.column[f]
	if !ok {
		return ""
	}
	cell := e.row.cell(i)
	if cell.Merged != "" || cell.Fault != "" {
		return ""
	}
	return cell.Text
}

// problem notes why a row cannot be taken.
func (e *entry) problem(c *clerk, f Field, code, read, want string, nearest ...string) {
	at := ""
	if i, ok := c.column[f]; ok {
		at = c.in.Columns[i].Name
	}
	e.line.Problems = append(e.line.Problems, Problem{Row: e.row.Number, Column: at, Code: code, Read: read, Want: want, Nearest: nearest})
}

// faulty says whether a field of the row could not be read.
func (c *clerk) faulty(e *entry, f Field) bool {
	i, ok := c.column[f]
	return ok && (e.row.cell(i).Merged != "" || e.row.cell(i).Fault != "")
}

// money reads price and currency.
func (c *clerk) money(e *entry) {
	if c.faulty(e, Price) || !c.has(Price) {
		if !c.has(Price) {
			e.problem(c, Price, "no-price", "nothing", "a price above 0")
		}
		return
	}
	col := &c.in.Columns[c.column[Price]]
	text := c.text(e, Price)
	e.priced, e.stated = col.per, col.stated
	own, rest := moneyIn(text, c.home)
	if i := strings.IndexAny(rest, "/"); i > 0 {
		if p, ok := readPer(rest[i+1:]); ok && rest[i+1:] != "" {
			rest, e.priced, e.stated = strings.TrimSpace(rest[:i]), p, true
		}
	}
	c.currency(e, col, own, text)
	e.price = c.figure(e, Price, rest)
	switch {
	case text == "":
		e.problem(c, Price, "no-price", "nothing", "a price above 0")
	case len(e.line.Problems) > 0 && e.price == 0:
	case e.price == 0:
		e.problem(c, Price, "zero-price", text, "a price above 0")
	case e.price < 0:
		e.problem(c, Price, "negative-price", text, "a price above 0", strings.TrimLeft(strings.Trim(rest, "()"), "-− "))
	case e.price > 1e9:
		e.problem(c, Price, "no-number", text, "a price below 1 000 000 000")
	}
}

// currency is that of the cell, of its own column, of the head and of the person's word,
// in this order. Cell and column must not differ.
func (c *clerk) currency(e *entry, col *Column, own []string, text string) {
	stated := c.text(e, Currency)
	var named []string
	if stated != "" {
		if named, _ = moneyIn(stated, c.home); named == nil {
			e.problem(c, Currency, "no-currency", stated, "three letters (ISO 4217), such as USD", near(strings.ToUpper(stated), codes)...)
			return
		}
	}
	switch {
	case len(own) == 1 && len(named) == 1 && own[0] != named[0]:
		e.problem(c, Currency, "two-currencies", fmt.Sprintf("%s in the price, %s in column %s", text, stated, c.in.Columns[c.column[Currency]].Name), "one currency in a row", own[0], named[0])
	case len(named) == 1:
		e.currency = named[0]
	case len(own) == 1:
		e.currency = own[0]
	case len(named) > 1 || len(own) > 1:
		all, read := named, stated
		if len(all) == 0 {
			all, read = own, text
		}
		if c.ask.Currency != "" && slices.Contains(all, c.ask.Currency) {
			e.currency = c.ask.Currency
			return
		}
		e.problem(c, Price, "no-currency", read, "which currency it is, stated for the list", all...)
	case col.currency != "":
		e.currency = col.currency
	default:
		e.currency = c.ask.Currency
	}
}

// figure reads a figure of a field; 0 with a problem where it is none.
func (c *clerk) figure(e *entry, f Field, text string) float64 {
	if i, ok := c.column[f]; ok && e.row.cell(i).Number != nil {
		return *e.row.cell(i).Number
	}
	if text == "" {
		return 0
	}
	decimal := c.in.Decimal
	r, err := readNumber(text, decimal)
	if err != nil {
		code, want, nearest := wanted(err, text, r, decimal)
		e.problem(c, f, code, text, want, nearest...)
		return 0
	}
	return r.value
}

// day reads the date of a row.
func (c *clerk) day(e *entry) {
	e.date = c.ask.Date
	text := c.text(e, Date)
	if text == "" {
		return
	}
	day, ways, ok := readDay(text)
	switch {
	case !ok:
		e.problem(c, Date, "no-date", text, "year, month, day: 2026-03-14")
	case ways != nil:
		e.problem(c, Date, "two-ways", text, "year, month, day", ways...)
	default:
		e.date = day
	}
}
