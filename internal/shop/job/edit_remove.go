package job

import (
	"fmt"
	"slices"
	"strings"
)

// Remove takes a thing out of the job: the edit "remove". It refuses while other
// things name it, and says which; with_runs takes the runs at a point along. The
// id is retired.
type Remove struct {
	named
	ID       ID   `json:"id"`
	WithRuns bool `json:"with_runs,omitempty" doc:"of a point: the runs that end there too"`
	Forget   bool `json:"forget,omitempty" doc:"undo of an addition: the id is as if it had never been"`
}

// Apply removes the thing.
func (e *Remove) Apply(j *Job) (*Job, Edit, error) { return apply(e, j) }

func (e *Remove) verb() string { return "remove" }

func (e *Remove) do(d *draft) (Edit, error) {
	switch e.ID.Word() {
	case "hose", "part":
		return e.nested(d)
	case "record":
		return nil, refuse("records-stay", "id", fmt.Sprintf("%q", brief(string(e.ID))), "a new record: what was recorded stays", "", e.ID)
	}
	if _, _, ok := d.find(e.ID); !ok {
		return nil, d.unknownThing("id", e.ID, "")
	}
	named := d.namedBy(e.ID)
	var runs, others []ID
	for _, id := range named {
		if id.Word() == "line" && e.ID.Word() == "point" && e.WithRuns {
			runs = append(runs, id)
		} else {
			others = append(others, id)
		}
	}
	if len(others) > 0 {
		want := "a thing that no other names"
		if e.ID.Word() == "point" && !e.WithRuns {
			want += "; with_runs takes the runs along"
		}
		return nil, refuse("still-named", "id", fmt.Sprintf("%q, which is named by %s", e.ID, joined(others)), want, "", append([]ID{e.ID}, others...)...)
	}
	var back []Edit
	for _, r := range runs {
		back = append(back, d.take(r, e.Forget))
	}
	back = append(back, d.take(e.ID, e.Forget))
	if slices.Reverse(back); len(back) == 1 {
		return back[0], nil
	}
	return AllOf("", back...), nil // the point first, then its runs
}

// take cuts a thing out and gives the edit that puts it back.
func (d *draft) take(id ID, forget bool) Edit {
	l, i, _ := d.find(id)
	t := l.copyOf(l.thing(d.job, i))
	d.own(l)
	l.cut(d.job, i)
	if d.hints != nil {
		delete(d.hints, id)
	}
	if !forget {
		for _, gone := range append(inner(t), id) {
			d.job.Retired = retire(d.job.Retired, gone)
		}
	}
	return &Add{What: l.word(), Thing: textOf(t), At: &i, Back: !forget}
}

// namedBy lists the things that name an id, in the order of the document.
// Records do not count: they keep the ids of what is gone.
func (d *draft) namedBy(id ID) []ID {
	var out []ID
	for _, l := range lists() {
		if l.word() == "record" || !names(l.word(), id.Word()) {
			continue
		}
		for i := range l.size(d.job) {
			for _, r := range refs(l.thing(d.job, i)) {
				if r.to == id {
					out = append(out, l.id(d.job, i))
					break
				}
			}
		}
	}
	return out
}

// names says whether things of one kind can name things of another at all.
func names(by, what string) bool {
	switch what {
	case "zone":
		return by == "room" || by == "line"
	case "wall":
		return by == "opening" || by == "point"
	case "point":
		return by == "line" || by == "outlet"
	case "tool":
		return by == "outlet" || by == "tool" || by == "set"
	case "outlet":
		return by == "set"
	}
	return false
}

// nested takes a hose or a hanging part off its outlet.
func (e *Remove) nested(d *draft) (Edit, error) {
	outlet, path, ok := d.nested(e.ID)
	if !ok {
		return nil, d.unknownThing("id", e.ID, "")
	}
	back := &Add{What: e.ID.Word(), To: outlet, Back: !e.Forget}
	key, _, _ := strings.Cut(path, "[")
	_, err := d.change(outlet, []string{key}, func(t any) error {
		o := t.(*Outlet) // d.nested found it there
		if path == "hose" {
			back.Thing, o.Hose = textOf(o.Hose), nil
			return nil
		}
		i := slices.IndexFunc(o.Hang, func(p Part) bool { return p.ID == e.ID })
		back.Thing, back.At = textOf(&o.Hang[i]), &i
		if o.Hang = slices.Delete(slices.Clone(o.Hang), i, i+1); len(o.Hang) == 0 {
			o.Hang = nil
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	if !e.Forget {
		d.job.Retired = retire(d.job.Retired, e.ID)
	}
	return back, nil
}

// Words tells what goes.
func (e *Remove) Words(before *Job) string { return "removed " + nameOf(before, e.ID) }

// Form writes the edit.
func (e *Remove) Form() EditForm {
	return form("remove", Remove{ID: e.ID, WithRuns: e.WithRuns, Forget: e.Forget})
}

// joined names the first dozen.
func joined[S ~string](names []S) string {
	var out []string
	for _, n := range names {
		out = append(out, string(n))
	}
	return listed(out)
}
