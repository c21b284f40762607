package job

import (
	"encoding/json"
	"fmt"
	"slices"

	"dropleg/engine/document"
	"dropleg/engine/unit"
)

// Add puts a new thing into the job: the edit "add".
type Add struct {
	named
	What  string          `json:"what" doc:"the word that its id begins with: point, line, outlet, tool, hose, part, …"`
	Thing json.RawMessage `json:"thing" doc:"as in the file"`
	To    ID              `json:"to,omitempty" doc:"the outlet, for a hose or a hanging part"`
	At    *int            `json:"at,omitempty" min:"0" doc:"place in its list; left out, it goes to the end"`
	Back  bool            `json:"back,omitempty" doc:"undo of a removal: the id is given back"`
}

// AddOf is the edit that adds a thing made in Go (a *Point, *Run, *Tool, …). A
// thing that cannot be written is refused when the edit is applied.
func AddOf(thing any) *Add {
	e := &Add{Thing: textOf(thing)}
	for _, l := range lists() {
		if fmt.Sprintf("%T", l.fresh()) == fmt.Sprintf("%T", thing) {
			e.What = l.word()
		}
	}
	return e
}

// textOf is a thing as it stands in the file, on one line.
func textOf(thing any) json.RawMessage {
	raw, _, problems := document.Get(thing, "")
	if problems != nil {
		return json.RawMessage("null") // refused, with the reason that null is no thing
	}
	return raw
}

// Apply adds the thing.
func (e *Add) Apply(j *Job) (*Job, Edit, error) { return apply(e, j) }

func (e *Add) verb() string { return "add" }

func (e *Add) do(d *draft) (Edit, error) {
	switch e.What {
	case "hose":
		return e.hose(d)
	case "part":
		return e.part(d)
	}
	l := listFor(e.What)
	if l == nil {
		all := append(words(), "hose", "part")
		return nil, refuse("unknown-word", "what", fmt.Sprintf("%q", brief(e.What)), "one of "+joined(all), unit.Nearest(brief(e.What), all))
	}
	t := l.fresh()
	if err := e.read(t); err != nil {
		return nil, err
	}
	id := l.idOf(t)
	if err := d.checkID(id, e.What, e.Back); err != nil {
		return nil, err
	}
	if err := d.checkInner(t, e.Back); err != nil {
		return nil, err
	}
	at, err := e.place(l.size(d.job))
	if err != nil {
		return nil, err
	}
	d.own(l)
	l.insert(d.job, at, t)
	if d.hints != nil {
		d.hints[id] = at
	}
	if err := d.check(id); err != nil {
		return nil, err
	}
	if e.Back {
		d.giveBack(append(inner(t), id))
	}
	if e.What == "record" { // append-only, untouched by undo
		return AllOf(""), nil
	}
	return &Remove{ID: id, Forget: !e.Back}, nil
}

// read reads the thing strictly.
func (e *Add) read(t any) error {
	problems := document.Decode(e.Thing, t)
	for i := range problems {
		problems[i].Line = 0
		if problems[i].Path == "" {
			problems[i].Path = "thing"
		} else {
			problems[i].Path = "thing." + problems[i].Path
		}
	}
	if problems != nil {
		return refuseAll(problems)
	}
	return nil
}

// place is where in a list of n the thing goes.
func (e *Add) place(n int) (int, error) {
	if e.At == nil {
		return n, nil
	}
	if *e.At < 0 || *e.At > n {
		return 0, refuse("no-such-place", "at", fmt.Sprint(*e.At), fmt.Sprintf("a place from 0 to %d", n), fmt.Sprint(n))
	}
	return *e.At, nil
}

// hose plugs a hose in at an outlet that has none.
func (e *Add) hose(d *draft) (Edit, error) {
	h := &Hose{}
	if err := e.read(h); err != nil {
		return nil, err
	}
	if err := d.checkID(h.ID, "hose", e.Back); err != nil {
		return nil, err
	}
	_, err := d.change(e.To, []string{"hose"}, func(t any) error {
		o, ok := t.(*Outlet)
		if !ok || o.Hose != nil {
			return refuse("not-there", "to", fmt.Sprintf("%q", e.To), "an outlet without a hose", "", e.To)
		}
		o.Hose = h
		return nil
	})
	return e.hung(d, h.ID, err)
}

// part hangs a part with an id of its own at an outlet.
func (e *Add) part(d *draft) (Edit, error) {
	p := &Part{}
	if err := e.read(p); err != nil {
		return nil, err
	}
	if err := d.checkID(p.ID, "part", e.Back); err != nil {
		return nil, err
	}
	_, err := d.change(e.To, []string{"hang"}, func(t any) error {
		o, ok := t.(*Outlet)
		if !ok {
			return refuse("not-there", "to", fmt.Sprintf("%q", e.To), "an outlet", "", e.To)
		}
		at, err := e.place(len(o.Hang))
		if err != nil {
			return err
		}
		o.Hang = slices.Insert(slices.Clone(o.Hang), at, *p)
		return nil
	})
	return e.hung(d, p.ID, err)
}

// hung ends the adding of a hose or part.
func (e *Add) hung(d *draft, id ID, err error) (Edit, error) {
	if err != nil {
		return nil, err
	}
	if e.Back {
		d.giveBack([]ID{id})
	}
	return &Remove{ID: id, Forget: !e.Back}, nil
}

// checkInner checks the ids of hose and parts that come with an outlet.
func (d *draft) checkInner(t any, back bool) error {
	seen := map[ID]bool{}
	o, ok := t.(*Outlet)
	if !ok {
		return nil
	}
	for _, id := range inner(o) {
		word := "part"
		if o.Hose != nil && id == o.Hose.ID {
			word = "hose"
		}
		if err := d.checkID(id, word, back); err != nil {
			return err
		}
		if seen[id] {
			return refuse("id-twice", "thing", fmt.Sprintf("%q twice", id), "an id of its own for each", "", id)
		}
		seen[id] = true
	}
	return nil
}

// giveBack takes ids off the list of removed ones.
func (d *draft) giveBack(ids []ID) {
	for _, id := range ids {
		d.job.Retired = unretire(d.job.Retired, id)
	}
}

// Words tells what is added.
func (e *Add) Words(*Job) string {
	raw := e.Thing
	var named struct {
		ID   ID     `json:"id"`
		Name string `json:"name"`
	}
	if err := json.Unmarshal(raw, &named); err != nil || named.ID == "" {
		return "added a " + kindWords(e.What)
	}
	if named.Name != "" {
		return fmt.Sprintf("added %s %q", kindWords(e.What), named.Name)
	}
	return "added " + string(named.ID)
}

// Form writes the edit.
func (e *Add) Form() EditForm {
	return form("add", Add{What: e.What, Thing: e.Thing, To: e.To, At: e.At, Back: e.Back})
}
