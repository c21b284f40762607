package job

import (
	"cmp"
	"encoding/json"
	"slices"
	"strings"
)

// Touch is a thing and the key of it that an edit writes. Key "" is the whole
// thing, ID "" the job itself; with both empty it is the whole document.
type Touch struct {
	ID  ID
	Key string
	In  ID // the alternative inside which it is written; "" is the job itself
}

// Touches lists what an edit writes, in order, each once. It knows the edit alone
// and not the job: what a removal takes along with it, and the new ids of a split
// that names none, are touches of the inverse.
func Touches(e Edit) []Touch {
	out := e.touches()
	slices.SortFunc(out, func(a, b Touch) int {
		return cmp.Or(cmp.Compare(a.In, b.In), cmp.Compare(a.ID, b.ID), cmp.Compare(a.Key, b.Key))
	})
	return slices.Compact(out)
}

// Overlap says whether two edits with these touches write the same: the same key
// of a thing, or a key and one within it ("part" and "part.set_kPa_g"), or a
// thing and any key of it. Alternatives do not touch each other nor the job
// beneath them; what removes an alternative overlaps all that is done in it.
func Overlap(a, b []Touch) bool {
	return slices.ContainsFunc(a, func(x Touch) bool {
		return slices.ContainsFunc(b, x.meets)
	})
}

func (t Touch) meets(o Touch) bool {
	switch all := (Touch{}); {
	case t == all || o == all:
		return true
	case t.In == o.In:
		return t.ID == o.ID && (holds(t.Key, o.Key) || holds(o.Key, t.Key))
	case t.In == "":
		return t.ID == o.In && t.writesSteps()
	case o.In == "":
		return o.ID == t.In && o.writesSteps()
	}
	return false
}

// writesSteps says whether a touch of an alternative is of its list of edits.
func (t Touch) writesSteps() bool { return holds(t.Key, "edits") || holds("edits", t.Key) }

// holds says whether a key is the other one or has it within.
func holds(outer, inner string) bool {
	rest, ok := strings.CutPrefix(inner, outer)
	return ok && (outer == "" || rest == "" || rest[0] == '.' || rest[0] == '[')
}

func (e *Change) touches() []Touch { return []Touch{{ID: e.ID, Key: e.Key}} }

func (e *Move) touches() []Touch {
	keys := movedKeys(e.ID.Word())
	if keys == nil {
		return []Touch{{ID: e.ID}}
	}
	var out []Touch
	for _, k := range keys {
		out = append(out, Touch{ID: e.ID, Key: k})
	}
	return out
}

func (e *Connect) touches() []Touch { return []Touch{{ID: e.Run, Key: e.End}} }

func (e *Remove) touches() []Touch { return []Touch{{ID: e.ID}} }

func (e *Split) touches() []Touch {
	out := []Touch{{ID: e.Run}}
	for _, id := range []ID{e.Point, e.Rest} {
		if id != "" {
			out = append(out, Touch{ID: id})
		}
	}
	return out
}

func (e *Add) touches() []Touch {
	type own struct {
		ID ID `json:"id"`
	}
	var thing struct {
		own
		Hose *own  `json:"hose"` // of an outlet
		Hang []own `json:"hang"`
	}
	// A thing that cannot be read is refused when it is added, and touches nothing.
	if err := json.Unmarshal(e.Thing, &thing); err != nil || thing.ID == "" {
		return nil
	}
	out := []Touch{{ID: thing.ID}}
	if thing.Hose != nil {
		thing.Hang = append(thing.Hang, *thing.Hose)
	}
	for _, part := range thing.Hang {
		if part.ID != "" {
			out = append(out, Touch{ID: part.ID})
		}
	}
	switch e.What {
	case "hose":
		out = append(out, Touch{ID: e.To, Key: "hose"})
	case "part":
		out = append(out, Touch{ID: e.To, Key: "hang"})
	}
	return out
}

func (e *All) touches() []Touch {
	var out []Touch
	parts, _ := e.Parts()
	for _, p := range parts {
		if p != nil {
			out = append(out, p.touches()...)
		}
	}
	return out
}

func (e *Within) touches() []Touch {
	step, _ := e.Inner()
	if step == nil {
		return nil
	}
	out := step.touches()
	for i := range out {
		out[i].In = e.Plan
	}
	return out
}
