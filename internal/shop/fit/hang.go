package fit

import (
	"encoding/json"
	"reflect"
	"slices"

	"dropleg/engine/document"
	"dropleg/internal/shop/job"
)

// hangs changes what hangs at an outlet: parts and hoses with ids come and go by
// edits of their own, the rest is set.
func hangs(was, now *job.Outlet) []job.Edit {
	out := hangParts(was, now)
	switch {
	case was.Hose == nil && now.Hose == nil:
	case was.Hose != nil && now.Hose != nil && was.Hose.ID == now.Hose.ID:
		out = append(out, changes(now.ID, was, now, "hose")...)
	default:
		if was.Hose != nil {
			out = append(out, &job.Remove{ID: was.Hose.ID})
		}
		if now.Hose != nil {
			out = append(out, &job.Add{What: "hose", To: now.ID, Thing: written(now.Hose)})
		}
	}
	return out
}

// hangParts changes the parts that hang. Those that stay in their order keep their
// place; one that goes past another is taken off and put back.
func hangParts(was, now *job.Outlet) []job.Edit {
	if reflect.DeepEqual(was.Hang, now.Hang) || string(valueAt(was, "hang")) == string(valueAt(now, "hang")) {
		return nil
	}
	before, after := idsIn(was.Hang), idsIn(now.Hang)
	stay := inOrder(before, after)
	var out []job.Edit
	list := slices.Clone(was.Hang)
	for _, id := range before {
		if !slices.Contains(stay, id) {
			out = append(out, &job.Remove{ID: id})
			list = slices.DeleteFunc(list, func(p job.Part) bool { return p.ID == id })
		}
	}
	// With the ids in their order the rest of the list is a value like any other.
	for i, id := range after {
		if slices.Contains(stay, id) {
			continue
		}
		at := len(list)
		if i == 0 {
			at = 0
		} else if k := slices.IndexFunc(list, func(p job.Part) bool { return p.ID == after[i-1] }); k >= 0 {
			at = k + 1
		}
		part := now.Hang[slices.IndexFunc(now.Hang, func(p job.Part) bool { return p.ID == id })]
		list = slices.Insert(list, at, part)
		out = append(out, &job.Add{What: "part", To: now.ID, Thing: written(&part), At: &at, Back: slices.Contains(before, id)})
	}
	interim := job.Outlet{Hang: list}
	return append(out, changes(now.ID, &interim, now, "hang")...)
}

// idsIn lists the ids of parts that have one.
func idsIn(parts []job.Part) []job.ID {
	var out []job.ID
	for _, p := range parts {
		if p.ID != "" {
			out = append(out, p.ID)
		}
	}
	return out
}

// inOrder is the longest list of ids that stand in both in the same order.
func inOrder(a, b []job.ID) []job.ID {
	best := make([][][]job.ID, len(a)+1)
	for i := range best {
		best[i] = make([][]job.ID, len(b)+1)
	}
	for i := len(a) - 1; i >= 0; i-- {
		for k := len(b) - 1; k >= 0; k-- {
			switch {
			case a[i] == b[k]:
				best[i][k] = append([]job.ID{a[i]}, best[i+1][k+1]...)
			case len(best[i+1][k]) >= len(best[i][k+1]):
				best[i][k] = best[i+1][k]
			default:
				best[i][k] = best[i][k+1]
			}
		}
	}
	return best[0][0]
}

// written is a thing as it stands in the file.
func written(thing any) json.RawMessage {
	raw, _, problems := document.Get(thing, "")
	if problems != nil {
		return json.RawMessage("null")
	}
	return raw
}
