package parts

import (
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// points counts the part at every point.
func (c *counter) points() {
	for i := range c.job.Net.Points {
		p := &c.job.Net.Points[i]
		at, known := c.index.Where(p)
		room := c.roomAt(at, known)
		ends := c.index.Ends(p.ID)
		kind, isKind := c.shelf.Kind(p.Part.Kind)
		if isKind && kind.Law.Name == "none" {
			c.plain(p, ends, room)
			continue
		}
		stock, sizes := c.sizesAt(&p.Part, kind, ends)
		c.pieces(c.part(&p.Part, stock, sizes), stateOf(p.State), 1, string(p.ID), room)
	}
}

// plain counts a plain place on a line: where two lines meet there at an angle a
// corner of the first, else nothing to buy.
func (c *counter) plain(p *job.Point, ends []job.RunEnd, room job.ID) {
	if len(ends) == 2 {
		if turn, ok := c.index.TurnBetween(ends[0], ends[1]); ok && turn > leastTurn {
			c.corner(ends[0].Run, turn, stateOf(p.State), string(p.ID), room)
			return
		}
	}
	c.pieces(Line{
		Article: "place on the line", Group: Made, Words: "plain place where lines meet or end",
		Note: "no part of its own",
	}, stateOf(p.State), 1, string(p.ID), room)
}

// sizesAt reads the sizes of a part at a point: its own, else those of the runs
// that end there, the larger bore first and each once; and the stock that it
// joins. What is screwed on has only the size that it states.
func (c *counter) sizesAt(part *job.Part, kind catalog.Kind, ends []job.RunEnd) (stock string, sizes []string) {
	if len(ends) > 0 {
		stock = ends[0].Run.Stock
	}
	if part.Size != "" || part.Size2 != "" {
		if part.Size == "" && len(ends) > 0 {
			sizes = append(sizes, ends[0].Run.Size)
		}
		for _, s := range []string{part.Size, part.Size2} {
			if s != "" && !slices.Contains(sizes, s) {
				sizes = append(sizes, s)
			}
		}
		return stock, sizes
	}
	if !takesStock(kind) {
		return stock, nil
	}
	bores := map[string]float64{}
	for _, e := range ends {
		if port, ok := kind.Port(e.Port); ok && e.Port != "" && port.Joint == "none" {
			continue
		}
		if _, seen := bores[e.Run.Size]; !seen {
			sizes = append(sizes, e.Run.Size)
		}
		z, _ := c.shelf.Size(e.Run.Stock, e.Run.Size)
		bores[e.Run.Size] = float64(z.Bore)
	}
	slices.SortStableFunc(sizes, func(a, b string) int { return compareFloats(bores[b], bores[a]) })
	return stock, sizes
}

func compareFloats(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// part describes a part: by its row where it names one, else by kind and size.
// Only what is joined as its stock is joined is told apart by stock.
func (c *counter) part(p *job.Part, stock string, sizes []string) Line {
	kind, known := c.shelf.Kind(p.Kind)
	l := Line{Kind: p.Kind, Item: p.Item, Size: strings.Join(sizes, " x "), Group: Fitting, Words: p.Kind}
	if known {
		l.Kind, l.Group, l.Words = kind.Kind, Group(kind.Group), kind.Name("en")
	}
	if half := couplerHalf(kind); known && half != "" && p.Item != "" {
		l.Group, l.Size = Coupler, ""
		l.Article, l.Words = half+" "+p.Item, half+", "+c.itemWords(p.Item)
		return l
	}
	name := []string{l.Kind}
	if p.Item != "" {
		name = []string{p.Item}
		if words := c.itemWords(p.Item); strings.HasPrefix(strings.ToLower(words), strings.ToLower(l.Words)) {
			l.Words = words
		} else {
			l.Words += ", " + words
		}
	} else if known && takesStock(kind) && stock != "" {
		l.Stock = stock
		name = []string{stock, l.Kind}
	}
	if p.Item == "" {
		name = append(name, l.Size)
		l.Words = strings.TrimSpace(l.Words + " " + sizesWords(sizes))
		l.Words += c.plate(p)
	}
	if s, ok := c.shelf.Stock(l.Stock); ok {
		l.Words += ", " + s.Words
	}
	l.Article = strings.TrimSpace(strings.Join(name, " "))
	return l
}

// plate tells what parts of one kind apart that no row does: the receiver's
// volume and the compressor's power.
func (c *counter) plate(p *job.Part) string {
	words := ""
	if p.Volume != nil {
		words += ", " + c.system.Text(unit.KindVolume, float64(*p.Volume), unit.Env{})
	}
	if p.Compressor != nil && p.Compressor.Power != nil {
		words += ", " + c.system.Text(unit.KindPower, float64(*p.Compressor.Power), unit.Env{})
	}
	return words
}

// takesStock says whether a kind is joined to the line as its stock is joined.
func takesStock(k catalog.Kind) bool {
	return slices.ContainsFunc(k.Ports, func(p catalog.Port) bool { return p.Joint == "stock" })
}

// couplerHalf is the half of a quick coupler that a kind is, "socket" or "plug": the
// joint of the port that is neither screwed nor joined as the line is; "" for other
// kinds.
func couplerHalf(k catalog.Kind) string {
	if !k.Has(catalog.Couples) {
		return ""
	}
	for _, p := range k.Ports {
		if p.Joint != "stock" && p.Joint != "none" && !strings.HasPrefix(p.Joint, "thread") {
			return p.Joint
		}
	}
	return ""
}

// itemWords names a catalogue row, on whichever shelf it is.
func (c *counter) itemWords(item string) string {
	if r, ok := c.shelf.Coupler(item); ok {
		return r.Words
	}
	if r, ok := c.shelf.Treat(item); ok {
		return r.Words
	}
	if r, ok := c.shelf.Machine(item); ok {
		return r.Words
	}
	return item
}

// sizesWords joins sizes as the trade says them: "3/4 × 1/2 in".
func sizesWords(sizes []string) string {
	return SizeWords(strings.Join(sizes, " × "))
}

// SizeWords adds the unit that a nominal size leaves out: fractions and the
// small whole numbers are inches, the rest millimetres.
func SizeWords(size string) string {
	if size == "" || strings.Trim(size, "0123456789/-× ") != "" {
		return size
	}
	if strings.Contains(size, "/") || len(size) == 1 {
		return size + " in"
	}
	return size + " mm"
}

// within names a thing within a thing.
func within(id job.ID, what string, n int) string { return fmt.Sprintf("%s/%s-%d", id, what, n) }
