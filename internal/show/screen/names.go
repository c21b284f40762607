package screen

import (
	"slices"
	"strings"
	"unicode"

	"dropleg/internal/shop/job"
)

// toolName is what people call a tool, as it stands within a sentence.
func (s *Shop) toolName(id job.ID) string {
	if t := s.index.Tool(id); t != nil && t.Name != "" {
		return strings.TrimPrefix(lower(t.Name), "the ") // its article comes with the sentence
	}
	return tail(id)
}

// lower takes the capital off a name that only has it for standing first:
// "Blow gun", but not "DA sander".
func lower(name string) string {
	r := []rune(name)
	if len(r) < 2 || !unicode.IsUpper(r[0]) || !unicode.IsLower(r[1]) {
		return name
	}
	return string(unicode.ToLower(r[0])) + string(r[1:])
}

// outletMark is the letter of an outlet, as it stands on the drawing.
func (s *Shop) outletMark(id job.ID) string {
	for i := range s.job.Outlets {
		if s.job.Outlets[i].ID == id {
			return markOf(s.job.Outlets[i], i)
		}
	}
	return ""
}

// named is what a thing is called in a sentence or on a button.
func (s *Shop) named(id job.ID) string {
	if o := s.index.Outlet(id); o != nil {
		return "outlet " + s.outletMark(id) + ", " + o.Name
	}
	if s.index.Tool(id) != nil {
		return s.toolName(id)
	}
	if r := s.index.Run(id); r != nil {
		return or(r.Name, kindAnd(or(r.Role, "line"), tail(id)))
	}
	if p := s.index.Point(id); p != nil {
		if p.Name != "" {
			return p.Name
		}
		if k, ok := s.study.Catalog().Kind(p.Part.Kind); ok && p.Part.Kind != "" {
			return kindAnd(k.Name("en"), tail(id))
		}
		return tail(id)
	}
	if o := s.index.OutletOfHose(id); o != nil {
		return "hose at outlet " + s.outletMark(o.ID)
	}
	if o := s.index.OutletOfPart(id); o != nil {
		return s.hangs(o, id) + " at outlet " + s.outletMark(o.ID)
	}
	return tail(id)
}

// hangs is what a part at an outlet is: by its kind, where no other of that kind hangs there.
func (s *Shop) hangs(o *job.Outlet, id job.ID) string {
	word, alike := "", 0
	for i := range o.Hang {
		if o.Hang[i].ID == id {
			word = o.Hang[i].Kind
		}
	}
	for i := range o.Hang {
		if o.Hang[i].Kind == word {
			alike++
		}
	}
	if k, ok := s.study.Catalog().Kind(word); ok && alike == 1 {
		return k.Name("en")
	}
	return tail(id)
}

// kindAnd puts what a thing is before what it is called, unless its name says it
// already: "ball valve ring", but "main 3" and not "main main 3", and "ball valve bench", not
// "ball valve valve bench".
func kindAnd(kind, name string) string {
	if strings.Contains(name, kind) {
		return name
	}
	if strings.HasSuffix(kind, " "+name) {
		return kind
	}
	if first, rest, more := strings.Cut(name, " "); more && slices.Contains(strings.Fields(kind), first) {
		name = rest
	}
	return kind + " " + name
}

// onDrawing is the thing on the drawing to light for an id: a hose or a part
// that hangs at an outlet is shown by the outlet, a tool by where it runs.
func (s *Shop) onDrawing(id job.ID) job.ID {
	if o := s.index.OutletOfHose(id); o != nil {
		return o.ID
	}
	if o := s.index.OutletOfPart(id); o != nil {
		return o.ID
	}
	return id
}

// listed joins words as a sentence does: "a, b and c".
func listed(words []string) string {
	switch len(words) {
	case 0:
		return ""
	case 1:
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
