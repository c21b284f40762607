package document

import (
	"fmt"
	"reflect"
	"strings"
)

// Get writes the value at a path within v ("part.set_kPa_g", "hang[0].kind") as
// it would stand in the file; present is false where it would be left out.
func Get(v any, path string) (raw []byte, present bool, problems []Problem) {
	c := begin(v)
	for _, s := range steps(path) {
		if wrong := c.step(s, path, false); wrong != nil {
			return nil, false, []Problem{*wrong}
		}
		if !c.v.IsValid() {
			return nil, false, nil
		}
	}
	if c.f != nil && !c.f.required && c.f.leftOut(c.v) {
		return nil, false, nil
	}
	e := &encoder{flat: true, stop: 1 << 62}
	e.value(c.n, c.v, 0)
	if e.err != nil {
		return nil, false, []Problem{{Path: path, Read: e.err.Error(), Want: "a number"}}
	}
	return e.b, true, nil
}

// Set reads raw as the value at a path within the struct that v points to, with
// all the strictness of Decode; null takes a value away that may be left out.
// Lists and pointed-to values on the way are copied first, so that others who
// share them see nothing. Where there are problems, v is of no use any more.
func Set(v any, path string, raw []byte) []Problem {
	c := begin(v)
	for _, s := range steps(path) {
		if wrong := c.step(s, path, true); wrong != nil {
			return []Problem{*wrong}
		}
	}
	if c.f != nil && !c.f.required && strings.TrimSpace(string(raw)) == "null" {
		c.v.SetZero()
		return nil
	}
	fresh := reflect.New(c.n.typ).Elem()
	d := &decoder{}
	if d.begin(raw); !d.dead {
		d.value(c.n, fresh)
		d.end()
	}
	for i := range d.problems {
		d.problems[i].Path = strings.TrimSuffix(path+"."+d.problems[i].Path, ".")
		d.problems[i].Line = 0 // the text is one value, not the file
	}
	if len(d.problems) == 0 {
		c.v.Set(fresh)
	}
	return d.problems
}

// Gap is the shortest part of a path that leads to a pointer which is nil: to set
// the path creates what it points to, and to undo that the part is to be set to
// null, not the path. It is "" where there is none before the path's own end.
func Gap(v any, path string) string {
	c := begin(v)
	way := ""
	all := steps(path)
	for i, s := range all {
		if c.step(s, path, false) != nil || !c.v.IsValid() {
			return ""
		}
		switch {
		case s.index >= 0 && s.key == "":
			way += fmt.Sprintf("[%d]", s.index)
		case way == "":
			way = s.key
		default:
			way += "." + s.key
		}
		if c.n.kind == nPointer && c.v.IsNil() && i < len(all)-1 {
			return way
		}
	}
	return ""
}

// cursor stands at a value on the way along a path. v is invalid where the way
// leads through something that is left out.
type cursor struct {
	n *node
	v reflect.Value
	f *field // the field at which it stands, if it is one
}

// begin stands at what v points to.
func begin(v any) cursor {
	val := reflect.ValueOf(v)
	if val.Kind() != reflect.Pointer || val.IsNil() {
		panic("document: a path is followed from a pointer")
	}
	return cursor{n: rootOf(val.Type().Elem()), v: val.Elem()}
}

// step goes on by one key or index; writing, it copies what others may share.
func (c *cursor) step(s segment, path string, write bool) *Problem {
	for c.n.kind == nPointer {
		if c.v.IsNil() {
			if !write {
				c.v = reflect.Value{}
				return c.dry(s, path)
			}
			c.v.Set(reflect.New(c.n.elem.typ))
		} else if write && c.v.CanSet() {
			fresh := reflect.New(c.n.elem.typ)
			fresh.Elem().Set(c.v.Elem())
			c.v.Set(fresh)
		}
		c.n, c.v = c.n.elem, c.v.Elem()
	}
	if s.index < 0 {
		return c.toKey(s.key, path)
	}
	if c.n.kind != nSlice && c.n.kind != nArray {
		return &Problem{Path: path, Read: fmt.Sprintf("[%d]", s.index), Want: "a key of " + c.n.want()}
	}
	if s.index >= c.v.Len() {
		return &Problem{Path: path, Read: fmt.Sprintf("[%d]", s.index), Want: fmt.Sprintf("an entry of a list of %d", c.v.Len())}
	}
	if write && c.n.kind == nSlice {
		fresh := reflect.MakeSlice(c.n.typ, c.v.Len(), c.v.Len())
		reflect.Copy(fresh, c.v)
		c.v.Set(fresh)
	}
	c.n, c.v, c.f = c.n.elem, c.v.Index(s.index), nil
	return nil
}

// dry follows a step through something left out: only the key is checked.
func (c *cursor) dry(s segment, path string) *Problem {
	n := c.n
	for n.kind == nPointer {
		n = n.elem
	}
	if n.kind == nStruct && s.index < 0 {
		if _, ok := n.plan.byKey[s.key]; !ok {
			return unknownKey(s.key, path, n)
		}
	}
	return nil
}

// toKey goes on into a struct; lists and maps have no keys to follow.
func (c *cursor) toKey(key, path string) *Problem {
	if c.n.kind != nStruct {
		return &Problem{Path: path, Read: fmt.Sprintf("the key %q", short(key)), Want: c.n.want() + ", which has no keys"}
	}
	i, ok := c.n.plan.byKey[key]
	if !ok {
		return unknownKey(key, path, c.n)
	}
	f := &c.n.plan.fields[i]
	c.n, c.v, c.f = f.node, c.v.FieldByIndex(f.index), f
	return nil
}

// unknownKey is the problem of a key that a struct does not have.
func unknownKey(key, path string, n *node) *Problem {
	return &Problem{
		Path: path, Read: fmt.Sprintf("the key %q", short(key)),
		Want: "one of the keys " + n.plan.list(24), Nearest: nearest(key, n.plan.keys),
	}
}
