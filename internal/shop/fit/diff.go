package fit

import (
	"bytes"
	"encoding/json"
	"reflect"
	"slices"

	"dropleg/engine/document"
	"dropleg/internal/shop/job"
)

// done makes the sketch true and gives its edit.
func (s *sketch) done(title string, more ...job.Edit) (job.Edit, []job.ID, error) {
	if err := s.makeTrue(); err != nil {
		return nil, nil, err
	}
	if err := s.oddCorners(); err != nil {
		return nil, nil, err
	}
	return s.edit(title, more...)
}

// edit is the difference between the sketch and the job as one edit, and the ids
// it makes. more are edits of things that the sketch does not hold, done last.
func (s *sketch) edit(title string, more ...job.Edit) (job.Edit, []job.ID, error) {
	var adds, sets, gone []job.Edit
	for _, n := range s.points {
		if was := s.ix.Point(n.ID); was != nil {
			sets = append(sets, changes(n.ID, was, &n.Point, "name", "at_m", "on", "part", "state")...)
		} else {
			adds = append(adds, job.AddOf(&n.Point))
		}
	}
	for _, r := range s.runs {
		if was := s.ix.Run(r.ID); was != nil {
			sets = append(sets, changes(r.ID, was, r, "name", "path_m", "length_m", "stock", "size", "role", "state", "support", "slope", "zone", "condition", "roughness_mm")...)
			sets = append(sets, leads(was, r)...)
		} else {
			adds = append(adds, job.AddOf(r))
		}
	}
	for _, o := range s.outlets {
		if was := s.ix.Outlet(o.ID); was != nil {
			sets = append(sets, changes(o.ID, was, o, "name", "mark", "point", "port", "tools")...)
			sets = append(sets, hangs(was, o)...)
		} else {
			adds = append(adds, job.AddOf(o))
		}
	}
	for _, t := range s.sets {
		sets = append(sets, changes(t.ID, s.ix.Set(t.ID), t, "running")...)
	}
	gone = append(gone, s.gone()...)
	all := slices.Concat(adds, sets, gone, more)
	if len(all) == 0 {
		return nil, nil, refuse("nothing-changes", "do", "nothing would change: it stands so already", "")
	}
	e, err := fits(job.AllOf(title, all...), s.ix)
	if err != nil {
		return nil, nil, err
	}
	return e, slices.Clone(s.made), nil
}

// gone takes away what the sketch has no more: sets, outlets, runs, points.
func (s *sketch) gone() []job.Edit {
	j := s.ix.Job()
	var out []job.Edit
	for i := range j.Work.Sets {
		if id := j.Work.Sets[i].ID; !slices.ContainsFunc(s.sets, func(t *job.Set) bool { return t.ID == id }) {
			out = append(out, &job.Remove{ID: id})
		}
	}
	for i := range j.Outlets {
		if id := j.Outlets[i].ID; s.outlet(id) == nil {
			out = append(out, &job.Remove{ID: id})
		}
	}
	for i := range j.Net.Runs {
		if id := j.Net.Runs[i].ID; s.byRun[id] == nil {
			out = append(out, &job.Remove{ID: id})
		}
	}
	for i := range j.Net.Points {
		if id := j.Net.Points[i].ID; s.byPoint[id] == nil {
			out = append(out, &job.Remove{ID: id})
		}
	}
	return out
}

// leads leads the ends of a run where they now go.
func leads(was, now *job.Run) []job.Edit {
	var out []job.Edit
	if was.From != now.From {
		out = append(out, &job.Connect{Run: now.ID, End: "from", Point: now.From.Point, Port: now.From.Port})
	}
	if was.To != now.To {
		out = append(out, &job.Connect{Run: now.ID, End: "to", Point: now.To.Point, Port: now.To.Port})
	}
	return out
}

// changes sets the keys of a thing that are not what they were. A value whose own
// keys differ in part only is set key by key, so that two hands on one part meet
// as seldom as can be.
func changes(id job.ID, was, now any, keys ...string) []job.Edit {
	// Most things of a shop are as they were: writing each out to see that takes longer than all else.
	if reflect.DeepEqual(was, now) {
		return nil
	}
	var out []job.Edit
	for _, key := range keys {
		before, after := valueAt(was, key), valueAt(now, key)
		if bytes.Equal(before, after) {
			continue
		}
		if key == "part" {
			out = append(out, partChanges(id, before, after)...)
			continue
		}
		out = append(out, &job.Change{ID: id, Key: key, Value: after})
	}
	return out
}

// partChanges sets a part: its kind alone where nothing else differs.
func partChanges(id job.ID, before, after json.RawMessage) []job.Edit {
	var a, b map[string]json.RawMessage
	if json.Unmarshal(before, &a) != nil || json.Unmarshal(after, &b) != nil {
		return []job.Edit{&job.Change{ID: id, Key: "part", Value: after}}
	}
	var differ []string
	for k := range a {
		if !bytes.Equal(a[k], b[k]) {
			differ = append(differ, k)
		}
	}
	for k := range b {
		if a[k] == nil {
			differ = append(differ, k)
		}
	}
	slices.Sort(differ)
	if len(differ) > 2 {
		return []job.Edit{&job.Change{ID: id, Key: "part", Value: after}}
	}
	var out []job.Edit
	for _, k := range differ {
		value := b[k]
		if value == nil {
			value = json.RawMessage("null")
		}
		out = append(out, &job.Change{ID: id, Key: "part." + k, Value: value})
	}
	return out
}

// valueAt is the value at a key of a thing as it stands in the file, null for none.
func valueAt(thing any, key string) json.RawMessage {
	raw, present, problems := document.Get(thing, key)
	if !present || problems != nil {
		return json.RawMessage("null")
	}
	return raw
}
