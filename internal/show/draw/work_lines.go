package draw

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"dropleg/engine/geom"
	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// fall is from where on a line counts as laid to fall, metres to the metre: 1 in 500, less is
// level to any tape.
const fall = 0.002

// runWords writes, along the longest level stretch of each run, its size, its height in the
// middle, and where it falls an arrow down the fall with how much.
func (p *planner) runWords() []scene.Item {
	const size = 2.5
	var items []scene.Item
	for i := range p.job.Net.Runs {
		r := &p.job.Net.Runs[i]
		a, b, ok := p.levelOf(r)
		if !ok || p.blind(*r) {
			continue
		}
		pa, pb := p.mm(p.shown(scene.Point{a[0], a[1]})), p.mm(p.shown(scene.Point{b[0], b[1]}))
		words := parts.SizeWords(r.Size)
		if told(items, words, p.metres(mix(pa, pb, 0.5)), enough/p.scale) {
			items = append(items, p.falls(r, a, b, pa, pb)...)
			continue
		}
		long := words + ", " + p.sheet.level((a[2]+b[2])/2-p.floorAt(a))
		it, ok := p.lettered(long, string(r.ID), pa, pb, size)
		if !ok {
			it, ok = p.lettered(words, string(r.ID), pa, pb, size)
		}
		if ok {
			items = append(items, it)
		}
		items = append(items, p.falls(r, a, b, pa, pb)...)
	}
	return items
}

// enough is how far apart on paper the same words stand, mm: a line is told once as far as the
// eye follows it.
const enough = 55

// told says whether the words stand near a place already.
func told(items []scene.Item, words string, at scene.Point, near float64) bool {
	for i := range items {
		if t := items[i].Text; t != nil && strings.HasPrefix(t.Text, words) && math.Hypot(t.At[0]-at[0], t.At[1]-at[1]) < near {
			return true
		}
	}
	return false
}

// levelOf is the longest level stretch of a run.
func (p *planner) levelOf(r *job.Run) (a, b geom.Point, ok bool) {
	most := 0.3 // m
	line := p.given.Index.Centreline(r)
	for k := 1; k < len(line); k++ {
		flat := line[k].Plan().Distance(line[k-1].Plan())
		if flat > most && math.Abs(line[k][2]-line[k-1][2]) < 0.2*flat {
			most, a, b, ok = flat, line[k-1], line[k], true
		}
	}
	return a, b, ok
}

func (p *planner) floorAt(at geom.Point) float64 {
	if r := p.given.Index.RoomAt(at); r != nil {
		return float64(r.Floor)
	}
	return 0
}

// falls is an arrow beside a stretch, down its fall.
func (p *planner) falls(r *job.Run, a, b geom.Point, pa, pb scene.Point) []scene.Item {
	flat := a.Plan().Distance(b.Plan())
	share := (a[2] - b[2]) / flat
	if math.Abs(share) < fall {
		return nil
	}
	if share < 0 {
		pa, pb, share = pb, pa, -share
	}
	const long, size = 9.0, 2.2
	text := "1:" + trim(math.Round(1/share))
	far := math.Hypot(pb[0]-pa[0], pb[1]-pa[1])
	if far < long+4 {
		return nil
	}
	dir := scene.Point{(pb[0] - pa[0]) / far, (pb[1] - pa[1]) / far}
	turn := math.Atan2(dir[1], dir[0]) * 180 / math.Pi
	w := long + 1 + scene.TextWidth(text, size, false)
	place, least := scene.Point{}, 1.0
	var taken []box
	for i, t := range []float64{0.75, 0.25, 0.85, 0.15, 0.5, 0.6, 0.4} {
		for _, side := range []float64{2.2, -2.2} {
			m := mix(pa, pb, t)
			at := scene.Point{m[0] - dir[1]*side, m[1] + dir[0]*side}
			cost := 0.02 * float64(i)
			boxes := slanted(scene.Point{at[0] + dir[1]*0.8, at[1] - dir[0]*0.8}, dir, w, size)
			for _, q := range boxes {
				cost += p.field.cost(q)
			}
			if cost < least {
				place, least, taken = at, cost, boxes
			}
		}
	}
	if taken == nil {
		return nil
	}
	for _, q := range taken {
		p.field.take(q)
	}
	return p.fallArrow(r, place, dir, turn, w, long, size, text)
}

func (p *planner) fallArrow(r *job.Run, at, dir scene.Point, turn, w, long, size float64, text string) []scene.Item {
	arrow := scene.Path{D: path("M%s 0H%sM%s 0.8L%s 0L%s -0.8Z", -w/2, -w/2+long, -w/2+long-2.2, -w/2+long, -w/2+long-2.2), Fill: "ink", Stroke: &scene.Stroke{Width: 0.2, Color: "ink"}}
	middle := w/2 - scene.TextWidth(text, size, false)/2
	about := turn
	if about > 90.01 || about < -90 {
		about -= 180 // read from below or from the right
	}
	up := scene.Point{-math.Sin(about * math.Pi / 180), math.Cos(about * math.Pi / 180)}
	words := scene.Words(string(r.ID), text, p.metres(scene.Point{at[0] + dir[0]*middle - up[0]*size*0.35, at[1] + dir[1]*middle - up[1]*size*0.35}), scene.Point{}, size, "middle", "ink")
	words.Text.Turn = math.Round(about*10) / 10
	return []scene.Item{{ID: string(r.ID), Title: "falls " + text, Mark: &scene.Mark{At: p.metres(at), Turn: math.Round(turn*10) / 10, Parts: []scene.Path{arrow}}}, words}
}

// cutWords writes cut lengths along the pieces that are seen: of a bent one along its longest
// straight stretch that has room.
func (p *planner) cutWords(seen func(a, b geom.Point) (from, to scene.Point, ok bool)) []scene.Item {
	var items []scene.Item
	var rest []Cutting
	for _, c := range p.given.Work.Cuts {
		if it, drawn, ok := p.cutWord(c, c.Words, seen); ok {
			items = append(items, it)
		} else if drawn {
			rest = append(rest, c)
		}
	}
	for _, c := range rest {
		if it, _, ok := p.cutWord(c, c.Short, seen); ok {
			items = append(items, it)
		} else {
			p.hidden = true
		}
	}
	return items
}

// cutWord writes words along a piece; drawn is whether it is seen at all, ok whether there was
// room.
func (p *planner) cutWord(c Cutting, words string, seen func(a, b geom.Point) (from, to scene.Point, ok bool)) (it scene.Item, drawn, ok bool) {
	const size = 2.2
	for _, leg := range p.legs(c) {
		a, b, ok := seen(leg[0], leg[1])
		if !ok {
			continue
		}
		drawn = true
		if it, ok = p.lettered(words, string(c.Run), a, b, size); ok {
			return it, true, true
		}
	}
	return it, drawn, false
}

// legs are the straight stretches of a piece along its line, the longest first.
func (p *planner) legs(c Cutting) [][2]geom.Point {
	course := []geom.Point{c.A, c.B}
	if r := p.given.Index.Run(c.Run); r != nil {
		line := p.given.Index.Centreline(r)
		if own := p.straight[c.Run]; own != nil {
			line = own
		}
		from, onA := geom.NearestOnPath(c.A, line)
		to, onB := geom.NearestOnPath(c.B, line)
		if onA && onB {
			upTo, _ := geom.Split(line, max(from.Along, to.Along))
			_, course = geom.Split(upTo, min(from.Along, to.Along))
		}
	}
	var legs [][2]geom.Point
	for k := 1; k < len(course); k++ {
		legs = append(legs, [2]geom.Point{course[k-1], course[k]})
	}
	slices.SortStableFunc(legs, func(a, b [2]geom.Point) int { return cmp.Compare(b[0].Distance(b[1]), a[0].Distance(a[1])) })
	return legs
}
