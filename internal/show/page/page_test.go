package page_test

import (
	"bytes"
	"encoding/csv"
	"errors"
	"math"
	"strings"
	"testing"

	"dropleg/internal/show/page"
)

func list() page.Sheet {
	return page.Sheet{
		Name:    "what to buy",
		Columns: []page.Column{{Head: "what"}, {Head: "number", Kind: page.Count}, {Head: "each", Kind: page.Money}, {Head: "cost", Kind: page.Money, Product: &[2]int{1, 2}}},
		Rows:    [][]any{{"elbow, 1 in", 3, 4.85, nil}, {"=HYPERLINK(1)", 2, 0.37, nil}, {"ø 12 \"soft\"", 1, 10.0, nil}},
	}
}

// TestCSV: read back after RFC 4180 by the standard library.
func TestCSV(t *testing.T) {
	var out bytes.Buffer
	if err := page.WriteCSV(&out, list()); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil || len(rows) != 4 {
		t.Fatalf("%v, %v", rows, err)
	}
	if got := strings.Join(rows[2], "|"); got != "'=HYPERLINK(1)|2|0.37|0.74" {
		t.Errorf("row %q", got)
	}
	if rows[3][0] != "ø 12 \"soft\"" {
		t.Errorf("text %q", rows[3][0])
	}
}

// TestUnusableTables: refused, with the place.
func TestUnusableTables(t *testing.T) {
	for name, spoil := range map[string]func(*page.Sheet){
		"a short row": func(s *page.Sheet) { s.Rows[0] = s.Rows[0][:2] },
		"no number":   func(s *page.Sheet) { s.Rows[0][2] = math.NaN() },
		"a slice":     func(s *page.Sheet) { s.Rows[0][2] = []int{1} },
		"no column":   func(s *page.Sheet) { s.Columns[3].Product = &[2]int{1, 9} },
	} {
		s := list()
		spoil(&s)
		if err := page.WriteCSV(&bytes.Buffer{}, s); !errors.Is(err, page.ErrTable) {
			t.Errorf("%s: CSV says %v", name, err)
		}
	}
}
