package screen

import (
	"strings"

	"dropleg/internal/shop/intake"
)

// PriceList is a supplier's list as the page shows it before anything is taken.
type PriceList struct {
	Form     string       `json:"form"`
	Sheets   []string     `json:"sheets"`
	Sheet    string       `json:"sheet"`
	Columns  []ListColumn `json:"columns"`
	Fields   []FieldRow   `json:"fields"` // what a column can be
	Decimal  string       `json:"decimal"`
	Rows     []ListRow    `json:"rows"`
	Problems []string     `json:"problems"` // of the list as a whole
	Notes    []string     `json:"notes"`
	Sentence string       `json:"sentence"`
	Sure     int          `json:"sure"` // rows that would be taken
}

// FieldRow is one thing that a column can be.
type FieldRow struct {
	Field string `json:"field"`
	Words string `json:"words"`
}

// ListColumn is one column of a list.
type ListColumn struct {
	Name    string   `json:"name"`
	Head    string   `json:"head"`
	Field   string   `json:"field"`
	Samples []string `json:"samples"`
}

// ListRow is one row of a list.
type ListRow struct {
	Row      int               `json:"row"`
	State    string            `json:"state"` // take, same, unsure, fault, left, head
	Cells    string            `json:"cells"` // as they stand
	Article  string            `json:"article,omitempty"`
	How      string            `json:"how,omitempty"` // why it is that article
	Taken    *Taken            `json:"taken,omitempty"`
	Nearest  []intake.Proposal `json:"nearest"`
	Problems []string          `json:"problems"`
	// Open: which article it is may be stated.
	Open bool `json:"open"`
}

// fieldWords says what each field is, in the order in which they are offered.
func fieldWords() []FieldRow {
	words := map[intake.Field]string{
		intake.Code: "article number", intake.Words: "description", intake.Ours: "article as in the list here", intake.Pack: "pack: how many", intake.Unit: "unit of the price",
		intake.Length: "length of a stick or coil", intake.Price: "price", intake.Currency: "currency", intake.Supplier: "supplier", intake.Date: "date", intake.Nothing: "passed over",
	}
	out := []FieldRow{}
	for _, f := range intake.Fields() {
		out = append(out, FieldRow{string(f), words[f]})
	}
	return out
}

// PriceListOf words a list that was read.
func PriceListOf(in *intake.Intake, home string) PriceList {
	out := PriceList{
		Form: in.Form, Sheets: in.Sheets, Sheet: in.Sheet, Columns: []ListColumn{}, Fields: fieldWords(), Decimal: string(in.Decimal),
		Rows: []ListRow{}, Problems: []string{}, Notes: []string{}, Sentence: TakeInWords(in), Sure: in.Count(intake.Take),
	}
	for _, c := range in.Columns {
		out.Columns = append(out.Columns, ListColumn{c.Name, c.Head, string(c.Field), c.Samples})
	}
	for i := range in.Problems {
		text := upper(ProblemWords(&in.Problems[i]))
		out.Problems = append(out.Problems, text)
	}
	for _, n := range in.Notes {
		out.Notes = append(out.Notes, upper(n)+".")
	}
	for i := range in.Lines {
		out.Rows = append(out.Rows, listRow(&in.Lines[i], home))
	}
	return out
}

func listRow(l *intake.Line, home string) ListRow {
	row := ListRow{Row: l.Row, State: string(l.State), Article: l.Article, How: l.How, Nearest: l.Nearest, Problems: []string{}}
	var cells []string
	for _, c := range l.Cells {
		if c != "" {
			cells = append(cells, c)
		}
	}
	row.Cells = strings.Join(cells, " · ")
	if l.State == intake.Take || l.State == intake.Same {
		taken := TakenOf(l, home)
		row.Taken = &taken
	}
	if row.Nearest == nil {
		row.Nearest = []intake.Proposal{}
	}
	row.Open = l.State == intake.Unsure
	for i := range l.Problems {
		p := &l.Problems[i]
		row.Problems = append(row.Problems, upper(ProblemWords(p)))
		row.Open = row.Open || p.Code == "unknown-article"
	}
	return row
}
