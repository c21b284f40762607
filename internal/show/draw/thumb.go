package draw

import (
	"cmp"
	"math"
	"slices"

	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// What a drawing the size of a stamp can show at most.
const (
	thumbRooms  = 24
	thumbWalls  = 40
	thumbLines  = 60
	thumbDots   = 60
	thumbPoints = 260 // corners of all lines
)

// Thumb is a small quiet drawing for a list of jobs: rooms, walls, lines and a dot
// for each outlet, without words; of a mere picture of the floor, a sheet. What a stamp cannot show is left out or drawn
// together, so that a shop of any size gives a small file.
func Thumb(given Given) scene.Scene {
	low, high := extent(given)
	if !finite(low[0]) || !finite(low[1]) || !finite(high[0]) || !finite(high[1]) {
		low, high = scene.Point{}, scene.Point{1, 1}
	}
	j := given.Index.Job()
	s := scene.Scene{Title: j.Title, Min: low, Max: high}
	grain := max(high[0]-low[0], high[1]-low[1], 0.1) / 90
	var building []scene.Item
	for i, r := range j.Building.Rooms {
		if i == thumbRooms || len(r.Outline) > 60 {
			break
		}
		building = append(building, scene.Item{Area: &scene.Area{Points: flats(r.Outline), Fill: "floor", Stroke: &scene.Stroke{Width: 0.2, Color: "soft"}}})
	}
	for i, w := range j.Building.Walls {
		if i == thumbWalls {
			break
		}
		building = append(building, scene.Polyline("", "", scene.Solid(0.5, "soft"), scene.Point(w.From), scene.Point(w.To)))
	}
	if j.Building.Underlay != nil && len(building) == 0 {
		// The picture itself is far too heavy for a stamp: a hatched sheet stands for it.
		sheet := []scene.Point{low, {high[0], low[1]}, high, {low[0], high[1]}}
		building = append(building, scene.Item{Area: &scene.Area{Points: sheet, Fill: "floor", Hatch: "diagonal", Stroke: &scene.Stroke{Width: 0.2, Color: "soft"}}})
	}
	s.Layers = []scene.Layer{
		{ID: "building", Title: "building", Items: building},
		{ID: "lines", Title: "lines", Items: thumbCourses(given, grain)},
		{ID: "outlets", Title: "outlets", Items: thumbDotted(given, low, grain)},
	}
	s.Fill()
	return s
}

// thumbCourses draws runs that follow one another as one stroke, without what is
// finer than a grain.
func thumbCourses(g Given, grain float64) []scene.Item {
	j := g.Index.Job()
	p := &planner{given: g, job: j, scale: 1}
	var strands []strand
	for i := range j.Net.Runs {
		r := &j.Net.Runs[i]
		var course []scene.Point
		for _, q := range g.Index.Centreline(r) {
			at := scene.Point{q[0], q[1]}
			if n := len(course); n == 0 || math.Hypot(at[0]-course[n-1][0], at[1]-course[n-1][1]) > 1e-6 {
				course = append(course, at)
			}
		}
		strands = append(strands, strand{run: r, course: course, ends: [2]job.ID{r.From.Point, r.To.Point}})
	}
	chains := p.threads(strands)
	slices.SortStableFunc(chains, func(a, b chain) int { return cmp.Compare(b.length(), a.length()) })
	var items []scene.Item
	left := thumbPoints
	for _, c := range chains {
		course := coarse(c.course, grain)
		if len(course) < 2 || len(course) > left {
			continue
		}
		if len(items) == thumbLines {
			break
		}
		left -= len(course)
		items = append(items, scene.Polyline("", "", scene.Stroke{Width: 0.6, Color: "line", Round: true}, course...))
	}
	return items
}

// coarse leaves out corners closer than a grain, and those on a straight way.
func coarse(course []scene.Point, grain float64) []scene.Point {
	var out []scene.Point
	for i, q := range course {
		n := len(out)
		if n > 0 && i < len(course)-1 && math.Hypot(q[0]-out[n-1][0], q[1]-out[n-1][1]) < grain {
			continue
		}
		if n > 1 && cosine(out[n-2], out[n-1], out[n-1], q) > 0.9995 {
			out[n-1] = q
			continue
		}
		out = append(out, q)
	}
	if len(out) == 2 && math.Hypot(out[1][0]-out[0][0], out[1][1]-out[0][1]) < grain {
		return nil
	}
	return out
}

// thumbDotted draws a dot for the outlets of each small square of the floor, of
// squares so large that there are not too many.
func thumbDotted(g Given, low scene.Point, grain float64) []scene.Item {
	var at []scene.Point
	for i := range g.Index.Job().Outlets {
		if q, ok := g.Index.Where(g.Index.Point(g.Index.Job().Outlets[i].Point)); ok {
			at = append(at, scene.Point{q[0], q[1]})
		}
	}
	for ; ; grain *= 1.5 {
		seen := map[[2]int]bool{}
		var kept []scene.Point
		for _, q := range at {
			cell := [2]int{int(math.Floor((q[0] - low[0]) / grain)), int(math.Floor((q[1] - low[1]) / grain))}
			if !seen[cell] {
				seen[cell] = true
				kept = append(kept, q)
			}
		}
		if len(kept) > thumbDots {
			continue
		}
		var items []scene.Item
		for _, q := range kept {
			items = append(items, scene.Item{Mark: &scene.Mark{At: q, Parts: []scene.Path{{D: "M-0.8 0A0.8 0.8 0 1 0 0.8 0A0.8 0.8 0 1 0 -0.8 0Z", Fill: "accent"}}}})
		}
		return items
	}
}
