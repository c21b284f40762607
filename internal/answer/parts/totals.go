package parts

import (
	"cmp"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// total adds up by room and state what the lines, the pieces and the joints hold.
func (a *Answer) total() []Total {
	type key struct {
		room  job.ID
		state State
	}
	sums := map[key]*Total{}
	at := func(room job.ID, state State) *Total {
		k := key{room, state}
		if sums[k] == nil {
			sums[k] = &Total{Room: room, State: state}
		}
		return sums[k]
	}
	for _, l := range slices.Concat(a.Lines, a.Implied) {
		rooms := l.Rooms
		if rooms == nil { // the job has none
			rooms = []Room{{Pieces: l.Pieces, Length: l.Length}}
		}
		for _, r := range rooms {
			switch l.Group {
			case Made, Supplies, Label:
			case Stock:
				at(r.Room, l.State).Length += lengthOf(r.Length)
			default:
				at(r.Room, l.State).Parts += r.Pieces
			}
		}
	}
	for i := range a.Pieces {
		p := &a.Pieces[i]
		at(p.Room, p.State).Pieces++
	}
	for i := range a.Joints {
		j := &a.Joints[i]
		at(j.Room, j.State).Joints++
	}
	list := make([]Total, 0, len(sums))
	for _, t := range sums {
		t.Length = unit.Length(rounded(float64(t.Length), 1e6))
		list = append(list, *t)
	}
	slices.SortFunc(list, func(a, b Total) int {
		return cmp.Or(compareStates(a.State, b.State), cmp.Compare(a.Room, b.Room))
	})
	return list
}
