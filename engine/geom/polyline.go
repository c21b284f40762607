package geom

import (
	"math"
	"slices"
)

// Length is the length of a polyline in metres.
func Length(path []Point) float64 {
	total := 0.0
	for i := 1; i < len(path); i++ {
		total += path[i].Distance(path[i-1])
	}
	return total
}

// Corner is a place where a polyline turns.
type Corner struct {
	Index int     // in the polyline
	At    Point   //
	Turn  float64 // rad, 0 straight on, π back
	Along float64 // m from the start
}

// Corners gives the places at which a polyline turns by more than least (rad).
// Legs shorter than Tiny do not count as a direction of their own.
func Corners(path []Point, least float64) []Corner {
	var out []Corner
	along := 0.0
	last := Point{} // direction of the leg before
	for i := 1; i < len(path); i++ {
		leg := path[i].Minus(path[i-1])
		if leg.Length() <= Tiny {
			along += leg.Length()
			continue
		}
		if last != (Point{}) {
			if turn := Angle(last, leg); turn > least {
				out = append(out, Corner{Index: i - 1, At: path[i-1], Turn: turn, Along: along})
			}
		}
		last = leg
		along += leg.Length()
	}
	return out
}

// Angle is the angle between two directions in rad, 0..π; 0 where one has no
// length. By both products it stays exact for small angles, unlike acos.
func Angle(a, b Point) float64 {
	cross := Point{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
	return math.Atan2(cross.Length(), a.Dot(b))
}

// OnPath is the place along metres from the start of a polyline; before the
// start and behind the end it is the end itself. ok is false without points.
func OnPath(path []Point, along float64) (at Point, leg int, ok bool) {
	if len(path) == 0 {
		return Point{}, 0, false
	}
	for i := 1; i < len(path); i++ {
		l := path[i].Distance(path[i-1])
		if along <= l && l > 0 {
			return between(path[i-1], path[i], math.Max(along, 0)/l), i - 1, true
		}
		along -= l
	}
	return path[len(path)-1], max(len(path)-2, 0), true
}

// Hit is the nearest place on a line.
type Hit struct {
	At       Point
	Distance float64 // m from the point asked
	Along    float64 // m from the start
	Leg      int     // index of the leg's first point
}

// NearestOnSegment is the place on the segment from a to b that is nearest to p.
func NearestOnSegment(p, a, b Point) Hit {
	d := b.Minus(a)
	t := 0.0
	if l2 := d.Dot(d); l2 > 0 {
		t = math.Min(1, math.Max(0, p.Minus(a).Dot(d)/l2))
	}
	at := between(a, b, t)
	return Hit{At: at, Distance: p.Distance(at), Along: a.Distance(at)}
}

// NearestOnPath is the place on a polyline that is nearest to p, the first of
// several; ok is false without points.
func NearestOnPath(p Point, path []Point) (best Hit, ok bool) {
	if len(path) == 0 {
		return Hit{}, false
	}
	best = Hit{At: path[0], Distance: p.Distance(path[0])}
	along := 0.0
	for i := 1; i < len(path); i++ {
		if h := NearestOnSegment(p, path[i-1], path[i]); h.Distance < best.Distance {
			best = Hit{At: h.At, Distance: h.Distance, Along: along + h.Along, Leg: i - 1}
		}
		along += path[i].Distance(path[i-1])
	}
	return best, true
}

// Split cuts a polyline at a place along it: both parts hold the place itself.
func Split(path []Point, along float64) (first, second []Point) {
	at, leg, ok := OnPath(path, along)
	if !ok {
		return nil, nil
	}
	first = append(append(first, path[:leg+1]...), at)
	second = append(append(second, at), path[min(leg+1, len(path)):]...)
	return first, second
}

// Heading is the direction in which a way leaves its start, or its end; ok is false where it
// goes nowhere.
func Heading(way []Point, fromEnd bool) (dir Point, ok bool) {
	if fromEnd {
		way = slices.Clone(way)
		slices.Reverse(way)
	}
	for _, p := range way {
		if d := p.Minus(way[0]); d.Length() > Tiny {
			return d.Unit(), true
		}
	}
	return Point{}, false
}
