package job

import "fmt"

// ref is a place in a thing where it names another.
type ref struct {
	key  string // "from.point"
	to   ID
	word string // what kind of thing it must be
}

// refs lists the other things that a thing names, empty names left out. About of
// a record is no ref: it may name what is long gone.
func refs(thing any) []ref {
	var out []ref
	add := func(key string, to ID, word string) {
		if to != "" {
			out = append(out, ref{key, to, word})
		}
	}
	each := func(key string, ids []ID, word string) {
		for i, id := range ids {
			add(fmt.Sprintf("%s[%d]", key, i), id, word)
		}
	}
	use := func(key string, running []InUse) {
		for i, r := range running {
			add(fmt.Sprintf("%s[%d].tool", key, i), r.Tool, "tool")
			add(fmt.Sprintf("%s[%d].outlet", key, i), r.Outlet, "outlet")
		}
	}
	switch t := thing.(type) {
	case *Room:
		add("zone", t.Zone, "zone")
	case *Opening:
		add("wall", t.Wall, "wall")
	case *Point:
		if t.On != nil {
			add("on.wall", t.On.Wall, "wall")
		}
	case *Run:
		add("from.point", t.From.Point, "point")
		add("to.point", t.To.Point, "point")
		add("zone", t.Zone, "zone")
	case *Outlet:
		add("point", t.Point, "point")
		each("tools", t.Tools, "tool")
	case *Tool:
		each("not_with", t.NotWith, "tool")
		each("with", t.With, "tool")
	case *Set:
		use("running", t.Running)
	case *Record:
		if t.Reading != nil {
			use("reading.running", t.Reading.Running)
		}
	}
	return out
}
