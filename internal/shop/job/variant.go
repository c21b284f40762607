package job

import (
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/document"
)

// Variant is the job with the edits of an alternative, as a job of its own: it
// holds no alternatives itself. Edits that no longer fit, because the job under
// them has changed, are left out and told (code plan-does-not-fit, a Caution: the
// job itself can be used). The job is nil, with a finding, where there is no such
// alternative.
func Variant(j *Job, plan ID) (*Job, []Finding) {
	i, found := planAt(j, plan)
	if found != nil {
		return nil, found
	}
	d, left := variant(j, i)
	d.job.Plans = nil
	return d.job, told(left)
}

// Adoption is the edit that makes an alternative the job: its edits, and then its
// removal. What Variant leaves out is left out and told here too. The edit is nil,
// with a finding, where there is no such alternative.
func Adoption(j *Job, plan ID) (Edit, []Finding) {
	i, found := planAt(j, plan)
	if found != nil {
		return nil, found
	}
	_, left := variant(j, i)
	var edits []Edit
	for k, f := range j.Plans[i].Edits {
		e, _ := ParseEdit(f) // one that cannot be read is among those left out
		if !slices.ContainsFunc(left, func(l leftOut) bool { return l.step == k }) {
			edits = append(edits, e)
		}
	}
	edits = append(edits, &Remove{ID: plan})
	return AllOf("adopted alternative "+planName(j, plan), edits...), told(left)
}

// planAt is the place of an alternative.
func planAt(j *Job, plan ID) (int, []Finding) {
	i := slices.IndexFunc(j.Plans, func(p Plan) bool { return p.ID == plan })
	if i >= 0 {
		return i, nil
	}
	f := finding("leads-nowhere", Fault, document.Problem{
		Path: "plan", Read: fmt.Sprintf("%q", brief(string(plan))), Want: "the id of an alternative of this job",
		Nearest: nearestID(plan, begin(j).idsOf("plan")),
	})
	f.Where = []ID{plan}
	return 0, []Finding{f}
}

// planName is what people call an alternative.
func planName(j *Job, plan ID) string {
	if p, ok := begin(j).thing(plan).(*Plan); ok && p.Name != "" {
		return fmt.Sprintf("%q", p.Name)
	}
	return string(plan)
}

// leftOut is what keeps a step of an alternative from the job.
type leftOut struct {
	step  int
	found []Finding
}

func told(left []leftOut) []Finding {
	var out []Finding
	for _, l := range left {
		out = append(out, l.found...)
	}
	return out
}

// variant is Variant as a draft that goes on, the alternatives still in it.
func variant(j *Job, i int) (*draft, []leftOut) {
	p := &j.Plans[i]
	// One draft for all copies each list once. It is spoilt by a refusal, which is
	// rare; then each edit gets a draft of its own.
	d := begin(j)
	if len(p.Edits) > 8 {
		d.hint()
	}
	if !slices.ContainsFunc(p.Edits, func(f EditForm) bool { return len(fit(f, d)) > 0 }) {
		return d, nil
	}
	var left []leftOut
	now := j
	for k, f := range p.Edits {
		next := begin(now)
		bad := fit(f, next)
		if len(bad) == 0 {
			now = next.job
			continue
		}
		path := fmt.Sprintf("plans[%d] (%s).edits[%d]", i, p.ID, k)
		for n, b := range bad {
			b = finding("plan-does-not-fit", Caution, document.Problem{Path: strings.TrimSuffix(path+"."+b.Path, "."), Read: b.Read, Want: b.Want, Nearest: b.Nearest})
			b.Why = "The job under the alternative has changed; the alternative is shown without this step."
			b.Where = []ID{p.ID}
			bad[n] = b
		}
		left = append(left, leftOut{k, bad})
	}
	return begin(now), left
}

// fit applies an edit to a draft and tells what keeps it from that.
func fit(f EditForm, d *draft) []Finding {
	e, bad := ParseEdit(f)
	if len(bad) > 0 {
		return bad
	}
	return refused(e, d)
}
