package draw

import (
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// A line belongs to a wall where it runs along it or up it within reach of its
// face. What runs elsewhere in the room is drawn as a ghost on the wall that it
// runs along, the nearest of those.
const reach = unit.Length(0.6)

// elevator draws the walls of one room, unrolled.
type elevator struct {
	*planner
	room         *job.Room // nil: walls without a room
	panels       []panel
	ceiling, top float64 // over the floor
	pieces       []piece
	shownOn      map[job.ID]int         // the panel on which a point is drawn
	low, high    scene.Point            // extent of the drawing
	rowed        bool                   // drops stand close
	ghostly      bool                   // something was drawn as a ghost
	spots        map[job.ID]scene.Point // mm, of the points drawn
	some         bool                   // not all walls of the room are drawn
	leaving      map[job.ID]bool        // points where a line leaves the wall into the room
	clips        map[int][]float64      // by panel, how far along it supports are drawn
	tells        bool                   // a row under the wall tells where they are
}

// Elevation draws the walls of a room unrolled in walking order, each to scale
// with what stands in it, before it and on it. Room "" is the one with most lines.
func Elevation(given Given, sheet Sheet, room job.ID) View {
	r, all := sides(given, room)
	return elevation(given, sheet, r, all, WallRow{Count: len(all)})
}

// sides are the walls of a room to look at; of "" that with most lines.
func sides(given Given, room job.ID) (*job.Room, []panel) {
	r := given.Index.Room(room)
	if r == nil {
		r = busiest(given.Index)
	}
	return r, panels(given.Index.Job(), r)
}

// elevation draws the walls of a room that a row names.
func elevation(given Given, sheet Sheet, r *job.Room, all []panel, row WallRow) View {
	j := given.Index.Job()
	title := "Walls of " + j.Title
	if r != nil {
		title = "Walls of " + or(r.Name, "a room") + ", unrolled"
	}
	if len(all) == 0 {
		p := board(given, sheet, scene.Point{}, scene.Point{1, 1})
		return p.view(title, scene.Point{}, scene.Point{1, 1}, nil, []string{"There is no wall to look at yet: draw a room or a wall first."}, nil)
	}
	e := &elevator{room: r, panels: all}
	e.ceiling, e.top = tallest(j, r)
	shown := all[row.First : row.First+row.Count]
	e.low, e.high = sheet.rowsFor(shown, e.top)
	if e.tells = given.Work != nil && len(given.Supports) > 0 && sheet.Scale > 0 && rowsAt(shown, e.high[0]) == 1; e.tells {
		e.low[1] -= clipRow(sheet) / sheet.Scale
	}
	e.planner = board(given, sheet, e.low, e.high)
	e.find()
	e.only(row)
	if e.rowed = e.narrow(); e.rowed {
		e.measures(gauge{radius: 1.8, band: 1.35, text: 2.6, under: 2.2})
	}
	return e.draw(title)
}

// draw makes the layers in the order in which they take their place.
func (e *elevator) draw(title string) View {
	building := e.sides()
	openings := e.openings()
	things := e.obstacles()
	ghosts, lines, strands := e.lines()
	clips := e.supports()
	dims := e.dimensions()
	parts, plates := e.fixtures(e.standing(e.lined(e.threads(strands))))
	leaders, outlets := e.pinned(e.pins())
	for _, plate := range plates {
		parts = append(parts, plate()...)
	}
	figures := append(e.levels(), e.pressuresOn()...)
	figures = append(figures, e.work()...)
	names := e.obstacleNames()
	layers := []scene.Layer{
		{ID: "building", Title: "walls", Items: append(building, openings...)},
		{ID: "obstacles", Title: "things before the walls", Items: things},
		{ID: "names", Title: "names", Items: names},
		{ID: "ghosts", Title: "lines elsewhere in the room", Items: ghosts},
		{ID: "lines", Title: "lines", Items: lines},
		{ID: "figures", Title: "pressures and heights along the lines", Items: figures},
		{ID: "drops", Title: "outlets' feet", Items: leaders},
		{ID: "parts", Title: "parts", Items: parts},
		{ID: "outlets", Title: "outlets", Items: outlets},
		{ID: "marks", Title: "dimensions", Items: dims},
	}
	return e.view(title, e.low, e.high, withSupports(layers, clips), e.remarks(), e.frames())
}

func (e *elevator) remarks() []string {
	notes := []string{"Seen from inside, from left to right as one turns right. A line is drawn on a wall where it runs along it within " + e.sheet.dimension(float64(reach)) + e.unitMark() + "; heights are over the floor."}
	if e.ghostly {
		notes = append(notes, "Dotted lines run elsewhere in the room; they are drawn on the wall that they run along.")
	}
	return append(notes, e.unplaced()...)
}

// unitMark follows a dimension in metres where no dimension line says so.
func (e *elevator) unitMark() string {
	if e.sheet.Units == unit.US {
		return ""
	}
	return " m"
}

// frames tell how each wall of the drawing lies in the shop.
func (e *elevator) frames() []Frame {
	var all []Frame
	room := job.ID("")
	if e.room != nil {
		room = e.room.ID
	}
	for i := range e.panels {
		p := &e.panels[i]
		if p.bare {
			all = append(all, Frame{Kind: FrameNone, Room: room, Min: p.at, Max: p.on(p.long, e.top), Origin: p.at})
		}
		for _, s := range p.walls {
			low, high := s.span(p.long)
			all = append(all, Frame{
				Kind: FrameWall, Wall: s.wall.ID, Room: room, Min: p.on(low, 0), Max: p.on(high, e.top),
				Origin: p.on(s.from, float64(s.wall.Floor)-p.Floor), Flip: s.flip,
			})
		}
	}
	return all
}

// on is a place on the panel in the scene.
func (p *panel) on(along, up float64) scene.Point {
	return scene.Point{p.at[0] + along, p.at[1] + up}
}

// standing adds the parts that lie on no line that is seen from here: those on
// lines that come straight at the one who looks, and those that stand alone.
func (e *elevator) standing(set []fixture) []fixture {
	e.seatLone()
	done := map[job.ID]bool{}
	for _, f := range set {
		done[f.point.ID] = true
	}
	for i := range e.job.Net.Points {
		pt := &e.job.Net.Points[i]
		at, ok := e.spots[pt.ID]
		if !ok || done[pt.ID] {
			continue
		}
		if kind, tier, shows := e.symbolled(pt); shows {
			set = append(set, fixture{point: pt, kind: kind, tier: tier, at: at, dir: scene.Point{1, 0}})
		}
	}
	slices.SortStableFunc(set, func(a, b fixture) int { return a.tier - b.tier })
	return set
}

// narrow says whether drops stand so close on paper that dials must be small.
func (e *elevator) narrow() bool {
	const room = 15.0 // mm for a dial with its words
	feet := map[int][]float64{}
	for i := range e.job.Outlets {
		id := e.job.Outlets[i].Point
		at, ok := e.place(id)
		if on, known := e.shownOn[id]; ok && known {
			along, _, _ := e.panels[on].In(at)
			feet[on] = append(feet[on], along)
		}
	}
	close, all := 0, 0
	for _, along := range feet {
		slices.Sort(along)
		for k := 1; k < len(along); k++ {
			all++
			if (along[k]-along[k-1])*e.scale < room {
				close++
			}
		}
	}
	return 4*close > all
}

// pins are the outlets that stand on a panel.
func (e *elevator) pins() []pin {
	var all []pin
	for i := range e.job.Outlets {
		o := &e.job.Outlets[i]
		foot, ok := e.spots[o.Point]
		if !ok {
			continue
		}
		p := &e.panels[e.shownOn[o.Point]]
		low, high := e.mm(p.on(0, 0)), e.mm(p.on(p.long, e.top))
		n := pin{outlet: o, index: i, foot: foot, within: box{low[0], low[1], high[0], high[1]}, rowed: e.rowed}
		if at, placed := e.place(o.Point); placed && e.scale >= 9 {
			n.under = e.sheet.level(at[2] - p.Floor)
		}
		all = append(all, n)
	}
	return all
}
