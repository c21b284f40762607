package draw

import (
	"math"

	"dropleg/internal/show/scene"
)

// alongside writes texts along their stretches, turned with them, on the freer
// side, where there is room.
func (p *planner) alongside(texts longestFor, size float64) []scene.Item {
	var items []scene.Item
	for _, text := range texts.order {
		if it, ok := p.lettered(text, texts.id[text], texts.a[text], texts.b[text], size); ok {
			items = append(items, it)
		}
	}
	return items
}

// lettered writes a text along a stretch, as alongside; ok is false where there is no room.
func (p *planner) lettered(text, id string, a, b scene.Point, size float64) (it scene.Item, ok bool) {
	if b[0] < a[0] || b[0] == a[0] && b[1] < a[1] {
		a, b = b, a // read from the left, or from below
	}
	w := scene.TextWidth(text, size, false)
	long := math.Hypot(b[0]-a[0], b[1]-a[1])
	if long < w+2 {
		return it, false
	}
	dir := scene.Point{(b[0] - a[0]) / long, (b[1] - a[1]) / long}
	turn := math.Atan2(dir[1], dir[0]) * 180 / math.Pi
	var at scene.Point
	least := 2.0 // mm² and mm that may be lost
	for i, t := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8} {
		if math.Abs(t-0.5)*long+w/2+1 > long/2 {
			continue // it would reach past the stretch
		}
		for k, off := range []float64{1.5, 2.1, 2.8} { // a wide line wants more room
			for n, side := range []float64{off, -off - size*0.75} {
				m := mix(a, b, t)
				base := scene.Point{m[0] - dir[1]*side, m[1] + dir[0]*side}
				cost := 0.1 * float64(2*i+n+k)
				for _, q := range slanted(base, dir, w, size) {
					if cost += p.field.costUpTo(q, least-cost); cost >= least {
						break
					}
				}
				if cost < least {
					at, least = base, cost
				}
			}
		}
	}
	if least >= 2 {
		return it, false
	}
	for _, q := range slanted(at, dir, w, size) {
		p.field.take(q)
	}
	it = scene.Words(id, text, p.metres(at), scene.Point{}, size, "middle", "soft")
	it.Text.Turn = math.Round(turn*10) / 10
	return it, true
}

// slanted are small boxes that cover a text set along a direction about the middle
// of its baseline.
func slanted(at, dir scene.Point, w, size float64) []box {
	n := max(int(math.Ceil(w/size)), 1)
	out := make([]box, 0, n)
	for i := range n {
		t := ((float64(i)+0.5)/float64(n) - 0.5) * w
		up := size * 0.32
		out = append(out, around(at[0]+t*dir[0]-up*dir[1], at[1]+t*dir[1]+up*dir[0], size*0.8, size*0.8))
	}
	return out
}
