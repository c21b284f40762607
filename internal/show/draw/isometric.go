package draw

import (
	"cmp"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// isometer draws the piping in isometric view.
type isometer struct {
	*planner
	site   site
	eye    geom.View
	sizes  []float64 // bores that occur, m, rising
	lines  []isoline
	spots  map[job.ID]scene.Point // mm
	floors [][]scene.Point
	rings  []ring         // what is drawn larger elsewhere
	told   map[int]string // by line end, what is written where it goes on

	detail    bool     // it is what is drawn larger
	unwritten []string // true lengths that found no room
}

// isoline is one run in the view.
type isoline struct {
	run    *job.Run
	course []scene.Point // in the scene
	depth  []float64     // of its corners, nearer is more
}

// The isometric view is drawn with its axes at their full length, as is usual:
// the sight of geom, in which all three are shortened alike by √(2/3), enlarged.
//
//	x' = (x − y)·cos 30°    y' = (x + y)·sin 30° + z    in m
var fullLength = math.Sqrt(1.5)

// isometric is where a place in the shop lies in an isometric drawing.
func isometric(at geom.Point) scene.Point {
	f := geom.Isometric(0).Flat(at).Times(fullLength)
	return scene.Point{f[0], f[1]}
}

// Isometric draws the whole piping over the outline of the rooms: x runs to the
// right and up, y to the left and up, z up, all to the same scale.
func Isometric(given Given, sheet Sheet) View {
	m, low, high := isometricOf(site{given: given}, sheet)
	layers := m.layers()
	notes := []string{"Isometric: all three directions to the same scale, not foreshortened. The wider a line is drawn, the wider its bore; heights are over the datum."}
	if len(m.lines) == 0 {
		notes = []string{"No line has a place in the room yet."}
	}
	title := "Piping of " + m.job.Title + ", isometric"
	return m.view(title, low, high, layers, append(notes, m.unplaced()...), []Frame{{Kind: FrameNone, Min: low, Max: high, Origin: low}})
}

// isometricOf makes ready to draw a site, and says how far it reaches.
func isometricOf(s site, sheet Sheet) (m *isometer, low, high scene.Point) {
	m = &isometer{eye: geom.Isometric(0), site: s}
	low, high = m.extent(s.given)
	m.planner = board(s.given, sheet, low, high)
	m.straight, m.fine = s.straight(), true
	if len(m.job.Outlets) > fewDrops && !m.gauge.bare {
		m.measures(gauge{radius: 2.3, band: 1.75, text: 3, under: 2.4})
	}
	return m, low, high
}

// layers draws all of it.
func (m *isometer) layers() []scene.Layer {
	m.bores()
	building := m.shell()
	m.gather()
	lines, strands := m.piping()
	marks := append(m.ringed(), m.broken()...)
	marks = append(marks, m.onwards()...)
	plumbs := m.plumbs()
	parts, plates := m.fixtures(append(m.lined(m.threads(strands)), m.lone()...))
	lengths := m.lengths()
	leaders, outlets := m.pinned(m.pins())
	for _, plate := range plates {
		parts = append(parts, plate()...)
	}
	figures := append(m.sizeWords(), m.heights()...)
	figures = append(figures, lengths...)
	figures = append(figures, m.work()...)
	layers := []scene.Layer{
		{ID: "building", Title: "rooms and walls", Items: building},
		{ID: "plumbs", Title: "under the outlets", Items: plumbs},
		{ID: "lines", Title: "lines", Items: lines},
		{ID: "figures", Title: "sizes and heights", Items: figures},
		{ID: "drops", Title: "outlets' feet", Items: leaders},
		{ID: "parts", Title: "parts", Items: parts},
		{ID: "outlets", Title: "outlets", Items: outlets},
	}
	if len(marks) > 0 {
		layers = slices.Insert(layers, 3, scene.Layer{ID: "breaks", Title: "where lines are broken or go on", Items: marks})
	}
	return layers
}

// seen is where a place in the shop lies in the scene.
func (m *isometer) seen(at geom.Point) scene.Point {
	f := m.eye.Flat(at).Times(fullLength)
	return scene.Point{f[0], f[1]}
}

// extent holds floors, walls and lines.
func (m *isometer) extent(g Given) (low, high scene.Point) {
	s := scene.Scene{Min: scene.Point{math.Inf(1), math.Inf(1)}, Max: scene.Point{math.Inf(-1), math.Inf(-1)}}
	grow := func(at geom.Point) {
		if q := m.seen(at); finite(q[0]) && finite(q[1]) {
			s.Grow(q)
		}
	}
	j := g.Index.Job()
	for _, r := range j.Building.Rooms {
		for _, c := range r.Outline {
			grow(c.At(float64(r.Floor)))
		}
	}
	for _, w := range j.Building.Walls {
		for _, c := range []geom.Flat{w.From, w.To} {
			grow(c.At(float64(w.Floor)))
			grow(c.At(float64(w.Floor + w.Height)))
		}
	}
	for i := range j.Net.Points {
		if at, ok := g.Index.Where(&j.Net.Points[i]); ok {
			grow(at)
		}
	}
	for i := range j.Net.Runs {
		for _, q := range g.Index.Centreline(&j.Net.Runs[i]) {
			grow(q)
		}
	}
	if s.Min[0] > s.Max[0] {
		return scene.Point{}, scene.Point{1, 1}
	}
	return s.Min, s.Max
}

// bores lists the bores of the lines, to tell them apart by width.
func (m *isometer) bores() {
	for i := range m.job.Net.Runs {
		r := &m.job.Net.Runs[i]
		if size, ok := m.given.Shelf.Size(r.Stock, r.Size); ok && !slices.Contains(m.sizes, float64(size.Bore)) {
			m.sizes = append(m.sizes, float64(size.Bore))
		}
	}
	slices.Sort(m.sizes)
}

// width of a line by the rank of its bore: steps that the eye tells apart.
func (m *isometer) width(r *job.Run) float64 {
	size, ok := m.given.Shelf.Size(r.Stock, r.Size)
	if !ok || len(m.sizes) < 2 {
		return 0.9
	}
	rank := slices.Index(m.sizes, float64(size.Bore))
	return 0.55 + 1.05*float64(max(rank, 0))/float64(max(len(m.sizes)-1, 2))
}

// gather projects the runs, the farther ones first.
func (m *isometer) gather() {
	m.spots = map[job.ID]scene.Point{}
	for i := range m.job.Net.Points {
		pt := &m.job.Net.Points[i]
		if at, ok := m.given.Index.Where(pt); ok {
			m.spots[pt.ID] = m.mm(m.seen(at))
		}
	}
	for i := range m.job.Net.Runs {
		r := &m.job.Net.Runs[i]
		l := isoline{run: r}
		for _, q := range m.given.Index.Centreline(r) {
			at := m.seen(q)
			if !finite(at[0]) || !finite(at[1]) {
				continue
			}
			if n := len(l.course); n > 0 && math.Hypot(at[0]-l.course[n-1][0], at[1]-l.course[n-1][1]) < 1e-6 {
				continue
			}
			l.course, l.depth = append(l.course, at), append(l.depth, m.eye.Depth(q))
		}
		if len(l.course) >= 2 {
			m.lines = append(m.lines, l)
		}
	}
	slices.SortStableFunc(m.lines, func(a, b isoline) int { return cmp.Compare(middle(a.depth), middle(b.depth)) })
}

func middle(depth []float64) float64 {
	sum := 0.0
	for _, d := range depth {
		sum += d
	}
	return sum / float64(len(depth))
}

// pins are the outlets with their heights.
func (m *isometer) pins() []pin {
	var all []pin
	for i := range m.job.Outlets {
		o := &m.job.Outlets[i]
		if foot, ok := m.spots[o.Point]; ok {
			n := pin{outlet: o, index: i, foot: foot, within: m.field.sheet}
			if at, ok := m.place(o.Point); ok && len(m.job.Outlets) <= 12 {
				n.under = m.sheet.level(at[2])
			}
			all = append(all, n)
		}
	}
	return all
}

// plumbs are dotted lines from the outlets down to the floor, so that one sees
// where in the room they are.
func (m *isometer) plumbs() []scene.Item {
	var items []scene.Item
	if m.detail {
		return nil
	}
	for i := range m.job.Outlets {
		at, ok := m.place(m.job.Outlets[i].Point)
		if !ok {
			continue
		}
		floor := 0.0
		if r := m.given.Index.RoomAt(at); r != nil {
			floor = float64(r.Floor)
		}
		if at[2]-floor < 0.05 {
			continue
		}
		foot := m.seen(geom.Point{at[0], at[1], floor})
		cross := scene.Path{D: "M-1.04 -0.6L1.04 0.6M-1.04 0.6L1.04 -0.6", Stroke: &scene.Stroke{Width: 0.2, Color: "soft"}}
		items = append(items, scene.Polyline("", "", scene.Stroke{Width: 0.18, Color: "soft", Dash: []float64{0.4, 0.9}}, m.seen(at), foot),
			scene.Item{Mark: &scene.Mark{At: foot, Parts: []scene.Path{cross}}})
		m.field.draw(m.mm(m.seen(at)), m.mm(foot), 0.2, 0.4)
	}
	return items
}

// sizeWords writes the size of lines beside the longest stretch of each size and
// role, and pressures beside the longest stretch of each figure.
func (m *isometer) sizeWords() []scene.Item {
	var sizes, figures longestFor
	for _, l := range m.lines {
		a, b := longest(l.course)
		text := parts.SizeWords(l.run.Size)
		if stock, ok := m.given.Shelf.Stock(l.run.Stock); ok {
			text += " " + stock.Words
		}
		sizes.offer(text, string(l.run.ID), m.mm(a), m.mm(b))
		if q := m.pipe(l.run); q.known && !q.stub {
			figures.offer(m.sheet.plain(unit.KindGauge, (q.ends[0]+q.ends[1])/2), "", m.mm(a), m.mm(b))
		}
	}
	return append(m.alongside(sizes, 2.4), m.alongside(figures, 2.4)...)
}
