package document

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"sort"
	"strconv"
	"unicode/utf8"
)

// width is the longest line onto which an object or list is put whole.
const width = 100

// encoder writes one value.
type encoder struct {
	b    []byte
	path []segment
	err  error
	// flat is set while a value is tried on one line; it gives up at stop.
	flat bool
	stop int
	over bool
}

// Encode writes v: keys in the order of the struct, those of maps sorted, what
// is omitempty left out, a list of things one thing a line, anything else on one
// line where it fits. NaN and the infinities are refused with their path.
func Encode(v any) ([]byte, error) {
	e := &encoder{}
	val := reflect.ValueOf(v)
	if !val.IsValid() {
		return nil, fmt.Errorf("writing a document: nothing to write")
	}
	n := rootOf(val.Type())
	for n.kind == nPointer && !val.IsNil() {
		n, val = n.elem, val.Elem()
	}
	e.value(n, val, 0)
	if e.err != nil {
		return nil, fmt.Errorf("writing a document: %w", e.err)
	}
	return append(e.b, '\n'), nil
}

// value writes a value whose line is indented by indent steps.
func (e *encoder) value(n *node, v reflect.Value, indent int) {
	if e.err != nil || e.over {
		return
	}
	switch n.kind {
	case nString:
		e.quote(v.String())
	case nBool:
		e.b = strconv.AppendBool(e.b, v.Bool())
	case nInt:
		e.b = strconv.AppendInt(e.b, v.Int(), 10)
	case nUint:
		e.b = strconv.AppendUint(e.b, v.Uint(), 10)
	case nFloat, nQuantity:
		e.number(n, v.Float())
	case nPointer:
		if v.IsNil() {
			e.b = append(e.b, "null"...)
			return
		}
		e.value(n.elem, v.Elem(), indent)
	case nRaw:
		e.raw(v.Bytes(), nil, indent)
	case nReader:
		raw, err := json.Marshal(v.Interface())
		e.raw(raw, err, indent)
	case nAny:
		raw, err := json.Marshal(v.Interface())
		e.raw(raw, err, indent)
	case nStruct, nMap, nSlice, nArray:
		e.group(n, v, indent)
	default:
		e.fail(n.wrong)
	}
	if e.flat && len(e.b) > e.stop {
		e.over = true
	}
}

// fail keeps the first reason: what follows it is of no interest to the writer.
func (e *encoder) fail(why string) {
	if e.err == nil {
		d := decoder{segs: e.path}
		e.err = fmt.Errorf("%s: %s", d.path(), why)
	}
}

// number refuses what JSON has no word for; quantities leave SI here.
func (e *encoder) number(n *node, x float64) {
	switch {
	case math.IsNaN(x) || math.IsInf(x, 0):
		e.fail(fmt.Sprintf("%v is no number that can be written", x))
	case n.kind == nQuantity:
		e.b = append(e.b, n.unit.print(x)...)
	default:
		e.b = append(e.b, plain(x)...)
	}
}

// group writes an object or list: on one line where it fits there.
func (e *encoder) group(n *node, v reflect.Value, indent int) {
	// One try on one line, given up as soon as it is too long: the cost of trying
	// stays within a line's length for each level, whatever the document's size.
	things := n.kind == nSlice && n.elem.kind == nStruct && n.elem.plan.things && v.Len() > 0
	if e.flat || indent > 0 && !things && !e.things(n, v) {
		start, was := len(e.b), e.flat
		if !was {
			e.flat, e.stop, e.over = true, e.lineStart()+width, false
		}
		e.members(n, v, -1)
		if was {
			return
		}
		over := e.over
		e.flat, e.over = false, false
		if !over && len(e.b) <= e.stop {
			return
		}
		e.b = e.b[:start]
	}
	e.members(n, v, indent+1)
}

// things says whether an object holds a list of things, which never shares a line.
func (e *encoder) things(n *node, v reflect.Value) bool {
	if n.kind != nStruct {
		return false
	}
	for i := range n.plan.fields {
		f := &n.plan.fields[i]
		if l := f.node; l.kind == nSlice && l.elem.kind == nStruct && l.elem.plan.things && v.FieldByIndex(f.index).Len() > 0 {
			return true
		}
	}
	return false
}

// lineStart is where the present line begins.
func (e *encoder) lineStart() int { return bytes.LastIndexByte(e.b, '\n') + 1 }

// members writes what is between the brackets; indent -1 is one line.
func (e *encoder) members(n *node, v reflect.Value, indent int) {
	open, closing := byte('{'), byte('}')
	if n.kind == nSlice || n.kind == nArray {
		open, closing = '[', ']'
	}
	e.b = append(e.b, open)
	count := 0
	next := func(s segment) {
		if count++; count > 1 {
			e.b = append(e.b, ',')
		}
		if indent >= 0 {
			e.line(indent)
		} else if count > 1 {
			e.b = append(e.b, ' ')
		}
		if e.path = append(e.path, s); s.index < 0 {
			e.quote(s.key)
			e.b = append(e.b, ": "...)
		}
	}
	e.each(n, v, func(s segment, elem *node, x reflect.Value) bool {
		next(s)
		e.value(elem, x, max(indent, 0))
		e.path = e.path[:len(e.path)-1]
		return e.err == nil && !e.over
	})
	if indent >= 0 && count > 0 {
		e.line(indent - 1)
	}
	e.b = append(e.b, closing)
}

// each walks the members that are written.
func (e *encoder) each(n *node, v reflect.Value, do func(segment, *node, reflect.Value) bool) {
	switch n.kind {
	case nStruct:
		for i := range n.plan.fields {
			f := &n.plan.fields[i]
			x := v.FieldByIndex(f.index)
			if !f.required && f.leftOut(x) {
				continue
			}
			if !do(segment{key: f.key, index: -1}, f.node, x) {
				return
			}
		}
	case nMap:
		keys := v.MapKeys()
		sort.Slice(keys, func(i, j int) bool { return keys[i].String() < keys[j].String() })
		for _, k := range keys {
			if !do(segment{key: k.String(), index: -1}, n.elem, v.MapIndex(k)) {
				return
			}
		}
	default:
		for i := range v.Len() {
			if !do(segment{index: i}, n.elem, v.Index(i)) {
				return
			}
		}
	}
}

// leftOut says whether a value is left out: the zero of its type, and for
// omitempty an empty list or map too.
func (f *field) leftOut(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Slice, reflect.Map:
		if f.empty {
			return v.Len() == 0
		}
	case reflect.Struct:
		return !f.empty && v.IsZero()
	}
	return v.IsZero()
}

// line begins a line, two spaces a step.
func (e *encoder) line(indent int) {
	e.b = append(e.b, '\n')
	for range indent {
		e.b = append(e.b, "  "...)
	}
}

// raw writes JSON that came as a text in the document's own layout. Numbers stay
// as they are spelled.
func (e *encoder) raw(raw []byte, err error, indent int) {
	var x any
	if err == nil {
		dec := json.NewDecoder(bytes.NewReader(raw))
		dec.UseNumber()
		err = dec.Decode(&x)
	}
	if err != nil {
		e.fail(err.Error())
		return
	}
	d := &decoder{s: string(raw)}
	e.tree(d, indent)
}

// quote writes a text as JSON; only what must be is escaped, so that people can
// read the file. Bytes that are no UTF-8 become the replacement sign.
func (e *encoder) quote(s string) {
	const hex = "0123456789abcdef"
	e.b = append(e.b, '"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			e.b = append(e.b, '\\', byte(r))
		case r == '\n':
			e.b = append(e.b, '\\', 'n')
		case r == '\t':
			e.b = append(e.b, '\\', 't')
		case r < ' ' || r == 0x7f:
			e.b = append(e.b, '\\', 'u', '0', '0', hex[r>>4], hex[r&15])
		default:
			e.b = utf8.AppendRune(e.b, r)
		}
	}
	e.b = append(e.b, '"')
}
