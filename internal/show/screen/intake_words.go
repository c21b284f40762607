package screen

import (
	"fmt"
	"strconv"
	"strings"

	"dropleg/internal/shop/intake"
	"dropleg/internal/shop/job"
)

// Taken is a sure row of a list in words.
type Taken struct {
	Holds string `json:"holds"` // "10 pieces", "6.1 m in lengths of 6.1 m", "each", "1 m"
	Price string `json:"price"`
	Was   string `json:"was,omitempty"`
	From  string `json:"from"` // who sells it, or the own list
}

// TakenOf words a sure row.
func TakenOf(l *intake.Line, home string) Taken {
	out := Taken{}
	price, currency := 0.0, ""
	switch {
	case l.Offer != nil:
		var holds []string
		for _, a := range l.Offer.Holds {
			holds = append(holds, amountOf(a))
		}
		out.Holds, out.From = strings.Join(holds, " + "), l.Offer.Supplier
		price, currency = l.Offer.Price, l.Offer.Currency
	case l.Price != nil:
		out.Holds, out.From = "per "+l.Price.Per, "own list"
		price, currency = l.Price.Each, l.Price.Currency
	}
	out.Price = sumOf(price)
	if currency != "" && currency != home {
		out.Price += " " + currency
	}
	switch {
	case l.State == intake.Same:
		out.Was = "the same"
	case l.Was != nil:
		out.Was = sumOf(*l.Was)
	}
	return out
}

// sumOf is a price to the hundredth, and further where it has more.
func sumOf(price float64) string {
	short := strconv.FormatFloat(price, 'f', 2, 64)
	if x, err := strconv.ParseFloat(short, 64); err == nil && x == price {
		return short
	}
	return strconv.FormatFloat(price, 'f', -1, 64)
}

func amountOf(a job.Amount) string {
	n := strconv.FormatFloat(a.Number, 'f', -1, 64)
	switch {
	case a.Each == nil:
		return n + " ×"
	case float64(*a.Each) == a.Number:
		return n + " m"
	}
	return n + " m by " + strconv.FormatFloat(float64(*a.Each), 'f', -1, 64) + " m"
}

// ProblemWords words a problem of a list: what was read, what is wanted, the nearest form.
func ProblemWords(p *intake.Problem) string {
	text := ""
	if p.Column != "" {
		text = "column " + p.Column + ": "
	}
	text += "read " + p.Read + "; wanted " + p.Want
	if len(p.Nearest) > 0 {
		text += "; nearest " + strings.Join(p.Nearest, " or ")
	}
	return text
}

// RowWords words why a row is not taken.
func RowWords(l *intake.Line) []string {
	var out []string
	for i := range l.Problems {
		out = append(out, ProblemWords(&l.Problems[i]))
	}
	if l.State != intake.Unsure {
		return out
	}
	if len(l.Nearest) == 0 {
		return append(out, "nothing that the job or the catalogue has is like it")
	}
	for _, p := range l.Nearest {
		text := p.Article
		if p.Words != p.Article {
			text += ", " + p.Words
		}
		out = append(out, text)
	}
	return out
}

// TakeInWords sums up a list.
func TakeInWords(in *intake.Intake) string {
	var parts []string
	for _, row := range []struct {
		state intake.State
		words string
	}{
		{intake.Take, "to be taken"},
		{intake.Same, "as the job has them"},
		{intake.Unsure, "in question"},
		{intake.Fault, "with problems"},
		{intake.Left, "left out as you say"},
		{intake.Head, "headings or repeats"},
	} {
		if n := in.Count(row.state); n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, row.words))
		}
	}
	if len(parts) == 0 {
		return "No rows."
	}
	return plural(len(in.Lines), "row", "rows") + ": " + strings.Join(parts, ", ") + "."
}
