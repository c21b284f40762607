package geom

import "math"

// Tiny is the distance in metres below which two places count as one: a tenth
// of a millimetre, less than anyone can mark on a wall.
const Tiny = 1e-4

// Plus is p moved by d.
func (p Point) Plus(d Point) Point { return Point{p[0] + d[0], p[1] + d[1], p[2] + d[2]} }

// Minus is the vector from q to p.
func (p Point) Minus(q Point) Point { return Point{p[0] - q[0], p[1] - q[1], p[2] - q[2]} }

// Times is p scaled by k.
func (p Point) Times(k float64) Point { return Point{p[0] * k, p[1] * k, p[2] * k} }

// Dot is the scalar product.
func (p Point) Dot(q Point) float64 { return p[0]*q[0] + p[1]*q[1] + p[2]*q[2] }

// Length is the length of p as a vector.
func (p Point) Length() float64 { return math.Hypot(math.Hypot(p[0], p[1]), p[2]) }

// Distance is the distance between two points.
func (p Point) Distance(q Point) float64 { return p.Minus(q).Length() }

// Plan is p seen from above.
func (p Point) Plan() Flat { return Flat{p[0], p[1]} }

// Finite says whether no coordinate is NaN or infinite.
func (p Point) Finite() bool { return finite(p[0]) && finite(p[1]) && finite(p[2]) }

// Unit is p scaled to length 1; the zero vector, where p has no length, stays zero.
func (p Point) Unit() Point {
	if l := p.Length(); l > 0 {
		return p.Times(1 / l)
	}
	return Point{}
}

// Plus is f moved by d.
func (f Flat) Plus(d Flat) Flat { return Flat{f[0] + d[0], f[1] + d[1]} }

// Minus is the vector from g to f.
func (f Flat) Minus(g Flat) Flat { return Flat{f[0] - g[0], f[1] - g[1]} }

// Times is f scaled by k.
func (f Flat) Times(k float64) Flat { return Flat{f[0] * k, f[1] * k} }

// Dot is the scalar product.
func (f Flat) Dot(g Flat) float64 { return f[0]*g[0] + f[1]*g[1] }

// Cross is the area of the parallelogram of f and g, positive where g lies to the left of f.
func (f Flat) Cross(g Flat) float64 { return f[0]*g[1] - f[1]*g[0] }

// Length is the length of f as a vector.
func (f Flat) Length() float64 { return math.Hypot(f[0], f[1]) }

// Distance is the distance between two places.
func (f Flat) Distance(g Flat) float64 { return f.Minus(g).Length() }

// At is the point above f at height z.
func (f Flat) At(z float64) Point { return Point{f[0], f[1], z} }

// Finite says whether no coordinate is NaN or infinite.
func (f Flat) Finite() bool { return finite(f[0]) && finite(f[1]) }

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// between is the place at share t of the way from a to b.
func between(a, b Point, t float64) Point { return a.Plus(b.Minus(a).Times(t)) }
