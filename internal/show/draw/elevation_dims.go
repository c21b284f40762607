package draw

import (
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/show/scene"
)

// clipRow is what a drawing grows by for the row that tells where supports are, mm: words stand upright in it.
func clipRow(s Sheet) float64 {
	if s.Units == unit.US {
		return 22
	}
	return 13
}

// running writes, under a panel, how far each support is from its left corner, all from the same
// corner, so that the tape is hooked on once. Where two are too close for their words, the first
// is told; the list of marks has all.
func (e *elevator) running(panel int, row float64) []scene.Item {
	const size, alike = 2.2, 0.01
	all := slices.Clone(e.clips[panel])
	if len(all) == 0 {
		return nil
	}
	slices.Sort(all)
	p := &e.panels[panel]
	items := []scene.Item{
		scene.Polyline("", "supports, from the left corner", scene.Solid(0.13, "soft"), p.on(0, row), p.on(p.long, row)),
		scene.Words("", "clips", p.on(0, row), scene.Point{-1.2, -0.8}, size, "end", "soft"),
	}
	tick := scene.Path{D: "M0 -1V1", Stroke: &scene.Stroke{Width: 0.25, Color: "soft"}}
	last, told := -1.0, -size*2/e.scale
	for _, along := range all {
		if along-last < alike {
			continue
		}
		last = along
		items = append(items, scene.Item{Mark: &scene.Mark{At: p.on(along, row), Parts: []scene.Path{tick}}})
		if (along-told)*e.scale < size*1.25 {
			continue
		}
		told = along
		w := scene.Words("", e.sheet.Units.Marked(unit.Length(along)), p.on(along, row), scene.Point{size * 0.35, -1.6}, size, "end", "soft")
		w.Text.Turn = 90
		items = append(items, w)
	}
	return items
}

// dimensions draws, under each panel, where its drops come down, its length and
// its name, and the height at the left of each row.
func (e *elevator) dimensions() []scene.Item {
	var items []scene.Item
	for i := range e.panels {
		p := &e.panels[i]
		feet := []float64{0, p.long}
		for k := range e.job.Outlets {
			at, ok := e.place(e.job.Outlets[k].Point)
			if on, known := e.shownOn[e.job.Outlets[k].Point]; ok && known && on == i {
				along, _, _ := p.In(at)
				feet = append(feet, min(max(along, 0), p.long))
			}
		}
		slices.Sort(feet)
		row := -4.5 / e.scale
		if len(feet) > 2 && !(e.working() && e.given.Work.Bare) {
			for k := 1; k < len(feet); k++ {
				items = append(items, e.measured(p.on(feet[k-1], row), p.on(feet[k], row), false)...)
			}
			row -= 4.6 / e.scale
		}
		items = append(items, e.measured(p.on(0, row), p.on(p.long, row), false)...)
		items = append(items, e.title(p, row)...)
		if e.tells {
			items = append(items, e.running(i, row-7/e.scale)...)
		}
		if i == 0 || p.at[1] != e.panels[i-1].at[1] {
			left := -4 / e.scale
			items = append(items, e.measured(p.on(left, 0), p.on(left, e.ceiling), true)...)
		}
	}
	return items
}

// title writes a panel's name under it.
func (e *elevator) title(p *panel, row float64) []scene.Item {
	const size = 2.9
	id := ""
	if len(p.walls) > 0 {
		id = string(p.walls[0].wall.ID)
	}
	at := e.mm(p.on(p.long/2, row))
	at[1] -= 4.4
	l := written(p.name, size, false, at, "middle")
	if l.box.x1-l.box.x0 > p.long*e.scale {
		return nil // the panel's own title tells
	}
	e.field.take(l.box)
	return []scene.Item{scene.Words(id, p.name, e.metres(at), scene.Point{}, size, "middle", "soft")}
}

// measured is a dimension line with its ticks and its length over it, left out
// where the length finds no room.
func (e *elevator) measured(a, b scene.Point, upright bool) []scene.Item {
	const size = 2.2
	length := b[0] - a[0]
	turn, off := 0.0, scene.Point{0, 0.7}
	if upright {
		length, turn, off = b[1]-a[1], 90, scene.Point{-0.7, 0}
	}
	text := e.sheet.dimension(length)
	tick := func(at scene.Point) scene.Item {
		return scene.Item{Mark: &scene.Mark{At: at, Parts: []scene.Path{{D: "M-0.8 -0.8L0.8 0.8", Stroke: &scene.Stroke{Width: 0.25, Color: "soft"}}}}}
	}
	items := []scene.Item{scene.Polyline("", "", scene.Solid(0.13, "soft"), a, b), tick(a), tick(b)}
	e.field.draw(e.mm(a), e.mm(b), 1.6, wallMinds)
	if scene.TextWidth(text, size, false) > length*e.scale-1 {
		return items
	}
	w := scene.Words("", text, mix(a, b, 0.5), off, size, "middle", "soft")
	w.Text.Turn, w.Text.Span = turn, [2]scene.Point{a, b}
	return append(items, w)
}
