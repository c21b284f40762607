package route

import (
	"math"

	"dropleg/engine/geom"
)

// through leads from room to room where a wall parts them.
func (m *maze) through() {
	for a := range m.spaces {
		for b := a + 1; b < len(m.spaces); b++ {
			m.between(a, b)
		}
	}
}

// between leads through the walls that part two rooms.
func (m *maze) between(a, b int) {
	s, t := &m.spaces[a], &m.spaces[b]
	for i := range s.faces {
		for k := range t.faces {
			p, q := s.faces[i], s.faces[(i+1)%len(s.faces)]
			u, v := t.faces[k], t.faces[(k+1)%len(t.faces)]
			d, e := q.Minus(p), v.Minus(u)
			long := d.Length()
			if long < geom.Tiny || e.Length() < geom.Tiny || d.Dot(e) > -0.996*long*e.Length() {
				continue // not face to face
			}
			d = d.Times(1 / long)
			gap := math.Abs(u.Minus(p).Cross(d))
			lo, hi := math.Max(0, v.Minus(p).Dot(d)), math.Min(long, u.Minus(p).Dot(d))
			if gap <= wallThick && hi-lo > 2*offWall+0.1 {
				m.pierce(a, b, p, d, lo+offWall+0.05, hi-offWall-0.05)
			}
		}
	}
}

// pierce makes holes along the stretch of wall that two rooms share: at its ends and its
// middle, and opposite to what is to be reached.
func (m *maze) pierce(a, b int, from, dir geom.Flat, lo, hi float64) {
	at := []float64{lo, (lo + hi) / 2, hi}
	for _, room := range []int{a, b} {
		for _, c := range m.spaces[room].columns {
			if t := c.at.Minus(from).Dot(dir); t > lo && t < hi {
				at = append(at, t)
			}
		}
	}
	s, t := &m.spaces[a], &m.spaces[b]
	least, most := math.Max(s.floor, t.floor)+0.5, math.Min(s.ceiling, t.ceiling)-0.1
	var heights []float64
	for _, z := range append(s.heights(), t.heights()...) {
		if z >= least && z <= most {
			heights = append(heights, z)
		}
	}
	for _, x := range at {
		p := from.Plus(dir.Times(x))
		pa, _, offA := s.nearest(p)
		pb, _, offB := t.nearest(p)
		if offA > wallThick || offB > wallThick+offWall || math.Abs(pa.Minus(pb).Dot(dir)) > merge {
			continue
		}
		ca, cb := s.column(pa), t.column(pb)
		for _, z := range heights {
			s.columns[ca].z, t.columns[cb].z = append(s.columns[ca].z, z), append(t.columns[cb].z, z)
			m.join(m.node(a, s.columns[ca].at, z), m.node(b, t.columns[cb].at, z), m.prices.Hole+pa.Distance(pb)*m.prices.Metre, hole, nil)
		}
	}
}
