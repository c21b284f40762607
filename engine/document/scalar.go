package document

import (
	"math"
	"reflect"
	"strconv"
	"strings"

	"dropleg/engine/unit"
)

// scalar reads a bare word: a number, true or false.
func (d *decoder) scalar(n *node, v reflect.Value) {
	at := d.pos
	w := d.word()
	switch {
	case w == "":
		d.unexpected(n.want())
	case w == "null":
		d.problemAt(at, "null", n.want()+"; leave the key out where it is unknown", "")
	case w == "true" || w == "false":
		if n.kind != nBool {
			d.problemAt(at, w, n.want(), "")
			return
		}
		v.SetBool(w == "true")
	case !isNumber(w):
		d.badWord(at, w, n.want())
	default:
		d.number(n, v, at, w)
	}
}

// number reads a number that is one by its grammar.
func (d *decoder) number(n *node, v reflect.Value, at int, w string) {
	x, err := strconv.ParseFloat(w, 64)
	if err != nil || math.IsInf(x, 0) {
		d.problemAt(at, short(w), n.want()+" between -1.7e308 and 1.7e308", "")
		return
	}
	if isNumeric(n.kind) && !n.span.holds(x) {
		d.problemAt(at, short(w), n.want(), n.span.near(x))
		return
	}
	switch n.kind {
	case nFloat:
		v.SetFloat(x)
	case nQuantity:
		si := n.unit.si(x)
		if math.IsInf(si, 0) {
			d.problemAt(at, short(w), n.want()+" between -1.7e308 and 1.7e308 in SI", "")
			return
		}
		v.SetFloat(si)
	case nInt, nUint:
		const exact = 1 << 53
		whole := x == math.Trunc(x) && math.Abs(x) <= exact
		switch {
		case !whole || n.kind == nInt && v.OverflowInt(int64(x)), n.kind == nUint && (x < 0 || v.OverflowUint(uint64(x))):
			d.problemAt(at, short(w), n.want(), "")
		case n.kind == nInt:
			v.SetInt(int64(x))
		default:
			v.SetUint(uint64(x))
		}
	default:
		d.problemAt(at, "the number "+short(w), n.want(), "")
	}
}

// badWord notes a bare word that JSON does not know; reading goes on behind it.
func (d *decoder) badWord(at int, w, want string) {
	switch low := strings.ToLower(strings.TrimLeft(w, "+-")); {
	case low == "nan" || low == "inf" || low == "infinity":
		d.problemAt(at, short(w), want+"; a figure that is unknown is left out", "")
	case strings.HasPrefix(w, "/"):
		d.pos = at
		d.unexpected(want)
	default:
		near := nearest(w, []string{"true", "false", "null"})
		if x, err := strconv.ParseFloat(w, 64); err == nil && !math.IsInf(x, 0) {
			near = plain(x)
		}
		d.problemAt(at, short(w), want, near)
	}
}

// meant is the value that a text in quotes stood for: "12" where a number is
// wanted, "3/4 in" where a length is.
func (n *node) meant(s string) string {
	switch n.kind {
	case nInt, nUint, nFloat, nBool:
		if isNumber(s) == (n.kind != nBool) && (n.kind != nBool || s == "true" || s == "false") {
			return short(s)
		}
	case nQuantity:
		if isNumber(s) {
			return short(s)
		}
		if x, err := unit.Parse(s, n.unit.kind, unit.Env{}); err == nil && !math.IsNaN(x) && !math.IsInf(x, 0) {
			return n.unit.print(x)
		}
	}
	return ""
}

// isNumeric says whether bounds can apply to a kind of node.
func isNumeric(k nodeKind) bool {
	return k == nFloat || k == nQuantity || k == nInt || k == nUint
}
