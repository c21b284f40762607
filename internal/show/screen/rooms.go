package screen

import (
	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
)

// RoomRows are the totals of a take-off by room, what stands and what is for later apart.
func RoomRows(ix *job.Index, a *parts.Answer, system unit.System) []RoomRow {
	rows := []RoomRow{}
	for _, t := range a.Totals {
		where := "in no room"
		if r := ix.Room(t.Room); r != nil {
			where = or(r.Name, tail(r.ID))
		}
		rows = append(rows, RoomRow{where, string(t.State), system.Listed(t.Length), t.Pieces, t.Parts, t.Joints})
	}
	return rows
}
