package screen

import (
	"strconv"

	"dropleg/engine/cite"
)

// cited is a source for people: title, place, who published which edition when,
// and how the figure came from it.
func cited(r cite.Ref) string {
	src, ok := cite.Lookup(r.Source)
	if !ok {
		src = cite.Source{Title: string(r.Source), How: cite.Read}
	}
	text := src.Title
	add := func(part string) {
		if part != "" {
			text += ", " + part
		}
	}
	add(r.Place)
	add(src.Publisher)
	add(src.Edition)
	if src.Year > 0 {
		add(strconv.Itoa(src.Year))
	}
	how := r.How
	if how == "" {
		how = src.How
	}
	switch how {
	case cite.Recalled:
		return text + " (recalled, not seen again)"
	case cite.Computed:
		return text + " (computed from its equation)"
	case cite.Common:
		return text // its title says so
	}
	return text + " (read)"
}

// citedAll words several.
func citedAll(refs ...cite.Ref) []string {
	out := []string{}
	for _, r := range refs {
		if r.Source != "" {
			out = addOnce(out, cited(r))
		}
	}
	return out
}

// by adds sources to an origin.
func (o *Origin) by(refs ...cite.Ref) *Origin {
	for _, text := range citedAll(refs...) {
		o.Sources = addOnce(o.Sources, text)
	}
	return o
}
