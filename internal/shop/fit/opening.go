package fit

import (
	"fmt"
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Opening sets a door, gate, window or gap into a wall: the gesture "opening".
type Opening struct {
	did
	Wall   job.ID      `json:"wall"`
	Kind   string      `json:"kind" enum:"door,gate,window,gap"`
	Name   string      `json:"name,omitempty"`
	Along  unit.Length `json:"along_m" min:"0" max:"2000" doc:"from the wall's left end, as seen from inside, to the near side"`
	Width  unit.Length `json:"width_m" above:"0" max:"500"`
	Sill   unit.Length `json:"sill_m,omitempty" min:"0" max:"100"`
	Height unit.Length `json:"height_m" above:"0" max:"100"`
}

// Edit adds the opening.
func (g *Opening) Edit(ix *job.Index, _ *catalog.Catalog) (job.Edit, []job.ID, error) {
	w := ix.Wall(g.Wall)
	if w == nil {
		return nil, nil, noWall(ix, "wall", g.Wall)
	}
	o := &job.Opening{
		ID: ix.FreshID(idOf("opening", g.Name, g.Kind)), Wall: w.ID, Kind: g.Kind, Name: g.Name,
		Along: tidy(float64(g.Along)), Width: g.Width, Sill: g.Sill, Height: g.Height,
	}
	if top := float64(o.Sill + o.Height); top > float64(w.Height)+geom.Tiny {
		return nil, nil, refuse("off-wall", "height_m", fmt.Sprintf("%s is %s high and the %s would end at %s", called(w.Name, w.ID), measured(ix, float64(w.Height)), g.Kind, measured(ix, top)),
			"the greatest height over this sill is "+measured(ix, math.Max(0, float64(w.Height-o.Sill))), w.ID)
	}
	others := openingsOn(ix.Job(), w.ID)
	long := w.Frame().Length()
	if float64(o.Along+o.Width) > long+geom.Tiny || clashes(o, others) != nil {
		return nil, nil, g.noSpace(ix, o, w, others)
	}
	e, err := fits(job.AllOf(fmt.Sprintf("set a %s of %s into %s", g.Kind, measured(ix, float64(g.Width)), called(w.Name, w.ID)), job.AddOf(o)), ix)
	return e, []job.ID{o.ID}, err
}

// noSpace refuses an opening where it is and tells where it would go.
func (g *Opening) noSpace(ix *job.Index, o *job.Opening, w *job.Wall, others []*job.Opening) error {
	long := w.Frame().Length()
	what := fmt.Sprintf("the %s would end at %s and %s is %s long", g.Kind, measured(ix, float64(o.Along+o.Width)), called(w.Name, w.ID), measured(ix, long))
	code := "off-wall"
	if other := clashes(o, others); other != nil {
		code = "openings-overlap"
		what = fmt.Sprintf("the %s would overlap %s", g.Kind, called(other.Name, other.ID))
	}
	tries := []float64{0, long - float64(o.Width)}
	for _, other := range others {
		tries = append(tries, float64(other.Along+other.Width), float64(other.Along-o.Width))
	}
	best, found := 0.0, false
	for _, at := range tries {
		c := *o
		c.Along = tidy(at)
		if at < -geom.Tiny || at+float64(o.Width) > long+geom.Tiny || clashes(&c, others) != nil {
			continue
		}
		if !found || math.Abs(at-float64(o.Along)) < math.Abs(best-float64(o.Along)) {
			best, found = at, true
		}
	}
	nearest := "no part of this wall is wide enough for " + measured(ix, float64(o.Width))
	if found {
		nearest = "the nearest place for it begins at " + measured(ix, best)
	}
	return refuse(code, "along_m", what, nearest, w.ID)
}

// openingsOn lists the openings of a wall in the order of the job.
func openingsOn(j *job.Job, wall job.ID) []*job.Opening {
	var out []*job.Opening
	for i := range j.Building.Openings {
		if o := &j.Building.Openings[i]; o.Wall == wall {
			out = append(out, o)
		}
	}
	return out
}

// clashes is the first of others that an opening overlaps, or nil.
func clashes(o *job.Opening, others []*job.Opening) *job.Opening {
	for _, p := range others {
		along := min(o.Along+o.Width, p.Along+p.Width) - max(o.Along, p.Along)
		up := min(o.Sill+o.Height, p.Sill+p.Height) - max(o.Sill, p.Sill)
		if p.ID != o.ID && along > geom.Tiny && up > geom.Tiny {
			return p
		}
	}
	return nil
}
