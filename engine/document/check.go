package document

import (
	"errors"
	"fmt"
	"reflect"
	"sort"
)

// CheckTypes finds the programmer's mistakes in a document's types: a quantity
// whose key's suffix does not fit its kind, a field without a key, a type that
// JSON cannot hold, an enum on something other than text. For the tests of the
// package that owns the type.
func CheckTypes(t reflect.Type) error {
	root := rootOf(t)
	var wrong []error
	walk(root, t.String(), map[*node]bool{}, func(path string, n *node) {
		if n.wrong != "" {
			wrong = append(wrong, fmt.Errorf("%s: %s", path, n.wrong))
		}
	})
	sort.Slice(wrong, func(i, j int) bool { return wrong[i].Error() < wrong[j].Error() })
	return errors.Join(wrong...)
}

// walk visits each node once.
func walk(n *node, path string, seen map[*node]bool, visit func(string, *node)) {
	if seen[n] {
		return
	}
	seen[n] = true
	visit(path, n)
	if n.elem != nil {
		walk(n.elem, path, seen, visit)
	}
	if n.plan != nil {
		for i := range n.plan.fields {
			f := &n.plan.fields[i]
			walk(f.node, n.typ.Name()+"."+f.key, seen, visit)
		}
	}
}
