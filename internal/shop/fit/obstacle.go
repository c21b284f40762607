package fit

import (
	"fmt"
	"math"
	"strings"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Obstacle puts something into the shop that lines go round: the gesture
// "obstacle", by its outline or by its middle and its size.
type Obstacle struct {
	did
	Kind    string       `json:"kind" enum:"post,beam,bench,lift,door-sweep,machine,hull,electrical,flue,keep-out"`
	Name    string       `json:"name,omitempty"`
	Outline []geom.Flat  `json:"outline_m,omitempty" min:"-2000" max:"2000"`
	At      *geom.Flat   `json:"at_m,omitempty" min:"-2000" max:"2000" doc:"the middle; with size_m"`
	Size    *geom.Flat   `json:"size_m,omitempty" min:"0" max:"4000" doc:"along x and along y"`
	Bottom  *unit.Length `json:"bottom_m,omitempty" min:"-100" max:"300" doc:"default: the floor of the room there"`
	Top     unit.Length  `json:"top_m" min:"-100" max:"300"`
}

// Edit adds the obstacle.
func (g *Obstacle) Edit(ix *job.Index, _ *catalog.Catalog) (job.Edit, []job.ID, error) {
	outline, err := g.outline(ix)
	if err != nil {
		return nil, nil, err
	}
	o := &job.Obstacle{ID: ix.FreshID(idOf("obstacle", g.Name, g.Kind)), Kind: g.Kind, Name: g.Name, Outline: outline, Top: g.Top}
	switch room := ix.RoomAt(geom.Centre(outline).At(float64(g.Top))); {
	case g.Bottom != nil:
		o.Bottom = *g.Bottom
	case room != nil:
		o.Bottom = room.Floor
	}
	if o.Top <= o.Bottom {
		return nil, nil, refuse("upside-down", "top_m", fmt.Sprintf("the top at %s is not above the foot at %s", measured(ix, float64(o.Top)), measured(ix, float64(o.Bottom))),
			"give the height of its top above the datum, "+measured(ix, float64(o.Bottom)+1)+" for one that is "+measured(ix, 1)+" high")
	}
	title := "put a " + strings.ReplaceAll(g.Kind, "-", " ") + " there"
	if g.Name != "" {
		title = fmt.Sprintf("put %q there", g.Name)
	}
	e, err := fits(job.AllOf(title, job.AddOf(o)), ix)
	return e, []job.ID{o.ID}, err
}

// outline is the obstacle's outline, as drawn or round its middle.
func (g *Obstacle) outline(ix *job.Index) ([]geom.Flat, error) {
	if len(g.Outline) > 0 {
		if g.At != nil || g.Size != nil {
			return nil, refuse("two-places", "outline_m", "the outline is given twice", "give outline_m alone, or at_m with size_m")
		}
		return cleanOutline(g.Outline, "outline_m")
	}
	if g.At == nil || g.Size == nil {
		return nil, refuse("no-place", "at_m", "it has no outline", "give outline_m, or at_m with size_m")
	}
	half := g.Size.Times(0.5)
	return rectangle(ix, g.At.Minus(half), *g.Size, "size_m")
}

// rectangle is an upright rectangle by its corner and size.
func rectangle(ix *job.Index, corner, size geom.Flat, path string) ([]geom.Flat, error) {
	if size[0] < geom.Tiny || size[1] < geom.Tiny {
		return nil, refuse("outline-flat", path, fmt.Sprintf("%s by %s has no area", measured(ix, size[0]), measured(ix, size[1])), "give two lengths above 0")
	}
	far := corner.Plus(size)
	out := []geom.Flat{corner, {far[0], corner[1]}, far, {corner[0], far[1]}}
	for i := range out {
		out[i] = tidyFlat(out[i])
	}
	return out, nil
}

// cleanOutline takes repeated corners off an outline, turns it counterclockwise
// and refuses one that is none.
func cleanOutline(drawn []geom.Flat, path string) ([]geom.Flat, error) {
	var out []geom.Flat
	for _, p := range drawn {
		if !p.Finite() {
			return nil, refuse("no-place", path, "a corner is no place", "give x and y in metres")
		}
		if p = tidyFlat(p); len(out) == 0 || p.Distance(out[len(out)-1]) > geom.Tiny {
			out = append(out, p)
		}
	}
	for len(out) > 1 && out[0].Distance(out[len(out)-1]) <= geom.Tiny {
		out = out[:len(out)-1]
	}
	if len(out) < 3 {
		return nil, refuse("open-outline", path, fmt.Sprintf("%d corners make no outline", len(out)), "draw at least three, in order round it")
	}
	if len(out) > mostCorners {
		return nil, refuse("outline-too-fine", path, fmt.Sprintf("%d corners are more than can be used", len(out)), fmt.Sprintf("draw at most %d", mostCorners))
	}
	if onOneLine(out) {
		return nil, refuse("outline-flat", path, "the corners lie on one line and enclose nothing", "move one of them off it")
	}
	if i, j, crosses := geom.CrossesItself(out); crosses {
		return nil, refuse("outline-crosses", path, fmt.Sprintf("the side from corner %d crosses the one from corner %d", i+1, j+1),
			"give the corners in order round the outline")
	}
	area := geom.Area(out)
	if math.Abs(area) < geom.Tiny {
		return nil, refuse("outline-flat", path, "it encloses next to nothing", "draw it larger")
	}
	if area < 0 {
		for i, j := 1, len(out)-1; i < j; i, j = i+1, j-1 { // the first corner stays the first
			out[i], out[j] = out[j], out[i]
		}
	}
	return out, nil
}

// onOneLine says whether all corners lie on the line from the first to the one
// farthest from it.
func onOneLine(corners []geom.Flat) bool {
	first, far := corners[0], corners[0]
	for _, p := range corners {
		if p.Distance(first) > far.Distance(first) {
			far = p
		}
	}
	d := direction(first, far)
	for _, p := range corners {
		if math.Abs(d.Cross(p.Minus(first))) > geom.Tiny {
			return false
		}
	}
	return true
}

// mostCorners bounds an outline: its sides are compared pair by pair.
const mostCorners = 400
