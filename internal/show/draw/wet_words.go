package draw

import (
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/show/scene"
)

// names writes the parts under their strips, in two rows where they stand close, and
// under them the rooms.
func (w *wet) names() []scene.Item {
	var items []scene.Item
	rows := []float64{w.base - 3.1, w.base - 6.1}
	full := []float64{math.Inf(-1), math.Inf(-1)} // up to where a row is written
	write := func(id, text string, mid float64) {
		half := scene.TextWidth(text, wetSize, false) / 2
		x := max(half+0.5, min(mid, w.sheet.Width-0.5-half))
		if full[0] < 0 && mid < 2*half {
			x = half + 0.5 // the first makes room for those behind it
		}
		pick, to := -1, 0.0
		for r, most := range []float64{half / 2, 2 * half} { // by which it may stand aside
			if aside := max(x, full[r]+0.8+half); aside-x <= most && (pick < 0 || aside < to-half/2) {
				pick, to = r, aside
			}
		}
		if pick < 0 {
			return // it is read out all the same
		}
		full[pick] = to + half
		items = append(items, scene.Words(id, text, at(to, rows[pick]), scene.Point{}, wetSize, "middle", "ink"))
		if pick > 0 {
			items = append(items, scene.Polyline("", "", scene.Solid(0.18, "soft"), at(mid, w.base-0.4), at(max(to-half, min(mid, to+half)), rows[pick]+0.85*wetSize)))
		}
	}
	for i, s := range w.way.Steps {
		if s.Words != "" {
			write(s.ID, s.Words, (w.x(i)+w.ends[i])/2)
		}
	}
	if w.way.End != "" {
		write("", w.way.End, w.right)
	}
	return append(items, w.rooms()...)
}

// rooms are the rooms that the way leads through, under the names.
func (w *wet) rooms() []scene.Item {
	var items []scene.Item
	for i := 0; i < len(w.way.Steps); {
		end := i
		for end < len(w.way.Steps) && w.way.Steps[end].Place == w.way.Steps[i].Place {
			end++
		}
		a, b := w.x(i)+0.3, w.ends[end-1]-0.3
		items = append(items, scene.Polyline("", w.way.Steps[i].Place, scene.Solid(0.5, "faint"), at(a, 4.6), at(b, 4.6)))
		if word := w.way.Steps[i].Place; scene.TextWidth(word, wetSize, false) < b-a {
			items = append(items, scene.Words("", word, at((a+b)/2, 1.6), scene.Point{}, wetSize, "middle", "soft"))
		}
		i = end
	}
	return items
}

// words say what happens where: water falls out or freezes, and how hot the air comes
// where the chart does not reach so high.
func (w *wet) words() []scene.Item {
	var items []scene.Item
	for i := range w.soaked {
		s := &w.soaked[i]
		if s.freezes {
			items = append(items, w.say("water freezes", "alarm", s.mid, s)...)
		} else {
			items = append(items, w.say("water falls out", "ink", s.mid, s)...)
		}
	}
	for _, s := range w.soaked {
		for _, h := range s.hatches {
			w.field.draw(h[0], h[1], 0.1, 1)
		}
	}
	if x, over := w.over(); over {
		text := "air " + w.sheet.plain(unit.KindTemperature, float64(w.way.Steps[0].In.Warmth))
		items = append(items, w.say(text, "soft", scene.Point{x, w.top - 0.3}, nil)...)
	}
	return items
}

// over is where the air comes down onto the chart; false where it is never over it.
func (w *wet) over() (x float64, over bool) {
	var last *scene.Point
	for _, c := range w.air {
		for _, p := range c {
			if last != nil && (*last)[1] > w.high && p[1] <= w.high {
				x, over = cut(*last, p, w.high)[0], true
			}
			last = &p
		}
	}
	return x, over
}

// say writes a text about a place where there is room for it, with a line to the place
// where it stands off. Hatches behind it give way; within them no line is wanted.
func (w *wet) say(text, color string, to scene.Point, in *soaked) []scene.Item {
	var tried []label
	for k, p := range w.about(to, scene.TextWidth(text, wetSize, false)) {
		l := written(text, wetSize, false, p, "middle")
		l.cost = 0.5*float64(k) + 3*w.field.crossings(to, l.box.near(to))
		tried = append(tried, l)
	}
	pick := best(&w.field, tried)
	w.field.take(pick.box)
	b := pick.box.grown(0.2)
	var items []scene.Item
	if in.behind(b) {
		items = append(items, scene.Item{Area: &scene.Area{Points: []scene.Point{at(b.x0, b.y0), at(b.x1, b.y0), at(b.x1, b.y1), at(b.x0, b.y1)}, Fill: "paper"}})
	} else if near := b.near(to); math.Hypot(near[0]-to[0], near[1]-to[1]) > 1 {
		items = append(items, scene.Polyline("", "", scene.Solid(0.25, color), at(near[0], near[1]), at(to[0], to[1])))
	}
	return append(items, scene.Words("", text, at(pick.at[0], pick.at[1]), scene.Point{}, wetSize, "middle", color))
}

// behind says whether a box lies on the hatches; a nil stretch has none.
func (s *soaked) behind(b box) bool {
	if s == nil {
		return false
	}
	for _, h := range s.hatches {
		if b.stretch(h[0], h[1]) > 0.5*(b.y1-b.y0) {
			return true
		}
	}
	return false
}

// near is the point of a box that is nearest to another.
func (b box) near(p scene.Point) scene.Point {
	return scene.Point{max(b.x0, min(p[0], b.x1)), max(b.y0, min(p[1], b.y1))}
}

// about are places for a text round a point, nearest first, all on the sheet.
func (w *wet) about(p scene.Point, wide float64) []scene.Point {
	var out []scene.Point
	for _, far := range []float64{0, 4, 7, 10, 14, 19, 25} {
		for turn := range 8 {
			sin, cos := math.Sincos(math.Pi/2 + float64(turn)*math.Pi/4)
			q := scene.Point{p[0] + cos*(far+wide/2*min(1, far)), p[1] + sin*far - 0.3*wetSize}
			q[0] = max(w.left+wide/2+0.5, min(q[0], w.right-wide/2-0.5))
			q[1] = max(w.base+1, min(q[1], w.top-wetSize))
			out = append(out, q)
			if far == 0 {
				break
			}
		}
	}
	return out
}
