package page_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"dropleg/internal/show/page"
)

// What the reader of testdata/read.py finds in a workbook.
type (
	found struct {
		Value    any
		Type     string
		Format   string
		Bold     bool
		Formula  string
		Reckoned float64
	}
	foundSheet struct {
		Name, Frozen string
		Repeated     string
		Widths       []float64
		Rows         [][]found
	}
	foundBook struct {
		Title  string
		Sheets []foundSheet
	}
)

// readBack reads a workbook with openpyxl, which is none of ours, and wants that each
// formula, reckoned there anew, comes to the value that stands beside it.
func readBack(t *testing.T, title string, sheets ...page.Sheet) foundBook {
	t.Helper()
	const python = "/usr/bin/python3" // the one that Debian's packages serve
	if err := exec.Command(python, "-c", "import openpyxl").Run(); err != nil {
		t.Skip("there is no python3-openpyxl here")
	}
	var out bytes.Buffer
	if err := page.WriteXLSX(&out, title, sheets...); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "book.xlsx")
	if err := os.WriteFile(file, out.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, filepath.Join("testdata", "read.py"), file)
	cmd.Stderr = os.Stderr
	text, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var book foundBook
	if err := json.Unmarshal(text, &book); err != nil {
		t.Fatal(err)
	}
	for _, s := range book.Sheets {
		for i, row := range s.Rows {
			for k, c := range row {
				x, ok := c.Value.(float64)
				if c.Formula != "" && (!ok || math.Abs(x-c.Reckoned) > 1e-9*max(1, math.Abs(x))) {
					t.Errorf("%s, row %d, column %d: %s is %v, reckoned anew %g", s.Name, i+1, k+1, c.Formula, c.Value, c.Reckoned)
				}
			}
		}
	}
	return book
}

func priced() page.Sheet {
	s := list()
	s.Columns[2].Currency, s.Columns[3].Currency, s.Columns[3].Total = "USD", "USD", true
	return s
}

// TestXLSX: heads bold and frozen, formulas with values, formats, totals, by hand: 3 × 4.85
// + 2 × 0.37 + 1 × 10 = 25.29.
func TestXLSX(t *testing.T) {
	book := readBack(t, "Alder & Lane <1>", priced(), page.Sheet{
		Name: "what to buy", Columns: []page.Column{{Head: "h", Kind: page.Number}, {Head: "long", Kind: page.Length}}, Rows: [][]any{{1.5, 2.25}},
	})
	if book.Title != "Alder & Lane <1>" || len(book.Sheets) != 2 || book.Sheets[1].Name != "what to buy 2" {
		t.Fatalf("%q, %d sheets", book.Title, len(book.Sheets))
	}
	s := book.Sheets[0]
	if s.Frozen != "A2" || s.Repeated != "$1:$1" || len(s.Rows) != 5 || s.Widths[0] < float64(len("=HYPERLINK(1)")) {
		t.Errorf("frozen %q, repeated %q, %d rows, widths %v", s.Frozen, s.Repeated, len(s.Rows), s.Widths)
	}
	for _, c := range s.Rows[0] {
		if !c.Bold {
			t.Errorf("head %v is not bold", c.Value)
		}
	}
	if c := s.Rows[1][3]; c.Formula != "=ROUND(B2*C2,2)" || c.Value != 14.55 || c.Format != `#,##0.00 "USD"` {
		t.Errorf("a product: %+v", c)
	}
	if c := s.Rows[4][3]; c.Formula != "=SUM(D2:D4)" || c.Value != 25.29 || !c.Bold {
		t.Errorf("the total: %+v", c)
	}
	if c := s.Rows[1][1]; c.Format != "0" || c.Value != 3.0 {
		t.Errorf("a count: %+v", c)
	}
	if c := book.Sheets[1].Rows[1][1]; c.Format != "0.0000" || c.Value != 2.25 {
		t.Errorf("a length: %+v", c)
	}
}

// TestXLSXTexts: a text stays that text in any script, and is never a formula. What no XML
// holds comes as ECMA-376 part 1, 22.9.2.19 writes it.
func TestXLSXTexts(t *testing.T) {
	texts := []string{
		"=1+1", "+1", "-1", "@SUM(A1)", "'quoted", "<a & b>", `"soft" ø 12`, "  two spaces  ", "line\nline", "tab\tstop",
		"圧縮空気", "воздух", "هواء", "हवा", "👩‍🔧🔩", "e\u0301", "007", "1e5", "TRUE", "#REF!", "",
	}
	s := page.Sheet{Name: "[texts]: a/b\\c*?", Columns: []page.Column{{Head: "=head"}}}
	for _, x := range texts {
		s.Rows = append(s.Rows, []any{x})
	}
	s.Rows = append(s.Rows, []any{"a\x01b"}, []any{"_x0041_"}, []any{"bad \xff"})
	book := readBack(t, "=title", s)
	rows := book.Sheets[0].Rows
	for i, want := range append(texts, "a_x0001_b", "_x005F_x0041_", "bad \ufffd") {
		c := rows[i+1][0]
		if got, _ := c.Value.(string); got != want || c.Formula != "" {
			t.Errorf("%q came back as %q, %s", want, c.Value, c.Formula)
		}
	}
	if name := book.Sheets[0].Name; name != "texts   a b c" {
		t.Errorf("sheet name %q", name)
	}
}

// TestXLSXRandom: products and totals of random figures, reckoned anew in decimal by the
// reader.
func TestXLSXRandom(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	s := page.Sheet{Name: "random", Columns: []page.Column{
		{Head: "n", Kind: page.Count},
		{Head: "each", Kind: page.Money},
		{Head: "cost", Kind: page.Money, Product: &[2]int{0, 1}, Total: true},
		{Head: "hours", Kind: page.Number, Product: &[2]int{0, 1}, Per: 60, Total: true},
	}}
	for range 200 {
		s.Rows = append(s.Rows, []any{r.IntN(1000), float64(r.IntN(1e6)) / 100, nil, nil})
	}
	if book := readBack(t, "", s); len(book.Sheets[0].Rows) != 202 {
		t.Errorf("%d rows", len(book.Sheets[0].Rows))
	}
}

// TestXLSXAgain: the same sheets give the same bytes, wide ones too; unusable ones are refused.
func TestXLSXAgain(t *testing.T) {
	var a, b bytes.Buffer
	if err := errors.Join(page.WriteXLSX(&a, "t", priced()), page.WriteXLSX(&b, "t", priced())); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("written again it differs")
	}
	s := list()
	s.Rows[0][2] = math.Inf(1)
	if err := page.WriteXLSX(&a, "t", s); !errors.Is(err, page.ErrTable) {
		t.Errorf("infinity: %v", err)
	}
	wide := page.Sheet{Name: strings.Repeat("Ä", 40), Columns: make([]page.Column, 30), Rows: [][]any{make([]any, 30)}}
	wide.Rows[0][29] = "last"
	if got := readBack(t, "t", wide, wide).Sheets; got[0].Name != strings.Repeat("Ä", 31) || got[1].Name != strings.Repeat("Ä", 29)+" 2" || got[0].Rows[1][29].Value != "last" {
		t.Errorf("a wide sheet: %q, %q", got[0].Name, got[1].Name)
	}
}
