package document

import (
	"encoding/json"
	"fmt"
	"reflect"
	"sort"
	"strings"
)

// Schema is the JSON Schema 2020-12 of the documents that Decode reads into the
// type of v: the same keys, words and types; units stand in the descriptions,
// beside the text of a field's doc tag.
func Schema(v any, title string) []byte {
	root := rootOf(reflect.TypeOf(v))
	for root.kind == nPointer {
		root = root.elem
	}
	s := schema{defs: map[string]any{}, names: map[reflect.Type]string{}}
	top := s.object(root, title)
	top["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	if title != "" {
		top["title"] = title
	}
	if len(s.defs) > 0 {
		top["$defs"] = s.defs
	}
	// Keys come out sorted, which for a schema is order enough.
	text, err := json.MarshalIndent(top, "", "  ")
	if err != nil {
		panic(fmt.Sprintf("document: %v", err)) // maps of texts and numbers cannot fail
	}
	return append(text, '\n')
}

// Worded is one of several objects that a word under a common key tells apart.
type Worded struct {
	Word  string
	Value any
}

// SchemaOf is the JSON Schema of objects that are told apart by the word under key.
func SchemaOf(title, key string, forms []Worded) []byte {
	s := schema{defs: map[string]any{}, names: map[reflect.Type]string{}}
	var all []any
	for _, f := range forms {
		root := rootOf(reflect.TypeOf(f.Value))
		for root.kind == nPointer {
			root = root.elem
		}
		one := s.object(root, f.Word)
		one["title"] = f.Word
		one["properties"].(map[string]any)[key] = map[string]any{"const": f.Word}
		required, _ := one["required"].([]string)
		one["required"] = append([]string{key}, required...)
		all = append(all, one)
	}
	top := map[string]any{"$schema": "https://json-schema.org/draft/2020-12/schema", "title": title, "oneOf": all, "$defs": s.defs}
	text, err := json.MarshalIndent(top, "", "  ")
	if err != nil {
		panic(fmt.Sprintf("document: %v", err)) // maps of texts and numbers cannot fail
	}
	return append(text, '\n')
}

// schema gathers the definitions on the way.
type schema struct {
	defs  map[string]any
	names map[reflect.Type]string
}

// object is a struct's schema, or that of whatever else stands at the top.
func (s *schema) object(n *node, title string) map[string]any {
	if n.kind != nStruct {
		return s.of(n)
	}
	properties := map[string]any{}
	required := []string{}
	for i := range n.plan.fields {
		f := &n.plan.fields[i]
		at := s.of(f.node)
		if text := f.describe(); text != "" {
			at["description"] = text
		}
		properties[f.key] = at
		if f.required {
			required = append(required, f.key)
		}
	}
	out := map[string]any{"type": "object", "properties": properties, "additionalProperties": false}
	if len(required) > 0 {
		sort.Strings(required)
		out["required"] = required
	}
	if title == "" {
		out["title"] = n.typ.Name()
	}
	return out
}

// describe is the doc tag and the unit.
func (f *field) describe() string {
	n := f.node
	for n.elem != nil {
		n = n.elem
	}
	words := []string{}
	if f.doc != "" {
		words = append(words, f.doc)
	}
	if n.kind == nQuantity && n.unit.suffix != "" {
		words = append(words, n.unit.words())
	} else if n.kind == nQuantity {
		words = append(words, "without unit")
	}
	return strings.Join(words, "; ")
}

// of is the schema of a value.
func (s *schema) of(n *node) map[string]any {
	switch n.kind {
	case nString:
		if n.enum != nil {
			return map[string]any{"enum": n.enum}
		}
		return map[string]any{"type": "string"}
	case nBool:
		return map[string]any{"type": "boolean"}
	case nInt, nUint:
		return n.bounded("integer")
	case nFloat, nQuantity:
		return n.bounded("number")
	case nPointer:
		return map[string]any{"anyOf": []any{s.of(n.elem), map[string]any{"type": "null"}}}
	case nSlice:
		return map[string]any{"type": "array", "items": s.of(n.elem)}
	case nArray:
		return map[string]any{"type": "array", "items": s.of(n.elem), "minItems": n.typ.Len(), "maxItems": n.typ.Len()}
	case nMap:
		return map[string]any{"type": "object", "additionalProperties": s.of(n.elem)}
	case nStruct:
		return map[string]any{"$ref": "#/$defs/" + s.define(n)}
	}
	return map[string]any{}
}

// define puts a struct among the definitions and gives its name there.
func (s *schema) define(n *node) string {
	if name, ok := s.names[n.typ]; ok {
		return name
	}
	name := n.typ.Name()
	for i := 2; s.defs[name] != nil || name == ""; i++ {
		name = fmt.Sprintf("%s%d", n.typ.Name(), i)
	}
	s.names[n.typ], s.defs[name] = name, true // taken, in case the struct holds itself
	s.defs[name] = s.object(n, "")
	return name
}

// bounded is the schema of a number with its bounds.
func (n *node) bounded(kind string) map[string]any {
	out := map[string]any{"type": kind}
	if n.kind == nUint {
		out["minimum"] = 0
	}
	if n.span.min != nil {
		out["minimum"] = *n.span.min
	}
	if n.span.max != nil {
		out["maximum"] = *n.span.max
	}
	if n.span.above != nil {
		out["exclusiveMinimum"] = *n.span.above
	}
	return out
}
