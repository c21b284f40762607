package route

import (
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
)

// mazeOf builds the graph of a job: from its plant and the lines that stand, to the feet.
func mazeOf(n *net, feet []foot, w *Wish, prices Prices) *maze {
	b := &n.ix.Job().Building
	ceiling := w.may(Ceiling)
	m := &maze{spaces: spacesOf(b, ceiling, feet), prices: prices, ids: map[[4]int64]int{}, feet: feet}
	m.blocks = blocks(b, n.ix.Wall, fallRoom(n.ix.Job(), m.spaces))
	if w.may(Beams) {
		m.beams(b)
	}
	root := m.mouth(n, ceiling)
	for i := range feet {
		m.foot(i, ceiling)
	}
	taps := m.taps(n)
	m.through()
	for i := range m.spaces {
		m.lay(i)
	}
	for i := range feet {
		m.legs(i)
	}
	m.plug(root, taps)
	return m
}

// fallRoom is by how much a main has come down, about, when it passes a door.
func fallRoom(j *job.Job, all []space) float64 {
	most := 0.0
	for i := range all {
		round := 0.0
		for k, a := range all[i].faces {
			round += a.Distance(all[i].faces[(k+1)%len(all[i].faces)])
		}
		most = math.Max(most, round)
	}
	return math.Min(0.15, float64(j.RuleSlope().Value)*most/4)
}

// spot is a place joined to the columns of a room.
type spot struct {
	at     geom.Point
	room   int
	column int
	high   float64 // the height at which it meets its column
}

// settle joins a place to its room: to the wall beside it, or where it stands, with ways
// under the ceiling to both sides.
func (m *maze) settle(p geom.Point, ceiling bool) (spot, bool) {
	room := spaceAt(m.spaces, p)
	if room < 0 {
		return spot{}, false
	}
	s := &m.spaces[room]
	at, side, off := s.nearest(p.Plan())
	out := spot{at: p, room: room, high: p[2]}
	axes := s.axes()
	switch {
	case off > atWall:
		at = p.Plan()
		heights := s.heights()
		s.across(at, heights[len(heights)-1], axes[0], axes[1])
		if s.under > 0 {
			s.across(at, s.under, axes[0], axes[1])
		}
	case ceiling:
		a := s.inset[(side+1)%len(s.inset)].Minus(s.inset[side])
		if l := a.Length(); l > 0 {
			s.across(at, s.heights()[len(s.heights())-1], geom.Flat{-a[1] / l, a[0] / l})
		}
	}
	out.column = s.column(at)
	return out, true
}

// mouth places the end of the plant; −1 where lines only begin on lines.
func (m *maze) mouth(n *net, ceiling bool) int {
	p, ok := n.ix.Where(n.ix.Point(n.start))
	if !ok {
		return -1
	}
	s, ok := m.settle(p, ceiling)
	if !ok {
		return -1
	}
	return m.meet(s)
}

// meet leads a place level to its column and gives its node.
func (m *maze) meet(s spot) int {
	col := &m.spaces[s.room].columns[s.column]
	col.z = append(col.z, s.high)
	col.exempt = append(col.exempt, m.exempt(s.at)...)
	if s.at.Plan().Distance(col.at) < merge {
		return m.node(s.room, col.at, s.high)
	}
	id := m.loose(s.at)
	m.join(id, m.node(s.room, col.at, s.high), s.at.Plan().Distance(col.at)*m.prices.Metre, level, col.exempt)
	return id
}

// foot places what is to be reached.
func (m *maze) foot(i int, ceiling bool) {
	s, ok := m.settle(m.feet[i].at, ceiling)
	if !ok {
		s = spot{room: -1}
	}
	m.in, m.hung = append(m.in, s.room), append(m.hung, s.column)
	m.ends = append(m.ends, m.loose(m.feet[i].at))
}

// legs leads from every height at the column of a foot to the foot.
func (m *maze) legs(i int) {
	if m.in[i] < 0 {
		return
	}
	s := &m.spaces[m.in[i]]
	col := &s.columns[m.hung[i]]
	at := m.feet[i].at
	var z []float64
	z = append(z, col.z...)
	for _, r := range s.rails {
		if _, on := r.at(col.at); on {
			z = append(z, r.z)
		}
	}
	slices.Sort(z)
	z = slices.CompactFunc(z, func(a, b float64) bool { return math.Abs(a-b) < merge })
	for _, h := range z {
		flat := col.at.Distance(at.Plan())
		long, bends := math.Abs(h-at[2])+flat, 1.0
		if h > at[2]+legLeast {
			long, bends = h-at[2]+2*legRise+legBeside+flat, 2
		}
		money := long*m.prices.Leg + bends*m.prices.Bend + m.prices.Valve
		m.join(m.node(m.in[i], col.at, h), m.ends[i], money, leg, m.exempt(at))
	}
}

// taps are places on lines that stand, where new ones may begin for the price of a tee.
func (m *maze) taps(n *net) []int {
	var out []int
	for _, r := range n.behind() {
		if r.Role == "drip" || r.Role == "stub" || r.Role == "drop" {
			continue
		}
		way := n.ix.Centreline(r)
		for i := 1; i < len(way); i++ {
			out = append(out, m.tapsOn(way[i-1], way[i])...)
		}
	}
	return out
}

// tapRoom is how far from the ends of a straight piece a tee has room, in metres.
const tapRoom = 0.12

func (m *maze) tapsOn(a, b geom.Point) []int {
	long := a.Distance(b)
	if long < 2*tapRoom {
		return nil
	}
	at := []float64{tapRoom, long / 2, long - tapRoom}
	for _, f := range m.feet {
		h := geom.NearestOnSegment(geom.Point{f.at[0], f.at[1], a[2]}, a, b)
		at = append(at, math.Min(long-tapRoom, math.Max(tapRoom, h.Along)))
	}
	slices.Sort(at)
	var out []int
	last := math.Inf(-1)
	for _, t := range at {
		if t-last < tapRoom {
			continue
		}
		p := a.Plus(b.Minus(a).Times(t / long))
		if s, ok := m.settle(p, false); ok {
			out, last = append(out, m.meet(s)), t
		}
	}
	return out
}

// plug makes one root of the plant's end and the taps.
func (m *maze) plug(mouth int, taps []int) {
	if len(taps) == 0 {
		m.root = mouth
		return
	}
	m.root = m.loose(geom.Point{})
	if mouth >= 0 {
		m.join(m.root, mouth, 0, tap, nil)
	}
	for _, t := range taps {
		m.join(m.root, t, m.prices.Tee, tap, nil)
	}
}

// beams adds ways along both sides of beams.
func (m *maze) beams(b *job.Building) {
	for i := range b.Obstacles {
		o := &b.Obstacles[i]
		if o.Kind != "beam" {
			continue
		}
		low, high, _ := geom.Bounds(o.Outline)
		mid, half := low.Plus(high).Times(0.5), high.Minus(low).Times(0.5)
		z := float64(o.Bottom) + math.Min(0.1, float64(o.Top-o.Bottom)/2)
		room := spaceAt(m.spaces, mid.At(z))
		if room < 0 {
			continue
		}
		along, off := geom.Flat{1, 0}, geom.Flat{0, half[1] + clearSide + merge}
		if half[1] > half[0] {
			along, off = geom.Flat{0, 1}, geom.Flat{half[0] + clearSide + merge, 0}
		}
		m.spaces[room].across(mid.Plus(off), z, along)
		m.spaces[room].across(mid.Minus(off), z, along)
	}
}
