package cli

import (
	"fmt"
	"slices"
	"strings"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// short is an id without the word that says its kind.
func short(id job.ID) string {
	if _, rest, ok := strings.Cut(string(id), "."); ok {
		return rest
	}
	return string(id)
}

// nameOf is a thing's name, or its id without the word for its kind.
func nameOf(ix *job.Index, id job.ID) string {
	if t := ix.Tool(id); t != nil && t.Name != "" {
		return t.Name
	}
	if o := ix.Outlet(id); o != nil {
		if o.Mark != "" {
			return fmt.Sprintf("%s (%s)", o.Name, o.Mark)
		}
		return o.Name
	}
	if p := ix.Point(id); p != nil && p.Name != "" {
		return p.Name
	}
	if r := ix.Run(id); r != nil && r.Name != "" {
		return r.Name
	}
	return short(id)
}

// described is nameOf for a thing that stands by itself: what has no name of its
// own is told by what it is.
func described(ix *job.Index, shelf *catalog.Catalog, id job.ID) string {
	if o := ix.OutletOfHose(id); o != nil {
		return "hose at " + nameOf(ix, o.ID)
	}
	if o := ix.OutletOfPart(id); o != nil {
		for i := range o.Hang {
			if kind, ok := shelf.Kind(o.Hang[i].Kind); ok && o.Hang[i].ID == id {
				return kind.Name("en") + " at " + nameOf(ix, o.ID)
			}
		}
	}
	name := nameOf(ix, id)
	if p := ix.Point(id); p != nil && p.Name == "" {
		if kind, ok := shelf.Kind(p.Part.Kind); ok {
			return told(kind.Name("en"), name)
		}
	}
	if r := ix.Run(id); r != nil && r.Name == "" {
		return told(r.Role, name)
	}
	return name
}

// told puts the word for a kind before a name that does not say it.
func told(kind, name string) string {
	if kind == "" || strings.HasPrefix(name, kind) || strings.HasPrefix(kind, name) {
		return name
	}
	return kind + " " + name
}

// mostPlaces is how many places of a finding are told.
const mostPlaces = 4

// places tells the first few of several things, each once.
func places(names []string) string {
	var once []string
	for _, n := range names {
		if !slices.Contains(once, n) {
			once = append(once, n)
		}
	}
	comma := ", "
	if slices.ContainsFunc(once, func(n string) bool { return strings.Contains(n, ",") }) {
		comma = "; "
	}
	text := strings.Join(once[:min(len(once), mostPlaces)], comma)
	if n := len(once) - mostPlaces; n > 0 {
		text += fmt.Sprintf(" and %d more", n)
	}
	return text
}
