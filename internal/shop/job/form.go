package job

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"dropleg/engine/document"
	"dropleg/engine/unit"
)

// EditForm is an edit as it stands in JSON: {"edit": "set", …fields of that edit}.
type EditForm struct {
	Verb   string          // one of add, remove, set, move, connect, split, all (several as one), within (in an alternative)
	Fields json.RawMessage // an object with the edit's own keys, flat beside "edit" in the JSON
}

// Refusal says why an edit does not fit.
type Refusal struct{ Findings []Finding }

// Error is the findings' sentences.
func (r *Refusal) Error() string {
	var titles []string
	for _, f := range r.Findings {
		titles = append(titles, f.Title)
	}
	return "the edit does not fit: " + strings.Join(titles, "; ")
}

// refuse is a refusal of one finding.
func refuse(code, path, read, want, nearest string, where ...ID) error {
	f := finding(code, Fault, document.Problem{Path: path, Read: read, Want: want, Nearest: nearest})
	f.Where = where
	f.Why = "The edit would leave the job unusable."
	return &Refusal{[]Finding{f}}
}

// refuseAll is a refusal for problems of a value's text.
func refuseAll(problems []document.Problem) error { return &Refusal{findings(problems)} }

// ParseEdit reads an edit's form strictly; all that is wrong comes at once.
func ParseEdit(f EditForm) (Edit, []Finding) {
	raw, err := f.MarshalJSON()
	if err != nil {
		return nil, findings([]document.Problem{{Path: "edit", Read: err.Error(), Want: "an object with the edit's keys"}})
	}
	e, problems := readEdit(raw)
	return e, findings(problems)
}

// ParseEditJSON reads an edit from its flat JSON.
func ParseEditJSON(raw []byte) (Edit, []Finding) {
	e, problems := readEdit(raw)
	return e, findings(problems)
}

// readEdit reads an edit from its flat JSON; e is nil with any problem.
func readEdit(raw []byte) (Edit, []document.Problem) {
	if len(raw) > document.Limit {
		return nil, document.Decode(raw, &struct{}{})
	}
	_, word := document.Keys(raw, "edit")
	verb := ""
	want := "one of " + strings.Join(verbs(), ", ")
	if word == nil {
		return nil, []document.Problem{{Path: "edit", Line: 1, Read: "nothing", Want: want}}
	}
	if problems := document.Decode(word, &verb); problems != nil {
		problems[0].Path, problems[0].Line = "edit", document.Locate(raw, "edit")
		return nil, problems[:1]
	}
	e := blank(verb)
	if e == nil {
		return nil, []document.Problem{{
			Path: "edit", Line: document.Locate(raw, "edit"), Read: fmt.Sprintf("%q", brief(verb)), Want: want, Nearest: unit.Nearest(brief(verb), verbs()),
		}}
	}
	if problems := document.Decode(raw, e); problems != nil {
		return nil, problems
	}
	return e, nil
}

// ReadDocument reads a form strictly, down to the keys of its edit.
func (f *EditForm) ReadDocument(raw []byte) []document.Problem {
	e, problems := readEdit(raw)
	if e != nil {
		*f = e.Form()
	}
	return problems
}

// UnmarshalJSON is ReadDocument for encoding/json.
func (f *EditForm) UnmarshalJSON(raw []byte) error {
	if problems := f.ReadDocument(raw); problems != nil {
		return refuseAll(problems)
	}
	return nil
}

// MarshalJSON puts the fields flat beside the verb.
func (f EditForm) MarshalJSON() ([]byte, error) {
	verb, err := json.Marshal(f.Verb)
	if err != nil {
		return nil, fmt.Errorf("writing an edit: %w", err)
	}
	out := append([]byte(`{"edit":`), verb...)
	if fields := bytes.TrimSpace(f.Fields); len(fields) > 0 {
		if fields[0] != '{' || fields[len(fields)-1] != '}' {
			return nil, fmt.Errorf("writing an edit: its fields are no object: %s", brief(string(fields)))
		}
		if inner := bytes.TrimSpace(fields[1 : len(fields)-1]); len(inner) > 0 {
			out = append(append(out, ','), inner...)
		}
	}
	return append(out, '}'), nil
}

// named is the key "edit" of every edit's JSON.
type named struct {
	Edit string `json:"edit,omitempty"`
}

// form writes an edit, whose named part is to be empty.
func form(verb string, e any) EditForm {
	fields, err := document.Encode(e)
	if err != nil { // a number that is none: the form keeps the words, Apply refuses the edit
		fields = []byte("{}")
	}
	return EditForm{Verb: verb, Fields: bytes.TrimSpace(fields)}
}

// EditSchema is the JSON Schema of an edit.
func EditSchema() []byte {
	var forms []document.Worded
	for _, v := range verbs() {
		forms = append(forms, document.Worded{Word: v, Value: blank(v)})
	}
	return document.SchemaOf("an edit of a dropleg job", "edit", forms)
}
