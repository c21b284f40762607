package job

import "fmt"

// All is several edits as one: all of them are applied, or none. Things are
// checked when all is done, so that a point may follow the run that leads to it.
type All struct {
	named
	Title string     `json:"title,omitempty" doc:"what they do together, for the history"`
	Edits []EditForm `json:"edits"`

	made []Edit // where it was made in Go instead of read
}

// AllOf puts edits together under a title.
func AllOf(title string, edits ...Edit) *All { return &All{Title: title, made: edits} }

// Parts is the edits in their order; findings tell those that cannot be read.
func (e *All) Parts() ([]Edit, []Finding) {
	if e.made != nil {
		return e.made, nil
	}
	var out []Edit
	var bad []Finding
	for i, f := range e.Edits {
		one, found := ParseEdit(f)
		for _, b := range found {
			b.Path = fmt.Sprintf("edits[%d].%s", i, b.Path)
			bad = append(bad, b)
		}
		out = append(out, one)
	}
	return out, bad
}

// Apply applies all edits or none.
func (e *All) Apply(j *Job) (*Job, Edit, error) { return apply(e, j) }

func (e *All) verb() string { return "all" }

func (e *All) do(d *draft) (Edit, error) {
	parts, bad := e.Parts()
	if bad != nil {
		return nil, &Refusal{bad}
	}
	if len(parts) > 8 && d.hints == nil {
		d.hint()
	}
	outer := !d.later
	d.later = true
	back := make([]Edit, len(parts))
	for i, p := range parts {
		inverse, err := p.do(d)
		if err != nil {
			return nil, fmt.Errorf("edit %d of %d, %s: %w", i+1, len(parts), p.verb(), err)
		}
		back[len(parts)-1-i] = inverse
	}
	if outer {
		if err := d.settle(); err != nil {
			return nil, err
		}
	}
	return AllOf("", back...), nil
}

// Words is the title, or the words of the only part, or a count.
func (e *All) Words(before *Job) string {
	if e.Title != "" {
		return e.Title
	}
	parts, _ := e.Parts()
	if len(parts) == 1 && parts[0] != nil {
		return parts[0].Words(before)
	}
	return fmt.Sprintf("%d changes", len(parts))
}

// Form writes the edits as forms.
func (e *All) Form() EditForm {
	c := All{Title: e.Title, Edits: e.Edits}
	if e.made != nil {
		c.Edits = make([]EditForm, 0, len(e.made))
		for _, p := range e.made {
			c.Edits = append(c.Edits, p.Form())
		}
	}
	return form("all", c)
}
