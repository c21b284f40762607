package check

import (
	"context"
	"encoding/json"
	"slices"

	"dropleg/engine/document"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// propose tries edits that are no matter of pressure and gives them as a cure
// if they fit and make no tool short.
func (c *Case) propose(ctx context.Context, words string, edits ...job.Edit) ([]job.Cure, error) {
	if len(edits) == 0 {
		return nil, nil
	}
	found, ok, err := c.bench.Propose(ctx, words, edits...)
	if err != nil || !ok {
		return nil, err
	}
	return []job.Cure{found}, nil
}

// offer gives edits that add a part as a cure, if they fit the job.
func (c *Case) offer(words string, edits ...job.Edit) []job.Cure {
	if len(edits) == 0 {
		return nil
	}
	if found, ok := c.bench.Offer(words, edits...); ok {
		return []job.Cure{found}
	}
	return nil
}

// kindWith is the plainest kind with a role and a number of ports.
func (c *Case) kindWith(r catalog.Role, ports int) (catalog.Kind, bool) {
	return cure.KindWith(c.shelf, r, ports)
}

// setKind makes the part of a point another kind and keeps its size.
func setKind(point job.ID, kind catalog.Kind) job.Edit {
	return cure.Set(point, "part.kind", kind.Kind)
}

// hangFirst puts a part with a role before everything that hangs at outlets.
func (c *Case) hangFirst(outlets []job.ID, r catalog.Role) []job.Cure {
	kind, ok := c.kindWith(r, 2)
	if !ok {
		return nil
	}
	var edits []job.Edit
	for _, id := range outlets {
		o := c.idx.Outlet(id)
		edits = append(edits, c.setHang(o, slices.Concat([]job.Part{{Kind: kind.Kind}}, o.Hang))...)
	}
	words := "a " + kind.Name("en") + " before what hangs there"
	if len(outlets) > 1 {
		words = "a " + kind.Name("en") + " before what hangs at each"
	}
	return c.offer(words, edits...)
}

// hangDrip puts a pocket and its drain first at outlets.
func (c *Case) hangDrip(outlets []job.ID) []job.Cure {
	leg, ok1 := c.pocketKind()
	drain, ok2 := c.kindWith(catalog.Drains, 1)
	if !ok1 || !ok2 {
		return nil
	}
	var edits []job.Edit
	for _, id := range outlets {
		o := c.idx.Outlet(id)
		edits = append(edits, c.setHang(o, slices.Concat([]job.Part{{Kind: leg.Kind}, {Kind: drain.Kind}}, o.Hang))...)
	}
	return c.offer("a "+leg.Name("en")+" with a "+drain.Name("en")+" below the outlet", edits...)
}

// pocketKind is the plainest pocket of the drainage shelf.
func (c *Case) pocketKind() (catalog.Kind, bool) {
	for _, k := range c.shelf.Kinds() {
		if k.Group == catalog.Drainage && k.Has(catalog.Collects) && len(k.Ports) > 2 {
			return k, true
		}
	}
	return catalog.Kind{}, false
}

// setHang writes what hangs at an outlet anew; what was there keeps its ids.
func (c *Case) setHang(o *job.Outlet, hang []job.Part) []job.Edit {
	raw := make([]json.RawMessage, 0, len(hang))
	for i := range hang {
		text, err := document.Encode(&hang[i])
		if err != nil {
			return nil // a part that cannot be written cannot be set
		}
		raw = append(raw, text)
	}
	return []job.Edit{cure.Set(o.ID, "hang", raw)}
}
