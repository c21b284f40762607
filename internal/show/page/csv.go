package page

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// WriteCSV writes one sheet: heads, then rows, numbers with a point and without unit.
func WriteCSV(w io.Writer, s Sheet) error {
	if err := s.check(); err != nil {
		return err
	}
	out := csv.NewWriter(w)
	var heads []string
	for _, c := range s.Columns {
		heads = append(heads, harmless(c.Head))
	}
	if err := out.Write(heads); err != nil {
		return fmt.Errorf("writing the heads: %w", err)
	}
	for _, row := range s.Rows {
		cells := make([]string, len(row))
		for k := range row {
			cells[k] = s.cell(row, k)
		}
		if err := out.Write(cells); err != nil {
			return fmt.Errorf("writing a row: %w", err)
		}
	}
	out.Flush()
	if err := out.Error(); err != nil {
		return fmt.Errorf("writing the table: %w", err)
	}
	return nil
}

// decimals of each kind of figure; -1 for as many as it has.
var decimals = map[Kind]int{Number: -1, Money: 2, Length: 4, Count: 0, Text: -1}

func (s *Sheet) cell(row []any, k int) string {
	switch x := s.value(row, k).(type) {
	case string:
		return harmless(x)
	case int:
		return strconv.Itoa(x)
	case float64:
		return strconv.FormatFloat(x, 'f', decimals[s.Columns[k].Kind], 64)
	}
	return ""
}

// harmless keeps a spreadsheet from taking a text for a formula.
func harmless(text string) string {
	if text != "" && strings.ContainsRune("=+-@\t\r", rune(text[0])) {
		return "'" + text
	}
	return text
}
