package intake

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// Decimal is what stands before the hundredths in a list.
type Decimal string

// The decimal marks; unset where it is seen from the list.
const (
	Seen  Decimal = ""
	Point Decimal = "point"
	Comma Decimal = "comma"
)

var (
	errNoNumber  = errors.New("no number")
	errTwoWays   = errors.New("a thousand or a thousandth")
	errOtherMark = errors.New("the other decimal mark")
)

// reading is a figure as it was read.
type reading struct {
	value float64
	shows Decimal   // the decimal mark that it leaves no doubt of
	ways  [2]string // of one that can be read in two ways: with the mark as decimal, and as thousands
}

// readNumber reads a figure with either decimal mark and any parting of thousands. One
// such as 1,234 can be read in two ways unless the decimal mark is known.
func readNumber(text string, decimal Decimal) (reading, error) {
	var out reading
	s := strings.TrimSpace(text)
	negative := false
	if strings.HasPrefix(s, "(") && strings.HasSuffix(s, ")") {
		negative, s = true, s[1:len(s)-1]
	}
	if rest, ok := strings.CutPrefix(strings.Replace(s, "−", "-", 1), "-"); ok {
		negative, s = !negative, rest
	}
	for _, ending := range []string{",-", ",–", ".-", ".–", ",--", ".--"} { // "12,-" is 12
		s = strings.TrimSuffix(s, ending)
	}
	s, ok := parted3(strings.TrimSpace(s))
	if !ok || strings.Trim(s, "0123456789.,") != "" || strings.Trim(s, ".,") == "" {
		return out, errNoNumber
	}
	s, out, err := pointed(s, decimal)
	if err != nil {
		return out, err
	}
	if out.value, err = strconv.ParseFloat(s, 64); err != nil || out.value > 1e12 {
		return out, errNoNumber
	}
	if negative {
		out.value = -out.value
	}
	return out, nil
}

// parted3 takes out blanks and apostrophes that part thousands: between groups of three.
func parted3(s string) (string, bool) {
	groups := strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == '\'' || r == '’' })
	for i, g := range groups {
		whole := strings.TrimRight(strings.SplitN(strings.Replace(g, ",", ".", 1), ".", 2)[0], " ")
		if i > 0 && len(whole) != 3 || i == 0 && len(groups) > 1 && (len(whole) > 3 || whole != g) || i > 0 && i < len(groups)-1 && whole != g {
			return s, false
		}
	}
	return strings.Join(groups, ""), true
}

// pointed writes a figure with a decimal point and nothing else.
func pointed(s string, decimal Decimal) (string, reading, error) {
	points, commas := strings.Count(s, "."), strings.Count(s, ",")
	own, other, mark := ".", ",", Point
	if commas == 1 && (points == 0 || strings.LastIndex(s, ",") > strings.LastIndex(s, ".")) || points > 1 && commas == 0 {
		own, other, mark = ",", ".", Comma
	}
	switch {
	case points+commas == 0:
		return s, reading{}, nil
	case points > 0 && commas > 0, points > 1, commas > 1:
		whole, part, _ := strings.Cut(s, own)
		if strings.Contains(part, own) || strings.Contains(part, other) || !thousands(whole, other) {
			return s, reading{}, errNoNumber
		}
		if decimal != Seen && decimal != mark {
			return s, reading{}, errOtherMark
		}
		return strings.ReplaceAll(whole, other, "") + "." + part, reading{shows: mark}, nil
	}
	whole, part, _ := strings.Cut(s, own)
	if len(part) != 3 || whole == "" || whole[0] == '0' || len(whole) > 3 {
		if decimal != Seen && decimal != mark {
			return s, reading{}, errOtherMark
		}
		return "0" + whole + "." + part, reading{shows: mark}, nil
	}
	switch decimal {
	case mark:
		return whole + "." + part, reading{}, nil
	case Seen:
		return s, reading{ways: [2]string{whole + "." + part, whole + part}}, errTwoWays
	}
	return whole + part, reading{}, nil
}

// thousands tells figures parted into groups of three.
func thousands(s, mark string) bool {
	groups := strings.Split(s, mark)
	if len(groups[0]) == 0 || len(groups[0]) > 3 {
		return len(groups) == 1
	}
	for _, g := range groups[1:] {
		if len(g) != 3 {
			return false
		}
	}
	return true
}

// wanted puts a figure that cannot be read into a problem's words.
func wanted(err error, text string, r reading, decimal Decimal) (code, want string, nearest []string) {
	switch {
	case errors.Is(err, errTwoWays):
		return "two-ways", "the decimal mark of the list stated: point or comma", r.ways[:]
	case errors.Is(err, errOtherMark):
		return "other-mark", fmt.Sprintf("a figure with a decimal %s, as is stated of the list", decimal), nil
	}
	return "no-number", "a figure, such as 12.50", digitsOf(text)
}

// digitsOf is the figure that stands in a text among other things, as a proposal.
func digitsOf(text string) []string {
	at := strings.IndexAny(text, "0123456789")
	if at < 0 {
		return nil
	}
	end := at
	for end < len(text) && strings.IndexByte("0123456789.,", text[end]) >= 0 {
		end++
	}
	return []string{strings.TrimRight(text[at:end], ".,")}
}
