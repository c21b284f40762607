package catalog

import (
	"reflect"

	"dropleg/engine/cite"
)

// Recalled counts the references of all rows, and those that are recalled, so
// that the list of sources can say how much rests on memory.
func (c *Catalog) Recalled() (recalled, all int) {
	count(reflect.ValueOf(c.shelf), func(r cite.Ref) {
		all++
		if r.How == cite.Recalled {
			recalled++
		}
	})
	return recalled, all
}

// count visits every reference within a value.
func count(v reflect.Value, visit func(cite.Ref)) {
	if r, ok := v.Interface().(cite.Ref); ok {
		visit(r)
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			count(v.Field(i), visit)
		}
	case reflect.Slice:
		for i := range v.Len() {
			count(v.Index(i), visit)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			count(v.Elem(), visit)
		}
	}
}
