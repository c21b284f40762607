package draw

import (
	"math"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/show/scene"
)

// Descent is the way of the air from the receiver to one tool.
type Descent struct {
	Title string
	Tool  string             // words of the tool, "sander"
	Least unit.GaugePressure // the least it needs; 0: not stated
	Steps []Fall
}

// Fall is one element on the way.
type Fall struct {
	ID    string
	Words string
	Part  string // stretch of the way it belongs to: "plant", "line", "outlet", "hose"
	In    unit.GaugePressure
	Out   unit.GaugePressure
	Tall  bool // takes so much that it is named
}

// stairs lays out one staircase in mm of paper.
type stairs struct {
	sheet       Sheet
	way         Descent
	low, high   float64 // Pa, of the axis
	left, right float64
	base, top   float64
	field       field
	ends        []float64 // x of the end of every tread
}

// lay spaces the treads: what takes much gets a broad one, so that the tall
// steps stand apart and can be named; what takes nothing keeps a narrow one.
func (s *stairs) lay() {
	total, sum := 0.0, 0.0
	for _, f := range s.way.Steps {
		total += max(float64(f.In-f.Out), 0)
	}
	weights := make([]float64, len(s.way.Steps))
	for i, f := range s.way.Steps {
		weights[i] = 0.3
		if total > 0 {
			weights[i] += 4 * math.Sqrt(max(float64(f.In-f.Out), 0)/total)
		}
		sum += weights[i]
	}
	along := s.left
	for _, w := range weights {
		along += w / sum * (s.right - s.left)
		s.ends = append(s.ends, along)
	}
}

// Stairs draws the pressure along the way: a tread for every element and a
// riser for what it takes. One metre of the scene is a metre of paper.
func Stairs(way Descent, sheet Sheet) scene.Scene {
	s := &stairs{sheet: sheet, way: way, left: 10, right: sheet.Width - 1, base: 8, top: sheet.Height - 6}
	s.field.sheet = box{0, 0, sheet.Width, sheet.Height}
	out := scene.Scene{Title: way.Title, Max: scene.Point{sheet.Width / 1000, sheet.Height / 1000}}
	if len(way.Steps) == 0 {
		out.Fill()
		return out
	}
	s.lay()
	grid := s.axis()
	line, risers := s.line()
	needs := s.needs()
	names := s.names()
	out.Layers = []scene.Layer{
		{ID: "grid", Title: "pressure", Items: grid},
		{ID: "needs", Title: "need", Items: needs},
		{ID: "risers", Title: "tall steps", Items: risers},
		{ID: "way", Title: "pressure along the way", Items: line},
		{ID: "names", Title: "names", Items: names},
		{ID: "stretches", Title: "stretches", Items: s.stretches()},
	}
	out.Fill()
	return out
}

func at(x, y float64) scene.Point { return scene.Point{x / 1000, y / 1000} }

func (s *stairs) y(p float64) float64 {
	return s.base + (p-s.low)/(s.high-s.low)*(s.top-s.base)
}

// x is where tread i begins.
func (s *stairs) x(i int) float64 {
	if i == 0 {
		return s.left
	}
	return s.ends[i-1]
}

// axis sets round ends and draws the levels.
func (s *stairs) axis() []scene.Item {
	low, high := math.Inf(1), math.Inf(-1)
	for _, f := range s.way.Steps {
		low, high = min(low, float64(f.In), float64(f.Out)), max(high, float64(f.In), float64(f.Out))
	}
	if s.way.Least > 0 {
		low, high = min(low, float64(s.way.Least)), max(high, float64(s.way.Least))
	}
	step := stepFor((high-low)*1.15, s.sheet.Units)
	s.low, s.high = math.Floor(low/step-0.15)*step, math.Ceil(high/step+0.15)*step
	var items []scene.Item
	for p := s.low; p <= s.high+step/100; p += step {
		y := s.y(p)
		items = append(items, scene.Polyline("", "", scene.Solid(0.18, "faint"), at(s.left, y), at(s.right, y)))
		items = append(items, scene.Words("", s.sheet.short(unit.KindGauge, p), at(s.left-1.4, y-0.9), scene.Point{}, 2.5, "end", "soft"))
	}
	_, word := s.sheet.Units.Split(unit.KindGauge, s.high, s.sheet.Env)
	return append(items, scene.Words("", word, at(s.left-1.4, s.top+2.6), scene.Point{}, 2.5, "end", "soft"))
}

// line is the staircase itself; every step is an item of its own, to be chosen.
func (s *stairs) line() (line, risers []scene.Item) {
	for i, f := range s.way.Steps {
		x0, x1 := s.x(i), s.x(i+1)
		in, out := s.y(float64(f.In)), s.y(float64(f.Out))
		title := f.Words + ": " + s.sheet.text(unit.KindPressureDiff, float64(f.In-f.Out))
		points := []scene.Point{at(x0, in), at(x1, in), at(x1, out)}
		if i == len(s.way.Steps)-1 {
			points = append(points, at(s.right+0.8, out))
		}
		line = append(line, scene.Polyline(f.ID, title, scene.Stroke{Width: 0.45, Color: "ink"}, points...))
		s.field.draw(scene.Point{x0, in}, scene.Point{x1, in}, 0.3, 6)
		s.field.draw(scene.Point{x1, in}, scene.Point{x1, out}, 0.3, 6)
		if f.Tall {
			risers = append(risers, scene.Polyline(f.ID, title, scene.Stroke{Width: 1.5, Color: "accent"}, at(x1, in), at(x1, out)))
		}
	}
	return line, risers
}

// needs is the level that the tool must have.
func (s *stairs) needs() []scene.Item {
	if s.way.Least <= 0 {
		return nil
	}
	y := s.y(float64(s.way.Least))
	s.field.draw(scene.Point{s.left, y}, scene.Point{s.right, y}, 0.2, 2)
	text := s.way.Tool + " needs " + s.sheet.plain(unit.KindGauge, float64(s.way.Least))
	const size = 2.6
	var tried []label
	for i, start := range []scene.Point{{s.left + 1, y - size*1.05}, {s.left + 1, y + 0.9}, {s.right - scene.TextWidth(text, size, false), y + 0.9}, {s.right - scene.TextWidth(text, size, false), y - size*1.05}} {
		l := written(text, size, false, start, "start")
		l.cost = 0.3 * float64(i)
		tried = append(tried, l)
	}
	pick := best(&s.field, tried)
	s.field.take(pick.box)
	return []scene.Item{
		scene.Polyline("", text, scene.Stroke{Width: 0.35, Color: "ink", Dash: []float64{0.5, 0.9}}, at(s.left, y), at(s.right, y)),
		scene.Words("", text, at(pick.at[0], pick.at[1]), scene.Point{}, size, "start", "ink"),
	}
}

// names writes the tall steps beside their risers, with what each takes.
func (s *stairs) names() []scene.Item {
	const size = 2.6
	var items []scene.Item
	for i, f := range s.way.Steps {
		if !f.Tall {
			continue
		}
		x := s.x(i + 1)
		high, low := s.y(float64(f.In)), s.y(float64(f.Out))
		mid := (high + low) / 2
		text := f.Words + " −" + s.sheet.short(unit.KindPressureDiff, float64(f.In-f.Out))
		var tried []label
		for k, dy := range []float64{0, -2, 2, -4, 4, -7, 7, -10, 10} {
			for m, side := range []string{"end", "start"} {
				dx := -1.6
				if side == "start" {
					dx = 1.6
				}
				l := written(text, size, false, scene.Point{x + dx, mid + dy - size*0.3}, side)
				l.cost = 0.4*float64(k) + 0.2*float64(m)
				tried = append(tried, l)
			}
		}
		pick := best(&s.field, tried)
		s.field.take(pick.box)
		items = append(items, scene.Words(f.ID, text, at(pick.at[0], pick.at[1]), scene.Point{}, size, pick.anchor, "ink"))
	}
	return items
}

// stretches names the parts of the way under the staircase.
func (s *stairs) stretches() []scene.Item {
	const size = 2.4
	var items []scene.Item
	for i := 0; i < len(s.way.Steps); {
		end := i
		for end < len(s.way.Steps) && s.way.Steps[end].Part == s.way.Steps[i].Part {
			end++
		}
		x0, x1 := s.x(i)+0.3, s.x(end)-0.3
		items = append(items, scene.Polyline("", "", scene.Solid(0.5, "faint"), at(x0, 5), at(x1, 5)))
		if word := s.way.Steps[i].Part; scene.TextWidth(word, size, false) < x1-x0 {
			items = append(items, scene.Words("", strings.TrimSpace(word), at((x0+x1)/2, 1.9), scene.Point{}, size, "middle", "soft"))
		}
		i = end
	}
	return items
}
