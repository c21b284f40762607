package intake

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Ask is what the person says of a list. Nothing of it is needed.
type Ask struct {
	Sheet    string    `json:"sheet,omitempty"` // of a workbook; the first with a price where left out
	Columns  []Mapping `json:"columns,omitempty"`
	Supplier string    `json:"supplier,omitempty"` // of rows that name none
	Currency string    `json:"currency,omitempty"` // of prices without a sign
	Date     string    `json:"date,omitempty"`     // of prices without one, 2026-03-14
	Decimal  Decimal   `json:"decimal,omitempty"`  // point or comma
	Pairs    []Pair    `json:"pairs,omitempty"`
	Leave    []int     `json:"leave,omitempty"` // rows that are not to be taken
}

// Mapping says which field a column is, by its letter or its head.
type Mapping struct {
	Column string `json:"column"`
	Field  Field  `json:"field"`
}

// Pair says which article a row is.
type Pair struct {
	Row     int    `json:"row"`
	Article string `json:"article"`
}

// State is what becomes of a row.
type State string

// The states.
const (
	Take   State = "take"   // it is sure
	Same   State = "same"   // the job has it so already
	Unsure State = "unsure" // a question with proposals
	Fault  State = "fault"  // it cannot be used
	Left   State = "left"   // the person does not want it
	Head   State = "head"   // a heading between the rows
)

// Line is one row, and what it would be taken for.
type Line struct {
	Row      int        `json:"row"`
	Cells    []string   `json:"cells"` // as they stand, by column
	State    State      `json:"state"`
	Article  string     `json:"article,omitempty"`  // ours
	How      string     `json:"how,omitempty"`      // why it is that article
	Words    string     `json:"words,omitempty"`    // of the article
	Offer    *job.Offer `json:"offer,omitempty"`    // an offer of a supplier, or
	Price    *job.Price `json:"price,omitempty"`    // the person's own price
	Was      *float64   `json:"was,omitempty"`      // the price that the job has for it
	Nearest  []Proposal `json:"nearest,omitempty"`  // articles that it may be
	Problems []Problem  `json:"problems,omitempty"` // why it is not taken
}

// Proposal is an article that a row may be.
type Proposal struct {
	Article string `json:"article"`
	Words   string `json:"words"`
}

// Intake is a list, read for a job.
type Intake struct {
	Form     string    `json:"form"`
	Sheets   []string  `json:"sheets"`
	Sheet    string    `json:"sheet"`
	Head     int       `json:"head,omitempty"` // the row with the heads
	Columns  []Column  `json:"columns"`
	Decimal  Decimal   `json:"decimal,omitempty"` // stated or seen
	Lines    []Line    `json:"lines"`
	Problems []Problem `json:"problems,omitempty"` // of the list as a whole
	Notes    []string  `json:"notes,omitempty"`
}

// Count is the number of rows in a state.
func (in *Intake) Count(s State) int {
	n := 0
	for i := range in.Lines {
		if in.Lines[i].State == s {
			n++
		}
	}
	return n
}

// clerk reads the rows of one sheet.
type clerk struct {
	ask    Ask
	index  *job.Index
	shelf  *Shelf
	home   string // the job's own currency
	in     *Intake
	column map[Field]int
}

// Of reads a list for a job. The error is that of ctx.
func Of(ctx context.Context, f *File, ask Ask, ix *job.Index, shelf *Shelf) (*Intake, error) {
	in := &Intake{Form: f.Form, Sheets: []string{}, Columns: []Column{}, Lines: []Line{}, Problems: slices.Clone(f.Problems)}
	for i := range f.Sheets {
		in.Sheets = append(in.Sheets, f.Sheets[i].Name)
	}
	c := &clerk{ask: ask, index: ix, shelf: shelf, home: ix.Job().Money(), in: in}
	c.sound()
	sheet := c.sheet(f)
	if sheet == nil {
		return in, nil
	}
	in.Sheet = sheet.Name
	c.heads(sheet)
	c.aside()
	c.decimal(sheet)
	for i := range sheet.Rows {
		if i%64 == 0 && ctx.Err() != nil {
			return nil, fmt.Errorf("reading a price list: %w", ctx.Err())
		}
		if row := &sheet.Rows[i]; row.Number > in.Head {
			in.Lines = append(in.Lines, c.line(row, sheet))
		}
	}
	c.strays(sheet)
	c.twice()
	c.known()
	c.foreign()
	return in, nil
}

// foreign tells rows in a currency that the job does not reckon in.
func (c *clerk) foreign() {
	count := map[string]int{}
	for i := range c.in.Lines {
		switch l := &c.in.Lines[i]; {
		case l.State != Take:
		case l.Offer != nil:
			count[l.Offer.Currency]++
		case l.Price != nil:
			count[l.Price.Currency]++
		}
	}
	for _, code := range slices.Sorted(maps.Keys(count)) {
		if code != "" && c.home != "" && code != c.home {
			c.in.Notes = append(c.in.Notes, fmt.Sprintf("%d of the rows are in %s, and the job reckons in %s: they are kept, and no basket has them", count[code], code, c.home))
		}
	}
}

// sound checks what the person says of the whole list.
func (c *clerk) sound() {
	a := &c.ask
	a.Currency, a.Supplier = strings.ToUpper(strings.TrimSpace(a.Currency)), strings.TrimSpace(a.Supplier)
	if a.Currency != "" && !job.SoundCurrency(a.Currency) {
		c.whole("no-currency", a.Currency, "three letters (ISO 4217), such as USD", near(a.Currency, codes)...)
		a.Currency = ""
	}
	if a.Date != "" {
		day, ways, ok := readDay(a.Date)
		if !ok || ways != nil {
			c.whole("no-date", a.Date, "year, month, day: 2026-03-14", ways...)
		}
		a.Date = day
	}
	if a.Decimal != Seen && a.Decimal != Point && a.Decimal != Comma {
		c.whole("no-decimal", string(a.Decimal), "point or comma", near(string(a.Decimal), []string{"point", "comma"})...)
		a.Decimal = Seen
	}
}

// whole notes a problem of the whole list.
func (c *clerk) whole(code, read, want string, nearest ...string) {
	c.in.Problems = append(c.in.Problems, Problem{Code: code, Read: read, Want: want, Nearest: nearest})
}

func near(word string, words []string) []string {
	if n := unit.Nearest(word, words); n != "" {
		return []string{n}
	}
	return nil
}

// sheet is the sheet that is asked for, else the first with a price over a column, else
// the first with rows.
func (c *clerk) sheet(f *File) *Sheet {
	if c.ask.Sheet != "" {
		for i := range f.Sheets {
			if strings.EqualFold(f.Sheets[i].Name, c.ask.Sheet) {
				return &f.Sheets[i]
			}
		}
		c.whole("no-sheet", c.ask.Sheet, "a sheet of the workbook: "+strings.Join(c.in.Sheets, ", "), near(c.ask.Sheet, c.in.Sheets)...)
		return nil
	}
	var first *Sheet
	priced := 0
	var found *Sheet
	for i := range f.Sheets {
		s := &f.Sheets[i]
		if first == nil && len(s.Rows) > 0 {
			first = s
		}
		if _, fields := headRow(s); slices.Contains(fields, Price) {
			if priced++; found == nil {
				found = s
			}
		}
	}
	if priced > 1 {
		c.in.Notes = append(c.in.Notes, fmt.Sprintf("%d sheets have prices; this is %q, the others are not looked at", priced, found.Name))
	}
	if found != nil {
		return found
	}
	if first == nil && len(c.in.Problems) == 0 {
		c.whole("empty", "no row with anything in it", "a row for each article")
	}
	return first
}

// strays tells rows that the person speaks of and that are not there.
func (c *clerk) strays(s *Sheet) {
	has := func(n int) bool {
		return slices.ContainsFunc(c.in.Lines, func(l Line) bool { return l.Row == n })
	}
	asked := slices.Clone(c.ask.Leave)
	for _, p := range c.ask.Pairs {
		asked = append(asked, p.Row)
	}
	for _, n := range asked {
		if !has(n) {
			c.whole("no-row", fmt.Sprintf("row %d", n), "a row of the list below its heads")
		}
	}
	for _, p := range s.Problems {
		i := slices.IndexFunc(c.in.Lines, func(l Line) bool { return p.Row > 0 && l.Row == p.Row })
		if i < 0 {
			c.in.Problems = append(c.in.Problems, p)
			continue
		}
		c.in.Lines[i].Problems = append(c.in.Lines[i].Problems, p)
		if l := &c.in.Lines[i]; l.State == Take || l.State == Unsure {
			l.State = Fault
		}
	}
}
