package fit

import (
	"fmt"
	"strings"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Gesture is one thing that a hand does on the drawing.
type Gesture interface {
	// Edit gives the edit that does it on this job, and the ids that it makes, the
	// leading one first. The edit fits the job that was indexed; an error is a
	// *job.Refusal in people's words.
	Edit(ix *job.Index, shelf *catalog.Catalog) (job.Edit, []job.ID, error)
}

// did is the key "do" of every gesture's JSON.
type did struct {
	Do string `json:"do,omitempty"`
}

// verb is a word and an empty gesture of it, to be read into.
type verb struct {
	word  string
	blank func() Gesture
}

// verbs lists every gesture.
func verbs() []verb {
	return []verb{
		{"line", func() Gesture { return &Line{} }},
		{"drop", func() Gesture { return &Drop{} }},
		{"compose", func() Gesture { return &Compose{} }},
		{"plant", func() Gesture { return &Plant{} }},
		{"bypass", func() Gesture { return &Bypass{} }},
		{"erase", func() Gesture { return &Erase{} }},
		{"drag", func() Gesture { return &Drag{} }},
		{"reroute", func() Gesture { return &Reroute{} }},
		{"stock", func() Gesture { return &Stock{} }},
		{"state", func() Gesture { return &State{} }},
		{"split", func() Gesture { return &Split{} }},
		{"join", func() Gesture { return &Join{} }},
		{"room", func() Gesture { return &Room{} }},
		{"wall", func() Gesture { return &Wall{} }},
		{"opening", func() Gesture { return &Opening{} }},
		{"obstacle", func() Gesture { return &Obstacle{} }},
		{"stretch", func() Gesture { return &Stretch{} }},
		{"zone", func() Gesture { return &Zone{} }},
		{"put", func() Gesture { return &Put{} }},
		{"underlay", func() Gesture { return &Underlay{} }},
		{"price", func() Gesture { return &Price{} }},
		{"offer", func() Gesture { return &Offer{} }},
		{"labour", func() Gesture { return &Labour{} }},
		{"longer", func() Gesture { return &Longer{} }},
	}
}

// Verbs lists the words of the gestures.
func Verbs() []string {
	var out []string
	for _, v := range verbs() {
		out = append(out, v.word)
	}
	return out
}

// Schema is the JSON Schema of a gesture.
func Schema() []byte {
	var forms []document.Worded
	for _, v := range verbs() {
		forms = append(forms, document.Worded{Word: v.word, Value: v.blank()})
	}
	return document.SchemaOf("a gesture on the drawing of a dropleg job", "do", forms)
}

// Parse reads a gesture strictly from its JSON; all that is wrong comes at once.
func Parse(raw []byte) (Gesture, []job.Finding) {
	if len(raw) > document.Limit {
		return nil, unread(document.Decode(raw, &struct{}{}))
	}
	_, word := document.Keys(raw, "do")
	want := "one of " + strings.Join(Verbs(), ", ")
	if word == nil {
		return nil, unread([]document.Problem{{Path: "do", Line: 1, Read: "nothing", Want: want}})
	}
	do := ""
	if problems := document.Decode(word, &do); problems != nil {
		problems[0].Path, problems[0].Line = "do", document.Locate(raw, "do")
		return nil, unread(problems[:1])
	}
	for _, v := range verbs() {
		if v.word != do {
			continue
		}
		g := v.blank()
		if problems := document.Decode(raw, g); problems != nil {
			return nil, unread(problems)
		}
		return g, nil
	}
	return nil, unread([]document.Problem{{
		Path: "do", Line: document.Locate(raw, "do"), Read: fmt.Sprintf("%q", brief(do)), Want: want, Nearest: unit.Nearest(brief(do), Verbs()),
	}})
}

// unread puts problems of the text into findings.
func unread(problems []document.Problem) []job.Finding {
	var out []job.Finding
	for _, p := range problems {
		if p.Path == "" {
			p.Path = "do"
		}
		title := fmt.Sprintf("%s: read %s, want %s", p.Path, p.Read, p.Want)
		if p.Nearest != "" {
			title += "; nearest is " + p.Nearest
		}
		out = append(out, job.Finding{
			Code: "cannot-read", Severity: job.Fault, Title: title, Why: "The gesture cannot be used as it stands.",
			Path: p.Path, Line: p.Line, Read: p.Read, Want: p.Want, Nearest: p.Nearest,
		})
	}
	return out
}
