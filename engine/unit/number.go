package unit

import (
	"math"
	"strconv"
	"strings"
)

// number reads the number at the head of s, which is clean and has no sign, and
// returns the rest. ok is false where none stands or its marks contradict.
//
// Forms: 12, 12.5, 12,5, 1e-8, 3/4, 1 1/2, 1-1/2. Where point and comma both
// occur, the last is the decimal mark and the other parts thousands. A comma
// alone parts thousands when exactly three digits follow each one and one to
// three digits, not a lone or leading 0, stand before it (1,000 is a thousand,
// 1,250 too); else it is a decimal mark (12,5 and 0,125). A point alone is the
// decimal mark. A blank parts thousands only between groups of three (12 000).
func number(s string) (x float64, rest string, ok bool) {
	whole, after := digits(s)
	if whole != "" {
		if top, bottom, r, isFraction := fraction(s); isFraction {
			return top / bottom, r, bottom != 0
		}
		if after != "" && (after[0] == ' ' || after[0] == '-') {
			gap := strings.TrimLeft(after[1:], " ")
			if top, bottom, r, isFraction := fraction(gap); isFraction && !strings.HasPrefix(after, "- ") {
				w, err := strconv.ParseFloat(whole, 64)
				return w + top/bottom, r, err == nil && bottom != 0 && top < bottom
			}
		}
	}
	return decimal(s)
}

// digits splits the leading decimal digits off s.
func digits(s string) (head, rest string) {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return s[:n], s[n:]
}

// fraction reads a/b of plain digits, not followed by a decimal mark.
func fraction(s string) (top, bottom float64, rest string, ok bool) {
	a, r := digits(s)
	if a == "" || !strings.HasPrefix(r, "/") {
		return 0, 0, s, false
	}
	b, r := digits(r[1:])
	// A denominator beyond 999 is no fraction of the trade, and "1/100 cfm"
	// style units never start with a digit after the slash in the table.
	if b == "" || len(a) > 4 || len(b) > 3 {
		return 0, 0, s, false
	}
	top, _ = strconv.ParseFloat(a, 64)
	bottom, _ = strconv.ParseFloat(b, 64)
	return top, bottom, r, true
}

// decimal reads a number with marks and exponent.
func decimal(s string) (x float64, rest string, ok bool) {
	n := 0
	for n < len(s) && (isDigit(s[n]) || (isMark(s[n]) && n+1 < len(s) && isDigit(s[n+1])) || blankGroup(s, n)) {
		n++
	}
	mantissa, ok := unmark(s[:n])
	if !ok {
		return 0, s, false
	}
	rest = s[n:]
	// "5." and "5. m": a point that nothing follows belongs to the number.
	if strings.HasPrefix(rest, ".") && !strings.ContainsAny(s[:n], ".,") && (len(rest) == 1 || rest[1] == ' ') {
		rest = rest[1:]
	}
	if len(rest) > 1 && (rest[0] == 'e' || rest[0] == 'E') {
		sign := ""
		tail := rest[1:]
		if tail[0] == '-' || tail[0] == '+' {
			sign, tail = tail[:1], tail[1:]
		}
		if exp, r := digits(tail); exp != "" {
			mantissa, rest = mantissa+"e"+sign+exp, r
		}
	}
	x, err := strconv.ParseFloat(mantissa, 64)
	if err != nil || math.IsInf(x, 0) {
		return 0, s, false
	}
	return x, rest, true
}

// blankGroup says whether the blank at s[n] parts thousands: one to three
// digits before the first one, three digits after each.
func blankGroup(s string, n int) bool {
	if s[n] != ' ' || n == 0 || n+4 > len(s) {
		return false
	}
	first, _ := digits(s)
	if first == "" || len(first) > 3 || first[0] == '0' || strings.ContainsAny(s[:n], ".,") {
		return false
	}
	group, after := digits(s[n+1:])
	return len(group) == 3 && !strings.HasPrefix(after, "/")
}

// unmark turns a mantissa with decimal and thousands marks into the form of
// strconv; ok is false where the marks contradict each other.
func unmark(s string) (string, bool) {
	if strings.Contains(s, " ") {
		head, tail := s, ""
		if i := strings.IndexAny(s, ".,"); i >= 0 {
			head, tail = s[:i], "."+s[i+1:]
		}
		return strings.ReplaceAll(head, " ", "") + tail, !strings.ContainsAny(tail[min(1, len(tail)):], "., ")
	}
	point, comma := strings.LastIndexByte(s, '.'), strings.LastIndexByte(s, ',')
	switch {
	case point < 0 && comma < 0:
		return s, s != ""
	case point >= 0 && comma >= 0:
		mark := max(point, comma)
		head, ok := ungroup(s[:mark], s[min(point, comma)])
		return head + "." + s[mark+1:], ok
	case comma >= 0:
		if head, ok := ungroup(s, ','); ok {
			return head, true
		}
		return strings.Replace(s, ",", ".", 1), strings.Count(s, ",") == 1
	default:
		if strings.Count(s, ".") == 1 {
			return s, true
		}
		return ungroup(s, '.')
	}
}

// ungroup takes the thousands marks out of s: one to three digits without a
// leading nought, then groups of exactly three.
func ungroup(s string, mark byte) (string, bool) {
	groups := strings.Split(s, string(mark))
	if len(groups) < 2 || groups[0] == "" || len(groups[0]) > 3 || groups[0][0] == '0' {
		return s, false
	}
	for _, g := range groups[1:] {
		if d, r := digits(g); len(d) != 3 || r != "" {
			return s, false
		}
	}
	return strings.Join(groups, ""), true
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
func isMark(c byte) bool  { return c == '.' || c == ',' }
