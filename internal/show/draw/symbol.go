package draw

import (
	"math"
	"strings"

	"dropleg/internal/show/scene"
)

// extentOf is the box of a symbol; arcs count by their ends and radius.
func extentOf(d string) box {
	b := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	x, y := 0.0, 0.0
	grow := func(x, y float64) { b = box{min(b.x0, x), min(b.y0, y), max(b.x1, x), max(b.y1, y)} }
	for _, s := range scene.Steps(d) {
		n := s.Numbers
		switch {
		case (s.Letter == 'M' || s.Letter == 'L') && len(n) >= 2:
			for i := 0; i+1 < len(n); i += 2 {
				x, y = n[i], n[i+1]
				grow(x, y)
			}
		case s.Letter == 'H' && len(n) > 0:
			x = n[len(n)-1]
			grow(x, y)
		case s.Letter == 'V' && len(n) > 0:
			y = n[len(n)-1]
			grow(x, y)
		case s.Letter == 'A' && len(n) >= 7:
			mx, my := (x+n[5])/2, (y+n[6])/2
			grow(mx-n[0], my-n[1])
			grow(mx+n[0], my+n[1])
			x, y = n[5], n[6]
		}
	}
	if b.x0 > b.x1 {
		return box{-1, -1, 1, 1}
	}
	return b
}

// scaled enlarges path data and, where told, mirrors it about the way of the air.
// Flags and angles of arcs stay as they are, but for the sweep of a mirrored one.
func scaled(d string, k float64, mirrored bool) string {
	up := k
	if mirrored {
		up = -k
	}
	var out strings.Builder
	for _, s := range scene.Steps(d) {
		out.WriteByte(s.Letter)
		for i, n := range s.Numbers {
			if i > 0 {
				out.WriteByte(' ')
			}
			out.WriteString(hundredths(numberScaled(s, i, n, k, up)))
		}
	}
	return out.String()
}

// numberScaled is the i-th number of a step at k along and up across.
func numberScaled(s scene.Step, i int, n, k, up float64) float64 {
	switch s.Letter {
	case 'H':
		return n * k
	case 'V':
		return n * up
	case 'A':
		switch i % 7 {
		case 0, 1, 5:
			return n * k
		case 4:
			if up < 0 {
				return 1 - n
			}
			return n
		case 6:
			return n * up
		}
		return n
	}
	if i%2 == 1 {
		return n * up
	}
	return n * k
}
