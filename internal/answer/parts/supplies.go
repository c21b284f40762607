package parts

import (
	"cmp"
	"slices"

	"dropleg/internal/shop/job"
)

// usedUp says whether what a way of joining lists among its tools is used up in making
// the joint. What a person's own row lists otherwise counts as a tool.
func usedUp(word string) bool {
	return slices.Contains([]string{
		"thread tape or paste", flux, solder, rod, "abrasive cloth", "abrasive cloth and brush",
	}, word)
}

// toolbox lists what the planned joints are made with and leaves behind, the most
// used first.
func (c *counter) toolbox() []Tool {
	at := map[string]int{}
	list := []Tool{}
	for _, j := range c.joints {
		if j.State != Planned {
			continue
		}
		for _, word := range j.Needs.Tools {
			if usedUp(word) {
				continue
			}
			i, ok := at[word]
			if !ok {
				i = len(list)
				at[word] = i
				list = append(list, Tool{Words: word})
			}
			list[i].Joints++
			if !slices.Contains(list[i].Kinds, j.Kind) {
				list[i].Kinds = append(list[i].Kinds, j.Kind)
			}
		}
	}
	for i := range list {
		slices.Sort(list[i].Kinds)
	}
	slices.SortFunc(list, func(a, b Tool) int {
		return cmp.Or(cmp.Compare(b.Joints, a.Joints), cmp.Compare(a.Words, b.Words))
	})
	return list
}

// labels counts one label for each outlet and one for each drop.
func (c *counter) labels() {
	for i := range c.job.Outlets {
		o := &c.job.Outlets[i]
		state, room, _, _ := c.lineAt(o)
		c.implied.pieces(Line{Article: "outlet label", Group: Label, Words: "label at an outlet: its mark and pressure"}, state, 1, string(o.ID), room)
	}
	for _, r := range c.drops() {
		room := job.ID("")
		if p := c.index.Point(r.From.Point); p != nil {
			room = c.placeAt(p).room
		}
		c.implied.pieces(Line{Article: "drop label", Group: Label, Words: "label on a drop: compressed air, pressure, flow arrow"}, stateOf(r.State), 1, string(r.ID), room)
	}
}

// drops lists the first run of each drop leg. Two runs are one drop where they meet
// and no other kind of line does, drips aside.
func (c *counter) drops() []*job.Run {
	const drop, drip = "drop", "drip"
	first := map[*job.Run]*job.Run{}
	root := func(r *job.Run) *job.Run {
		for first[r] != nil {
			r = first[r]
		}
		return r
	}
	place := map[*job.Run]int{}
	for i := range c.job.Net.Runs {
		place[&c.job.Net.Runs[i]] = i
	}
	for i := range c.job.Net.Points {
		var here []*job.Run
		other := false
		for _, e := range c.ends[c.job.Net.Points[i].ID] {
			switch e.run.Role {
			case drop:
				here = append(here, e.run)
			case drip:
			default:
				other = true
			}
		}
		for n := 1; n < len(here) && !other; n++ {
			a, b := root(here[0]), root(here[n])
			switch {
			case place[a] < place[b]:
				first[b] = a
			case place[b] < place[a]:
				first[a] = b
			}
		}
	}
	var list []*job.Run
	for i := range c.job.Net.Runs {
		if r := &c.job.Net.Runs[i]; r.Role == drop && first[r] == nil {
			list = append(list, r)
		}
	}
	return list
}
