package job

import (
	"fmt"
	"slices"

	"dropleg/engine/document"
)

// Within is an edit inside an alternative: it is added to the alternative's
// list, and the job itself stays as it is: the edit "within". What fits the
// alternative as it stands is taken; alternatives and records belong to the job
// and cannot be edited inside one.
type Within struct {
	named
	Plan ID        `json:"plan"`
	Step *EditForm `json:"step" doc:"the edit"`
	Off  *int      `json:"off,omitempty" min:"0" doc:"undo: the step is taken off again from this place, which must be the last"`

	made Edit // the step, where it was made in Go instead of read
}

// WithinOf is the edit that makes a step inside an alternative.
func WithinOf(plan ID, step Edit) *Within {
	f := step.Form()
	return &Within{Plan: plan, Step: &f, made: step}
}

// Inner is the step as an edit of the alternative's own job (see Variant); nil,
// with findings, where it cannot be read.
func (e *Within) Inner() (Edit, []Finding) {
	switch {
	case e.made != nil:
		return e.made, nil
	case e.Step == nil:
		return nil, findings([]document.Problem{{Path: "step", Read: "nothing", Want: "an edit"}})
	}
	return ParseEdit(*e.Step)
}

// Apply adds the step to the alternative.
func (e *Within) Apply(j *Job) (*Job, Edit, error) { return apply(e, j) }

func (e *Within) verb() string { return "within" }

func (e *Within) do(d *draft) (Edit, error) {
	l, i, ok := d.find(e.Plan)
	if !ok || l.word() != "plan" {
		return nil, d.unknownThing("plan", e.Plan, "plan")
	}
	if e.Off != nil {
		return e.takeOff(d, l, i)
	}
	p := d.job.Plans[i]
	step, bad := e.Inner()
	if bad != nil {
		return nil, &Refusal{bad}
	}
	for _, t := range Touches(step) {
		if w := t.ID.Word(); t.In != "" || w == "plan" || w == "record" {
			return nil, refuse("not-within", "step", fmt.Sprintf("an edit of %q", t.ID),
				"an edit of the shop and its lines: alternatives and records belong to the job itself", "", e.Plan, t.ID)
		}
	}
	v, _ := variant(d.job, i)
	if _, err := step.do(v); err != nil {
		return nil, fmt.Errorf("in alternative %q: %w", p.ID, err)
	}
	p.Edits = append(slices.Clone(p.Edits), *e.Step)
	d.own(l)
	l.put(d.job, i, &p)
	at := len(p.Edits) - 1
	return &Within{Plan: e.Plan, Step: e.Step, Off: &at}, nil
}

// takeOff takes the last step off. One that others stand upon is not taken from
// below them.
func (e *Within) takeOff(d *draft, l list, i int) (Edit, error) {
	p := d.job.Plans[i]
	last := len(p.Edits) - 1
	if *e.Off != last {
		return nil, refuse("not-the-last", "off", fmt.Sprintf("step %d of %d", *e.Off+1, last+1),
			"the last step of the alternative", fmt.Sprint(max(last, 0)), e.Plan)
	}
	step := p.Edits[last]
	p.Edits = slices.Clone(p.Edits[:last])
	d.own(l)
	l.put(d.job, i, &p)
	return &Within{Plan: e.Plan, Step: &step}, nil
}

// Words tells the step and the alternative.
func (e *Within) Words(before *Job) string {
	name := planName(before, e.Plan)
	step, _ := e.Inner()
	if step == nil {
		return "a step in alternative " + name
	}
	if inside, _ := Variant(before, e.Plan); inside != nil {
		before = inside
	}
	if e.Off != nil {
		return fmt.Sprintf("took back in alternative %s: %s", name, step.Words(before))
	}
	return fmt.Sprintf("in alternative %s: %s", name, step.Words(before))
}

// Form writes the edit.
func (e *Within) Form() EditForm {
	return form("within", Within{Plan: e.Plan, Step: e.Step, Off: e.Off})
}
