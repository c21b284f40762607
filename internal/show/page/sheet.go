package page

import (
	"errors"
	"fmt"
	"math"
)

// Kind is what stands in a column.
type Kind int

// The kinds.
const (
	Text Kind = iota
	Number
	Money  // two decimals
	Length // metres, to the millimetre
	Count  // whole
)

// Column is one column of a sheet.
type Column struct {
	Head string
	Kind Kind
	// Product names two columns, by their place from 0, whose product the column is; nil
	// for a column of its own figures.
	Product *[2]int
}

// Sheet is one table. A cell is a string, a float64, an int, or nil for nothing.
type Sheet struct {
	Name    string
	Columns []Column
	Rows    [][]any
}

// ErrTable is a table that cannot be written.
var ErrTable = errors.New("unusable table")

// check refuses rows of another width, cells of another sort, and numbers that are none.
func (s *Sheet) check() error {
	for i, row := range s.Rows {
		if len(row) != len(s.Columns) {
			return fmt.Errorf("%w: %s, row %d has %d cells, %d columns", ErrTable, s.Name, i+1, len(row), len(s.Columns))
		}
		for k, cell := range row {
			switch x := cell.(type) {
			case nil, string, int:
			case float64:
				if math.IsNaN(x) || math.IsInf(x, 0) {
					return fmt.Errorf("%w: %s, row %d, %s is no number", ErrTable, s.Name, i+1, s.Columns[k].Head)
				}
			default:
				return fmt.Errorf("%w: %s, row %d, %s is a %T", ErrTable, s.Name, i+1, s.Columns[k].Head, cell)
			}
		}
	}
	for _, c := range s.Columns {
		if p := c.Product; p != nil && (p[0] < 0 || p[1] < 0 || p[0] >= len(s.Columns) || p[1] >= len(s.Columns)) {
			return fmt.Errorf("%w: %s, %s is of columns that are not there", ErrTable, s.Name, c.Head)
		}
	}
	return nil
}

// number is a cell as a figure; 0 for none.
func number(cell any) float64 {
	switch x := cell.(type) {
	case float64:
		return x
	case int:
		return float64(x)
	}
	return 0
}

// value is what stands in a cell: of a product what it comes to.
func (s *Sheet) value(row []any, k int) any {
	if p := s.Columns[k].Product; p != nil {
		return number(row[p[0]]) * number(row[p[1]])
	}
	return row[k]
}
