package document

import (
	"math"
	"strconv"
	"strings"
)

// plain is the shortest text that reads back as x exactly. Very small and very
// large numbers take an exponent, as in encoding/json.
func plain(x float64) string {
	if x == 0 {
		return "0" // also for minus zero
	}
	if a := math.Abs(x); a < 1e-6 || a >= 1e21 {
		return exponent(strconv.FormatFloat(x, 'e', -1, 64))
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// print is the text of a quantity held in SI, in the unit of its key. In SI it
// is exact. In another unit it has 15 significant digits, or with an offset (°C)
// as many decimals as leave 14 digits of the SI figure: the double then has
// digits to spare, so that write, read, write gives the same bytes.
func (q quantity) print(si float64) string {
	if q.scale == 1 && q.offset == 0 {
		return plain(si)
	}
	x := q.file(si)
	if math.Abs(x) < 1e-290 {
		return "0" // below it doubles have no 15 digits left to give back
	}
	if q.offset != 0 {
		decimals := 14 - digits(math.Max(math.Abs(si), math.Abs(q.offset)))
		y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'f', max(decimals, 0), 64), 64)
		if err != nil {
			return plain(x)
		}
		return plain(y)
	}
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 14, 64), 64)
	if err != nil {
		return plain(x)
	}
	return plain(y)
}

// digits is the number of figures before the decimal point.
func digits(x float64) int {
	n := 1
	for ; x >= 10; x /= 10 {
		n++
	}
	return n
}

// exponent writes e-09 as e-9.
func exponent(s string) string {
	mantissa, e, ok := strings.Cut(s, "e")
	if !ok || len(e) < 2 {
		return s
	}
	sign := strings.TrimPrefix(e[:1], "+")
	return mantissa + "e" + sign + strings.TrimLeft(e[1:], "0")
}
