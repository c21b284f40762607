package start

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// thing is a thing as it stands in the file, without its id.
func thing(t any) (json.RawMessage, error) {
	raw, _, problems := document.Get(t, "")
	if problems != nil {
		return nil, fmt.Errorf("writing a thing of the first plan: %s", problems[0].Want)
	}
	var all map[string]json.RawMessage
	if err := json.Unmarshal(raw, &all); err != nil {
		return nil, fmt.Errorf("writing a thing of the first plan: %w", err)
	}
	delete(all, "id")
	out, err := json.Marshal(all)
	if err != nil {
		return nil, fmt.Errorf("writing a thing of the first plan: %w", err)
	}
	return out, nil
}

// findings are those of a refusal, or the error in the form of one.
func findings(err error) []job.Finding {
	var r *job.Refusal
	if errors.As(err, &r) {
		return r.Findings
	}
	return []job.Finding{{Code: "answer", Severity: job.Fault, Title: err.Error(), Why: "Without it no plan can be made."}}
}

func nearestOf(word string, words []string) string { return unit.Nearest(fold(word), words) }

// titled begins with a capital.
func titled(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
