package geom

import "math"

// View turns places in space into places on a drawing, in metres.
type View struct {
	right, up, toward Point
}

// PlanView looks straight down, x to the right and y up the sheet.
func PlanView() View {
	return View{right: Point{1, 0, 0}, up: Point{0, 1, 0}, toward: Point{0, 0, 1}}
}

// Isometric looks down onto the corner at turn (rad, counterclockwise) of the
// plan: the three axes are shortened alike and make 120 degrees on the sheet.
func Isometric(turn float64) View {
	s, c := math.Sincos(turn - math.Pi/4)
	sin, cos := 1/math.Sqrt(3), math.Sqrt(2.0/3.0) // of the elevation, 35.26 degrees
	return View{
		right:  Point{c, s, 0},
		up:     Point{-s * sin, c * sin, cos},
		toward: Point{s * cos, -c * cos, sin},
	}
}

// Front looks square onto a wall from inside the room.
func Front(f Frame) View {
	a, n := f.axis(), f.Normal()
	return View{right: a.At(0), up: Point{0, 0, 1}, toward: n.At(0)}
}

// Flat is where p lies on the drawing.
func (v View) Flat(p Point) Flat { return Flat{p.Dot(v.right), p.Dot(v.up)} }

// Depth is how near p is to the one who looks: what is nearer is drawn later.
func (v View) Depth(p Point) float64 { return p.Dot(v.toward) }
