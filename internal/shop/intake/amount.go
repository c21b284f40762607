package intake

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// decimal sees the decimal mark from the figures of the list that leave no doubt: it is
// taken for those that do where all of them agree.
func (c *clerk) decimal(s *Sheet) {
	c.in.Decimal = c.ask.Decimal
	if c.ask.Decimal != Seen {
		return
	}
	seen := map[Decimal]int{}
	doubt := false
	for _, f := range []Field{Price, Length, Pack} {
		i, ok := c.column[f]
		if !ok {
			continue
		}
		for k := range s.Rows {
			cell := s.Rows[k].cell(i)
			if s.Rows[k].Number <= c.in.Head || cell.Number != nil || cell.Merged != "" {
				continue
			}
			_, text := moneyIn(cell.Text, c.home)
			r, err := readNumber(strings.TrimRight(strings.SplitN(text, "/", 2)[0], " abcdefghijklmnopqrstuvwxyz"), Seen)
			doubt = doubt || err == errTwoWays
			if err == nil && r.shows != Seen && seen[r.shows] == 0 {
				seen[r.shows] = s.Rows[k].Number
			}
		}
	}
	if len(seen) == 2 && doubt {
		c.in.Notes = append(c.in.Notes, fmt.Sprintf("row %d has a decimal point and row %d a decimal comma: a figure such as 1,234 is asked about", seen[Point], seen[Comma]))
	}
	if len(seen) != 1 {
		return
	}
	for mark, row := range seen {
		c.in.Decimal = mark
		if doubt {
			c.in.Notes = append(c.in.Notes, fmt.Sprintf("figures are read with a decimal %s, as in row %d", mark, row))
		}
	}
}

// unit reads what the price is for.
func (c *clerk) unit(e *entry) {
	text := c.text(e, Unit)
	if text == "" {
		return
	}
	if text == "M" && e.item != nil && !e.item.Metres {
		e.problem(c, Unit, "no-unit", text, "what the price is for", "1000", "m")
		return
	}
	p, ok := readPer(text)
	if figure, word := apart(text); !ok && c.text(e, Length) == "" {
		if f, long, each := oneLength(figure, word); each {
			e.priced, e.stated, e.long = per{}, true, rounded(f*long)
			return
		}
	}
	if !ok {
		e.problem(c, Unit, "no-unit", text, "what the price is for", nearestPer(text)...)
		return
	}
	e.priced, e.stated = p, true
}

// counts reads pack and length.
func (c *clerk) counts(e *entry) {
	pack, packUnit := apart(c.text(e, Pack))
	long, longUnit := apart(c.text(e, Length))
	e.pack = c.figure(e, Pack, pack)
	if long != "" { // else the unit may have said it: "6 m length"
		e.long = c.figure(e, Length, long)
	}
	if f, ok := metreWords[packUnit]; ok && e.pack > 0 && long == "" { // "25 m" in a pack is a coil of that
		e.long, e.pack, longUnit, long = e.pack*f, 1, "m", pack
	}
	if pack != "" && e.pack <= 0 && len(e.line.Problems) == 0 {
		e.problem(c, Pack, "no-pack", pack, "a number above 0, or nothing for one")
	}
	if e.pack <= 0 {
		e.pack = 1
	}
	if long == "" || e.long == 0 {
		return
	}
	factor, ok := metreWords[longUnit]
	if longUnit == "" {
		factor = c.in.Columns[c.column[Length]].metres
		ok = factor > 0
	}
	text := c.text(e, Length)
	switch {
	case !ok:
		e.problem(c, Length, "no-unit", text, "a length with its unit", long+" m", long+" mm", long+" ft")
	case !(e.long*factor > 0 && e.long*factor <= 1000):
		e.problem(c, Length, "no-length", text, "a length above 0, at most 1000 m")
	default:
		e.long = rounded(e.long * factor)
	}
}

// apart parts a figure from the unit after it: "25 m", "10 pcs", "pack of 10".
func apart(text string) (figure, word string) {
	text = strings.TrimSpace(text)
	for _, before := range []string{"pack of ", "box of ", "bag of ", "coil of ", "roll of ", "per "} {
		if rest, ok := strings.CutPrefix(strings.ToLower(text), before); ok {
			text = rest
		}
	}
	end := len(text)
	for end > 0 && strings.IndexByte("0123456789", text[end-1]) < 0 {
		end--
	}
	if _, known := readPer(text); end == 0 && !known {
		return text, "" // no figure and no unit: it is told as what it is
	}
	word = plain(text[end:])
	if strings.HasSuffix(text, "'") {
		word = "ft"
	}
	if word == "" {
		return text, ""
	}
	return strings.TrimSpace(text[:end]), word
}

// amounts works out what a row is taken for: an offer where somebody sells it, else a
// price of the person's own.
func (c *clerk) amounts(e *entry) {
	switch {
	case e.known != nil && len(e.known.Holds) != 1, e.item == nil:
		c.offer(e, e.price, e.known.Holds)
	case e.item.Metres:
		c.metres(e)
	default:
		c.pieces(e)
	}
}

// pieces is a row of things that are counted.
func (c *clerk) pieces(e *entry) {
	if e.priced.basis == byMetre {
		e.problem(c, Unit, "no-unit", "a price by length", "a price by piece or pack: "+e.item.Article+" is counted", "piece", "pack")
		return
	}
	if e.long > 0 {
		e.problem(c, Length, "no-length", c.text(e, Length), "nothing: "+e.item.Article+" is counted, not measured")
		return
	}
	price := e.price
	if e.priced.basis == byPiece {
		price = e.price / e.priced.each * e.pack
	}
	if e.supplier != "" {
		c.offer(e, price, []job.Amount{{Article: e.item.Article, Number: e.pack}})
		return
	}
	if e.pack != 1 {
		e.problem(c, Supplier, "no-supplier", fmt.Sprintf("a pack of %s and nobody who sells it", strconv.FormatFloat(e.pack, 'f', -1, 64)), "who sells it, in a column or stated for the list")
		return
	}
	e.own(price, "piece")
}

// metres is a row of a line or hose.
func (c *clerk) metres(e *entry) {
	var usual []string
	for _, l := range e.item.Lengths {
		usual = append(usual, strconv.FormatFloat(float64(l), 'f', -1, 64)+" m")
	}
	by := e.priced.basis == byMetre
	switch {
	case by && e.long == 0 && e.supplier == "":
		e.own(e.price/e.priced.each, "m")
		return
	case by && e.long == 0 && e.item.Cut:
		c.offer(e, e.price/e.priced.each, []job.Amount{{Article: e.item.Article, Number: 1}})
		return
	case e.long == 0 && !by && !e.stated:
		e.problem(c, Unit, "no-length", "neither a length nor a unit", "what the price is for, m or ft, or the length that it buys", append([]string{"m", "ft"}, usual...)...)
		return
	case e.long == 0:
		e.problem(c, Length, "no-length", "nothing", "the length of one stick or coil", usual...)
		return
	case e.supplier == "":
		e.problem(c, Supplier, "no-supplier", "a length and nobody who sells it", "who sells it, in a column or stated for the list")
		return
	}
	price := e.price
	switch e.priced.basis {
	case byMetre:
		price = e.price * e.pack * e.long / e.priced.each
	case byPiece:
		price = e.price / e.priced.each * e.pack
	}
	each := unit.Length(e.long)
	c.offer(e, price, []job.Amount{{Article: e.item.Article, Number: rounded(e.pack * e.long), Each: &each}})
}

// tenThousandths keep prices by the hundred apart and what binary fractions add out.
func tenThousandths(price float64) float64 { return math.Round(price*1e4) / 1e4 }

func (e *entry) own(price float64, per string) {
	e.line.Price = &job.Price{Article: e.item.Article, Each: tenThousandths(price), Per: per, Currency: e.currency, Date: e.date}
}

// offer makes the offer of a row, under the id of the one that the job has of it.
func (c *clerk) offer(e *entry, price float64, holds []job.Amount) {
	words := e.words
	if words == "" {
		words = strings.TrimSpace(e.line.Words + " " + e.code)
	}
	e.line.Offer = &job.Offer{Supplier: e.supplier, Number: e.code, Words: words, Price: tenThousandths(price), Holds: holds, Currency: e.currency, Date: e.date}
	if e.known != nil {
		e.line.Offer.ID = e.known.ID
	}
}
