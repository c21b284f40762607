package draw

import (
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/show/scene"
)

// bands are the parts on the way, each a light strip from top to bottom.
func (w *wet) bands() []scene.Item {
	var items []scene.Item
	for i, s := range w.way.Steps {
		if s.Words == "" {
			continue
		}
		a, b := w.x(i), w.ends[i]
		items = append(items, scene.Item{ID: s.ID, Title: s.Title, Area: &scene.Area{
			Points: []scene.Point{at(a, w.base), at(b, w.base), at(b, w.top), at(a, w.top)}, Fill: "thing",
		}})
	}
	return items
}

// paint draws curves as far as the sheet goes. Curves that join are one line, so that
// dashes go through.
func (w *wet) paint(curves []curve, title string, s scene.Stroke) []scene.Item {
	var items []scene.Item
	var line []scene.Point
	end := func() {
		if len(line) > 1 {
			points := make([]scene.Point, len(line))
			for i, p := range line {
				points[i] = at(p[0], p[1])
				if i > 0 {
					w.field.draw(line[i-1], p, 0.4, 5)
				}
			}
			items = append(items, scene.Polyline("", title, s, points...))
		}
		line = nil
	}
	var last *scene.Point
	for _, c := range curves {
		for _, p := range c {
			q := scene.Point{p[0], w.y(p[1])}
			switch {
			case last != nil && (*last)[1] > w.top && q[1] > w.top:
			case last != nil && (*last)[1] > w.top:
				line = append(line, cut(*last, q, w.top), q)
			case last != nil && q[1] > w.top:
				line = append(line, cut(*last, q, w.top))
				end()
			case q[1] <= w.top:
				line = append(line, q)
			}
			last = &q
		}
		if len(c) == 0 {
			end()
			last = nil
		}
	}
	end()
	return items
}

// cut is where a segment crosses a height.
func cut(p, q scene.Point, y float64) scene.Point {
	return scene.Point{p[0] + (y-p[1])/(q[1]-p[1])*(q[0]-p[0]), y}
}

// soaked is a stretch of the way where the dew point stands over the line.
type soaked struct {
	from, to float64 // x in mm
	mid      scene.Point
	freezes  bool
	area     float64 // mm²
	hatches  [][2]scene.Point
}

// soak finds the stretches, those that join and freeze alike in one.
func (w *wet) soak() {
	for i, dew := range w.dew {
		if w.way.Steps[i].Warm {
			continue
		}
		stands := float64(w.way.Steps[i].Stands)
		for k := 1; k < len(dew); k++ {
			a, b := dew[k-1], dew[k]
			if a[1] <= stands && b[1] <= stands {
				continue
			}
			if a[1] < stands {
				a = cut(a, b, stands)
			} else if b[1] < stands {
				b = cut(a, b, stands)
			}
			freezes := stands < freezing
			if n := len(w.soaked); n == 0 || w.soaked[n-1].freezes != freezes || a[0]-w.soaked[n-1].to > 0.5 {
				w.soaked = append(w.soaked, soaked{from: a[0], freezes: freezes})
			}
			w.soaked[len(w.soaked)-1].add(scene.Point{a[0], w.y(a[1])}, scene.Point{b[0], w.y(b[1])}, w.y(stands), w.top)
		}
	}
}

// add takes in a piece under the dew point from a to b, over low, as far as top. The
// middle is that of the area, so that words lie where it is broad.
func (s *soaked) add(a, b scene.Point, low, top float64) {
	s.to = b[0]
	half := (min(a[1], top) + min(b[1], top)) / 2
	piece := (b[0] - a[0]) * (half - low)
	if s.area += piece; s.area > 0 {
		s.mid[0] += ((a[0]+b[0])/2 - s.mid[0]) * piece / s.area
		s.mid[1] += ((half+low)/2 - s.mid[1]) * piece / s.area
	}
	if b[0]-a[0] < 1e-9 {
		return
	}
	const apart = 1.5 // mm between hatches, along x
	slope := (b[1] - a[1]) / (b[0] - a[0])
	// A hatch is y = x - c; in the piece it lies over low and under the dew point.
	for c := math.Floor((a[0]-top)/apart) * apart; c < b[0]-low; c += apart {
		from, to := max(a[0], low+c), min(b[0], top+c)
		over := a[1] - slope*a[0] + c // x (1 - slope) <= over
		switch k := 1 - slope; {
		case k > 1e-9:
			to = min(to, over/k)
		case k < -1e-9:
			from = max(from, over/k)
		case over < 0:
			continue
		}
		if to-from > 0.05 {
			s.hatches = append(s.hatches, [2]scene.Point{{from, from - c}, {to, to - c}})
		}
	}
}

// rain hatches between dew point and line, wherever water falls out.
func (w *wet) rain() []scene.Item {
	var items []scene.Item
	for _, s := range w.soaked {
		title := "water falls out"
		if s.freezes {
			title = "water freezes"
		}
		for _, h := range s.hatches {
			items = append(items, scene.Polyline("", title, scene.Solid(0.2, "line"), at(h[0][0], h[0][1]), at(h[1][0], h[1][1])))
		}
	}
	return items
}

// finish writes the three figures at the end of the way, clear of one another, each on a
// bit of its own line.
func (w *wet) finish() []scene.Item {
	last := w.way.Steps[len(w.way.Steps)-1]
	type end struct {
		word, figure string
		y, to        float64
		stroke       scene.Stroke
	}
	figure := func(t unit.Temperature) string { return w.sheet.plain(unit.KindTemperature, float64(t)) }
	ends := []end{
		{"air", figure(last.Out.Warmth), w.y(float64(last.Out.Warmth)), 0, scene.Stroke{Width: 0.4, Color: "ink"}},
		{"line", figure(last.Stands), w.y(float64(last.Stands)), 0, scene.Stroke{Width: 0.75, Color: "soft", Dash: []float64{1.3, 0.6}}},
	}
	if last.Out.Dew != nil {
		ends = append(ends, end{"dew point", figure(*last.Out.Dew), w.y(float64(*last.Out.Dew)), 0, scene.Stroke{Width: 0.8, Color: "line", Dash: []float64{0.01, 1.3}, Round: true}})
	}
	slices.SortStableFunc(ends, func(a, b end) int { return int(math.Copysign(1, b.y-a.y)) })
	const tall = 2.3 * wetSize
	for i := range ends {
		ends[i].to = ends[i].y
		if i > 0 {
			ends[i].to = min(ends[i].to, ends[i-1].to-tall)
		}
	}
	if low := w.base + 1; ends[len(ends)-1].to < low {
		ends[len(ends)-1].to = low
		for i := len(ends) - 2; i >= 0; i-- {
			ends[i].to = max(ends[i].to, ends[i+1].to+tall)
		}
	}
	var items []scene.Item
	for _, e := range ends {
		items = append(items,
			scene.Polyline("", e.word+" "+e.figure, e.stroke, at(w.right, e.y), at(w.right+3, e.to)),
			scene.Words("", e.word, at(w.right+3.6, e.to+0.2), scene.Point{}, wetSize, "start", "ink"),
			scene.Words("", e.figure, at(w.right+3.6, e.to+0.2-1.05*wetSize), scene.Point{}, wetSize, "start", "soft"))
	}
	return items
}
