package draw

import (
	"math"

	"dropleg/internal/show/scene"
)

// seat is one way of setting a dial and its words beside a point.
type seat struct {
	centre scene.Point // mm, from the point
	words  label       // mm, on paper
	needs  label
	cost   float64
}

// seat looks round the point for the freest place for dial and words.
func (p *planner) seat(at scene.Point, mark, figure, needs string) seat {
	pick := seat{cost: math.Inf(1)}
	for turn := range 8 {
		for i, more := range []float64{2.7, 5.1, 8.6, 13} {
			reach := p.gauge.radius + more
			sin, cos := math.Sincos(float64(turn) * math.Pi / 4)
			c := scene.Point{at[0] + reach*cos, at[1] + reach*sin}
			body := around(c[0], c[1], 2*p.gauge.radius+1, 2*p.gauge.radius+1)
			cost := p.field.cost(body)*1.5 + 2.5*float64(i) + 0.4*float64(turn%2)
			edge := scene.Point{at[0] + (reach-p.gauge.radius)*cos, at[1] + (reach-p.gauge.radius)*sin}
			cost += 12 * p.field.crossings(at, edge)
			if cost >= pick.cost {
				continue
			}
			p.seatWords(&pick, at, c, cost, mark, figure, needs)
		}
	}
	c := scene.Point{at[0] + pick.centre[0], at[1] + pick.centre[1]}
	p.field.take(around(c[0], c[1], 2*p.gauge.radius+0.8, 2*p.gauge.radius+0.8))
	p.field.take(pick.words.box)
	if needs != "" {
		p.field.take(pick.needs.box)
	}
	p.field.draw(at, c, 0.2, leaderMinds)
	return pick
}

// seatWords tries the words on the four sides of a dial centred at c.
func (p *planner) seatWords(pick *seat, at, c scene.Point, cost float64, mark, figure, needs string) {
	text := mark
	if figure != "" {
		text += " " + figure
	}
	w := max(scene.TextWidth(text, p.gauge.text, true), scene.TextWidth(needs, p.gauge.under, false))
	drop := 0.0
	if needs != "" {
		drop = p.gauge.under * 1.15
	}
	gap := p.gauge.radius*1.23 + 1 // the mark of the need stands out of the ring
	starts := []scene.Point{
		{c[0] + gap, c[1] - p.gauge.text*0.33 + drop/2},
		{c[0] - gap - w, c[1] - p.gauge.text*0.33 + drop/2},
		{c[0] - w/2, c[1] - gap - p.gauge.text*0.75},
		{c[0] - w/2, c[1] + gap + drop},
	}
	for k, start := range starts {
		words := written(text, p.gauge.text, true, start, "start")
		under := written(needs, p.gauge.under, false, scene.Point{start[0], start[1] - drop}, "start")
		total := cost + 0.5*float64(k) + p.field.cost(words.box.grown(0.4))
		if needs != "" {
			total += p.field.cost(under.box.grown(0.4))
		}
		// The leader comes in from the point: words must not lie on it.
		total += 3 * words.box.stretch(at, c)
		if total < pick.cost {
			*pick = seat{centre: minus(c, at), words: words, needs: under, cost: total}
		}
	}
}
