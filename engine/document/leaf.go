package document

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"dropleg/engine/unit"
)

// Form is how a leaf stands in the file.
type Form int

// The forms. What a form cannot show as one value (lists of structs without
// entries, values that read themselves) is no leaf.
const (
	FormText     Form = iota // a text; one of Enum where that is not empty
	FormFlag                 // true or false
	FormWhole                // a whole number
	FormNumber               // a number without a kind
	FormQuantity             // a number of a Kind, in the unit that the key states
	FormWords                // a list of texts
	FormObject               // a struct that is taken as one value
)

// Leaf is one value of a document that can be got and set by its path, with all
// that the type says about it: what a form to fill in is made of.
type Leaf struct {
	Path string // "part.set_kPa_g", "from_m[0]"
	Key  string // the last key on it: "set_kPa_g", "from_m"
	Of   string // name of the struct that has the key
	Doc  string
	Form Form
	Kind unit.Kind // of a quantity
	Enum []string
	// Needed says that the value cannot be left out.
	Needed bool
	// Gap is the shortest part of the path that is not there at all; "" where all
	// but the last step is.
	Gap  string
	unit quantity
	span span
}

// Leaves lists the leaves of what v points to in the order of the file, also those
// that are left out. Types named as whole are leaves themselves.
func Leaves(v any, whole ...reflect.Type) []Leaf {
	c := begin(v)
	w := leafer{whole: whole}
	w.walk(c.n, c.v, Leaf{}, "")
	return w.out
}

type leafer struct {
	whole []reflect.Type
	out   []Leaf
}

// walk goes down from a place; at holds what is known on the way, v is invalid
// where the way leads through something left out.
func (w *leafer) walk(n *node, v reflect.Value, at Leaf, gap string) {
	for n.kind == nPointer {
		n = n.elem
		if v.IsValid() && v.IsNil() {
			v = reflect.Value{}
			if n.kind == nStruct || n.kind == nArray {
				gap = at.Path
			}
		} else if v.IsValid() {
			v = v.Elem()
		}
	}
	at.Enum, at.span = n.enum, n.span
	if slices.Contains(w.whole, n.typ) {
		at.Form = FormObject
		w.leaf(at, strings.TrimSuffix(gap, at.Path))
		return
	}
	switch n.kind {
	case nStruct:
		w.fields(n.plan, n.typ.Name(), v, at, gap)
	case nArray:
		for i := range n.typ.Len() {
			entry := at
			entry.Path, entry.Needed = fmt.Sprintf("%s[%d]", at.Path, i), true
			w.walk(n.elem, indexed(v, i), entry, gap)
		}
	case nSlice:
		w.list(n, v, at, gap)
	default:
		if form, ok := formOf[n.kind]; ok {
			at.Form, at.unit, at.Kind = form, n.unit, n.unit.kind
			w.leaf(at, gap)
		}
	}
}

// formOf is the form of the kinds that are one value; it is never written to.
var formOf = map[nodeKind]Form{
	nString: FormText, nBool: FormFlag, nInt: FormWhole, nUint: FormWhole, nFloat: FormNumber, nQuantity: FormQuantity,
}

func (w *leafer) leaf(at Leaf, gap string) {
	at.Gap = gap
	w.out = append(w.out, at)
}

func (w *leafer) fields(pl *plan, of string, v reflect.Value, at Leaf, gap string) {
	for i := range pl.fields {
		f := &pl.fields[i]
		next := Leaf{Path: f.key, Key: f.key, Of: of, Doc: f.doc, Needed: f.required}
		if at.Path != "" {
			next.Path = at.Path + "." + f.key
		}
		inner := reflect.Value{}
		if v.IsValid() {
			inner = v.FieldByIndex(f.index)
		}
		w.walk(f.node, inner, next, gap)
	}
}

// list is a leaf where it holds texts; else its entries, as far as there are any,
// are places of their own.
func (w *leafer) list(n *node, v reflect.Value, at Leaf, gap string) {
	if n.elem.kind == nString {
		at.Form, at.Enum = FormWords, n.elem.enum
		w.leaf(at, gap)
		return
	}
	if n.elem.kind != nStruct || !v.IsValid() {
		return
	}
	for i := range v.Len() {
		entry := at
		entry.Path = fmt.Sprintf("%s[%d]", at.Path, i)
		w.walk(n.elem, v.Index(i), entry, gap)
	}
}

func indexed(v reflect.Value, i int) reflect.Value {
	if !v.IsValid() {
		return v
	}
	return v.Index(i)
}

// SI turns the number of the file into SI.
func (l Leaf) SI(file float64) float64 {
	if l.unit.scale == 0 {
		return file
	}
	return l.unit.si(file)
}

// File writes a number in SI as it stands in the file.
func (l Leaf) File(si float64) json.RawMessage {
	if l.unit.scale == 0 {
		return json.RawMessage(plain(si))
	}
	return json.RawMessage(l.unit.print(si))
}

// Holds says whether a number of the file is within the bounds, and where not
// which one is nearest; near is false where the bound itself is not allowed.
func (l Leaf) Holds(file float64) (ok bool, nearest float64, near bool) {
	if l.span.holds(file) {
		return true, file, true
	}
	x, err := strconv.ParseFloat(l.span.near(file), 64)
	return false, x, err == nil
}

// Bounds are the least and the greatest number of the file; ok tells which there
// are. over says that the least itself is not reached.
func (l Leaf) Bounds() (least, most float64, over, hasLeast, hasMost bool) {
	if b := l.span.min; b != nil {
		least, hasLeast = *b, true
	}
	if b := l.span.above; b != nil {
		least, hasLeast, over = *b, true, true
	}
	if b := l.span.max; b != nil {
		most, hasMost = *b, true
	}
	return least, most, over, hasLeast, hasMost
}
