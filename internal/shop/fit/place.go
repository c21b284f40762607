package fit

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Place is a place in the shop: in space or on a wall.
type Place struct {
	At    *geom.Point  `json:"at_m,omitempty" min:"-2000" max:"2000" doc:"x, y, z; or on a wall:"`
	Wall  job.ID       `json:"wall,omitempty"`
	Along *unit.Length `json:"along_m,omitempty" min:"0" max:"2000" doc:"from the wall's left end as seen from inside"`
	Up    *unit.Length `json:"up_m,omitempty" min:"-100" max:"300" doc:"above the wall's floor"`
	Off   unit.Length  `json:"off_m,omitempty" min:"-50" max:"50" doc:"from the wall's face into the room"`
}

// spot is a place worked out: where, and on which wall.
type spot struct {
	at geom.Point
	on *job.OnWall // nil in space
}

// Check refuses a place that is none in this shop; path is what it was given as.
func (p *Place) Check(ix *job.Index, path string) error {
	_, err := p.find(ix, path)
	return err
}

// find works a place out; path is its key in the gesture.
func (p *Place) find(ix *job.Index, path string) (spot, error) {
	if p == nil {
		return spot{}, refuse("no-place", path, "no place is given", "give at_m, or wall with along_m and up_m")
	}
	if p.At != nil {
		if p.Wall != "" {
			return spot{}, refuse("no-place", path, "the place is given twice, by at_m and by wall", "give one of them")
		}
		if !p.At.Finite() {
			return spot{}, refuse("no-place", path+".at_m", "the place is no place", "give x, y and z in metres")
		}
		return spot{at: tidyPoint(*p.At)}, nil
	}
	if p.Wall == "" || p.Along == nil || p.Up == nil {
		return spot{}, refuse("no-place", path, "no place is given", "give at_m, or wall with along_m and up_m")
	}
	w := ix.Wall(p.Wall)
	if w == nil {
		return spot{}, noWall(ix, path+".wall", p.Wall)
	}
	long := w.Frame().Length()
	along := float64(*p.Along)
	if along > long+geom.Tiny {
		return spot{}, refuse("off-wall", path+".along_m", called(w.Name, w.ID)+" is "+measured(ix, long)+" long and ends before "+measured(ix, along),
			"the last place on it is "+measured(ix, long), w.ID)
	}
	along = math.Min(along, long)
	on := &job.OnWall{Wall: w.ID, Along: tidy(along), Up: *p.Up, Off: p.Off}
	return spot{at: w.Frame().Out(along, float64(on.Up), float64(on.Off)), on: on}, nil
}

// grain is what coordinates are rounded to, a hundredth of a micrometre: it takes
// off the last bits that turning and adding leave, so that people read plain figures.
const grain = 1e8

func tidy(x float64) unit.Length { return unit.Length(math.Round(x*grain) / grain) }

func tidyPoint(p geom.Point) geom.Point {
	for k := range p {
		p[k] = math.Round(p[k]*grain) / grain
	}
	return p
}
