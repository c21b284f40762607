package document

import (
	"encoding/json"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"

	"dropleg/engine/unit"
)

// nodeKind is how a type stands in JSON.
type nodeKind int

const (
	nBad nodeKind = iota
	nString
	nBool
	nInt
	nUint
	nFloat
	nQuantity
	nPointer
	nSlice
	nArray
	nMap
	nStruct
	nAny
	nRaw
	nReader
)

// node is a type at a place, with all that its key and tags say about it.
type node struct {
	kind  nodeKind
	typ   reflect.Type
	elem  *node
	plan  *plan
	enum  []string
	unit  quantity
	span  span
	wrong string // why the type cannot stand in a document: a programmer's mistake
}

// quantity is how a number in the file becomes SI: si = file·scale + offset.
type quantity struct {
	kind          unit.Kind
	suffix        string // "_kPa_g"; "" for a plain ratio
	scale, offset float64
}

// span bounds a number, in the unit of the file: the tags min and max hold the
// bound itself, above is a bound that is not reached.
type span struct {
	min, max, above *float64
}

// tags is what a field's tags say about the values under it.
type tags struct {
	enum  string
	span  span
	wrong string
}

// tagsOf reads a field's tags.
func tagsOf(t reflect.StructTag) tags {
	out := tags{enum: t.Get("enum")}
	bound := func(name string) *float64 {
		text, ok := t.Lookup(name)
		if !ok {
			return nil
		}
		x, err := strconv.ParseFloat(text, 64)
		if err != nil {
			out.wrong = fmt.Sprintf("the tag %s:%q is no number", name, text)
			return nil
		}
		return &x
	}
	out.span = span{min: bound("min"), max: bound("max"), above: bound("above")}
	return out
}

// plan is the keys of a struct in their order, embedded structs spread out.
type plan struct {
	fields []field
	byKey  map[string]int
	keys   []string
	hasID  bool
	things bool // each has an id: one thing a line
}

// field is one key of a struct.
type field struct {
	key      string
	index    []int
	node     *node
	required bool // no omitempty
	empty    bool // omitempty: a zero number, an empty text or list is left out
	doc      string
}

// roots keeps, by reflect.Type, the node of each type asked for: what the type
// says never changes, so that nothing but time tells whether it was at hand.
// Nodes are not written to once they are in it.
var roots sync.Map

// rootOf is the node of a type that stands by itself, without a key.
func rootOf(t reflect.Type) *node {
	if n, ok := roots.Load(t); ok {
		return n.(*node)
	}
	n, _ := roots.LoadOrStore(t, planner{}.node(t, "", tags{}))
	return n.(*node)
}

// planner makes nodes; structs met again (or within themselves) share a plan.
type planner map[reflect.Type]*node

var (
	typeReader = reflect.TypeFor[Reader]()
	typeRaw    = reflect.TypeFor[json.RawMessage]()
)

// node is the node of a type under a key with the tags of its field.
func (p planner) node(t reflect.Type, key string, tag tags) *node {
	if k, ok := unit.KindOf(t); ok {
		n := quantityNode(t, k, key)
		if n.span = tag.span; tag.wrong != "" {
			n.wrong = tag.wrong
		}
		return n
	}
	n := &node{typ: t, span: tag.span, wrong: tag.wrong}
	if tag.enum != "" {
		n.enum = strings.Split(tag.enum, ",")
	}
	switch {
	case t == typeRaw:
		n.kind = nRaw
		return n
	case reflect.PointerTo(t).Implements(typeReader):
		n.kind = nReader
		return n
	}
	switch t.Kind() {
	case reflect.String:
		n.kind = nString
	case reflect.Bool:
		n.kind = nBool
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		n.kind = nInt
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		n.kind = nUint
	case reflect.Float64, reflect.Float32:
		n.kind = nFloat
	case reflect.Pointer, reflect.Slice, reflect.Array, reflect.Map:
		p.container(n, key, tag)
	case reflect.Struct:
		return p.structNode(t)
	case reflect.Interface:
		if n.kind = nAny; t.NumMethod() > 0 {
			n.wrong = fmt.Sprintf("%v is an interface with methods", t)
		}
	default:
		n.wrong = fmt.Sprintf("%v cannot stand in a document", t)
	}
	if n.enum != nil && n.kind != nString && n.elem == nil {
		n.wrong = fmt.Sprintf("%v has an enum tag and is no text", t)
	}
	return n
}

// container fills in the node of a pointer, list or map.
func (p planner) container(n *node, key string, tag tags) {
	t := n.typ
	switch t.Kind() {
	case reflect.Pointer:
		n.kind = nPointer
	case reflect.Slice:
		n.kind = nSlice
	case reflect.Array:
		n.kind = nArray
	default:
		n.kind = nMap
		if t.Key().Kind() != reflect.String {
			n.wrong = fmt.Sprintf("%v has keys that are no text", t)
		}
	}
	n.elem = p.node(t.Elem(), key, tag)
}

// quantityNode takes the unit from the key's suffix.
func quantityNode(t reflect.Type, k unit.Kind, key string) *node {
	n := &node{kind: nQuantity, typ: t, unit: quantity{kind: k, scale: 1}}
	suffix, _ := unit.SuffixOf(key)
	scale, offset, ok := unit.FileUnit(k, suffix)
	switch {
	case ok:
		n.unit = quantity{kind: k, suffix: suffix, scale: scale, offset: offset}
	case k == unit.KindRatio && suffix == "":
	default:
		n.wrong = fmt.Sprintf("the key %q of a %v does not end in one of %s", key, t, strings.Join(unit.FileSuffixes(k), " "))
	}
	return n
}

// structNode is the node of a struct, made once.
func (p planner) structNode(t reflect.Type) *node {
	if n := p[t]; n != nil {
		return n
	}
	n := &node{kind: nStruct, typ: t, plan: &plan{byKey: map[string]int{}}}
	p[t] = n
	n.wrong = p.fields(n.plan, t, nil)
	n.plan.order()
	if i, ok := n.plan.byKey["id"]; ok {
		n.plan.hasID, n.plan.things = true, n.plan.fields[i].required
	}
	return n
}

// fields adds the keys of t to a plan; an outer key hides an embedded one.
func (p planner) fields(pl *plan, t reflect.Type, at []int) (wrong string) {
	var embedded []reflect.StructField
	for i := range t.NumField() {
		f := t.Field(i)
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		index := append(append([]int(nil), at...), i)
		switch {
		// Fields without a place in the file: marked so, or unexported.
		case name == "-" || f.PkgPath != "" && !f.Anonymous:
			continue
		case f.Anonymous && name == "" && f.Type.Kind() == reflect.Struct:
			f.Index = index
			embedded = append(embedded, f)
			continue
		case name == "":
			wrong = fmt.Sprintf("%v.%s has no key", t, f.Name)
			continue
		}
		if _, twice := pl.byKey[name]; twice {
			if at == nil {
				wrong = fmt.Sprintf("%v has the key %q twice", t, name)
			}
			continue
		}
		pl.byKey[name] = len(pl.fields)
		pl.keys = append(pl.keys, name)
		pl.fields = append(pl.fields, field{
			key: name, index: index, node: p.node(f.Type, name, tagsOf(f.Tag)),
			required: options == "", empty: options == "omitempty", doc: f.Tag.Get("doc"),
		})
	}
	for _, f := range embedded {
		if w := p.fields(pl, f.Type, f.Index); w != "" {
			wrong = w
		}
	}
	return wrong
}

// order puts the keys in the order of the source, those of embedded structs
// where the struct is embedded.
func (pl *plan) order() {
	slices.SortStableFunc(pl.fields, func(a, b field) int { return slices.Compare(a.index, b.index) })
	for i, f := range pl.fields {
		pl.byKey[f.key], pl.keys[i] = i, f.key
	}
}

// list names the first keys of a plan.
func (pl *plan) list(most int) string {
	if len(pl.keys) > most {
		return strings.Join(pl.keys[:most], ", ") + ", …"
	}
	return strings.Join(pl.keys, ", ")
}
