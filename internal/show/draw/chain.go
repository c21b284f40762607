package draw

import (
	"math"
	"slices"

	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// chain is a way along runs that follow one another, seen from above, with the
// points that lie on it: what symbols are lined up on.
type chain struct {
	course []scene.Point // mm of paper
	stops  []bead
}

// bead is a symbol on a chain.
type bead struct {
	point *job.Point
	want  float64 // mm along the course
	half  float64 // half its length along the course, mm
	tier  int     // what gives way first has the highest
	at    float64 // where it is set
}

// chains follows the runs of the net, each once, straight on where a line branches.
func (p *planner) chains() []chain {
	used := map[job.ID]bool{}
	var all []chain
	for i := range p.job.Net.Runs {
		r := &p.job.Net.Runs[i]
		if used[r.ID] || len(p.course(*r)) < 2 {
			continue
		}
		used[r.ID] = true
		links := []link{{r, false}}
		for next := p.onward(links[0], used); next.run != nil; next = p.onward(links[len(links)-1], used) {
			used[next.run.ID] = true
			links = append(links, next)
		}
		for next := p.onward(links[0].turned(), used); next.run != nil; next = p.onward(links[0].turned(), used) {
			used[next.run.ID] = true
			links = slices.Insert(links, 0, next.turned())
		}
		all = append(all, p.chained(links))
	}
	return all
}

// link is a run passed from its first end to its second, or back.
type link struct {
	run  *job.Run
	back bool
}

func (l link) turned() link { return link{l.run, !l.back} }

func (l link) end() job.ID {
	if l.back {
		return l.run.From.Point
	}
	return l.run.To.Point
}

func (l link) start() job.ID { return l.turned().end() }

// onward is the run that goes on from a link's end with the least turn; a run
// that only climbs goes on only where nothing else does.
func (p *planner) onward(l link, used map[job.ID]bool) link {
	came := p.directed(l)
	best, least := link{}, math.Inf(1)
	for _, e := range p.given.Index.Ends(l.end()) {
		if used[e.Run.ID] {
			continue
		}
		next := link{e.Run, e.AtTo}
		turn := 1.0
		if c := p.directed(next); len(c) >= 2 && len(came) >= 2 {
			turn = 1 - cosine(came[len(came)-2], came[len(came)-1], c[0], c[1])
		} else if len(c) < 2 {
			turn = 3
		}
		if turn < least {
			best, least = next, turn
		}
	}
	return best
}

// cosine of the angle between two pieces.
func cosine(a, b, c, d scene.Point) float64 {
	u, v := minus(b, a), minus(d, c)
	n := math.Hypot(u[0], u[1]) * math.Hypot(v[0], v[1])
	if n == 0 {
		return 0
	}
	return (u[0]*v[0] + u[1]*v[1]) / n
}

// directed is a link's course in the direction it is passed.
func (p *planner) directed(l link) []scene.Point {
	c := p.course(*l.run)
	if l.back {
		slices.Reverse(c)
	}
	return c
}

// chained lays links end to end.
func (p *planner) chained(links []link) chain {
	var c chain
	along := 0.0
	add := func(q scene.Point) {
		q = p.mm(q)
		if n := len(c.course); n > 0 {
			d := math.Hypot(q[0]-c.course[n-1][0], q[1]-c.course[n-1][1])
			if d < 1e-6 {
				return
			}
			along += d
		}
		c.course = append(c.course, q)
	}
	stop := func(id job.ID) {
		if pt := p.given.Index.Point(id); pt != nil {
			c.stops = append(c.stops, bead{point: pt, want: along})
		}
	}
	for i, l := range links {
		for k, q := range p.directed(l) {
			add(q)
			if i == 0 && k == 0 {
				stop(l.start())
			}
		}
		stop(l.end())
	}
	return c
}

// length of the course in mm.
func (c chain) length() float64 {
	sum := 0.0
	for i := 1; i < len(c.course); i++ {
		sum += math.Hypot(c.course[i][0]-c.course[i-1][0], c.course[i][1]-c.course[i-1][1])
	}
	return sum
}

// on is the place at a distance along the course, and the direction there.
func (c chain) on(s float64) (at, dir scene.Point) {
	for i := 1; i < len(c.course); i++ {
		a, b := c.course[i-1], c.course[i]
		d := math.Hypot(b[0]-a[0], b[1]-a[1])
		dir = scene.Point{(b[0] - a[0]) / d, (b[1] - a[1]) / d}
		if s <= d || i == len(c.course)-1 {
			return scene.Point{a[0] + s*dir[0], a[1] + s*dir[1]}, dir // beyond an end: straight on
		}
		s -= d
	}
	return at, dir
}

// lineUp spreads beads so that each has its length on the course, in their
// order and as near as can be to where they are wanted (pooled neighbours share
// their shift, weighted by tier), between low and high. Where there is no room,
// or one would stand more than most mm away, the one that gives way first and is
// nearest leaves; machines never do.
func lineUp(beads []bead, low, high, gap, most float64) (kept []bead, left int) {
	kept = slices.Clone(beads)
	for {
		fits := spread(kept, low, high, gap)
		worst, far := len(kept)-1, most
		for i, b := range kept {
			if d := math.Abs(b.at - b.want); d > far {
				worst, far = i, d
			}
		}
		if fits && far <= most {
			return kept, left
		}
		out := givesWay(kept, worst)
		if out < 0 {
			return kept, left
		}
		left++
		kept = slices.Delete(kept, out, out+1)
	}
}

// givesWay is the bead of the highest tier, of those the nearest to a crowded
// one; -1 where only machines are left.
func givesWay(beads []bead, crowded int) int {
	pick, rank := -1, math.Inf(-1)
	for i, b := range beads {
		if r := 1000*float64(b.tier) - math.Abs(float64(i-crowded)); b.tier > machine && r > rank {
			pick, rank = i, r
		}
	}
	return pick
}

// spread is the least shift that leaves every bead its room (isotonic regression
// by pooling on the places less the room before them, cut off at the ends); it
// says whether all of them fit.
func spread(beads []bead, low, high, gap float64) bool {
	type pool struct {
		sum, weight float64
		n           int
	}
	var pools []pool
	before := make([]float64, len(beads))
	for i, b := range beads {
		if i > 0 {
			before[i] = before[i-1] + beads[i-1].half + b.half + gap
		}
		w := []float64{40, 4, 1}[b.tier]
		pools = append(pools, pool{w * (b.want - before[i]), w, 1})
		for n := len(pools); n > 1 && pools[n-2].sum/pools[n-2].weight > pools[n-1].sum/pools[n-1].weight; n = len(pools) {
			a, z := pools[n-2], pools[n-1]
			pools = append(pools[:n-2], pool{a.sum + z.sum, a.weight + z.weight, a.n + z.n})
		}
	}
	if len(beads) == 0 {
		return true
	}
	last := high - before[len(beads)-1]
	i := 0
	for _, q := range pools {
		for range q.n {
			beads[i].at = max(min(q.sum/q.weight, last), low) + before[i]
			i++
		}
	}
	return last >= low
}
