package draw

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// gauge is the measures of the dials of one sheet in mm of paper.
type gauge struct {
	radius float64
	band   float64 // radius of the band from the need upwards
	text   float64 // height of letter and figure
	under  float64 // height of the word under them
	bare   bool    // no figure where all is well
}

// crowded is the share of the plan that full dials with their words may take;
// beyond it dials are small and only those that are short tell their figure.
const crowded = 0.55

// inHand is the width in mm below which a sheet is that of a phone.
const inHand = 130

// gaugeFor gives the dials' measures for a number of outlets on a plan of so many
// mm². Dials shrink less than symbols do, because they are read; on a sheet in the
// hand they must find room between lines that stand close, and only words keep
// their size.
func gaugeFor(small, width float64, outlets int, plan float64) gauge {
	const each = 150 // mm² of a full dial with its words
	if float64(outlets)*each > crowded*plan {
		return gauge{radius: 1.7, band: 1.3, text: 2.7, under: 2.5, bare: true}
	}
	k := (1 + max(small, 0.5)) / 2
	if width < inHand {
		return gauge{radius: 2.6 * k, band: 1.9 * k, text: 3.6 * k, under: 2.5}
	}
	return gauge{radius: 3.9 * k, band: 2.95 * k, text: 3.8 * k, under: 2.7}
}

// outlets draws a dial for every outlet. Those that are short choose their seat first.
func (p *planner) outlets() []scene.Item {
	all := p.job.Outlets
	order := make([]int, 0, len(all))
	for i := range all {
		if _, ok := p.place(all[i].Point); ok {
			order = append(order, i)
		}
	}
	sort.SliceStable(order, func(a, b int) bool {
		return p.given.Dials[all[order[a]].ID].Short && !p.given.Dials[all[order[b]].ID].Short
	})
	var tags []*tag
	var ways []drop
	for _, i := range order {
		t := p.tag(all[i], i)
		way := p.ways[all[i].ID]
		tags, ways = append(tags, t), append(ways, way)
	}
	centres := p.seats(ways)
	for k := range order {
		p.leader(ways[k], centres[k])
	}
	p.settle(tags, ways, centres)
	drawn := make([][]scene.Item, len(all))
	for k, i := range order {
		drawn[i] = p.outlet(all[i], tags[k], centres[k])
	}
	return slices.Concat(drawn...)
}

// OutletMark is the letter or number of an outlet on the drawing.
func OutletMark(o job.Outlet, index int) string {
	if o.Mark != "" {
		return o.Mark
	}
	if index < 26 {
		return string(rune('A' + index))
	}
	return fmt.Sprint(index + 1)
}

func (p *planner) outlet(o job.Outlet, t *tag, centre scene.Point) []scene.Item {
	d := p.given.Dials[o.ID]
	ink := "ink"
	if d.Short {
		ink = "alarm"
	}
	tone := "soft"
	if d.InUse {
		tone = ink
	}
	title := p.tip(o.ID, "outlet "+t.mark+", "+o.Name)
	id := string(o.ID)
	at := p.metres(centre)
	if p.working() {
		return p.ring(&o, t.mark, at)
	}
	words := minus(t.words.at, centre)
	items := []scene.Item{
		{ID: id, Title: title, Mark: &scene.Mark{At: at, Parts: p.dialParts(d)}},
		bold(scene.Words(id, t.mark, at, words, p.gauge.text, "start", ink)),
	}
	if t.figure != "" {
		shift := scene.TextWidth(t.mark+" ", p.gauge.text, true)
		items = append(items, scene.Words(id, t.figure, at, scene.Point{words[0] + shift, words[1]}, p.gauge.text, "start", tone))
	}
	if t.needs != "" {
		items = append(items, scene.Words(id, t.needs, at, minus(t.under.at, centre), p.gauge.under, "start", "alarm"))
	}
	return items
}

// leader draws the way down from the line to a dial, and what sits on it.
func (p *planner) leader(way drop, centre scene.Point) {
	to := minus(centre, way.at)
	far := math.Hypot(to[0], to[1])
	dir := scene.Point{to[0] / far, to[1] / far}
	edge := mix(way.at, centre, 1-p.gauge.radius/far)
	foot := scene.Path{D: "M-0.7 0A0.7 0.7 0 1 0 0.7 0A0.7 0.7 0 1 0 -0.7 0Z", Fill: "ink"}
	p.leaders = append(p.leaders,
		scene.Polyline("", "", scene.Solid(0.25, "ink"), p.metres(way.at), p.metres(edge)),
		scene.Item{Mark: &scene.Mark{At: p.metres(way.at), Parts: []scene.Path{foot}}})
	for _, s := range way.parts {
		s.dir = dir
		s.at = scene.Point{way.at[0] + dir[0]*s.at[0], way.at[1] + dir[1]*s.at[0]}
		drawn, plate := p.symbol(s)
		p.hung = append(p.hung, drawn...)
		if plate != nil {
			p.plates = append(p.plates, plate)
		}
	}
	if way.drip != nil && way.into != (scene.Point{}) {
		p.drip(way)
	}
}

// drip draws the drain under an outlet: off its leader to the freer side, before the dial.
func (p *planner) drip(way drop) {
	kind, _ := p.given.Shelf.Kind(way.drip.Part.Kind)
	size, grow := extentOf(kind.Symbol), p.grow(kind)
	from := scene.Point{way.at[0] + way.into[0]*(way.long+1.6), way.at[1] + way.into[1]*(way.long+1.6)}
	pick, least := seated{}, math.Inf(1)
	for _, sign := range []float64{1, -1} {
		side := scene.Point{-way.into[1] * sign, way.into[0] * sign}
		reach := size.y1*grow + 0.3
		s := seated{
			point: way.drip, tier: fitting, at: scene.Point{from[0] + side[0]*reach, from[1] + side[1]*reach},
			dir: scene.Point{-side[1], side[0]}, // its inlet, on top, faces the leader
		}
		if cost := p.field.cost(turned(size, grow, s.dir, false).moved(s.at)); cost < least {
			pick, least = s, cost
		}
	}
	drawn, _ := p.symbol(pick)
	p.hung = append(p.hung, drawn...)
}

func bold(it scene.Item) scene.Item { it.Text.Bold = true; return it }

func minus(a, b scene.Point) scene.Point { return scene.Point{a[0] - b[0], a[1] - b[1]} }

// dialTop is the reading at the end of the dial's scale: the supply, rounded up.
func (p *planner) dialTop() float64 {
	one := 1e5
	if p.sheet.Units == unit.US {
		one = 10 * psi
	}
	top := float64(p.given.Source)
	for _, o := range p.job.Outlets {
		if d := p.given.Dials[o.ID]; d.Flowing != nil {
			top = max(top, float64(*d.Flowing))
		}
	}
	return max(math.Ceil(top/one)*one, one)
}

// dialParts draws a dial about its centre: a ring, a band from the least pressure
// that its tools need upwards, a mark at that pressure and the needle.
func (p *planner) dialParts(d Dial) []scene.Path {
	top := p.dialTop()
	angle := func(pressure float64) float64 { return 225 - 270*min(max(pressure/top, 0), 1) }
	on := func(r, deg float64) (x, y float64) {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		return r * cos, r * sin
	}
	ring := scene.Stroke{Width: 0.3, Color: "ink"}
	needle := scene.Stroke{Width: 0.45, Color: "ink", Round: true}
	switch {
	case d.Short:
		ring = scene.Stroke{Width: 0.8, Color: "alarm"}
		needle.Color = "alarm"
	case !d.InUse:
		needle = scene.Stroke{Width: 0.3, Color: "soft", Round: true}
	}
	r := p.gauge.radius
	parts := []scene.Path{{D: path("M%s 0A%s %s 0 1 0 %s 0A%s %s 0 1 0 %s 0Z", -r, r, r, r, r, r, -r), Fill: "floor", Stroke: &ring}}
	if d.Least > 0 {
		from, to := angle(float64(d.Least)), angle(top)
		x0, y0 := on(p.gauge.band, from)
		x1, y1 := on(p.gauge.band, to)
		large := 0.0
		if from-to > 180 {
			large = 1
		}
		parts = append(parts, scene.Path{D: path("M%s %sA%s %s 0 %s 0 %s %s", x0, y0, p.gauge.band, p.gauge.band, large, x1, y1), Stroke: &scene.Stroke{Width: 0.9, Color: "faint"}})
		x0, y0 = on(p.gauge.radius*0.65, from)
		x1, y1 = on(p.gauge.radius*1.23, from)
		parts = append(parts, scene.Path{D: path("M%s %sL%s %s", x0, y0, x1, y1), Stroke: &scene.Stroke{Width: 0.5, Color: "ink"}})
	}
	if d.Flowing != nil {
		x, y := on(p.gauge.radius*0.8, angle(float64(*d.Flowing)))
		parts = append(parts, scene.Path{D: path("M0 0L%s %s", x, y), Stroke: &needle},
			scene.Path{D: "M-0.5 0A0.5 0.5 0 1 0 0.5 0A0.5 0.5 0 1 0 -0.5 0Z", Fill: needle.Color})
	}
	return parts
}

// path fills path data with numbers to a hundredth of a millimetre.
func path(form string, numbers ...float64) string {
	args := make([]any, len(numbers))
	for i, n := range numbers {
		args[i] = hundredths(n)
	}
	return fmt.Sprintf(form, args...)
}
