package sheet

import (
	"context"
	"strconv"

	"dropleg/internal/answer/parts"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
)

func cutsSheet() Sheet {
	return Sheet{
		Name: "cuts", Title: "Cut list and cutting plan", Audience: "who cuts", Needs: "a line that is planned, with a drawing",
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			take, err := m.take(ctx)
			if err != nil {
				return nil, err
			}
			list := m.cutList(take)
			if len(list.Rows) == 0 {
				return nil, nil
			}
			blocks := []page.Block{
				page.Paragraph("Lengths are from end to end of the piece as it lies, with what goes into its fittings. Measure again on the wall before you cut."),
				list,
			}
			plan, err := m.cutPlan(ctx, take)
			return append(blocks, plan...), err
		},
	}
}

// cutList are the pieces by their numbers.
func (m *Maker) cutList(take *parts.Answer) page.Table {
	t := page.Table{Columns: []page.Head{
		{Words: "piece", Right: true}, {Words: "cut to", Right: true}, {Words: "centre to centre", Right: true}, {Words: "of", Wide: true}, {Words: "between"}, {Words: "cut"},
	}}
	stock := ""
	for i := range take.Pieces {
		p := &take.Pieces[i]
		if p.State != parts.Planned {
			continue
		}
		if words := m.stockWords(p.Stock, p.Size); words != stock {
			stock = words
			t.Rows = append(t.Rows, page.Row{Group: true, Cells: []string{words}})
		}
		t.Rows = append(t.Rows, page.Row{Cells: m.cutCells(p, i+1)})
	}
	return t
}

func (m *Maker) stockWords(stock, size string) string {
	words := parts.SizeWords(size) + " " + stock
	if s, ok := m.study.Catalog().Stock(stock); ok {
		words = parts.SizeWords(size) + " " + s.Words
	}
	return words
}

func (m *Maker) cutCells(p *parts.Piece, number int) []string {
	cut, centres := "not known", "not known"
	if p.Cut != nil {
		cut = m.marked(*p.Cut)
	}
	if p.CentreToCentre != nil {
		centres = m.marked(*p.CentreToCentre)
	}
	words := m.shop.Named(p.Run)
	if n := len(p.Bends); n > 0 {
		words += ", " + strconv.Itoa(n) + " bends"
		if n == 1 {
			words = m.shop.Named(p.Run) + ", one bend"
		}
	}
	if p.TooShort {
		words += "; no room for a piece: close nipple or direct"
	}
	between := ""
	if p.From.Fitting != "" && p.To.Fitting != "" {
		between = m.shop.NamedWithin(p.From.Fitting) + " – " + m.shop.NamedWithin(p.To.Fitting)
	}
	return []string{strconv.Itoa(number), cut, centres, words, between, "□"}
}

// cutPlan draws every length of stock with what is cut from it.
func (m *Maker) cutPlan(ctx context.Context, take *parts.Answer) ([]page.Block, error) {
	p, err := m.shop.Purchase(ctx, screen.Ask{System: m.options.System})
	if err != nil {
		return nil, err
	}
	numbers := map[string]string{}
	for i := range take.Pieces {
		numbers[take.Pieces[i].ID] = "‹" + strconv.Itoa(i+1) + "›"
	}
	var blocks []page.Block
	wide, _ := page.Room(m.options.Paper, false)
	for i := range p.Cuts {
		c := &p.Cuts[i]
		blocks = append(blocks, page.Heading("Cutting plan: "+c.Words), page.Paragraph(c.Sentence))
		s := &c.Scene
		if long := s.Max[0] - s.Min[0]; long > 0 && len(c.Bars) > 0 {
			blocks = append(blocks, page.Chart{Scene: *s, Scale: min(wide/long, mostCutScale), Row: draw.CutRow / 1000})
		}
		t := page.Table{Size: 2.5, Columns: []page.Head{{Words: "length"}, {Words: "cut, in this order", Wide: true}, {Words: "left over"}}}
		for _, b := range c.Bars {
			t.Rows = append(t.Rows, page.Row{Cells: []string{b.Words, cutsInOrder(b.Cuts, numbers), b.Left}})
		}
		blocks = append(blocks, t)
	}
	return blocks, nil
}

// mostCutScale keeps words on the chart of cuts from growing over those of the page, mm to the
// metre: the chart is drawn for a metre of paper to the metre.
const mostCutScale = 2000

func cutsInOrder(cuts []screen.CutMark, numbers map[string]string) string {
	text := ""
	for i, c := range cuts {
		if i > 0 {
			text += "; "
		}
		text += or(numbers[c.Piece], c.Piece) + " " + c.Length
	}
	return text
}
