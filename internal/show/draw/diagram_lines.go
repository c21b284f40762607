package draw

import (
	"math"
	"sort"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// lines draws the routes, with bridges where one crosses another.
func (c *charter) lines() []scene.Item {
	levels := c.levels()
	var items []scene.Item
	for i, w := range c.ways {
		q := c.pipe(w.run)
		q.width = min(max(q.width*0.7*c.grown, 0.5), 1.4)
		at := c.bridged(i, w, levels)
		if w.from < 0 || c.flow.net.points[w.from] == nil || w.run.From.Point != c.flow.net.points[w.from].ID {
			for a, b := 0, len(at)-1; a < b; a, b = a+1, b-1 {
				at[a], at[b] = at[b], at[a]
			}
		}
		for k := range at {
			at[k] = c.scene(at[k])
			if k > 0 {
				c.field.draw(c.mm(at[k-1]), c.mm(at[k]), q.width/2, 5)
			}
		}
		items = append(items, c.laid(q, at)...)
	}
	return items
}

// levelLine is a level stretch of a route.
type levelLine struct {
	y, x0, x1 float64
	way       int
}

// levels lists the level stretches, the lowest first.
func (c *charter) levels() []levelLine {
	var all []levelLine
	for i, w := range c.ways {
		for k := 1; k < len(w.at); k++ {
			if a, b := w.at[k-1], w.at[k]; a[1] == b[1] {
				all = append(all, levelLine{a[1], min(a[0], b[0]), max(a[0], b[0]), i})
			}
		}
	}
	sort.SliceStable(all, func(a, b int) bool { return all[a].y < all[b].y })
	return all
}

// bridged is a route with a half circle over each level line that it crosses going
// up or down.
func (c *charter) bridged(i int, w route, levels []levelLine) []scene.Point {
	const r = 1.1
	out := []scene.Point{w.at[0]}
	for k := 1; k < len(w.at); k++ {
		a, b := w.at[k-1], w.at[k]
		if a[0] == b[0] && a[1] != b[1] {
			low, high := min(a[1], b[1]), max(a[1], b[1])
			var over []float64
			for n := sort.Search(len(levels), func(n int) bool { return levels[n].y > low+r }); n < len(levels) && levels[n].y < high-r; n++ {
				l := levels[n]
				if l.way != i && l.x0+0.1 < a[0] && a[0] < l.x1-0.1 && (len(over) == 0 || l.y-over[len(over)-1] > 2*r) {
					over = append(over, l.y)
				}
			}
			sign := 1.0
			if b[1] < a[1] {
				sign = -1
				sort.Sort(sort.Reverse(sort.Float64Slice(over)))
			}
			for _, y := range over {
				for step := range 7 {
					sin, cos := math.Sincos(math.Pi * float64(step) / 6)
					out = append(out, scene.Point{a[0] + r*sin, y - sign*r*cos})
				}
			}
		}
		out = append(out, b)
	}
	return out
}

// joints are dots where three lines or more meet.
func (c *charter) joints() []scene.Item {
	var items []scene.Item
	for v := range c.flow.net.points {
		at, drawn := c.spots[v]
		if !drawn || c.flow.net.points[v] == nil {
			continue
		}
		if _, shows := drawnAs(c.flow.net.kinds[v]); shows || len(c.flow.net.at[v]) < 3 {
			continue
		}
		r := max(0.75*c.grown, 0.4)
		pt := c.flow.net.points[v]
		items = append(items, scene.Item{
			ID: string(pt.ID), Title: c.tip(pt.ID, or(pt.Name, c.flow.net.kinds[v].Name("en"))),
			Mark: &scene.Mark{At: c.scene(at), Parts: []scene.Path{{D: path("M%s 0A%s %s 0 1 0 %s 0A%s %s 0 1 0 %s 0Z", -r, r, r, r, r, r, -r), Fill: "ink"}}},
		})
	}
	return items
}

// names writes what machines are under them, or over them where that is freer.
func (c *charter) names() []scene.Item {
	var items []scene.Item
	if flowText*c.grown*1.5 < c.words {
		c.hidden = true
		return nil
	}
	for _, l := range c.flow.lanes {
		for _, v := range l.nodes {
			kind, pt := c.flow.net.kinds[v], c.flow.net.points[v]
			if tier, shows := drawnAs(kind); pt == nil || !shows || tier != machine {
				continue
			}
			items = append(items, c.name(*pt, machineWords(c.given, c.sheet, *pt, kind), c.spots[v], extentOf(kind.Symbol), growth(kind)*c.grown)...)
		}
	}
	return items
}

// name writes the lines of one name.
func (c *charter) name(pt job.Point, lines []string, at scene.Point, size box, grow float64) []scene.Item {
	mm := c.paper(at)
	step := c.words * 1.2
	tall := float64(len(lines)) * step
	wide := 0.0
	for _, t := range lines {
		wide = max(wide, scene.TextWidth(t, c.words, false))
	}
	place := func(top float64) label {
		return label{box: box{mm[0] - wide/2, top - tall, mm[0] + wide/2, top}, at: scene.Point{mm[0], top}}
	}
	under, over := place(mm[1]+size.y0*grow-0.7), place(mm[1]+size.y1*grow+0.9+tall)
	over.cost = 0.5
	pick := best(&c.field, []label{under, place(under.at[1] - 3.5), over, place(over.at[1] + 3.5)})
	if pick.cost > quiet+3 {
		c.hidden = true
		return nil
	}
	c.field.take(pick.box)
	var items []scene.Item
	for i, t := range lines {
		base := scene.Point{pick.at[0], pick.at[1] - step*float64(i) - c.words*0.85}
		items = append(items, scene.Words(string(pt.ID), t, c.metres(base), scene.Point{}, c.words, "middle", "soft"))
	}
	return items
}

// figures writes the pressure at the nodes of the trunk, where it is another than
// the one written before on the lane.
func (c *charter) figures() []scene.Item {
	var items []scene.Item
	_, word := c.sheet.Units.Split(unit.KindGauge, 0, c.sheet.Env)
	for _, l := range c.flow.lanes {
		before := ""
		for _, v := range l.nodes {
			p, known := c.pressureAt(v)
			if !known {
				continue
			}
			text := c.sheet.short(unit.KindGauge, p)
			if text == before {
				continue
			}
			if before == "" {
				text = strings.TrimSpace(text + " " + word)
			}
			mm := c.paper(c.spots[v])
			half := c.flow.cells[v].right
			if _, shows := drawnAs(c.flow.net.kinds[v]); shows {
				half = c.flow.half(v)
			}
			right := mm[0] + half*c.scale/cellMetre + 0.4
			pick := best(&c.field, []label{
				written(text, c.words, false, scene.Point{right, mm[1] + 1.9}, "start"),
				written(text, c.words, false, scene.Point{right, mm[1] - 1.9 - c.words*0.75}, "start"),
				written(text, c.words, false, scene.Point{mm[0], mm[1] + 2.1}, "middle"),
				written(text, c.words, false, scene.Point{mm[0], mm[1] - 2.1 - c.words*0.75}, "middle"),
			})
			if pick.cost > 1 {
				continue
			}
			c.field.take(pick.box)
			before = c.sheet.short(unit.KindGauge, p)
			items = append(items, scene.Words(string(c.flow.net.points[v].ID), text, c.metres(pick.at), scene.Point{}, c.words, pick.anchor, "ink"))
		}
	}
	return items
}

// pressureAt is the pressure behind a node, in the run that goes on from it.
func (c *charter) pressureAt(v int) (p float64, known bool) {
	if c.flow.net.points[v] == nil {
		return 0, false
	}
	for _, s := range c.flow.order.next[v] {
		r := c.flow.net.edges[s.edge].run
		if r == nil {
			continue
		}
		if ends, ok := c.given.Ends[r.ID]; ok {
			end := ends[0]
			if r.To.Point == c.flow.net.points[v].ID {
				end = ends[1]
			}
			if finite(float64(end)) {
				return float64(end), true
			}
		}
	}
	return 0, false
}
