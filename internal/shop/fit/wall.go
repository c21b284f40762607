package fit

import (
	"fmt"
	"strings"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Wall draws one wall, from left to right as seen from inside: the gesture "wall".
type Wall struct {
	did
	Name      string       `json:"name,omitempty"`
	From      geom.Flat    `json:"from_m" min:"-2000" max:"2000"`
	To        geom.Flat    `json:"to_m" min:"-2000" max:"2000"`
	Floor     *unit.Length `json:"floor_m,omitempty" min:"-100" max:"200" doc:"default: the floor of the room there"`
	Height    unit.Length  `json:"height_m" above:"0" max:"100"`
	Thickness unit.Length  `json:"thickness_m" min:"0" max:"5"`
	MadeOf    string       `json:"made_of,omitempty" enum:"brick,block,concrete,timber-frame,steel-frame,plasterboard,sheet"`
	Outside   bool         `json:"outside,omitempty"`
}

// Edit adds the wall.
func (g *Wall) Edit(ix *job.Index, _ *catalog.Catalog) (job.Edit, []job.ID, error) {
	from, to := tidyFlat(g.From), tidyFlat(g.To)
	long := from.Distance(to)
	if !from.Finite() || !to.Finite() || long <= geom.Tiny {
		return nil, nil, refuse("no-length", "to_m", "the wall begins and ends at one place", "draw it to another place")
	}
	w := &job.Wall{
		Name: g.Name, From: from, To: to, Height: g.Height, Thickness: g.Thickness, MadeOf: g.MadeOf, Outside: g.Outside,
	}
	behind := compass(w.Frame().Normal().Times(-1))
	w.ID = ix.FreshID(idOf("wall", strings.TrimSuffix(strings.TrimSpace(g.Name), " wall"), behind))
	if g.Floor != nil {
		w.Floor = *g.Floor
	} else if room := ix.RoomAt(w.Frame().Out(long/2, 1, near)); room != nil {
		w.Floor = room.Floor
	}
	for i := range ix.Job().Building.Walls {
		if o := &ix.Job().Building.Walls[i]; sameWall(w, o) {
			return nil, nil, refuse("wall-twice", "from_m", "there is a wall already: "+called(o.Name, o.ID), "change that one, or draw elsewhere", o.ID)
		}
	}
	what := "a wall"
	if g.Name != "" {
		what = fmt.Sprintf("%q", g.Name)
	}
	e, err := fits(job.AllOf("drew "+what+" of "+measured(ix, long), job.AddOf(w)), ix)
	return e, []job.ID{w.ID}, err
}

// sameWall says whether two walls stand on one place, whichever way they were drawn.
func sameWall(a, b *job.Wall) bool {
	apart := min(
		max(a.From.Distance(b.From), a.To.Distance(b.To)),
		max(a.From.Distance(b.To), a.To.Distance(b.From)))
	return apart <= near && min(a.Floor+a.Height, b.Floor+b.Height)-max(a.Floor, b.Floor) > near
}
