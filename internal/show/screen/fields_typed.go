package screen

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Typed is what a person typed or chose, understood.
type Typed struct {
	Words string `json:"words"` // what it was taken for; "" of nothing
	Note  string `json:"note,omitempty"`
	Same  bool   `json:"same"` // it says what stands there already
	// Step makes the change; it is posted as it is.
	Step json.RawMessage `json:"step"`
}

// Read understands what was typed into a field of a thing, and makes the step that
// states it. "" empties the field. What cannot be stated is a *job.Refusal with
// what was read, what is wanted and the nearest form.
func (s *Shop) Read(ctx context.Context, ask Ask, id job.ID, key, text string) (Typed, error) {
	v, _, err := s.glance(ctx, ask, false)
	if err != nil {
		return Typed{}, err
	}
	if id != TheJob && !s.index.Has(id) {
		return Typed{}, &NotThere{string(id)}
	}
	p, keys := s.placeAt(id, key)
	if p == nil {
		return Typed{}, &NotThere{strings.TrimSuffix(key+", meant "+unit.Nearest(key, keys), ", meant ")}
	}
	f := s.field(v, p)
	raw, present, _ := document.Get(p.root, p.Path)
	if !present {
		raw = json.RawMessage("null")
	}
	text = strings.TrimSpace(text)
	if text == f.Value {
		// What stands there means what stands there, whatever it was rounded to.
		return Typed{Words: shown(&f), Same: true, Step: s.stepOf(p, &f, raw, shown(&f))}, nil
	}
	if p.fixed() {
		return Typed{}, refused(&f, text, "what it is: it is changed on the drawing", "")
	}
	var out Typed
	var value json.RawMessage
	switch {
	case text == "" && p.Needed && f.Kind != kindText:
		return Typed{}, refused(&f, "nothing", "a value: it cannot be left out", "")
	case text == "":
		value = json.RawMessage("null")
		if p.Needed {
			value = json.RawMessage(`""`)
		}
	default:
		if value, out, err = s.understand(v, p, &f, text); err != nil {
			return Typed{}, err
		}
	}
	out.Same = string(value) == string(raw)
	out.Step = s.stepOf(p, &f, value, out.Words)
	return out, nil
}

// shown is a field's value in words.
func shown(f *Field) string {
	for _, c := range f.Choices {
		if c.ID == f.Value {
			return c.Words
		}
	}
	return f.Value
}

// placeAt finds a place by its key; keys are all that there are.
func (s *Shop) placeAt(id job.ID, key string) (found *place, keys []string) {
	_, places := s.places(id)
	for i := range places {
		if places[i].key == key && places[i].id == id {
			return &places[i], nil
		}
		keys = append(keys, places[i].key)
	}
	return nil, keys
}

// refused is what keeps a text from a field.
func refused(f *Field, read, want, nearest string) error {
	title := fmt.Sprintf("%s: read %s, want %s", f.Words, read, want)
	if nearest != "" {
		title += "; nearest is " + nearest
	}
	return &job.Refusal{Findings: []job.Finding{{
		Code: "cannot-read", Severity: job.Fault, Title: title, Why: "This cannot be stated here.",
		Path: f.Key, Read: read, Want: want, Nearest: nearest,
	}}}
}

// understand reads a text that is there.
func (s *Shop) understand(v *view, p *place, f *Field, text string) (json.RawMessage, Typed, error) {
	switch f.Kind {
	case kindQuantity:
		return s.readQuantity(v, p, f, text)
	case kindNumber:
		return readNumber(p, f, text)
	case kindFlag:
		return readFlag(f, text)
	case kindChoice:
		id, words, err := pickOf(f, text)
		raw, _ := json.Marshal(id) // a text
		return raw, Typed{Words: words}, err
	case kindSeveral:
		var ids, words []string
		for _, one := range strings.Split(text, ",") {
			id, w, err := pickOf(f, strings.TrimSpace(one))
			if err != nil {
				return nil, Typed{}, err
			}
			if !slices.Contains(ids, id) {
				ids, words = append(ids, id), append(words, w)
			}
		}
		raw, _ := json.Marshal(ids) // texts
		return raw, Typed{Words: listed(words)}, nil
	}
	if words := []rune(text); len(words) > mostText {
		return nil, Typed{}, refused(f, strconv.Itoa(len(words))+" letters", "at most "+strconv.Itoa(mostText), "")
	}
	raw, _ := json.Marshal(text) // a text
	return raw, Typed{Words: text}, nil
}

// mostText is how much a person writes into one field.
const mostText = 4000

// pickOf finds a choice by its id or its words.
func pickOf(f *Field, text string) (id, words string, err error) {
	var all []string
	for _, c := range f.Choices {
		if c.ID == text || strings.EqualFold(c.Words, text) {
			return c.ID, c.Words, nil
		}
		all = append(all, c.Words, c.ID)
	}
	near := unit.Nearest(text, all)
	few := make([]string, 0, 8)
	for i := 0; i < len(all) && i < 16; i += 2 {
		few = append(few, all[i])
	}
	want := "one of " + strings.Join(few, ", ")
	if len(all) > 16 {
		want += ", …"
	}
	return "", "", refused(f, strconv.Quote(clipped(text)), want, near)
}

func readFlag(f *Field, text string) (json.RawMessage, Typed, error) {
	switch strings.ToLower(text) {
	case yes, "true":
		return json.RawMessage("true"), Typed{Words: yes}, nil
	case "no", "false":
		return json.RawMessage("null"), Typed{Words: "no"}, nil
	}
	return nil, Typed{}, refused(f, strconv.Quote(clipped(text)), "yes or no", unit.Nearest(text, []string{yes, "no"}))
}

func readNumber(p *place, f *Field, text string) (json.RawMessage, Typed, error) {
	x, err := unit.Parse(text, unit.KindNumber, unit.Env{})
	whole := p.Form == document.FormWhole
	if err != nil || whole && x != float64(int64(x)) {
		want := "a number"
		if whole {
			want = "a whole number"
		}
		return nil, Typed{}, refused(f, strconv.Quote(clipped(text)), strings.TrimSuffix(want+", "+f.Range, ", "), "")
	}
	raw := p.File(x)
	if ok, near, has := p.Holds(x); !ok {
		nearest := ""
		if has {
			nearest = string(p.File(near))
		}
		return nil, Typed{}, refused(f, string(raw), f.Range, nearest)
	}
	return raw, Typed{Words: string(raw)}, nil
}

// readQuantity reads a text with a unit; a bare number counts in the field's own.
func (s *Shop) readQuantity(v *view, p *place, f *Field, text string) (json.RawMessage, Typed, error) {
	full := text
	if bare(text) {
		full = text + " " + f.Unit
	}
	m, _ := meterOf(p.Leaf)
	if m.flow {
		return s.readFlow(v, f, text, full)
	}
	si, err := unit.Parse(full, m.kind, v.env)
	if err != nil {
		return nil, Typed{}, misread(f, text, m.kind, v.env, err)
	}
	raw := m.file(si)
	file, err := strconv.ParseFloat(string(raw), 64)
	if err != nil {
		return nil, Typed{}, refused(f, strconv.Quote(clipped(text)), m.kind.Words()+", such as "+f.Hint, "")
	}
	if ok, near, has := p.Holds(file); !ok {
		nearest := ""
		if has {
			nearest = v.plain(m.kind, m.si(near))
		}
		return nil, Typed{}, refused(f, v.plain(m.kind, si), f.Range, nearest)
	}
	return raw, Typed{Words: v.text(m.kind, si)}, nil
}

// readFlow reads a flow with its reference; the text is kept as read on the plate.
func (s *Shop) readFlow(v *view, f *Field, text, full string) (json.RawMessage, Typed, error) {
	flow, err := unit.ParseFlow(full)
	if err != nil {
		return nil, Typed{}, misread(f, text, unit.KindFlow, v.env, err)
	}
	if flow.Mass || flow.Value < 0 || flow.Value > 100 {
		return nil, Typed{}, refused(f, strconv.Quote(clipped(text)), "a volume of free air in a time, such as "+f.Hint, "")
	}
	raw, err := document.Encode(&job.Flow{Value: flow.Value, Reference: string(flow.Reference), Read: text})
	if err != nil {
		return nil, Typed{}, fmt.Errorf("writing a flow: %w", err)
	}
	words := v.text(unit.KindFlow, flow.Value)
	if flow.Reference != unit.RefJob {
		words += ", " + choiceWords("reference", string(flow.Reference))
	}
	return json.RawMessage(strings.TrimSpace(string(raw))), Typed{Words: words, Note: flow.Note}, nil
}

// misread tells a text that is no quantity, with the nearest that is one.
func misread(f *Field, text string, k unit.Kind, env unit.Env, err error) error {
	want, near := k.Words()+", such as "+f.Hint, ""
	var bad *unit.ParseError
	if errors.As(err, &bad) && bad.Nearest != "" {
		number := strings.TrimSpace(strings.TrimRightFunc(text[:firstLetter(text)], func(r rune) bool { return r == ' ' }))
		if whole := number + " " + bad.Nearest; number != "" {
			if _, err := unit.Parse(whole, k, env); err == nil || k == unit.KindFlow {
				near = whole
			}
		}
	}
	return refused(f, strconv.Quote(clipped(text)), want, near)
}

func firstLetter(text string) int {
	for i, r := range text {
		if !strings.ContainsRune("0123456789.,/-+ ", r) {
			return i
		}
	}
	return len(text)
}

// clipped keeps what is told again short.
func clipped(text string) string {
	if r := []rune(text); len(r) > 60 {
		return string(r[:59]) + "…"
	}
	return text
}
