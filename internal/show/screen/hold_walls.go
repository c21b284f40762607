package screen

import (
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/hold"
	"dropleg/internal/shop/job"
)

// fixed is what is fixed to walls of one material, or to a ceiling, while it is counted.
type fixed struct {
	onto, madeOf string
	count        map[string]int // by how, of supports
	outlets      int
	pull         float64
	reels, parts int
	things       []string
}

// fixings words what is to be fixed to what, and how.
func (h *held) fixings() []FixingRow {
	var all []*fixed
	find := func(onto, madeOf string) *fixed {
		for _, f := range all {
			if f.onto == onto && f.madeOf == madeOf {
				return f
			}
		}
		f := &fixed{onto: onto, madeOf: madeOf, count: map[string]int{}}
		all = append(all, f)
		return f
	}
	for i := range h.a.Fixings {
		x := &h.a.Fixings[i]
		if x.State != planned || x.For == "part" && x.Onto.What == "floor" {
			continue
		}
		onto := x.Onto.What
		if x.Loose {
			onto = "free"
		}
		f := find(onto, x.MadeOf)
		if x.Wall != "" {
			f.things = addOnce(f.things, string(x.Wall))
		}
		f.add(x)
	}
	rows := []FixingRow{}
	for _, f := range all {
		rows = append(rows, h.fixing(f))
	}
	return rows
}

// add counts one more fixing.
func (f *fixed) add(x *hold.Fixing) {
	switch x.For {
	case "supports":
		f.count[x.Onto.How] += x.Count
		return
	case "outlet":
		f.outlets++
	case "reel":
		f.reels++
	default:
		f.parts++
	}
	f.things = addOnce(f.things, string(x.ID))
	if x.Load != nil {
		f.pull = max(f.pull, *x.Load)
	}
}

// fixing words what is fixed to one material.
func (h *held) fixing(f *fixed) FixingRow {
	row := FixingRow{Onto: ontoWords(f), Things: nonNil(f.things)}
	var list []string
	for _, how := range []string{"clip", "bracket", "hanger", "sleeve", "stands", ""} {
		if n := f.count[how]; n > 0 {
			list = append(list, plural(n, or(howWords[how], "support with nothing to fix it to"), or(howsWords[how], "supports with nothing to fix them to")))
		}
	}
	for _, x := range []struct {
		n         int
		one, many string
	}{{f.outlets, "outlet", "outlets"}, {f.reels, "hose reel", "hose reels"}, {f.parts, "part", "parts"}} {
		if x.n > 0 {
			list = append(list, plural(x.n, x.one, x.many))
		}
	}
	row.Words = listed(list)
	o := from("Fixings by what the wall is made of", "generic words of the trade; the maker of the fixing says what it carries")
	if f.pull > 0 {
		o.Inputs = append(o.Inputs, "pull at the strongest "+h.ask.System.Force(f.pull))
		o.by(h.refOf("pull")...).by(h.refOf("reel")...)
	}
	if f.onto == "wall" {
		for i := range h.a.Anchors {
			a := &h.a.Anchors[i]
			if a.MadeOf != f.madeOf {
				continue
			}
			if a.MadeOf != "" && len(f.count) > 0 {
				row.Screws = a.Clip
			}
			if a.MadeOf != "" && f.outlets+f.reels+f.parts > 0 {
				row.Pull = a.Pull
			}
			o.by(a.Ref)
		}
	}
	row.From = *o
	return row
}

var (
	howWords  = map[string]string{"clip": "clip", "bracket": "bracket", "hanger": "hanger", "sleeve": "sleeve through the wall", "stands": "stand"}
	howsWords = map[string]string{"clip": "clips", "bracket": "brackets", "hanger": "hangers", "sleeve": "sleeves through the wall", "stands": "stands"}
)

// ontoWords is what things are fixed to.
func ontoWords(f *fixed) string {
	switch f.onto {
	case "wall":
		if f.madeOf == "" {
			return "Walls of a material that is not stated"
		}
		return "Walls of " + strings.ReplaceAll(f.madeOf, "-", " ")
	case "ceiling":
		return "Ceiling"
	case "void":
		return "In the void"
	case "floor":
		return "Floor"
	case "ground":
		return "In the ground"
	}
	return "Fixed to nothing"
}

// walls words the marks on each wall that has any, in walking order.
func (h *held) walls() []WallRow {
	supports := map[string]*hold.Support{}
	for i := range h.a.Supports {
		supports[h.a.Supports[i].ID] = &h.a.Supports[i]
	}
	rows := []WallRow{}
	for i := range h.a.Walls {
		w := &h.a.Walls[i]
		if len(w.Marks) == 0 {
			continue
		}
		row := WallRow{ID: string(w.ID), Name: h.wallName(w.ID), Marks: []MarkRow{}}
		row.Words = h.place(w.Length)
		if w.MadeOf != "" {
			row.Words += ", " + strings.ReplaceAll(w.MadeOf, "-", " ")
		}
		row.Words += ": " + plural(len(w.Marks), "mark", "marks")
		for _, m := range w.Marks {
			row.Marks = append(row.Marks, MarkRow{
				Thing: h.markThing(&m), Along: h.place(m.Along), Up: h.place(m.Up), What: h.markWords(&m, supports[m.ID]),
			})
		}
		row.From = *from("Marks on a wall", "along the wall from its first corner as it was drawn, up from the wall's own floor; supports by their rules, the rest as drawn",
			"first corner at "+h.corner(w.ID)).by(common("a mark is the middle of what sits there"))
		rows = append(rows, row)
	}
	return rows
}

// corner is where a wall begins, in the shop.
func (h *held) corner(id job.ID) string {
	w := h.index.Wall(id)
	return fmt.Sprintf("x %s, y %s", h.text(unit.KindLength, w.From[0]), h.text(unit.KindLength, w.From[1]))
}

func (h *held) wallName(id job.ID) string {
	if w := h.index.Wall(id); w != nil && w.Name != "" {
		return upper(w.Name)
	}
	return upper(kindAnd("wall", tail(id)))
}

// markThing is what lights on the drawing for a mark.
func (h *held) markThing(m *hold.Mark) string {
	if run, _, ok := strings.Cut(m.ID, "/corner-"); ok {
		return run
	}
	i := slices.IndexFunc(h.job.Outlets, func(o job.Outlet) bool { return string(o.Point) == m.ID })
	if i >= 0 {
		return string(h.job.Outlets[i].ID)
	}
	return m.ID
}

// markWords say what is to be marked.
func (h *held) markWords(m *hold.Mark, p *hold.Support) string {
	if p == nil {
		return h.nodeName(m.ID)
	}
	return h.supportTitle(p)
}

// supportTitle is what a support is, and of which line.
func (h *held) supportTitle(p *hold.Support) string {
	words := or(howWords[p.On.How], "support")
	if p.Kind == holdsFast {
		words += " that holds fast"
	}
	return words + ", " + h.named(p.Run)
}
