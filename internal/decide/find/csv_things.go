package find

import (
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// thing finds a thing by its id, with or without the word before the dot, by its name, an
// outlet by its mark, or a tool by the word for what it is where no other is such a thing.
func (t *table) thing(line int, column, word string, kinds ...string) job.ID {
	var known []string
	var spoken []job.ID
	for _, kind := range kinds {
		for id, name := range t.things(kind) {
			tail := strings.TrimPrefix(string(id), kind+".")
			switch {
			case strings.EqualFold(word, string(id)), strings.EqualFold(word, tail), name != "" && strings.EqualFold(word, name), kind == "outlet" && strings.EqualFold(word, t.mark(id)):
				return id
			case kind == "tool" && means(wordsOf(word), name, string(id)):
				spoken = append(spoken, id)
			}
			known = append(known, tail)
			if name != "" {
				known = append(known, name)
			}
		}
	}
	if len(spoken) == 1 {
		return spoken[0]
	}
	want := "a thing of the job: " + strings.Join(kinds, " or ")
	if len(spoken) > 1 {
		want = "which of them: " + string(spoken[0]) + " or " + string(spoken[1])
	}
	t.problem(line, column, word, want, unit.Nearest(word, known))
	return ""
}

// mark is that of an outlet; its id where it has none.
func (t *table) mark(id job.ID) string {
	for i := range t.j.Outlets {
		if o := &t.j.Outlets[i]; o.ID == id && o.Mark != "" {
			return o.Mark
		}
	}
	return string(id)
}

// things are ids and names of one kind, in the job's order.
func (t *table) things(kind string) func(func(job.ID, string) bool) {
	return func(yield func(job.ID, string) bool) {
		switch kind {
		case "outlet":
			for i := range t.j.Outlets {
				if !yield(t.j.Outlets[i].ID, t.j.Outlets[i].Name) {
					return
				}
			}
		case "tool":
			for i := range t.j.Tools {
				if !yield(t.j.Tools[i].ID, t.j.Tools[i].Name) {
					return
				}
			}
		case "line":
			for i := range t.j.Net.Runs {
				if !yield(t.j.Net.Runs[i].ID, t.j.Net.Runs[i].Name) {
					return
				}
			}
		case "hose":
			for i := range t.j.Outlets {
				if h := t.j.Outlets[i].Hose; h != nil && !yield(h.ID, "") {
					return
				}
			}
		case "part":
			for i := range t.j.Outlets {
				for k := range t.j.Outlets[i].Hang {
					if !yield(t.j.Outlets[i].Hang[k].ID, "") {
						return
					}
				}
			}
		default:
			for i := range t.j.Net.Points {
				if !yield(t.j.Net.Points[i].ID, t.j.Net.Points[i].Name) {
					return
				}
			}
		}
	}
}
