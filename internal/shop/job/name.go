package job

import "fmt"

// nameOf is what people call a thing: its name where it has one, else its id.
func nameOf(j *Job, id ID) string {
	if id == "" {
		return "the job"
	}
	name := ""
	switch t := begin(j).thing(id).(type) {
	case *Zone:
		name = t.Name
	case *Room:
		name = t.Name
	case *Wall:
		name = t.Name
	case *Opening:
		name = t.Name
	case *Obstacle:
		name = t.Name
	case *Point:
		name = t.Name
	case *Run:
		name = t.Name
	case *Outlet:
		name = t.Name
	case *Tool:
		name = t.Name
	case *Set:
		name = t.Name
	case *Plan:
		name = t.Name
	}
	if name == "" {
		return string(id)
	}
	return fmt.Sprintf("%s %q", kindWords(id.Word()), name)
}
