package screen

import (
	"fmt"
	"slices"
	"strconv"

	"dropleg/engine/unit"
	"dropleg/internal/answer/quote"
)

// QuoteNumber is how much there is to do or to buy, as a list has it: pieces, or a length.
func QuoteNumber(x float64, metres bool, system unit.System) string {
	if metres {
		return system.Listed(unit.Length(x))
	}
	return strconv.FormatFloat(rounded(x), 'f', -1, 64)
}

// QuoteNotes are what is to be read with a quotation: what its figures rest on and what is
// not in them.
func QuoteNotes(a *quote.Answer) []string {
	var out []string
	if slices.ContainsFunc(a.Lines, func(l quote.Line) bool { return l.Usual }) {
		out = append(out, "* a usual time: the job states none of its own.")
	}
	if a.Rate == nil && a.Hours > 0 {
		out = append(out, fmt.Sprintf("%.1f hours; no rate is stated, so that work has no price here.", a.Hours))
	}
	if a.Unsold > 0 {
		out = append(out, "Without a price, and not in it: "+plural(a.Unsold, "article", "articles")+", marked on the shopping list.")
	}
	return append(out, "Not in it: electrical work, the compressor and other plant that the job does not price, making good. Terms, and whether this binds, are for the two sides to agree.")
}
