package job

import (
	"encoding/json"
	"fmt"
	"strings"

	"dropleg/engine/document"
)

// draft is a job being edited: a copy that shares each list with the original
// until it is first written to. Several edits on one draft copy a list once. After
// a refusal the draft is in no good state and is thrown away.
type draft struct {
	job   *Job
	owned map[string]bool
	// hints tells where a thing was last seen; checked before it is believed, as
	// removing moves those behind. nil until many edits make it worth its while.
	hints map[ID]int
	// later puts the checks of single things off to the end of several edits that
	// count as one, which on the way may pass through what could not stay.
	later   bool
	touched []ID
}

// begin is a draft of a job.
func begin(j *Job) *draft {
	c := *j
	return &draft{job: &c, owned: map[string]bool{}}
}

// apply is Apply of every edit.
func apply(e Edit, j *Job) (*Job, Edit, error) {
	d := begin(j)
	inverse, err := e.do(d)
	if err != nil {
		return nil, nil, err
	}
	return d.job, inverse, nil
}

// find is the list and place of a thing; ok is false where the job has none.
func (d *draft) find(id ID) (l list, i int, ok bool) {
	l = listFor(id.Word())
	if l == nil {
		return nil, 0, false
	}
	n := l.size(d.job)
	if i, ok := d.hints[id]; ok && i < n && l.id(d.job, i) == id {
		return l, i, true
	}
	for i := range n {
		if l.id(d.job, i) == id {
			if d.hints != nil {
				d.hints[id] = i
			}
			return l, i, true
		}
	}
	return l, 0, false
}

// hint makes finding quick for many edits.
func (d *draft) hint() {
	d.hints = map[ID]int{}
	for _, l := range lists() {
		for i := range l.size(d.job) {
			d.hints[l.id(d.job, i)] = i
		}
	}
}

// thing is a thing of the draft, or nil: draft is a finder.
func (d *draft) thing(id ID) any {
	if l, i, ok := d.find(id); ok {
		return l.thing(d.job, i)
	}
	return nil
}

// own makes a list writable.
func (d *draft) own(l list) {
	if !d.owned[l.word()] {
		l.own(d.job)
		d.owned[l.word()] = true
	}
}

// nested finds a hose or a hanging part: the outlet and the path within it.
func (d *draft) nested(id ID) (outlet ID, path string, ok bool) {
	for i := range d.job.Outlets {
		o := &d.job.Outlets[i]
		if o.Hose != nil && o.Hose.ID == id {
			return o.ID, "hose", true
		}
		for k := range o.Hang {
			if o.Hang[k].ID == id && id != "" {
				return o.ID, fmt.Sprintf("hang[%d]", k), true
			}
		}
	}
	return "", "", false
}

// taken says whether an id is or was a thing of the draft.
func (d *draft) taken(id ID) bool {
	if _, _, ok := d.find(id); ok || isRetired(d.job, id) {
		return true
	}
	_, _, ok := d.nested(id)
	return ok
}

// unknownThing refuses an id that leads nowhere.
func (d *draft) unknownThing(key string, id ID, word string) error {
	var ids []string
	what := "a thing"
	for _, l := range lists() {
		if word != "" && l.word() != word {
			continue
		}
		for i := range l.size(d.job) {
			ids = append(ids, string(l.id(d.job, i)))
		}
	}
	if word != "" {
		what = "a " + kindWords(word)
	}
	return refuse("leads-nowhere", key, fmt.Sprintf("%q", brief(string(id))), "the id of "+what+" of this job", nearestID(id, ids), id)
}

// change alters the values at some keys of a thing and gives the edit that puts
// back what stood there.
func (d *draft) change(id ID, keys []string, alter func(thing any) error) (Edit, error) {
	l, i, ok := d.find(id)
	if !ok {
		return nil, d.unknownThing("id", id, "")
	}
	t := l.copyOf(l.thing(d.job, i))
	back := make([]Edit, 0, len(keys))
	for k := len(keys) - 1; k >= 0; k-- {
		back = append(back, d.undoKey(t, id, keys[k]))
	}
	if err := alter(t); err != nil {
		return nil, err
	}
	d.own(l)
	l.put(d.job, i, t)
	if err := d.check(id); err != nil {
		return nil, err
	}
	if len(back) == 1 {
		return back[0], nil
	}
	return AllOf("", back...), nil
}

// check checks a thing that was added or changed and what stands on it, now or
// later.
func (d *draft) check(id ID) error {
	if d.later {
		d.touched = append(d.touched, id)
		return nil
	}
	t := d.thing(id)
	if t == nil {
		return nil // taken away again
	}
	if err := d.fits(t, id); err != nil {
		return err
	}
	return d.leaning(t, id)
}

// settle checks what was put off, each thing once.
func (d *draft) settle() error {
	done := make(map[ID]bool, len(d.touched))
	d.later = false
	for _, id := range d.touched {
		if done[id] {
			continue
		}
		done[id] = true
		if err := d.check(id); err != nil {
			return err
		}
	}
	d.touched = nil
	return nil
}

// undoKey is the edit that puts back what stands at a key now.
func (d *draft) undoKey(t any, id ID, key string) Edit {
	null := json.RawMessage("null")
	if gap := document.Gap(t, key); gap != "" {
		return &Change{ID: id, Key: gap, Value: null}
	}
	raw, present, problems := document.Get(t, key)
	if !present || problems != nil {
		raw = null
	}
	return &Change{ID: id, Key: key, Value: raw}
}

// fits refuses a thing that could not stand in the job as it is.
func (d *draft) fits(t any, id ID) error {
	var found []Finding
	add := func(code string, p document.Problem, also ...ID) {
		f := finding(code, Fault, p)
		f.Where = append([]ID{id}, also...)
		found = append(found, f)
	}
	at := func(key string) string { return strings.TrimSuffix(string(id)+": "+key, ": ") }
	for _, p := range document.Verify(t) {
		p.Path = at(p.Path)
		add("out-of-bounds", p)
	}
	for _, s := range inspect(t, d) {
		if s.severity == Fault {
			add(s.code, document.Problem{Path: at(s.key), Read: s.read, Want: s.want, Nearest: s.nearest})
		}
	}
	for _, r := range refs(t) {
		if r.to == id && r.word != "point" { // a thing may name itself only to be refused by inspect
			continue
		}
		if l, _, ok := d.find(r.to); !ok || l.word() != r.word {
			add("leads-nowhere", document.Problem{
				Path: at(r.key), Read: fmt.Sprintf("%q", brief(string(r.to))), Want: "the id of a " + kindWords(r.word) + " of this job",
				Nearest: nearestID(r.to, d.idsOf(r.word)),
			}, r.to)
		}
	}
	if found != nil {
		return &Refusal{found}
	}
	return nil
}

func (d *draft) idsOf(word string) []string {
	var out []string
	if l := listFor(word); l != nil {
		for i := range l.size(d.job) {
			out = append(out, string(l.id(d.job, i)))
		}
	}
	return out
}

// checkID refuses an id that a new thing may not have.
func (d *draft) checkID(id ID, word string, back bool) error {
	switch {
	case id.Word() != word || len(id) <= len(word)+1:
		return refuse("id-form", "thing.id", fmt.Sprintf("%q", brief(string(id))), "an id that begins with "+word+".", string(asID(word, id)))
	case isRetired(d.job, id) && !back:
		return refuse("id-retired", "thing.id", fmt.Sprintf("%q, which was removed from this job", id), "an id that was never used", string(freshID(id, d.taken)), id)
	case d.thing(id) != nil:
		return refuse("id-twice", "thing.id", fmt.Sprintf("%q, which is there", id), "an id of its own", string(freshID(id, d.taken)), id)
	}
	if _, _, ok := d.nested(id); ok {
		return refuse("id-twice", "thing.id", fmt.Sprintf("%q, which is there", id), "an id of its own", string(freshID(id, d.taken)), id)
	}
	return nil
}
