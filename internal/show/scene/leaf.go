package scene

import "slices"

// Leaf is one sheet of paper with the drawings that lie on it.
type Leaf struct {
	Title         string
	Width, Height float64 // mm
	Laid          []Laid
}

// Laid is a drawing on a leaf, at a scale.
type Laid struct {
	Scene Scene
	Scale float64 // mm of paper to the metre
	At    Point   // mm from the leaf's left and lower edge, where the drawing's metre 0, 0 lies
	// Window is all that is seen of it, lower left and upper right corner in mm of the leaf;
	// nil: all.
	Window *[2]Point
}

// on is a place of the drawing on the leaf, in mm from its left and lower edge.
func (l *Laid) on(p Point) Point { return Point{l.At[0] + p[0]*l.Scale, l.At[1] + p[1]*l.Scale} }

// paperMargin is about a drawing that is written alone, in mm.
const paperMargin = 10

// Alone is a leaf just large enough for one drawing at a scale, in mm of paper to the metre.
func Alone(s Scene, scale float64) Leaf {
	return Leaf{
		Title: s.Title, Width: (s.Max[0]-s.Min[0])*scale + 2*paperMargin, Height: (s.Max[1]-s.Min[1])*scale + 2*paperMargin,
		Laid: []Laid{{Scene: s, Scale: scale, At: Point{paperMargin - s.Min[0]*scale, paperMargin - s.Min[1]*scale}}},
	}
}

// Print is the theme of work on paper: white ground and dark lines, told apart by width and
// dash before colour, so that a copy in black and white says the same.
func Print() Theme {
	return Theme{
		"ink": "#000000", "soft": "#404040", "faint": "#b0b0b0", "wall": "#000000", "floor": "#ffffff",
		"thing": "#f0f0f0", "line": "#000000", "accent": "#9a1f00", "alarm": "#9a1f00", "good": "#0b4f3a", "paper": "#ffffff", "marker": "#00558c",
		"ramp-0": "#0a4a63", "ramp-1": "#1c6f86", "ramp-2": "#3a8a7c", "ramp-3": "#7d8a32", "ramp-4": "#b27a14", "ramp-5": "#a83a12",
	}
}

// spans are the pieces of a hatching line between the places where it cuts the outline.
func spans(cuts []float64, way, c float64) [][2]Point {
	slices.Sort(cuts)
	var out [][2]Point
	for i := 0; i+1 < len(cuts); i += 2 {
		out = append(out, [2]Point{{cuts[i], way*cuts[i] + c}, {cuts[i+1], way*cuts[i+1] + c}})
	}
	return out
}
