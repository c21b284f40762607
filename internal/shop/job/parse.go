package job

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"

	"dropleg/engine/document"
)

// migration turns a document of one version into the next.
type migration func(data []byte) ([]byte, []document.Problem)

// migrations[v] takes version v to v+1. Version 1 is the first, so there is none.
func migrations() map[int]migration { return map[int]migration{} }

// Parse reads a job. Findings are about what cannot be used as it stands, all at
// once; the job is nil with any. What the values mean together is for Validate.
func Parse(data []byte) (*Job, []Finding) {
	data, problems := current(data)
	if problems != nil {
		return nil, findings(problems)
	}
	j := &Job{}
	if problems := document.Decode(data, j); problems != nil {
		return nil, findings(problems)
	}
	return j, nil
}

// current brings a document of an earlier version to the present one. What is no
// job at all, or a later one, is said here in one problem instead of key by key.
func current(data []byte) ([]byte, []document.Problem) {
	if len(data) > document.Limit {
		return data, nil // Decode says so
	}
	keys, raw := document.Keys(data, "dropleg")
	if raw == nil {
		if len(keys) == 0 {
			return data, nil
		}
		return nil, []document.Problem{foreign(keys)}
	}
	v, err := strconv.Atoi(string(raw))
	line := document.Locate(data, "dropleg")
	switch {
	case err != nil || v < 1:
		return nil, []document.Problem{{
			Path: "dropleg", Line: line, Read: cmp.Or(brief(string(raw)), "nothing"),
			Want: fmt.Sprintf("the version of the document, 1 to %d", Version), Nearest: strconv.Itoa(Version),
		}}
	case v > Version:
		return nil, []document.Problem{{
			Path: "dropleg", Line: line, Read: strconv.Itoa(v),
			Want: fmt.Sprintf("a document of version %d or earlier: this one was written by a later program; bring this program up to date", Version),
		}}
	}
	for steps := migrations(); v < Version; v++ {
		var problems []document.Problem
		if data, problems = steps[v](data); problems != nil {
			return nil, problems
		}
	}
	return data, nil
}

// foreign says that a document is no job, and what seems to be known of it.
func foreign(keys []string) document.Problem {
	p := document.Problem{
		Path: "dropleg", Line: 1,
		Read: "a document with the keys " + brief(strings.Join(keys, ", ")),
		Want: fmt.Sprintf("a job: a document that begins with \"dropleg\": %d", Version),
	}
	has := map[string]bool{}
	for _, k := range keys {
		has[k] = true
	}
	if has["nodes"] && has["links"] {
		p.Want += "; this one looks like a bare network, which the solve command reads"
	}
	return p
}

// WithLines gives findings on a job the lines of the text that it was read from.
// Each costs a walk through the text, so it is for showing them, not for keeping.
func WithLines(found []Finding, text []byte) []Finding {
	out := make([]Finding, len(found))
	for i, f := range found {
		if f.Path != "" && f.Line == 0 {
			f.Line = document.Locate(text, f.Path)
		}
		out[i] = f
	}
	return out
}

// findings puts problems of the document into findings.
func findings(problems []document.Problem) []Finding {
	var out []Finding
	for _, p := range problems {
		out = append(out, finding("cannot-read", Fault, p))
	}
	return out
}

// finding is a problem of the document as a finding.
func finding(code string, s Severity, p document.Problem) Finding {
	if p.Path == "" {
		p.Path = "job"
	}
	title := fmt.Sprintf("%s: read %s, want %s", p.Path, p.Read, p.Want)
	if p.Nearest != "" {
		title += fmt.Sprintf("; nearest is %s", p.Nearest)
	}
	return Finding{
		Code: code, Severity: s, Title: title, Why: "The document cannot be used as it stands.",
		Path: p.Path, Line: p.Line, Read: p.Read, Want: p.Want, Nearest: p.Nearest,
	}
}

// Encode writes a job. It fails only where a job made in memory holds a number
// that is none (NaN, infinite), and says where.
func (j *Job) Encode() ([]byte, error) { return document.Encode(j) }

// Schema is the JSON Schema of the job file.
func Schema() []byte { return document.Schema(Job{}, "dropleg job, version 1") }

// brief is a text as it may stand in a message.
func brief(s string) string {
	if r := []rune(s); len(r) > 80 {
		return string(r[:79]) + "…"
	}
	return s
}
