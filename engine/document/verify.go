package document

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
)

// Verify holds a value in memory against the rules that Decode would apply to
// its text: words of enum tags, bounds, numbers that are none. Paths are those
// of the document, with ids.
func Verify(v any) []Problem {
	val := reflect.ValueOf(v)
	c := verifier{}
	c.value(rootOf(val.Type()), val)
	return c.problems
}

// verifier walks a value; the way to it is put into words only for a problem.
type verifier struct {
	way      []stop
	problems []Problem
}

// stop is one step of the way: a key, or an entry of a list.
type stop struct {
	key   string
	index int
	n     *node
	v     reflect.Value
}

// note puts the way into words and adds a problem; of very many only the first.
func (c *verifier) note(read string, n *node, near string) {
	if len(c.problems) >= maxProblems {
		return
	}
	path := ""
	for _, s := range c.way {
		switch {
		case s.key == "":
			path += fmt.Sprintf("[%d]", s.index)
			if s.n.kind == nStruct && s.n.plan.things {
				f := s.n.plan.fields[s.n.plan.byKey["id"]]
				path += fmt.Sprintf(" (%s)", short(s.v.FieldByIndex(f.index).String()))
			}
		case path == "":
			path = s.key
		default:
			path += "." + s.key
		}
	}
	c.problems = append(c.problems, Problem{Path: path, Read: read, Want: n.want(), Nearest: near})
}

// value visits everything that a file would hold: what is left out cannot be wrong.
func (c *verifier) value(n *node, v reflect.Value) {
	switch n.kind {
	case nString:
		if n.enum != nil && !contains(n.enum, v.String()) {
			c.note(fmt.Sprintf("%q", short(v.String())), n, nearest(v.String(), n.enum))
		}
	case nFloat, nQuantity:
		c.number(n, v.Float())
	case nInt:
		c.number(n, float64(v.Int()))
	case nPointer:
		if !v.IsNil() {
			c.value(n.elem, v.Elem())
		}
	case nSlice, nArray:
		for i := range v.Len() {
			if n.elem.trivial() {
				break // texts without a list of words: nothing to hold against
			}
			c.step(stop{index: i, n: n.elem, v: v.Index(i)})
		}
	case nStruct:
		for i := range n.plan.fields {
			f := &n.plan.fields[i]
			x := v.FieldByIndex(f.index)
			if !f.node.trivial() && (f.required || !f.leftOut(x)) {
				c.step(stop{key: f.key, n: f.node, v: x})
			}
		}
	}
}

// step visits what lies one step on.
func (c *verifier) step(s stop) {
	c.way = append(c.way, s)
	c.value(s.n, s.v)
	c.way = c.way[:len(c.way)-1]
}

// number holds a figure against its bounds, which are in the unit of the file.
func (c *verifier) number(n *node, x float64) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		c.note(fmt.Sprint(x), n, "")
		return
	}
	q := x
	if n.kind == nQuantity {
		q = n.unit.file(x)
	}
	if n.span.holds(q) {
		return
	}
	if n.kind == nQuantity { // only what would be written counts, not the last bit of a conversion
		q, _ = strconv.ParseFloat(n.unit.print(x), 64)
	}
	if !n.span.holds(q) {
		c.note(plain(q), n, n.span.near(q))
	}
}

// trivial tells the nodes that need no visit; most of a job is such text, and
// passing over it is what keeps Verify quick: whether nothing about a value can be wrong once it has its type.
func (n *node) trivial() bool {
	switch n.kind {
	case nString:
		return n.enum == nil
	case nBool, nRaw, nReader, nAny:
		return true
	}
	return false
}
