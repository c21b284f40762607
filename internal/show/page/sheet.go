package page

import (
	"errors"
	"fmt"
	"math"
	"slices"
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
	// Product names two columns before it, by their place from 0, whose product the column is; nil
	// for a column of its own figures. A product of money is rounded to the hundredth.
	Product *[2]int
	// Per divides the product; 0 for nothing.
	Per float64
	// Total: the column is added up where a document has totals.
	Total bool
	// Currency is what money is in; "" for not known.
	Currency string
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
	for k, c := range s.Columns {
		if p := c.Product; p != nil && (p[0] < 0 || p[1] < 0 || p[0] >= k || p[1] >= k) {
			return fmt.Errorf("%w: %s, %s is of columns that are not before it", ErrTable, s.Name, c.Head)
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
	c := s.Columns[k]
	if c.Product == nil {
		return row[k]
	}
	x := number(s.value(row, c.Product[0])) * number(s.value(row, c.Product[1]))
	if c.Per != 0 {
		x /= c.Per
	}
	if c.Kind == Money {
		return math.Round(x*100) / 100
	}
	return x
}

// totals says whether there is anything to add up.
func (s *Sheet) totals() bool {
	return len(s.Rows) > 0 && slices.ContainsFunc(s.Columns, func(c Column) bool { return c.Total })
}

// total is what a column adds up to; of money to the hundredth.
func (s *Sheet) total(k int) float64 {
	sum := 0.0
	for _, row := range s.Rows {
		sum += number(s.value(row, k))
	}
	if s.Columns[k].Kind == Money {
		return math.Round(sum*100) / 100
	}
	return sum
}
