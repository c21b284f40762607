package intake

import (
	"fmt"
	"slices"
	"strings"
)

// Column is a column of a list.
type Column struct {
	Name    string   `json:"name"` // its letter
	Head    string   `json:"head,omitempty"`
	Field   Field    `json:"field"`
	Samples []string `json:"samples"`         // the first different cells
	Stated  bool     `json:"stated"`          // by the person; else by its head
	Aside   string   `json:"aside,omitempty"` // what the head says of units and money

	per      per     // of a price: what the head says that it is for
	stated   bool    // per is stated
	metres   float64 // of a length: what a figure counts, 0 for unsaid
	currency string
}

const headsSought = 40 // rows from the top in which heads are sought

// headRow is the row whose cells are most like heads, -1 for none, and its fields.
func headRow(s *Sheet) (at int, fields []Field) {
	at, most := -1, 0
	for i := range s.Rows[:min(len(s.Rows), headsSought)] {
		row := &s.Rows[i]
		seen := map[Field]bool{}
		sum := 0
		var got []Field
		for k := range row.Cells {
			cell := &row.Cells[k]
			f, score := Nothing, 0
			if cell.Merged == "" && cell.Number == nil && len(cell.Text) < 60 {
				f, score = fieldOf(cell.Text)
			}
			got = append(got, f)
			if score > 0 && !seen[f] {
				seen[f] = true
				sum += score
			}
		}
		if len(seen) >= 2 && sum > most {
			at, most, fields = i, sum, got
		}
	}
	return at, fields
}

// heads finds the heads and what each column is.
func (c *clerk) heads(s *Sheet) {
	at, _ := headRow(s)
	wide := 0
	for i := range s.Rows {
		wide = max(wide, len(s.Rows[i].Cells))
	}
	var head *Row
	if at >= 0 {
		head = &s.Rows[at]
		c.in.Head = head.Number
	}
	score := make([]int, wide)
	for i := range wide {
		col := Column{Name: letters(i), Field: Nothing, Samples: samples(s, i, c.in.Head)}
		if head != nil && head.cell(i).Merged == "" {
			col.Head = head.cell(i).Text
			col.Field, score[i] = fieldOf(col.Head)
		}
		c.in.Columns = append(c.in.Columns, col)
	}
	c.state()
	c.settle(score)
	c.column = map[Field]int{}
	for i := range c.in.Columns {
		if f := c.in.Columns[i].Field; f != Nothing {
			c.column[f] = i
		}
	}
	if _, ok := c.column[Price]; !ok {
		c.whole("no-price-column", listed(c.in.Columns), "a column with the price: say which, such as "+example(c.in.Columns))
	}
	if len(c.column) > 0 && !c.has(Code) && !c.has(Words) && !c.has(Ours) {
		c.whole("no-article-column", listed(c.in.Columns), "a column that says what each row is: number, description or article")
	}
}

func (c *clerk) has(f Field) bool { _, ok := c.column[f]; return ok }

// state takes what the person says of columns.
func (c *clerk) state() {
	for _, m := range c.ask.Columns {
		word, field := m.Column, Field(strings.ToLower(strings.TrimSpace(string(m.Field))))
		if !slices.Contains(Fields(), field) {
			c.whole("no-field", string(field), "one of "+fieldWords(), near(string(field), strings.Split(fieldWords(), ", "))...)
			continue
		}
		i := c.columnOf(word)
		if i < 0 {
			c.whole("no-column", word, "a column by its letter or its head: "+listed(c.in.Columns))
			continue
		}
		c.in.Columns[i].Field, c.in.Columns[i].Stated = field, true
	}
}

// columnOf finds a column by its head, or by its letter.
func (c *clerk) columnOf(word string) int {
	for i := range c.in.Columns {
		if h := c.in.Columns[i].Head; h != "" && strings.EqualFold(h, strings.TrimSpace(word)) {
			return i
		}
	}
	if i, ok := column(strings.TrimSpace(word)); ok && i < len(c.in.Columns) {
		return i
	}
	return -1
}

// settle leaves each field to one column: what the person states goes before heads, and a
// head that says it in so many words before one that has it among others. Two heads that
// say it equally well are a question where they are prices; else the first has it.
func (c *clerk) settle(score []int) {
	for _, f := range Fields() {
		var of []int
		for i := range c.in.Columns {
			if c.in.Columns[i].Field == f && f != Nothing {
				of = append(of, i)
			}
		}
		if len(of) < 2 {
			continue
		}
		rank := func(i int) int {
			if c.in.Columns[i].Stated {
				return 1000
			}
			return score[i]
		}
		slices.SortStableFunc(of, func(a, b int) int { return rank(b) - rank(a) })
		tie := rank(of[0]) == rank(of[1])
		for _, i := range of[1:] {
			c.in.Columns[i].Field = Nothing
		}
		first, second := c.in.Columns[of[0]], c.in.Columns[of[1]]
		if tie && (f == Price || first.Stated) {
			c.in.Columns[of[0]].Field = Nothing
			c.whole("two-columns", fmt.Sprintf("%s and %s", shown(first), shown(second)), "one column for the "+string(f), first.Name+"="+string(f), second.Name+"="+string(f))
			continue
		}
		c.in.Notes = append(c.in.Notes, fmt.Sprintf("the %s is read from %s, not from %s", f, shown(first), shown(second)))
	}
}

// aside reads what heads say of units and money beside their words.
func (c *clerk) aside() {
	for i := range c.in.Columns {
		col := &c.in.Columns[i]
		base, rest := aside(col.Head)
		col.Aside = rest
		money, rest := moneyIn(rest, c.home)
		if len(money) == 1 && (col.Field == Price) {
			col.currency = money[0]
		}
		rest = strings.Trim(strings.TrimSpace(rest), "/ ()[]")
		switch col.Field {
		case Price:
			if p, ok := readPer(rest); ok && rest != "" {
				col.per, col.stated = p, true
			} else if slices.Contains(each, plain(base)) {
				col.per, col.stated = per{byPiece, 1}, true
			}
		case Length:
			col.metres = metreWords[plain(strings.TrimPrefix(rest, "in "))]
		}
	}
}

// samples are the first different cells of a column below its head.
func samples(s *Sheet, i, head int) []string {
	const shown, long = 3, 40
	out := []string{}
	for k := range s.Rows {
		cell := s.Rows[k].cell(i)
		text := []rune(cell.Text)
		if s.Rows[k].Number <= head || len(text) == 0 || cell.Merged != "" {
			continue
		}
		if len(text) > long {
			text = append(text[:long-1], '…')
		}
		if !slices.Contains(out, string(text)) {
			out = append(out, string(text))
		}
		if len(out) == shown {
			break
		}
	}
	return out
}

func shown(c Column) string {
	if c.Head == "" {
		return "column " + c.Name
	}
	return fmt.Sprintf("column %s %q", c.Name, c.Head)
}

// listed names the columns, the first twelve.
func listed(all []Column) string {
	var out []string
	for _, c := range all[:min(len(all), 12)] {
		out = append(out, shown(c))
	}
	if len(all) == 0 {
		return "no columns"
	}
	return strings.Join(out, ", ")
}

// example is how the column of prices could be stated.
func example(all []Column) string {
	for _, c := range all {
		if len(c.Samples) > 0 && strings.Trim(c.Samples[0], "0123456789., €$£") == "" {
			return c.Name + "=" + string(Price)
		}
	}
	return "C=" + string(Price)
}

func fieldWords() string {
	var out []string
	for _, f := range Fields() {
		out = append(out, string(f))
	}
	return strings.Join(out, ", ")
}
