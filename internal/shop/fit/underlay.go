package fit

import (
	"fmt"
	"math"
	"path"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Underlay lays a picture of the floor plan under the drawing, scaled by two
// points of known distance or known places: the gesture "underlay". With
// length_m the first mark stays where it lies now and the picture as it is
// turned; one that is new lies upright with the first mark at the origin.
type Underlay struct {
	did
	File   string        `json:"file"`
	Page   int           `json:"page,omitempty" min:"0"`
	Marks  [2]geom.Flat  `json:"marks_px" doc:"in the picture, y downwards"`
	Length *unit.Length  `json:"length_m,omitempty" above:"0" max:"4000" doc:"between the two marks; or:"`
	At     *[2]geom.Flat `json:"at_m,omitempty" min:"-2000" max:"2000" doc:"where the two marks lie"`
	Faint  *unit.Ratio   `json:"faint,omitempty" min:"0" max:"1" doc:"default: as it was, else 0.5"`
}

// Edit lays the picture.
func (g *Underlay) Edit(ix *job.Index, _ *catalog.Catalog) (job.Edit, []job.ID, error) {
	const apart = 2 // px: nearer than this no scale can be read off two marks
	if !g.Marks[0].Finite() || !g.Marks[1].Finite() || g.Marks[0].Distance(g.Marks[1]) < apart {
		return nil, nil, refuse("marks-coincide", "marks_px", "the two marks lie on one place of the picture", "set them as far apart as the picture allows")
	}
	u := job.Underlay{File: g.File, Page: g.Page, Marks: g.Marks, Faint: 0.5}
	was := ix.Job().Building.Underlay
	if was != nil {
		u.Faint = was.Faint
	}
	if g.Faint != nil {
		u.Faint = *g.Faint
	}
	long := 0.0
	switch {
	case g.At != nil && g.Length == nil:
		u.At = *g.At
		long = u.At[0].Distance(u.At[1])
		if !u.At[0].Finite() || long < near {
			return nil, nil, refuse("marks-coincide", "at_m", "the two places are one", "give two places apart")
		}
	case g.Length != nil && g.At == nil:
		long = float64(*g.Length)
		if long < near {
			return nil, nil, refuse("too-short", "length_m", measured(ix, long)+" is too short to scale a picture by", "take two marks of a longer distance")
		}
		u.At = g.placed(was, long)
	default:
		return nil, nil, refuse("no-place", "length_m", "the picture has no scale", "give one of length_m and at_m")
	}
	title := fmt.Sprintf("laid %q under the drawing, %s between its marks", path.Base(g.File), measured(ix, long))
	e, err := fits(job.AllOf(title, set("", "building.underlay", u)), ix)
	return e, nil, err
}

// placed is where the marks lie at a distance of long metres.
func (g *Underlay) placed(was *job.Underlay, long float64) [2]geom.Flat {
	px := g.Marks[1].Minus(g.Marks[0])
	dir := geom.Flat{px[0], -px[1]}.Times(1 / px.Length()) // y is down in the picture, north on the plan
	first := geom.Flat{}
	if was != nil && was.File == g.File && was.Page == g.Page {
		if lay, ok := layOf(was); ok {
			first, dir = lay.on(g.Marks[0]), lay.turn(dir)
		}
	}
	first = tidyFlat(first)
	return [2]geom.Flat{first, tidyFlat(first.Plus(dir.Times(long)))}
}

// lay is how a picture lies on the floor: scaled and turned, y reversed.
type lay struct {
	px, at   geom.Flat
	scale    float64 // m per px
	sin, cos float64
}

func layOf(u *job.Underlay) (lay, bool) {
	px, m := u.Marks[1].Minus(u.Marks[0]), u.At[1].Minus(u.At[0])
	if px.Length() == 0 || m.Length() == 0 || !px.Finite() || !m.Finite() {
		return lay{}, false
	}
	turn := math.Atan2(m[1], m[0]) - math.Atan2(-px[1], px[0])
	sin, cos := math.Sincos(turn)
	return lay{px: u.Marks[0], at: u.At[0], scale: m.Length() / px.Length(), sin: sin, cos: cos}, true
}

func (l lay) turn(d geom.Flat) geom.Flat {
	return geom.Flat{d[0]*l.cos - d[1]*l.sin, d[0]*l.sin + d[1]*l.cos}
}

// on is where a place of the picture lies.
func (l lay) on(px geom.Flat) geom.Flat {
	d := px.Minus(l.px)
	return l.at.Plus(l.turn(geom.Flat{d[0], -d[1]}).Times(l.scale))
}
