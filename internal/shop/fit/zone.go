package fit

import (
	"fmt"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Zone makes a climate and puts rooms into it: the gesture "zone".
type Zone struct {
	did
	Name    string            `json:"name"`
	Climate string            `json:"climate" enum:"heated,unheated,outside"`
	Winter  *unit.Temperature `json:"winter_C,omitempty" min:"-90" max:"60"`
	Summer  *unit.Temperature `json:"summer_C,omitempty" min:"-90" max:"70"`
	Rooms   []job.ID          `json:"rooms,omitempty"`
}

// Edit adds the zone and gives it to the rooms.
func (g *Zone) Edit(ix *job.Index, _ *catalog.Catalog) (job.Edit, []job.ID, error) {
	z := &job.Zone{ID: ix.FreshID(idOf("zone", g.Name, g.Climate)), Name: g.Name, Climate: g.Climate, Winter: g.Winter, Summer: g.Summer}
	edits := []job.Edit{job.AddOf(z)}
	for i, id := range g.Rooms {
		if ix.Room(id) == nil {
			return nil, nil, noRoom(ix, fmt.Sprintf("rooms[%d]", i), id)
		}
		edits = append(edits, set(id, "zone", z.ID))
	}
	e, err := fits(job.AllOf(fmt.Sprintf("made %q a zone, %s", g.Name, g.Climate), edits...), ix)
	return e, []job.ID{z.ID}, err
}

// noRoom refuses a room that is not there.
func noRoom(ix *job.Index, path string, id job.ID) error {
	var ids []string
	for i := range ix.Job().Building.Rooms {
		ids = append(ids, string(ix.Job().Building.Rooms[i].ID))
	}
	return refuse("leads-nowhere", path, "there is no room "+brief(string(id)), unit.Nearest(brief(string(id)), ids), id)
}

// noWall refuses a wall that is not there.
func noWall(ix *job.Index, path string, id job.ID) error {
	var ids []string
	for i := range ix.Job().Building.Walls {
		ids = append(ids, string(ix.Job().Building.Walls[i].ID))
	}
	return refuse("leads-nowhere", path, "there is no wall "+brief(string(id)), unit.Nearest(brief(string(id)), ids), id)
}
