package document

import (
	"fmt"
	"math"
	"strings"

	"dropleg/engine/unit"
)

// want says in words what may stand at a node.
func (n *node) want() string {
	switch n.kind {
	case nString:
		if n.enum != nil {
			return "one of " + strings.Join(n.enum, ", ")
		}
		return "text in double quotes"
	case nBool:
		return "true or false"
	case nInt, nUint:
		return "a whole number" + n.span.words()
	case nFloat:
		return "a number" + n.span.words()
	case nQuantity:
		if n.unit.suffix == "" {
			return "a number without unit" + n.span.words()
		}
		return "a number: " + n.unit.words() + n.span.words()
	case nPointer:
		return n.elem.want()
	case nSlice:
		return "a list in [ ]"
	case nArray:
		return fmt.Sprintf("a list of %d in [ ]", n.typ.Len())
	case nStruct:
		return "an object in { } with keys " + n.plan.list(6)
	case nMap:
		return "an object in { }"
	}
	return "a value"
}

// words tells the unit: "gauge pressure in kPa", "pressure in kPa, absolute".
func (q quantity) words() string {
	name := strings.TrimPrefix(q.suffix, "_")
	frame := ""
	if s, ok := strings.CutSuffix(name, "_g"); ok && q.kind == unit.KindGauge {
		name = s // the kind's words say gauge
	} else if s, ok := strings.CutSuffix(name, "_abs"); ok {
		name, frame = s, ", absolute"
	}
	return q.kind.Words() + " in " + unitWords(name) + frame
}

// unitWords writes the unit of a suffix as people do: m3_s_Pa is m3/(s·Pa).
func unitWords(name string) string {
	parts := strings.Split(strings.TrimPrefix(name, "per_"), "_")
	if strings.HasPrefix(name, "per_") {
		return "1/" + parts[0]
	}
	if name == "C" {
		return "°C"
	}
	switch len(parts) {
	case 1:
		return name
	case 2:
		return parts[0] + "/" + parts[1]
	}
	return parts[0] + "/(" + strings.Join(parts[1:], "·") + ")"
}

// si turns a number of the file into SI. Dividing by a whole inverse rounds once
// and so reads 12.7 mm as the double nearest to 0.0127.
func (q quantity) si(v float64) float64 {
	if inverse := math.Round(1 / q.scale); q.scale < 1 && q.scale == 1/inverse {
		return v/inverse + q.offset
	}
	return v*q.scale + q.offset
}

// file turns SI into the number of the file.
func (q quantity) file(si float64) float64 {
	if inverse := math.Round(1 / q.scale); q.scale < 1 && q.scale == 1/inverse {
		return (si - q.offset) * inverse
	}
	return (si - q.offset) / q.scale
}

// holds says whether x, in the unit of the file, is within the bounds.
func (s span) holds(x float64) bool {
	return !(s.min != nil && x < *s.min || s.max != nil && x > *s.max || s.above != nil && x <= *s.above)
}

// words tells the bounds: ", 0 to 100".
func (s span) words() string {
	switch {
	case s.above != nil && s.max != nil:
		return fmt.Sprintf(", more than %s, at most %s", plain(*s.above), plain(*s.max))
	case s.min != nil && s.max != nil:
		return fmt.Sprintf(", %s to %s", plain(*s.min), plain(*s.max))
	case s.above != nil:
		return ", more than " + plain(*s.above)
	case s.min != nil:
		return ", at least " + plain(*s.min)
	case s.max != nil:
		return ", at most " + plain(*s.max)
	}
	return ""
}

// near is the bound that x overstepped; "" where the bound itself is not allowed.
func (s span) near(x float64) string {
	switch {
	case s.min != nil && x < *s.min:
		return plain(*s.min)
	case s.max != nil && x > *s.max:
		return plain(*s.max)
	}
	return ""
}
