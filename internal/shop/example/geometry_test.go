package example_test

import (
	"math"
	"testing"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
)

// TestEverythingIsDrawn: no run states a length, every point has its place in a
// room, and lines lie in rooms or go through walls.
func TestEverythingIsDrawn(t *testing.T) {
	each(t, func(t *testing.T, j *job.Job) {
		ix := job.NewIndex(j)
		for i := range j.Net.Points {
			p := &j.Net.Points[i]
			if at, ok := ix.Where(p); !ok || ix.RoomAt(at) == nil {
				t.Errorf("%s is in no room: %v", p.ID, at)
			}
		}
		for i := range j.Net.Runs {
			r := &j.Net.Runs[i]
			if r.Length != nil {
				t.Errorf("%s states a length", r.ID)
			}
			along(ix, r, func(at geom.Point) {
				if ix.RoomAt(at) == nil && !inWall(j, at) {
					t.Errorf("%s leaves the building at %.2f", r.ID, at)
				}
			})
		}
	})
}

// step is how closely a line is looked at, in metres.
const step = 0.05

// along visits places on a run.
func along(ix *job.Index, r *job.Run, visit func(geom.Point)) {
	line := ix.Centreline(r)
	long := geom.Length(line)
	for s := 0.0; s <= long; s += step {
		if at, _, ok := geom.OnPath(line, s); ok {
			visit(at)
		}
	}
}

// inWall: behind the face of a wall and within its thickness, its ends included.
func inWall(j *job.Job, at geom.Point) bool {
	for i := range j.Building.Walls {
		w := &j.Building.Walls[i]
		s, up, off := w.Frame().In(at)
		if s >= -0.3 && s <= w.Frame().Length()+0.3 && up >= 0 && up <= float64(w.Height) && off <= 0.01 && off >= -float64(w.Thickness)-0.11 {
			return true
		}
	}
	return false
}

// TestNoLineBarsAnOpening: within a quarter of a metre of a wall no line passes
// between the sill and the head of a door, gate or window.
func TestNoLineBarsAnOpening(t *testing.T) {
	each(t, func(t *testing.T, j *job.Job) {
		ix := job.NewIndex(j)
		for i := range j.Net.Runs {
			r := &j.Net.Runs[i]
			along(ix, r, func(at geom.Point) {
				for _, o := range j.Building.Openings {
					w := ix.Wall(o.Wall)
					s, up, off := w.Frame().In(at)
					if math.Abs(off) < 0.25+float64(w.Thickness) && s > float64(o.Along) && s < float64(o.Along+o.Width) && up > float64(o.Sill) && up < float64(o.Sill+o.Height) {
						t.Errorf("%s bars %s at %.2f", r.ID, o.ID, at)
					}
				}
			})
		}
	})
}

// TestNoLineGoesThroughThings: benches, machines and the hull stay clear.
func TestNoLineGoesThroughThings(t *testing.T) {
	each(t, func(t *testing.T, j *job.Job) {
		ix := job.NewIndex(j)
		for i := range j.Net.Runs {
			r := &j.Net.Runs[i]
			along(ix, r, func(at geom.Point) {
				for _, o := range j.Building.Obstacles {
					if at[2] > float64(o.Bottom) && at[2] < float64(o.Top) && geom.Contains(o.Outline, at.Plan()) {
						t.Errorf("%s goes through %s at %.2f", r.ID, o.Name, at)
					}
				}
			})
		}
	})
}

// TestHeightsAreUsual: outlets at walls hang between 0.9 and 1.3 m (common
// practice, 900 to 1200 mm and a block over a lathe), and mains run over heads.
func TestHeightsAreUsual(t *testing.T) {
	each(t, func(t *testing.T, j *job.Job) {
		ix := job.NewIndex(j)
		for _, o := range j.Outlets {
			at, _ := ix.Where(ix.Point(o.Point))
			room := ix.RoomAt(at)
			overhead := room != nil && at[2] > 2.4
			if !overhead && (at[2] < 0.9 || at[2] > 1.3) {
				t.Errorf("%s is at %.2f m", o.ID, at[2])
			}
		}
		for i := range j.Net.Runs {
			r := &j.Net.Runs[i]
			if r.Role != "main" && r.Role != "ring" && r.Role != "branch" {
				continue
			}
			line := ix.Centreline(r)
			for k := 1; k < len(line); k++ {
				a, b := line[k-1], line[k]
				if a.Plan().Distance(b.Plan()) > 1 && min(a[2], b[2]) < 2.1 {
					t.Errorf("%s runs %.1f m at %.2f m height", r.ID, a.Plan().Distance(b.Plan()), a[2])
				}
			}
		}
	})
}

// TestRoomsLieWithinTheirWalls: every corner of a room is at the foot of a wall,
// on one face or the other.
func TestRoomsLieWithinTheirWalls(t *testing.T) {
	each(t, func(t *testing.T, j *job.Job) {
		for _, r := range j.Building.Rooms {
			if geom.Area(r.Outline) == 0 {
				t.Errorf("%s has no floor", r.ID)
			}
			for _, c := range r.Outline {
				if at := c.At(float64(r.Floor)); !inWall(j, at) {
					t.Errorf("%s: no wall stands at %.2f", r.ID, c)
				}
			}
		}
	})
}
