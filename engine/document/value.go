package document

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"dropleg/engine/unit"
)

// value reads the value that is next into v.
func (d *decoder) value(n *node, v reflect.Value) {
	c := d.peek()
	switch {
	case n.kind == nRaw || n.kind == nReader:
		d.raw(n, v)
	case n.kind == nAny:
		if x := d.free(); x != nil {
			v.Set(reflect.ValueOf(x))
		} else {
			v.SetZero()
		}
	case n.kind == nPointer:
		if strings.HasPrefix(d.s[d.pos:], "null") {
			d.bare()
			v.SetZero()
			return
		}
		v.Set(reflect.New(n.elem.typ))
		d.value(n.elem, v.Elem())
	case c == '{':
		d.object(n, v)
	case c == '[':
		d.list(n, v)
	case c == '"':
		d.text(n, v)
	default:
		d.scalar(n, v)
	}
}

// raw hands a value over as it stands.
func (d *decoder) raw(n *node, v reflect.Value) {
	at, before := d.pos, len(d.problems)
	d.skip()
	if d.dead || len(d.problems) > before {
		return
	}
	raw := []byte(d.s[at:d.pos])
	if n.kind == nRaw {
		v.SetBytes(raw)
		return
	}
	// The type reads by itself, and its problems are put where the value stands.
	own := v.Addr().Interface().(Reader).ReadDocument(raw)
	line, path := d.lineOf(at), d.path
	for _, p := range own {
		if here := path(); p.Path == "" || strings.HasPrefix(p.Path, "[") {
			p.Path = here + p.Path
		} else {
			p.Path = here + "." + p.Path
		}
		if p.Line > 0 {
			p.Line += line - 1
		}
		d.problems = append(d.problems, p)
	}
}

// object reads an object into a struct or map.
func (d *decoder) object(n *node, v reflect.Value) {
	switch n.kind {
	case nStruct:
		d.structure(n.plan, v)
	case nMap:
		d.mapping(n, v)
	default:
		d.problem("an object in { }", n.want(), "")
		d.skip()
	}
}

// structure reads an object into a struct.
func (d *decoder) structure(pl *plan, v reflect.Value) {
	start := d.pos
	// Marks by number: a map for each object would cost more than the reading.
	seen := make([]bool, len(pl.fields))
	next := 0 // documents mostly keep the order of the struct
	d.members('{', func(key string, _, at int) {
		i := next
		if i >= len(pl.fields) || pl.fields[i].key != key {
			var known bool
			if i, known = pl.byKey[key]; !known {
				d.problemIn(key, at, fmt.Sprintf("the key %q", short(key)), "one of the keys "+pl.list(24), nearest(key, pl.keys))
				d.skip()
				return
			}
		}
		if seen[i] {
			d.problemIn(key, at, fmt.Sprintf("the key %q a second time", key), "each key once", "")
			d.skip()
			return
		}
		seen[i], next = true, i+1
		f := &pl.fields[i]
		d.segs = append(d.segs, segment{key: f.key, index: -1})
		d.value(f.node, v.FieldByIndex(f.index))
		d.segs = d.segs[:len(d.segs)-1]
	})
	for i := range pl.fields {
		if f := &pl.fields[i]; f.required && !seen[i] && !d.dead {
			d.problemIn(f.key, start, "nothing", f.node.want(), "")
		}
	}
}

// mapping reads an object into a map.
func (d *decoder) mapping(n *node, v reflect.Value) {
	v.Set(reflect.MakeMap(n.typ))
	d.members('{', func(key string, _, at int) {
		k := reflect.ValueOf(strings.Clone(key)).Convert(n.typ.Key())
		if v.MapIndex(k).IsValid() {
			d.problemIn(key, at, fmt.Sprintf("the key %q a second time", short(key)), "each key once", "")
		}
		x := reflect.New(n.elem.typ).Elem()
		d.segs = append(d.segs, segment{key: key, index: -1})
		d.value(n.elem, x)
		d.segs = d.segs[:len(d.segs)-1]
		v.SetMapIndex(k, x)
	})
}

// list reads a list into a slice or an array.
func (d *decoder) list(n *node, v reflect.Value) {
	if n.kind != nSlice && n.kind != nArray {
		d.problem("a list in [ ]", n.want(), "")
		d.skip()
		return
	}
	at, count := d.pos, 0
	thing := n.elem.plan != nil && n.elem.plan.hasID
	if n.kind == nSlice {
		v.Set(reflect.MakeSlice(n.typ, 0, 0))
	}
	d.members('[', func(_ string, i, _ int) {
		count = i + 1
		d.peek()
		d.segs = append(d.segs, segment{index: i, start: d.pos, thing: thing})
		defer func() { d.segs = d.segs[:len(d.segs)-1] }()
		if n.kind == nArray {
			if i >= v.Len() {
				d.skip()
				return
			}
			d.value(n.elem, v.Index(i))
			return
		}
		// Doubling, as append does; the zero value is read into in place, so that no
		// entry is copied twice.
		if i >= v.Cap() {
			v.Grow(max(1, i))
		}
		v.SetLen(i + 1)
		d.value(n.elem, v.Index(i))
	})
	if n.kind == nArray && count != v.Len() && !d.dead {
		d.problemAt(at, fmt.Sprintf("a list of %d", count), n.want(), "")
	}
}

// text reads a string.
func (d *decoder) text(n *node, v reflect.Value) {
	at := d.pos
	s := d.str()
	if d.dead {
		return
	}
	if n.kind != nString {
		d.problemAt(at, fmt.Sprintf("the text %q", short(s)), n.want(), n.meant(s))
		return
	}
	if n.enum != nil && !contains(n.enum, s) {
		d.problemAt(at, fmt.Sprintf("%q", short(s)), n.want(), nearest(s, n.enum))
		return
	}
	v.SetString(strings.Clone(s))
}

// free reads any value, as encoding/json would into an empty interface.
func (d *decoder) free() any {
	switch c := d.peek(); c {
	case '{':
		m := map[string]any{}
		d.members(c, func(key string, _, at int) {
			if _, twice := m[key]; twice {
				d.problemIn(key, at, fmt.Sprintf("the key %q a second time", short(key)), "each key once", "")
			}
			m[strings.Clone(key)] = d.free()
		})
		return m
	case '[':
		list := []any{}
		d.members(c, func(string, int, int) { list = append(list, d.free()) })
		return list
	case '"':
		return strings.Clone(d.str())
	}
	at := d.pos
	switch w := d.bare(); {
	case w == "true" || w == "false":
		return w == "true"
	case isNumber(w):
		x, err := strconv.ParseFloat(w, 64)
		if err != nil {
			d.problemAt(at, short(w), "a number between -1.7e308 and 1.7e308", "")
		}
		return x
	}
	return nil
}

// nearest is the nearest of some words, within reason.
func nearest(read string, words []string) string {
	if len(read) > 80 { // edit distance costs the product of the lengths
		return ""
	}
	return unit.Nearest(read, words)
}

// contains is slices.Contains for the short lists of enum tags.
func contains(words []string, w string) bool {
	for _, x := range words {
		if x == w {
			return true
		}
	}
	return false
}
