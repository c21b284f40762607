package fit

import (
	"fmt"
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Longer makes a line as long as it came out on site: the gesture "longer". Of a drawn line
// its end To is dragged on along its last leg, with all that follows; a line that states its
// length states another.
type Longer struct {
	did
	Run job.ID      `json:"run"`
	By  unit.Length `json:"by_m" min:"-100" max:"100" doc:"below zero it became shorter"`
}

// Edit changes the line.
func (g *Longer) Edit(ix *job.Index, shelf *catalog.Catalog) (job.Edit, []job.ID, error) {
	r := ix.Run(g.Run)
	if r == nil {
		return nil, nil, sketchOf(ix, shelf).noSuch("run", g.Run, "run")
	}
	length, known := ix.LengthOf(r)
	switch {
	case g.By == 0:
		return nil, nil, refuse("nothing-changes", "by_m", "it would stay as long as it is", "give by how much it became longer", r.ID)
	case !known:
		return nil, nil, refuse("not-drawn", "run", called(r.Name, r.ID)+" is neither drawn nor measured", "state its length", r.ID)
	case length+g.By < nearEnd:
		return nil, nil, refuse("no-length", "by_m", called(r.Name, r.ID)+" is "+measured(ix, float64(length))+" long", "take off less than that", r.ID)
	}
	if r.Length != nil {
		title := "made " + called(r.Name, r.ID) + " " + measured(ix, float64(length+g.By))
		e, err := fits(job.AllOf(title, setTo(r.ID, "length_m", float64(length+g.By))), ix)
		return e, nil, err
	}
	line := ix.Centreline(r)
	last := line[len(line)-1].Minus(line[len(line)-2])
	by := last.Times(float64(g.By) / last.Length())
	e, touched, err := (&Drag{IDs: []job.ID{r.To.Point}, By: &geom.Point{by[0], by[1], by[2]}}).Edit(ix, shelf)
	if err != nil {
		return nil, touched, err
	}
	return job.AllOf(g.words(ix, called(r.Name, r.ID)), e), touched, nil
}

// words say in the history what came out otherwise, not which point was moved for it.
func (g *Longer) words(ix *job.Index, line string) string {
	more := "longer"
	if g.By < 0 {
		more = "shorter"
	}
	by := fmt.Sprintf("%.0f mm", 1000*math.Abs(float64(g.By)))
	if ix.Job().Site.Units == string(unit.US) {
		by = measured(ix, math.Abs(float64(g.By)))
	}
	return "made " + line + " " + by + " " + more
}
