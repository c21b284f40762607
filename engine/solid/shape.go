package solid

import (
	"errors"
	"fmt"
	"math"

	"dropleg/engine/unit"
)

// Bent is what a line does that is held at both ends and bends as it grows.
type Bent struct {
	Stress unit.Stress // greatest bending stress, at an end or a corner
	Push   [2]float64  // N, on the far end, along the axes of the shape
	Moment float64     // N·m, greatest
}

// Flex is the natural flexibility of a flat shape (an L, a Z, a U) whose ends may
// neither move nor turn: the line bends by what it wants to grow between them. By
// the elastic centre: about the centroid of the line the unknown turning falls out
// and the two forces follow from
//
//	X ∫y² ds - Y ∫xy ds = -E I dx,   Y ∫x² ds - X ∫xy ds = -E I dy
//
// with dx, dy the free growth from end to end; the moment is X y - Y x and linear
// along each leg, so that its greatest stands at a corner or an end. Shortening under
// the push is left out, on the safe side: little where the shape turns squarely, all
// that there is where it hardly turns. Corners are as stiff as line. The shape is in metres. A straight one takes nothing and is an error.
func Flex(m Material, od, wall unit.Length, shape [][2]float64, rise unit.TempDiff) (Bent, error) {
	_, second, err := Section(od, wall)
	err = errors.Join(err, positive("E", float64(m.Modulus), "Pa"), finite("alpha", float64(m.Alpha), "1/K"),
		finite("temperature rise", float64(rise), "K"))
	for i, p := range shape {
		err = errors.Join(err, finite(fmt.Sprintf("corner %d", i+1), p[0], "m"), finite(fmt.Sprintf("corner %d", i+1), p[1], "m"))
	}
	if err != nil {
		return Bent{}, err
	}
	at, long := centred(shape)
	var xx, yy, xy float64 // ∫x² ds, ∫y² ds, ∫xy ds
	for i := 1; i < len(at); i++ {
		p, q := at[i-1], at[i]
		l := math.Hypot(q[0]-p[0], q[1]-p[1])
		xx += l / 3 * (p[0]*p[0] + p[0]*q[0] + q[0]*q[0])
		yy += l / 3 * (p[1]*p[1] + p[1]*q[1] + q[1]*q[1])
		xy += l / 6 * (2*p[0]*p[1] + 2*q[0]*q[1] + p[0]*q[1] + q[0]*p[1])
	}
	det := xx*yy - xy*xy
	// Of a shape of a given length det is at most that length to the sixth.
	if !(det > 1e-12*math.Pow(long, 6)) {
		return Bent{}, fmt.Errorf("shape of %d corners: wanted one that turns", len(shape))
	}
	last := len(shape) - 1
	free := float64(m.Alpha) * float64(rise)
	dx, dy := free*(shape[last][0]-shape[0][0]), free*(shape[last][1]-shape[0][1])
	x, y := -(xx*dx+xy*dy)/det, -(yy*dy+xy*dx)/det // over E I
	most := 0.0
	for _, p := range at {
		most = math.Max(most, math.Abs(x*p[1]-y*p[0]))
	}
	ei := float64(m.Modulus) * second
	return Bent{
		Stress: m.Modulus * unit.Stress(float64(od)/2*most),
		Push:   [2]float64{ei * x, ei * y}, Moment: ei * most,
	}, nil
}

// centred is the shape about the centroid of its line, and the line's length.
func centred(shape [][2]float64) (at [][2]float64, long float64) {
	var c [2]float64
	for i := 1; i < len(shape); i++ {
		p, q := shape[i-1], shape[i]
		l := math.Hypot(q[0]-p[0], q[1]-p[1])
		long += l
		c[0] += l * (p[0] + q[0]) / 2
		c[1] += l * (p[1] + q[1]) / 2
	}
	if long == 0 {
		return nil, 0
	}
	for _, p := range shape {
		at = append(at, [2]float64{p[0] - c[0]/long, p[1] - c[1]/long})
	}
	return at, long
}
