package draw

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// Work is what a drawing to build from shows besides: outlets as numbered rings, lines told
// apart by their stroke, sizes, heights, falls, cut lengths and the numbers of joints.
type Work struct {
	Dashes map[string][]float64 // mm, of lines by stock; one that is not there is drawn through
	Cuts   []Cutting
	Joints []Numbered
	Names  map[job.ID]string // of parts on the flow diagram, "1.2"
	Bare   bool              // a key to the parts of a drawing: no chains of dimensions
}

// Cutting is a piece of line with what is written at it.
type Cutting struct {
	Run   job.ID
	A, B  geom.Point // the middles of the fittings at its ends
	Words string
	Short string // where the words have no room: its number, for the list
}

// Numbered is a joint.
type Numbered struct {
	Number int
	At     geom.Point
}

func (p *planner) working() bool { return p.given.Work != nil }

// workGauge is the measures of the rings on drawings to build from.
func workGauge() gauge { return gauge{radius: 2.7, band: 2, text: 3.1, under: 2.4} }

// measures are those of the dials: rings of one size where one builds from the drawing.
func (p *planner) measures(g gauge) {
	if p.gauge = g; p.working() {
		p.gauge = workGauge()
	}
}

// closer says that a drawing has no room for all.
func (p *planner) closer() string {
	if p.working() {
		return "Not every small fitting and figure has room at this scale; the isometric, the details and the lists have them."
	}
	return "Come closer to see every fitting, drain and figure."
}

// fittingsFrom is the scale in mm to the metre from which fittings are shown.
func (p *planner) fittingsFrom() float64 {
	switch {
	case p.working() && p.fine:
		return closeUp / 3
	case p.working():
		return closeUp / 2.5
	}
	return closeUp
}

// ring is an outlet on a drawing to build from: its mark in a ring.
func (p *planner) ring(o *job.Outlet, mark string, at scene.Point) []scene.Item {
	r := hundredths(p.gauge.radius)
	id, size := string(o.ID), p.gauge.text
	if wide := scene.TextWidth(mark, size, true); wide > 1.7*p.gauge.radius {
		size *= 1.7 * p.gauge.radius / wide
	}
	circle := scene.Path{
		D: "M-" + r + " 0A" + r + " " + r + " 0 1 0 " + r + " 0A" + r + " " + r + " 0 1 0 -" + r + " 0Z", Fill: "floor",
		Stroke: &scene.Stroke{Width: 0.45, Color: "ink"},
	}
	return []scene.Item{
		{ID: id, Title: p.tip(o.ID, "outlet "+mark+", "+o.Name), Mark: &scene.Mark{At: at, Parts: []scene.Path{circle}}},
		bold(scene.Words(id, mark, at, scene.Point{0, -size * 0.35}, size, "middle", "ink")),
	}
}

// workStroke is how a run is drawn on a drawing to build from: its stock by its dashes, what
// stands already thinner and lighter.
func (p *planner) workStroke(r *job.Run, width float64) scene.Stroke {
	s := scene.Stroke{Width: min(max(0.62*width, 0.45), 1.2), Color: "line", Dash: p.given.Work.Dashes[r.Stock], Round: len(p.given.Work.Dashes[r.Stock]) == 0}
	if r.State == "existing" {
		s.Width, s.Color = 0.55*s.Width, "soft"
	}
	return s
}

// numbers writes the numbers of joints beside them. Those that lie together on paper share one
// plate; what finds no room is left to the lists.
func (p *planner) numbers(seen func(geom.Point) (scene.Point, bool)) []scene.Item {
	const together, size, high = 3.2, 2.2, 3.1
	type cluster struct {
		at  scene.Point
		all []int
	}
	var all []cluster
	for _, n := range p.given.Work.Joints {
		at, ok := seen(n.At)
		if !ok {
			continue
		}
		k := slices.IndexFunc(all, func(c cluster) bool {
			return math.Hypot(c.at[0]-at[0], c.at[1]-at[1]) < together
		})
		if k < 0 {
			all = append(all, cluster{at, nil})
			k = len(all) - 1
		}
		all[k].all = append(all[k].all, n.Number)
	}
	var items []scene.Item
	for _, c := range all {
		text := Ranges(c.all)
		wide := scene.TextWidth(text, size, false) + 1.6
		centre, far, ok := p.free(c.at, wide, high, nearSeats(), quiet)
		if !ok && p.must > 0 {
			centre, far, ok = p.free(c.at, wide, high, farSeats(), p.must)
		}
		if !ok || far >= longLeader {
			p.tight = append(p.tight, tight{c.at, len(c.all), ok})
		}
		if !ok {
			p.hidden = true
			p.unnumbered = append(p.unnumbered, c.all...)
			continue
		}
		p.field.take(around(centre[0], centre[1], wide+0.4, high+0.4))
		p.field.draw(c.at, centre, 0.1, leaderMinds)
		plate := path("M%s %sH%sA%s %s 0 0 1 %s %sH%sA%s %s 0 0 1 %s %sZ",
			-wide/2+high/2, -high/2, wide/2-high/2, high/2, high/2, wide/2-high/2, high/2, -wide/2+high/2, high/2, high/2, -wide/2+high/2, -high/2)
		items = append(items, scene.Polyline("", "", scene.Solid(0.13, "ink"), p.metres(c.at), p.metres(centre)),
			scene.Item{Title: "joint " + text, Mark: &scene.Mark{At: p.metres(centre), Parts: []scene.Path{{D: plate, Fill: "paper", Stroke: &scene.Stroke{Width: 0.18, Color: "ink"}}}}},
			scene.Words("", text, p.metres(centre), scene.Point{0, -size * 0.35}, size, "middle", "ink"))
	}
	return items
}

// tight is where the numbers of joints found no room, or none close by.
type tight struct {
	at     scene.Point // mm
	joints int
	placed bool
}

// longLeader is from how many mm on a leader is one that the eye has to follow.
const longLeader = 9

// seats are the places for a plate about a point that are tried: how far off, and which ways, the
// first choice first.
type seats struct{ fars, degs []float64 }

// nearSeats are close by; farSeats are what is left where those are taken.
func nearSeats() seats {
	return seats{[]float64{1.6, 3.4, 6, 9.5, 14}, []float64{45, 135, 225, 315, 0, 180, 90, 270, 20, 160, 200, 340}}
}

func farSeats() seats {
	return seats{[]float64{1.6, 3.4, 6, 9.5, 14, 18, 23}, []float64{45, 135, 225, 315, 65, 115, 245, 295, 32, 148, 212, 328, 8, 172, 188, 352}}
}

// free is the freest place for a plate about a point, and how far off it is; it covers nothing,
// and its leader crosses little, or more where the plate has to stand somewhere.
func (p *planner) free(at scene.Point, wide, high float64, among seats, least float64) (centre scene.Point, off float64, ok bool) {
	for i, far := range among.fars {
		for k, deg := range among.degs {
			sin, cos := math.Sincos(deg * math.Pi / 180)
			c := scene.Point{at[0] + (far+wide/2)*cos, at[1] + (far+high/2)*sin}
			cost := 0.5*float64(i) + 0.03*float64(k)
			if cost >= least {
				continue
			}
			body := p.field.costUpTo(around(c[0], c[1], wide+0.4, high+0.4), quiet*0.6)
			if cost += 1.5 * body; body > quiet*0.6 || cost >= least {
				continue
			}
			if cost += 1.2*p.field.crossings(at, c) + 0.5*p.field.over(at, c); cost < least {
				centre, off, least, ok = c, far, cost, true
			}
		}
	}
	return centre, off, ok
}

// Ranges writes numbers in order, those that follow one another as from to.
func Ranges(all []int) string {
	slices.Sort(all)
	var words []string
	for i := 0; i < len(all); {
		k := i
		for k+1 < len(all) && all[k+1] == all[k]+1 {
			k++
		}
		switch {
		case k > i+1:
			words = append(words, strconv.Itoa(all[i])+"–"+strconv.Itoa(all[k]))
		case k > i:
			words = append(words, strconv.Itoa(all[i]), strconv.Itoa(all[k]))
		default:
			words = append(words, strconv.Itoa(all[i]))
		}
		i = k + 1
	}
	return strings.Join(words, ", ")
}
