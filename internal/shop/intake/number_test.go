package intake

import (
	"errors"
	"testing"
)

// TestFigures: what each writing says, by the customs of both decimal marks; the figures
// are those that a person reads.
func TestFigures(t *testing.T) {
	for _, row := range []struct {
		text    string
		decimal Decimal
		want    float64
		err     error
	}{
		{"12.50", Seen, 12.5, nil},
		{"12,50", Seen, 12.5, nil},
		{"1,234.50", Seen, 1234.5, nil},
		{"1.234,50", Seen, 1234.5, nil},
		{"1 234,50", Seen, 1234.5, nil},
		{"1'234.50", Seen, 1234.5, nil},
		{"1’234’567.50", Seen, 1234567.5, nil},
		{"1,234,567", Seen, 1234567, nil},
		{"1.234.567", Seen, 1234567, nil},
		{"0,125", Seen, 0.125, nil},
		{".5", Seen, 0.5, nil},
		{"12,-", Seen, 12, nil},
		{"12.--", Seen, 12, nil},
		{"-12.50", Seen, -12.5, nil},
		{"−12,50", Seen, -12.5, nil},
		{"(12.50)", Seen, -12.5, nil},
		{"1,234", Seen, 0, errTwoWays},
		{"1.234", Seen, 0, errTwoWays},
		{"1,234", Point, 1234, nil},
		{"1,234", Comma, 1.234, nil},
		{"1.234", Point, 1.234, nil},
		{"1.234", Comma, 1234, nil},
		{"12.50", Comma, 0, errOtherMark},
		{"1,234.50", Comma, 0, errOtherMark},
		{"12,34,5", Seen, 0, errNoNumber},
		{"1.23.456,7", Seen, 0, errNoNumber},
		{"12 34", Seen, 0, errNoNumber},
		{"", Seen, 0, errNoNumber},
		{".", Seen, 0, errNoNumber},
		{"n/a", Seen, 0, errNoNumber},
		{"1e9", Seen, 0, errNoNumber},
		{"NaN", Seen, 0, errNoNumber},
	} {
		got, err := readNumber(row.text, row.decimal)
		if !errors.Is(err, row.err) || err == nil && got.value != row.want {
			t.Errorf("%q with %q: %v, %v; want %v, %v", row.text, row.decimal, got.value, err, row.want, row.err)
		}
	}
}

// TestMoney: signs and codes; a sign of several currencies is the job's own where it can be.
func TestMoney(t *testing.T) {
	for _, row := range []struct {
		text, home, want, rest string
		several                bool
	}{
		{"€ 12,50", "USD", "EUR", "12,50", false},
		{"12,50 EUR", "USD", "EUR", "12,50", false},
		{"$12.50", "CAD", "CAD", "12.50", false},
		{"$12.50", "EUR", "USD", "12.50", true},
		{"US$ 12.50", "CAD", "USD", "12.50", false},
		{"12.50", "USD", "", "12.50", false},
		{"kr 12", "NOK", "NOK", "12", false},
	} {
		got, rest := moneyIn(row.text, row.home)
		if row.want == "" && got != nil || row.want != "" && (len(got) == 0 || got[0] != row.want || len(got) > 1 != row.several) || rest != row.rest {
			t.Errorf("%q at %s: %v, %q", row.text, row.home, got, rest)
		}
	}
}

// TestSerialDates: the examples of ECMA-376, 18.17.4.1 (recalled): 1 is the first day of
// 1900; and common ones of both counts: 45000 is 2023-03-15, 1904's day 0 its first.
func TestSerialDates(t *testing.T) {
	for _, row := range []struct {
		from   epoch
		serial float64
		want   string
	}{
		{false, 1, "1900-01-01"},
		{false, 59, "1900-02-28"},
		{false, 61, "1900-03-01"},
		{false, 45000, "2023-03-15"},
		{from1904, 1, "1904-01-02"},
	} {
		if got, _ := row.from.date(row.serial); got != row.want {
			t.Errorf("%v: %s, want %s", row.serial, got, row.want)
		}
	}
}

// TestShowsDate: formats of ECMA-376, 18.8.31.
func TestShowsDate(t *testing.T) {
	for code, want := range map[string]bool{
		"yyyy-mm-dd": true, "d/m/yy": true, `[$-407]dd.mm.yyyy`: true, "0.00": false, `#,##0.00 "EUR/day"`: false, `[Red]0.00`: false, "General": false, `0\d`: false, `_-* #,##0.00_-`: false,
	} {
		if showsDate(code) != want {
			t.Errorf("%s is a date: %v", code, !want)
		}
	}
}
