package page

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// How a column looks, in letters of its width.
const (
	narrowest    = 6
	widestColumn = 60
	beside       = 2
)

// The places of the styles that every workbook has; those of numbers follow, plain and bold.
const (
	headStyle   = 1
	firstNumber = 2
)

// sheet is one sheet as XML.
func (b *book) sheet(s *Sheet) (string, error) {
	if err := s.check(); err != nil {
		return "", err
	}
	var t strings.Builder
	t.WriteString(`<worksheet xmlns="` + mainSpace + `"><sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>` +
		`<sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews><cols>`)
	for k := range s.Columns {
		fmt.Fprintf(&t, `<col min="%d" max="%d" width="%d" customWidth="1"/>`, k+1, k+1, s.width(k))
	}
	t.WriteString(`</cols><sheetData><row r="1">`)
	for k, c := range s.Columns {
		text(&t, k, 1, headStyle, c.Head)
	}
	t.WriteString(`</row>`)
	for i, row := range s.Rows {
		fmt.Fprintf(&t, `<row r="%d">`, i+2)
		for k := range row {
			b.cell(&t, s, row, k, i+2)
		}
		t.WriteString(`</row>`)
	}
	if s.totals() {
		b.totals(&t, s)
	}
	landscape := ""
	if len(s.Columns) > 6 {
		landscape = ` orientation="landscape"`
	}
	return t.String() + `</sheetData><pageSetup` + landscape + ` fitToHeight="0"/></worksheet>`, nil
}

// cell is one cell; of a product the formula with what it comes to.
func (b *book) cell(t *strings.Builder, s *Sheet, row []any, k, at int) {
	c := s.Columns[k]
	var formula string
	if p := c.Product; p != nil {
		formula = fmt.Sprintf("%s%d*%s%d", letters(p[0]), at, letters(p[1]), at)
		if c.Per != 0 {
			formula += "/" + figure(c.Per)
		}
		if c.Kind == Money {
			formula = "ROUND(" + formula + ",2)"
		}
	}
	switch x := s.value(row, k).(type) {
	case string:
		text(t, k, at, 0, x)
	case int:
		b.number(t, k, at, b.style(c), formula, float64(x))
	case float64:
		b.number(t, k, at, b.style(c), formula, x)
	}
}

// totals is the last row: what the columns that are added come to.
func (b *book) totals(t *strings.Builder, s *Sheet) {
	at := len(s.Rows) + 2
	fmt.Fprintf(t, `<row r="%d">`, at)
	for k, c := range s.Columns {
		switch {
		case c.Total:
			b.number(t, k, at, b.style(c)+1, fmt.Sprintf("SUM(%s2:%s%d)", letters(k), letters(k), at-1), s.total(k))
		case k == 0:
			text(t, k, at, headStyle, "total")
		}
	}
	t.WriteString(`</row>`)
}

func (b *book) number(t *strings.Builder, k, at, style int, formula string, x float64) {
	fmt.Fprintf(t, `<c r="%s%d" s="%d">`, letters(k), at, style)
	if formula != "" {
		t.WriteString(`<f>` + formula + `</f>`)
	}
	t.WriteString(`<v>` + figure(x) + `</v></c>`)
}

// text is a cell that no reader takes for a formula, whatever it begins with.
func text(t *strings.Builder, k, at, style int, words string) {
	fmt.Fprintf(t, `<c r="%s%d" s="%d" t="inlineStr"><is><t xml:space="preserve">%s</t></is></c>`, letters(k), at, style, escaped(words))
}

func figure(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// letters is the name of a column: A to Z, AA and on.
func letters(k int) string {
	name := ""
	for k++; k > 0; k = (k - 1) / 26 {
		name = string(rune('A'+(k-1)%26)) + name
	}
	return name
}

// style is the place of the style of a column's numbers; the bold one is next to it.
func (b *book) style(c Column) int {
	format := ""
	switch c.Kind {
	case Money:
		format = "#,##0.00"
		if c.Currency != "" {
			format += ` "` + strings.ReplaceAll(c.Currency, `"`, "") + `"`
		}
	case Length:
		format = "0.0000"
	case Count:
		format = "0"
	}
	at := slices.Index(b.formats, format)
	if at < 0 {
		at = len(b.formats)
		b.formats = append(b.formats, format)
	}
	return firstNumber + 2*at
}

// firstFormat is the first number that a format of one's own may have.
const firstFormat = 164

func (b *book) styles() string {
	var formats, cells strings.Builder
	for i, format := range b.formats {
		id := 0 // as the reader likes
		if format != "" {
			id = firstFormat + i
			fmt.Fprintf(&formats, `<numFmt numFmtId="%d" formatCode="%s"/>`, id, escaped(format))
		}
		for font := range 2 {
			fmt.Fprintf(&cells, `<xf numFmtId="%d" fontId="%d" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyFont="1"/>`, id, font)
		}
	}
	list := formats.String()
	if list != "" {
		list = fmt.Sprintf(`<numFmts count="%d">%s</numFmts>`, strings.Count(list, "<numFmt "), list)
	}
	const font = `<sz val="11"/><name val="Calibri"/>`
	return `<styleSheet xmlns="` + mainSpace + `">` + list +
		`<fonts count="2"><font>` + font + `</font><font><b/>` + font + `</font></fonts>` +
		`<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
		`<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>` +
		`<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` +
		fmt.Sprintf(`<cellXfs count="%d">`, firstNumber+2*len(b.formats)) +
		`<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="0" fontId="1" fillId="0" borderId="0" xfId="0" applyFont="1"/>` +
		cells.String() + `</cellXfs></styleSheet>`
}

// width is how wide a column is, in letters.
func (s *Sheet) width(k int) int {
	wide := max(narrowest, utf8.RuneCountInString(s.Columns[k].Head))
	for _, row := range s.Rows {
		wide = max(wide, utf8.RuneCountInString(s.cell(row, k)))
	}
	if s.Columns[k].Total {
		wide = max(wide, len(strconv.FormatFloat(s.total(k), 'f', decimals[s.Columns[k].Kind], 64)))
	}
	if c := s.Columns[k]; c.Kind == Money && c.Currency != "" {
		wide += 1 + len(c.Currency)
	}
	return min(wide, widestColumn) + beside
}
