package route

import (
	"errors"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// shop is a job that tests draw.
type shop struct {
	*draft
	t testing.TB
}

func newShop(t testing.TB) *shop {
	return &shop{&draft{job: &job.Job{Version: job.Version, Title: "Shop", Net: job.Net{Points: []job.Point{}, Runs: []job.Run{}}}, shelf: catalog.Builtin()}, t}
}

func (s *shop) must(g fit.Gesture) []job.ID {
	s.t.Helper()
	made, err := s.do(g)
	if err != nil {
		s.t.Fatalf("%+v: %v %v", g, err, titles(err))
	}
	return made
}

func titles(err error) []string {
	var r *job.Refusal
	var out []string
	if errors.As(err, &r) {
		for _, f := range r.Findings {
			out = append(out, f.Title)
		}
	}
	return out
}

func codeOf(err error) string {
	var r *job.Refusal
	if errors.As(err, &r) && len(r.Findings) > 0 {
		return r.Findings[0].Code
	}
	return ""
}

// room draws a room with walls.
func (s *shop) room(name string, ceiling float64, outline ...geom.Flat) {
	s.t.Helper()
	s.must(&fit.Room{Name: name, Outline: outline, Ceiling: unit.Length(ceiling), Climate: "heated", Walls: &fit.RoomWalls{Thickness: 0.2}})
}

func (s *shop) obstacle(kind, name string, low, high float64, from, to geom.Flat) {
	s.t.Helper()
	s.job.Building.Obstacles = append(s.job.Building.Obstacles, job.Obstacle{
		ID: job.ID("obstacle." + name), Kind: kind, Name: name, Bottom: unit.Length(low), Top: unit.Length(high),
		Outline: []geom.Flat{from, {to[0], from[1]}, to, {from[0], to[1]}},
	})
}

// compressor stands with its way out at a place.
func (s *shop) compressor(p geom.Point) {
	s.t.Helper()
	free := job.Flow{Value: 0.01, Reference: "iso1217"}
	in, out, rating := unit.GaugePressure(6e5), unit.GaugePressure(8e5), unit.GaugePressure(7e5)
	s.must(&fit.Plant{Kind: "compressor", Name: "Compressor", At: at(p), Figures: fit.Figures(job.Part{Compressor: &job.Compressor{FreeAir: &free, At: &rating, CutIn: &in, CutOut: &out, Control: "start-stop"}})})
}

// outlet is one that no line reaches yet.
func (s *shop) outlet(name string, p geom.Point) {
	s.t.Helper()
	kind := "wall-block"
	if p[2] > 2.2 {
		kind = "ceiling-outlet"
	}
	made := s.must(&fit.Plant{Kind: kind, At: at(p)})
	s.must(&fit.Compose{Point: made[0], Name: &name})
}

func (s *shop) study() *study.Study { return study.Of(s.job, s.shelf) }

// ell is an L-shaped shop with a door, a beam and a lift, and three outlets.
func ell(t testing.TB) *shop {
	s := newShop(t)
	s.room("Shop", 3.6, geom.Flat{0, 0}, geom.Flat{10, 0}, geom.Flat{10, 4}, geom.Flat{5, 4}, geom.Flat{5, 8}, geom.Flat{0, 8})
	s.must(&fit.Opening{Wall: s.wallAt(geom.Flat{7, 0}), Kind: "gate", Along: 2, Width: 3, Height: 3.4})
	s.obstacle("beam", "beam", 3.1, 3.6, geom.Flat{4.9, 0}, geom.Flat{5.1, 4})
	s.obstacle("lift", "lift", 0, 3.5, geom.Flat{1.5, 3}, geom.Flat{3.5, 5})
	s.compressor(geom.Point{0.08, 7, 1})
	s.outlet("Bench", geom.Point{9.92, 2, 1.1})
	s.outlet("Door", geom.Point{3, 0.08, 1.1})
	s.outlet("Middle", geom.Point{7, 2, 2.5})
	return s
}

// wallAt is the wall nearest to a place.
func (s *shop) wallAt(p geom.Flat) job.ID {
	best, off := job.ID(""), 1e9
	for i := range s.job.Building.Walls {
		w := &s.job.Building.Walls[i]
		if h := geom.NearestOnSegment(p.At(0), w.From.At(0), w.To.At(0)); h.Distance < off {
			best, off = w.ID, h.Distance
		}
	}
	return best
}
