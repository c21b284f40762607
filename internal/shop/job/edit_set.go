package job

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/document"
)

// Change sets the value at a key of a thing, or of the job itself ("site.hot_C"
// with no id): the edit "set".
type Change struct {
	named
	ID    ID              `json:"id,omitempty" doc:"the thing; empty is the job itself"`
	Key   string          `json:"key" doc:"path within the thing, as in the file: \"part.set_kPa_g\""`
	Value json.RawMessage `json:"value" doc:"as in the file; null takes the value away"`
}

// Apply sets the value.
func (e *Change) Apply(j *Job) (*Job, Edit, error) { return apply(e, j) }

func (e *Change) verb() string { return "set" }

func (e *Change) do(d *draft) (Edit, error) {
	id, key := e.ID, e.Key
	switch {
	case id == "":
		return e.onJob(d)
	case key == "" || key == "id":
		return nil, refuse("not-to-set", "key", fmt.Sprintf("%q", key), "a key of the thing other than its id, which lives for ever", "", id)
	case id.Word() == "record":
		return nil, refuse("records-stay", "id", fmt.Sprintf("%q", id), "a new record: what was recorded stays as it is", "", id)
	}
	if id.Word() == "hose" || id.Word() == "part" {
		outlet, path, ok := d.nested(id)
		if !ok {
			return nil, d.unknownThing("id", id, "")
		}
		id, key = outlet, path+"."+key
	}
	return d.change(id, []string{key}, func(t any) error {
		before := inner(t)
		if problems := document.Set(t, key, e.Value); problems != nil {
			return refuseAll(problems)
		}
		if !slices.Equal(before, inner(t)) {
			return refuse("not-to-set", "key", fmt.Sprintf("%q, which changes what hangs there", key),
				"hoses and parts with ids added and removed by edits of their own", "", id)
		}
		return nil
	})
}

// onJob sets a key of the job itself.
func (e *Change) onJob(d *draft) (Edit, error) {
	closed := []string{"dropleg", "retired"}
	for _, l := range lists() {
		closed = append(closed, l.path())
	}
	for _, p := range closed {
		if e.Key == "" || e.Key == p || strings.HasPrefix(e.Key, p+".") || strings.HasPrefix(e.Key, p+"[") || strings.HasPrefix(p, e.Key+".") {
			return nil, refuse("not-to-set", "key", fmt.Sprintf("%q", brief(e.Key)),
				"a key of the job that holds no things with ids; those are set by their id, added and removed", "")
		}
	}
	inverse := d.undoKey(d.job, "", e.Key)
	if problems := document.Set(d.job, e.Key, e.Value); problems != nil {
		return nil, refuseAll(problems)
	}
	return inverse, nil
}

// Words tells what is set to what.
func (e *Change) Words(before *Job) string {
	value := brief(string(e.Value))
	if value == "null" {
		return strings.TrimSpace(fmt.Sprintf("took away %s of %s", e.Key, nameOf(before, e.ID)))
	}
	return fmt.Sprintf("set %s of %s to %s", e.Key, nameOf(before, e.ID), value)
}

// Form writes the edit.
func (e *Change) Form() EditForm { return form("set", Change{ID: e.ID, Key: e.Key, Value: e.Value}) }
