package route

import (
	"context"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// artist draws a layout with gestures.
type artist struct {
	*draft
	*layout
	valve  string // kind of the valve in lines
	drain  string // kind of a drain
	drawn  map[job.ID]bool
	plant  map[job.ID]bool // runs that no line begins on
	valves []geom.Point    // where they are to be
	set    int             // valves that are
	mouths []mouth         // where mains begin
	rise   float64         // of a leg over its main
	beside float64         // of a leg's take-off from where it comes down
	wide   map[int]float64 // the same of single feet, where growth asks for more
	bend   float64         // straight line that a corner takes
	gap    float64         // of two fittings of a main, at the least
}

// draw draws all lines, and gives the draft with the edits.
func (l *layout) draw(ctx context.Context, d *draft) (*artist, error) {
	a := &artist{draft: d.copied(), layout: l, drawn: map[job.ID]bool{}, plant: map[job.ID]bool{}, wide: l.wide}
	n := netOf(job.NewIndex(d.job), d.shelf)
	for i := range d.job.Net.Runs {
		a.plant[d.job.Net.Runs[i].ID] = true
	}
	for _, r := range n.behind() {
		delete(a.plant, r.ID)
	}
	if k, ok := fit.Isolating(d.shelf); ok {
		a.valve = k.Kind
	}
	a.turns()
	for _, k := range d.shelf.Kinds() {
		if k.Has(catalog.Drains) && !k.Has(catalog.Automatic) && len(k.Ports) == 1 {
			a.drain = k.Kind
			break
		}
	}
	for i := range l.lines {
		if err := a.line(&l.lines[i]); err != nil {
			return nil, err
		}
	}
	for i := range l.lines {
		for _, e := range l.lines[i].legs {
			if err := a.leg(e.at, e.foot, false); err != nil {
				return nil, err
			}
		}
	}
	for _, p := range a.valves { // last, so that lines are whole while others begin on them
		a.valveAt(p)
	}
	for _, m := range a.mouths {
		a.supply(m)
	}
	return a, a.elbows(ctx)
}

// line draws a main or a branch, with what belongs to its beginning and its end.
func (a *artist) line(x *line) error {
	if len(x.path) == 1 { // legs alone
		if x.last >= 0 {
			return a.leg(x.path[0], x.last, x.from == -1)
		}
		return nil
	}
	path, ends := a.extended(x)
	if !ends && x.last >= 0 {
		a.aim(path, a.maze.feet[x.last].at)
	}
	path, end, before, err := a.stretch(x, path)
	if err != nil {
		return err
	}
	if err := a.finish(x, path, end, ends); err != nil {
		return err
	}
	if before == "" { // the valve of a main comes with what else belongs to its beginning
		a.valveIn(path[0], path[1])
	} else {
		a.mouths = append(a.mouths, x.mouthOf(path, before, math.Max(2*valveFrom, partsAtMouth*a.gap)))
	}
	return nil
}

// finish hangs on the end of a line what belongs there: a leg, the drain of its low point.
func (a *artist) finish(x *line, path []geom.Point, end job.ID, ends bool) error {
	switch {
	case ends && x.last >= 0:
		if err := a.leg(x.path[len(x.path)-1], x.last, false); err != nil {
			return err
		}
		return a.lowPoint(end)
	case ends:
		return a.lowPoint(end)
	case x.last >= 0:
		return a.legFrom(end, path[len(path)-1], x.last)
	}
	return nil
}

// stretch draws a main or branch without what belongs to it, and gives its way, the point
// at its end, and, of a main, the point before it.
func (a *artist) stretch(x *line, path []geom.Point) (way []geom.Point, end, before job.ID, err error) {
	g := &fit.Line{To: fit.Anchor{Place: at(path[len(path)-1])}, Stock: a.pen.stock.Stock, Size: a.pen.main, Role: "branch"}
	if x.from == -1 {
		g.From, g.Role, path, before = fit.Anchor{Point: a.start}, "main", upright(path), a.start
	} else {
		var on *job.Run
		if g.From, path, on, err = a.begin(path); err != nil {
			return nil, "", "", err
		}
		if x.from == -2 && on.Role == "link" {
			g.Role, before = "main", on.From.Point
		}
	}
	path = a.bowed(x, path)
	for _, p := range path[1 : len(path)-1] {
		g.Via = append(g.Via, *at(p))
	}
	if a.slope > 0 {
		g.Slope = new(unit.Ratio(a.slope))
	}
	made, err := a.do(g)
	if err != nil {
		return nil, "", "", err
	}
	id := made[0]
	for _, m := range made {
		a.drawn[m] = true
	}
	return path, job.NewIndex(a.job).Run(id).To.Point, before, nil
}

// upright lets a main rise from where the plant ends, where the wall's line is a step aside
// of a few centimetres from there.
func upright(path []geom.Point) []geom.Point {
	if len(path) < 4 || path[0].Distance(path[1]) > aside {
		return path
	}
	up := geom.Point{path[0][0], path[0][1], path[2][2]}
	if geom.Angle(path[3].Minus(up), path[3].Minus(path[2])) > straight/2 {
		return path
	}
	return append([]geom.Point{path[0], up}, path[3:]...)
}

// aside is a step that no two elbows make, in metres.
const aside = 0.2

// aim ends a line right over the foot that it goes on to, where that is a step aside of a
// few centimetres which no elbow makes.
func (a *artist) aim(path []geom.Point, to geom.Point) {
	n := len(path)
	was := path[n-1]
	end := geom.Point{to[0], to[1], was[2]}
	if d := was.Distance(end); d > 0 && d < aside && geom.Angle(end.Minus(path[n-2]), was.Minus(path[n-2])) < straight/2 {
		path[n-1] = end
	}
}

// extended lets a falling line go on past its last leg to a drain, where that leg would
// have no place for water and there is room.
func (a *artist) extended(x *line) ([]geom.Point, bool) {
	path := slices.Clone(x.path)
	if a.slope == 0 || x.last < 0 || a.collects(x.last) {
		return path, a.slope > 0 && x.last < 0
	}
	n := len(path)
	dir := path[n-1].Minus(path[n-2])
	if math.Abs(dir[2]) > 0.5*dir.Length() {
		return path, false
	}
	for _, by := range []float64{pastEnd, pastEnd / 2} {
		end := path[n-1].Plus(dir.Unit().Times(by))
		room := spaceAt(a.maze.spaces, path[n-1])
		if room < 0 || !geom.Contains(a.maze.spaces[room].faces, end.Plan()) || a.maze.hit(path[n-1], end) {
			continue
		}
		_, _, was := a.maze.spaces[room].nearest(path[n-1].Plan())
		if _, _, off := a.maze.spaces[room].nearest(end.Plan()); was < merge && off < merge { // along a wall, and still so
			path[n-1] = end
			return path, true
		}
	}
	return path, false
}

// collects says whether water that comes down a leg has a place to go.
func (a *artist) collects(foot int) bool {
	p := job.NewIndex(a.job).Point(a.maze.feet[foot].point)
	if p == nil {
		return false
	}
	k, _ := a.shelf.Kind(p.Part.Kind)
	return k.Has(catalog.Collects)
}

func at(p geom.Point) *fit.Place { return &fit.Place{At: &p} }

// begin is where a branch begins: on the run that passes there. Where no tee could have
// two of its lines in line, the branch begins a little before the corner.
func (a *artist) begin(path []geom.Point) (fit.Anchor, []geom.Point, *job.Run, error) {
	ix := job.NewIndex(a.job)
	r, hit, ok := a.runAt(ix, path[0])
	if !ok {
		return fit.Anchor{}, nil, nil, refuse("no-way", "net", fmt.Sprintf("no line passes where a branch is to begin, %.2f, %.2f, %.2f m", path[0][0], path[0][1], path[0][2]), "")
	}
	way := ix.Centreline(r)
	path = beginning(path, hit.At)
	along, long := hit.Along, geom.Length(way)
	in, on, corner := around(way, along)
	out := path[1].Minus(path[0]).Unit()
	inLine := geom.Angle(in, out) < straight || geom.Angle(on.Times(-1), out) < straight
	tapRoom := math.Max(tapRoom, a.gap)
	switch p := r.To.Point; {
	case along > long-tapRoom/2 && a.shapes(ix, p):
		return fit.Anchor{Point: p}, path, r, nil
	case along < tapRoom/2 && a.shapes(ix, r.From.Point):
		return fit.Anchor{Point: r.From.Point}, path, r, nil
	case along < tapRoom/2: // right at the plant
		along += tapRoom
		path = beginning(path, path[0].Plus(on.Times(tapRoom)))
	case along > long-tapRoom/2, corner && !inLine:
		back := math.Min(math.Max(legBeside, a.gap), along/2)
		along -= back
		path = beginning(path, path[0].Minus(in.Times(back)))
	}
	return fit.Anchor{Run: r.ID, Along: new(unit.Length(along))}, path, r, nil
}

// shapes says whether what is at a point is shaped by the lines that meet there.
func (a *artist) shapes(ix *job.Index, point job.ID) bool {
	k, _ := a.shelf.Kind(ix.Point(point).Part.Kind)
	return k.Group == catalog.Fitting && !k.Has(catalog.Unions) || len(k.Ports) == 0
}

// beginning lets a path begin a step aside: its first leg is moved along, and led back
// where that turns it by more than a line follows.
func beginning(path []geom.Point, from geom.Point) []geom.Point {
	by := from.Minus(path[0])
	if by.Length() < merge/2 {
		return path
	}
	if geom.Angle(path[1].Minus(from), path[1].Minus(path[0])) < straight/2 {
		return append([]geom.Point{from}, path[1:]...)
	}
	rest := path[1:]
	if len(path) > 2 {
		if turn := geom.Angle(path[2].Minus(path[1]), by); turn < straight || turn > math.Pi-straight {
			rest = path[2:] // the second leg takes the step up
		}
	}
	return tidied(append([]geom.Point{from, path[1].Plus(by)}, rest...))
}

// around is how a way comes to a place on it and how it goes on; corner where these differ.
func around(way []geom.Point, along float64) (in, on geom.Point, corner bool) {
	before, _, _ := geom.OnPath(way, along-0.02)
	at, _, _ := geom.OnPath(way, along)
	after, _, _ := geom.OnPath(way, along+0.02)
	in, on = at.Minus(before).Unit(), after.Minus(at).Unit()
	return in, on, geom.Angle(in, on) > straight
}

// runAt is the run that passes a place, of those that lines may begin on.
func (a *artist) runAt(ix *job.Index, p geom.Point) (*job.Run, geom.Hit, bool) {
	var best *job.Run
	var hit geom.Hit
	off := aside
	for i := range a.job.Net.Runs {
		r := &a.job.Net.Runs[i]
		if r.Role == "drip" || r.Role == "drop" && a.drawn[r.ID] || a.plant[r.ID] {
			continue
		}
		if h, ok := geom.NearestOnPath(p, ix.Centreline(r)); ok && h.Distance < off {
			best, hit, off = r, h, h.Distance
		}
	}
	return best, hit, best != nil
}
