package route

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/num/steiner"
)

// ready builds the maze, or says what is missing before there is any.
func ready(n *net, feet []foot, w *Wish, prices Prices) (*maze, error) {
	j := n.ix.Job()
	switch {
	case len(j.Building.Rooms) == 0:
		return nil, refuse("no-room", "building.rooms", "no room is drawn", "draw the room first: lines run along its walls")
	case n.mouth == "":
		return nil, refuse("no-plant", "net", "no compressor stands in the shop with a way out that a line may begin at", "place the compressor, and what belongs to it")
	case len(feet) == 0 && len(j.Outlets) == 0:
		return nil, refuse("no-outlet", "outlets", "the shop has no outlet", "place outlets where air is wanted, or have them proposed")
	case len(feet) == 0:
		return nil, refuse("nothing-to-lay", "outlets", "every outlet has its line", "take planned lines away first to have them laid anew")
	}
	m := mazeOf(n, feet, w, prices)
	for i := range feet {
		if m.in[i] < 0 {
			return nil, refuse("outside", "outlets", fmt.Sprintf("%s lies outside every room", feet[i].words()), "move it into the building", feet[i].outlets...)
		}
	}
	if m.root < 0 {
		return nil, refuse("no-plant", "net", fmt.Sprintf("the plant ends outside every room, or leaves no way out (%s)", n.mouth), "move it into the building", n.mouth)
	}
	return m, nil
}

func (f *foot) words() string {
	switch len(f.names) {
	case 0:
		return string(f.point)
	case 1:
		return "\"" + f.names[0] + "\""
	}
	return "\"" + f.names[0] + "\" with " + fmt.Sprint(len(f.names)-1) + " more"
}

// noWay tells what stands between the plant and a foot.
func (m *maze) noWay(node int) error {
	i := slices.Index(m.ends, node)
	if i < 0 {
		return refuse("no-way", "net", "no line leads away from the plant", "give it room")
	}
	f := &m.feet[i]
	q, of := m.problem(true)
	q.Terminals = []int{m.root, node}
	a, err := steiner.Solve(context.Background(), q, steiner.Options{})
	if err != nil {
		return refuse("no-way", "building", fmt.Sprintf("no wall that a line could go through leads to the room of %s (%s)", f.words(), m.roomName(m.in[i])),
			"draw the rooms side by side as they stand, or lay a line outside by hand", f.outlets...)
	}
	var by []int
	for _, t := range a.Tree {
		for _, b := range m.ways[of[t.Edge]].blocked {
			if !slices.Contains(by, b) {
				by = append(by, b)
			}
		}
	}
	return refuse("no-way", "building", fmt.Sprintf("no way leads from the plant to %s: %s stands in it", f.words(), namesOf(m.blocks, by)),
		"let lines run under the ceiling too, move the outlet, or make room there", f.outlets...)
}

func (m *maze) roomName(i int) string {
	if r := m.spaces[i].room; r.Name != "" {
		return strings.ToLower(r.Name[:1]) + r.Name[1:]
	}
	return string(m.spaces[i].room.ID)
}
