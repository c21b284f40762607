package scene

import (
	"math"
	"strconv"
	"strings"
)

// Step is one letter of a path with its numbers.
type Step struct {
	Letter  byte
	Numbers []float64
}

// Steps reads path data of the letters that marks may use: M L H V A Z, absolute. Numbers stand
// apart by blanks, commas or their sign.
func Steps(d string) []Step {
	var out []Step
	for i := 0; i < len(d); {
		if strings.IndexByte("MLHVAZ", d[i]) >= 0 || len(out) == 0 {
			out = append(out, Step{Letter: d[i]})
			i++
			continue
		}
		if d[i] == ' ' || d[i] == ',' {
			i++
			continue
		}
		end := i + 1
		for end < len(d) && strings.IndexByte(" ,-MLHVAZ", d[end]) < 0 {
			end++
		}
		if v, err := strconv.ParseFloat(d[i:end], 64); err == nil {
			s := &out[len(out)-1]
			s.Numbers = append(s.Numbers, v)
		}
		i = end
	}
	return out
}

// stretch is one part of a path, its arcs as chords.
type stretch struct {
	points []Point
	closed bool
}

// outlines are the parts of a path. Chords stay within tolerance of their arcs; the unit
// is that of the path.
func outlines(d string, tolerance float64) []stretch {
	var all []stretch
	var now stretch
	end := func() {
		if len(now.points) > 1 {
			all = append(all, now)
		}
	}
	for _, s := range Steps(d) {
		if s.Letter == 'M' {
			end()
			now = stretch{}
		}
		if s.Letter == 'Z' && len(now.points) > 0 {
			first := now.points[0]
			now.closed = true
			end()
			now = stretch{points: []Point{first}}
			continue
		}
		now.points = s.onto(now.points, tolerance)
	}
	end()
	return all
}

// onto adds where a step leads.
func (s Step) onto(points []Point, tolerance float64) []Point {
	at := Point{}
	if len(points) > 0 {
		at = points[len(points)-1]
	}
	n := s.Numbers
	switch s.Letter {
	case 'M', 'L':
		for i := 0; i+1 < len(n); i += 2 {
			points = append(points, Point{n[i], n[i+1]})
		}
	case 'H':
		for _, x := range n {
			points = append(points, Point{x, at[1]})
		}
	case 'V':
		for _, y := range n {
			points = append(points, Point{at[0], y})
		}
	case 'A':
		for ; len(n) >= 7; n = n[7:] {
			to := Point{n[5], n[6]}
			points = append(points, chords(at, to, n[0], n[3] != 0, n[4] != 0, tolerance)...)
			at = to
		}
	}
	return points
}

// chords follow an arc of a circle from one place to another, without the first; after SVG
// 1.1, appendix F.6.5, for circles.
func chords(from, to Point, radius float64, large, sweep bool, tolerance float64) []Point {
	dx, dy := to[0]-from[0], to[1]-from[1]
	chord := math.Hypot(dx, dy)
	if chord == 0 || radius <= 0 {
		return []Point{to}
	}
	radius = max(radius, chord/2)
	side := 1.0
	if large == sweep {
		side = -1
	}
	high := side * math.Sqrt(max(radius*radius-chord*chord/4, 0)) / chord
	centre := Point{(from[0]+to[0])/2 - high*dy, (from[1]+to[1])/2 + high*dx}
	a := math.Atan2(from[1]-centre[1], from[0]-centre[0])
	turn := math.Atan2(to[1]-centre[1], to[0]-centre[0]) - a
	if sweep && turn < 0 {
		turn += 2 * math.Pi
	}
	if !sweep && turn > 0 {
		turn -= 2 * math.Pi
	}
	return append(around(centre, radius, a, turn, tolerance)[1:], to)
}

// around is points on a circle from an angle on through a turn, both in radians, without
// the last.
func around(centre Point, radius, from, turn, tolerance float64) []Point {
	// Of a chord over the angle t the arc is radius·(1 − cos t/2) away.
	step := 2 * math.Acos(1-min(tolerance/radius, 0.5))
	n := int(math.Ceil(math.Abs(turn)/step)) + 1
	out := make([]Point, n)
	for i := range out {
		sin, cos := math.Sincos(from + turn*float64(i)/float64(n))
		out[i] = Point{centre[0] + radius*cos, centre[1] + radius*sin}
	}
	return out
}

// points of the arc as chords, within tolerance in metres.
func (a *Arc) points(tolerance float64) []Point {
	turn := math.Mod(a.To-a.From, 360)
	if turn <= 0 {
		turn += 360
	}
	end := Point{}
	sin, cos := math.Sincos(a.To * math.Pi / 180)
	end[0], end[1] = a.Centre[0]+a.Radius*cos, a.Centre[1]+a.Radius*sin
	if a.Radius <= 0 {
		return []Point{end}
	}
	return append(around(a.Centre, a.Radius, a.From*math.Pi/180, turn*math.Pi/180, tolerance), end)
}

// hatch is lines at 45°, a step apart, inside an outline: of each where it goes in and
// where it goes out again.
func hatch(outline []Point, step float64, falling bool) [][2]Point {
	if len(outline) < 3 || step <= 0 {
		return nil
	}
	way := 1.0
	if falling {
		way = -1
	}
	// On a line y = way·x + c the constant c is the same.
	level := func(p Point) float64 { return p[1] - way*p[0] }
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range outline {
		low, high = min(low, level(p)), max(high, level(p))
	}
	pitch := step * math.Sqrt2
	var out [][2]Point
	for c := (math.Floor(low/pitch) + 0.5) * pitch; c < high && len(out) < mostHatch; c += pitch {
		var cuts []float64 // x
		for i, p := range outline {
			q := outline[(i+1)%len(outline)]
			a, b := level(p)-c, level(q)-c
			if a < 0 != (b < 0) {
				cuts = append(cuts, p[0]+(q[0]-p[0])*a/(a-b))
			}
		}
		out = append(out, spans(cuts, way, c)...)
	}
	return out
}

// mostHatch ends the hatching of an area that is vast for its step.
const mostHatch = 4000
