package extend

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// The practice of standing one compressor beside another, in metres: common practice, no
// source. Makers' distances for cooling air and for work on the machine come before these.
const (
	footprint  = 0.4 // from a compressor's middle to its side
	walkAround = 0.6 // between a compressor and what stands beside it
	doorway    = 0.9 // before a door or a gate nothing stands
	farthest   = 5.0 // from the compressor that stands
	level      = 1e-4
)

// room is the square way from a free place beside a compressor to a place on a line that has
// the fewest corners, of these the shortest: in a straight one the flexible link takes up what
// a hot line grows. Where nobody drew the room round the compressor, no floor is known to be free.
func (d *draft) room(stands geom.Point, into *job.Run, at geom.Point) ([]geom.Point, error) {
	if d.study.Index().RoomAt(stands) == nil {
		return nil, refuse("no-room", "machine", "the compressor stands in no room of the drawing, so that nobody knows which floor is free", "draw the room round it, or the second compressor where it is to stand")
	}
	const step = 0.25
	var ways [][]geom.Point
	for far := 2*footprint + walkAround; far <= farthest; far += step {
		for turn := range 8 {
			sin, cos := math.Sincos(float64(turn) * math.Pi / 4)
			for _, about := range []geom.Point{stands, at} {
				p := about.Plan().Plus(geom.Flat{far * cos, far * sin})
				if d.free(p, stands) {
					ways = append(ways, d.square(p.At(stands[2]), at, into)...)
				}
			}
		}
	}
	if len(ways) == 0 {
		system, _ := unit.ParseSystem(d.study.Job().Site.Units) // metric where it says nothing
		long := func(x float64) string { return system.Text(unit.KindLength, x, unit.Env{}) }
		return nil, refuse("no-room", "machine", fmt.Sprintf("within %s of the compressor no place of %s square is free for another, with a way for its line that no wall crosses", long(farthest), long(2*footprint)), "draw it where it is to stand")
	}
	return slices.MinFunc(ways, func(a, b []geom.Point) int {
		return cmp.Or(cmp.Compare(len(a), len(b)), cmp.Compare(geom.Length(a), geom.Length(b)))
	}), nil
}

// free says whether a compressor may stand at a place in the room of another.
func (d *draft) free(p geom.Flat, stands geom.Point) bool {
	ix := d.study.Index()
	b := &d.study.Job().Building
	room := ix.RoomAt(stands)
	if ix.RoomAt(p.At(stands[2])) != room || near(p, room.Outline, footprint) {
		return false
	}
	for i := range b.Walls {
		if w := &b.Walls[i]; geom.NearestOnSegment(p.At(0), w.From.At(0), w.To.At(0)).Distance < footprint {
			return false
		}
	}
	for i := range b.Obstacles {
		if o := &b.Obstacles[i]; len(o.Outline) > 2 && (geom.Contains(o.Outline, p) || near(p, o.Outline, footprint)) {
			return false
		}
	}
	for i := range b.Openings {
		if o := &b.Openings[i]; ix.Wall(o.Wall) != nil {
			w := ix.Wall(o.Wall)
			f := geom.Frame{From: w.From, To: w.To}
			a, z := f.Out(float64(o.Along), 0, 0), f.Out(float64(o.Along+o.Width), 0, 0)
			if o.Sill == 0 && geom.NearestOnSegment(p.At(a[2]), a, z).Distance < doorway {
				return false
			}
		}
	}
	const plant = footprint + walkAround
	for i := range d.study.Job().Net.Points {
		if q, ok := ix.Where(&d.study.Job().Net.Points[i]); ok && ix.RoomAt(q) == room && q[2] < stands[2]+1 && q.Plan().Distance(p) < plant {
			return false
		}
	}
	return true
}

func near(p geom.Flat, outline []geom.Flat, least float64) bool {
	for i, a := range outline {
		if geom.NearestOnSegment(p.At(0), a.At(0), outline[(i+1)%len(outline)].At(0)).Distance < least {
			return true
		}
	}
	return false
}

// square are the two ways along the axes from a place to a place on a line, at its height,
// that do not come to it along itself.
func (d *draft) square(from, to geom.Point, into *job.Run) [][]geom.Point {
	line := d.study.Index().Centreline(into)
	hit, _ := geom.NearestOnPath(to, line)
	along := line[hit.Leg+1].Minus(line[hit.Leg]).Unit()
	var out [][]geom.Point
	for _, corner := range []geom.Point{{from[0], to[1], to[2]}, {to[0], from[1], to[2]}} {
		way := []geom.Point{from}
		short := false
		for _, p := range []geom.Point{{from[0], from[1], to[2]}, corner, to} {
			leg := p.Distance(way[len(way)-1])
			if leg < level {
				continue
			}
			short = short || leg < partsApart/2
			way = append(way, p)
		}
		if len(way) > 1 && !short && !d.walled(way) && math.Abs(way[len(way)-1].Minus(way[len(way)-2]).Unit().Dot(along)) < 0.8 {
			out = append(out, way)
		}
	}
	return out
}

// walled says whether a wall crosses a way on plan.
func (d *draft) walled(way []geom.Point) bool {
	for k := 1; k < len(way); k++ {
		for i := range d.study.Job().Building.Walls {
			w := &d.study.Job().Building.Walls[i]
			if geom.SegmentsMeet(way[k-1].Plan(), way[k].Plan(), w.From, w.To) {
				return true
			}
		}
	}
	return false
}
