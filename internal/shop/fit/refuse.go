package fit

import (
	"errors"

	"dropleg/internal/shop/job"
)

// refuse is a refusal in people's words: what is in the way, at which key of the
// gesture, and the nearest thing that would work ("" where there is none).
func refuse(code, path, what, nearest string, where ...job.ID) error {
	title := what
	if nearest != "" {
		title += "; " + nearest
	}
	return &job.Refusal{Findings: []job.Finding{{
		Code: code, Severity: job.Fault, Title: title, Why: "It cannot be built so.",
		Path: path, Read: what, Want: nearest, Nearest: nearest, Where: where,
	}}}
}

// fits gives the edit back if the job takes it, else what the job refuses it for:
// a gesture never gives an edit that does not fit.
func fits(e job.Edit, ix *job.Index) (job.Edit, error) {
	if _, _, err := e.Apply(ix.Job()); err != nil {
		var r *job.Refusal
		if errors.As(err, &r) {
			return nil, r
		}
		return nil, refuse("does-not-fit", "do", err.Error(), "")
	}
	return e, nil
}
