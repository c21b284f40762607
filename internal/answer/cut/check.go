package cut

import (
	"fmt"
	"math"
)

// ValueError names a figure of a question that cannot be used.
type ValueError struct {
	Where string // "stock", "piece", or "question"
	Index int    // of the stock or piece
	ID    string
	What  string // the field
	Value int64
	Want  string
}

func (e *ValueError) Error() string {
	if e.Where == "question" {
		return fmt.Sprintf("%s is %d, want %s", e.What, e.Value, e.Want)
	}
	return fmt.Sprintf("%s %d %q: %s is %d, want %s", e.Where, e.Index, e.ID, e.What, e.Value, e.Want)
}

// TooLongError names the pieces that no stock length is long enough for.
type TooLongError struct {
	Pieces []int // indices
	IDs    []string
	// Fits is the greatest length that can be cut: a joint no further than this from one
	// end lets the piece be made.
	Fits Length
}

func (e *TooLongError) Error() string {
	if e.Fits <= 0 {
		return fmt.Sprintf("pieces %q, and no stock to cut them from", e.IDs)
	}
	return fmt.Sprintf("pieces %q are longer than what can be cut from any stock, %.1f mm: a joint has to go in no farther than this from one end", e.IDs, float64(e.Fits)/10)
}

// NotEnoughError says that the stock lengths that are available do not do.
type NotEnoughError struct {
	// Unplaced are indices of pieces that found no place in one attempt; other choices
	// leave other pieces over.
	Unplaced []int
}

func (e *NotEnoughError) Error() string {
	return fmt.Sprintf("the available stock is not enough: pieces %d find no place", e.Unplaced)
}

// Most of anything, so that sums stay far inside whole numbers of 64 bits.
const (
	lengthMost = Length(1e10) // a thousand kilometres
	priceMost  = int64(1e9)
	countMost  = 5000
)

func check(q Question) error {
	for _, v := range []struct {
		what  string
		value Length
	}{{"kerf", q.Kerf}, {"end trim", q.EndTrim}, {"least useful length", q.Useful}} {
		if v.value < 0 || v.value > lengthMost {
			return &ValueError{Where: "question", What: v.what, Value: int64(v.value), Want: fmt.Sprintf("0 to %d", lengthMost)}
		}
	}
	for i, s := range q.Stocks {
		bad := func(what string, value int64, want string) error {
			return &ValueError{"stock", i, s.ID, what, value, want}
		}
		switch {
		case s.Length <= 0 || s.Length > lengthMost:
			return bad("length", int64(s.Length), fmt.Sprintf("1 to %d", lengthMost))
		case s.Price < 0 || s.Price > priceMost:
			return bad("price", s.Price, fmt.Sprintf("0 to %d", priceMost))
		case s.Available != nil && *s.Available < 0:
			return bad("number available", int64(*s.Available), "0 or more")
		}
	}
	total := 0
	for i, p := range q.Pieces {
		bad := func(what string, value int64, want string) error {
			return &ValueError{"piece", i, p.ID, what, value, want}
		}
		switch {
		case p.Length <= 0 || p.Length > lengthMost:
			return bad("length", int64(p.Length), fmt.Sprintf("1 to %d", lengthMost))
		case p.Count < 0 || p.Count > countMost || total+p.Count > countMost:
			return bad("count", int64(p.Count), fmt.Sprintf("0 to %d, all together", countMost))
		}
		total += p.Count
	}
	return checkFits(q)
}

// checkFits refuses pieces that are longer than any stock of which there is one.
func checkFits(q Question) error {
	e := TooLongError{Fits: longest(q)}
	for i, p := range q.Pieces {
		if p.Count > 0 && p.Length > e.Fits {
			e.Pieces = append(e.Pieces, i)
			e.IDs = append(e.IDs, p.ID)
		}
	}
	if len(e.Pieces) > 0 {
		return &e
	}
	return nil
}

// longest gives the greatest length that can be cut, 0 when there is none.
func longest(q Question) Length {
	fits := Length(0)
	for _, s := range q.Stocks {
		if s.Available == nil || *s.Available > 0 {
			fits = max(fits, s.Length-q.EndTrim)
		}
	}
	return fits
}

// fineness gives how finely multipliers can be counted: in parts of the smallest coin,
// a power of two, as fine as whole numbers leave room for. A multiplier comes to some
// times the most that a plan can cost, and proofs add up to as many as there are pairs
// of pieces.
func fineness(limit int64, total int) int64 {
	fine := int64(1 << 20)
	for fine > 1 && 16*float64(limit)*float64(fine)*float64(total+1)*float64(total+1) > math.MaxInt64/2 {
		fine /= 2
	}
	return fine
}
