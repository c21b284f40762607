package shoptest

import (
	"fmt"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Drawn is a hall with walls, rooms, doors and benches, and a ring main of copper
// drawn along its walls, fed from a corner, with as many drops ("outlet.1" on) and
// as many tools, each used at its own outlet and the next. Each drop makes nine or
// ten elements (runs, parts and hoses), so that 6 are a shop of 60 and 107 one of
// 1000.
func Drawn(drops int) *job.Job {
	d := &drawing{size: geom.Flat{16, 10}}
	for d.around() < 1.9*float64(drops) {
		d.size = geom.Flat{d.size[0] + 8, d.size[1] + 5}
	}
	d.job = &job.Job{Version: job.Version, Title: "a drawn hall", Building: d.building()}
	d.plant(drops)
	step := (d.around() - 3) / float64(drops)
	last, port := job.ID("point.inlet"), "run-1"
	corner := 0
	for i := 1; i <= drops; i++ {
		s := 1.5 + (float64(i)-0.5)*step
		wall, along := d.at(s)
		// Not into a corner: the ring's own bend is there.
		along = min(max(along, 0.6), d.long(wall)-0.6)
		if i%10 == 5 {
			valve := d.point("ring-valve", i, wall, along-0.45, ringUp, job.Part{Kind: "ball-valve"})
			d.ring(i, "v", last, port, valve, "in", corner, wall)
			last, port, corner = valve, "out", wall
		}
		tee := d.point("tee", i, wall, along, ringUp, job.Part{Kind: "tee"})
		d.ring(i, "", last, port, tee, "run-1", corner, wall)
		last, port, corner = tee, "run-2", wall
		d.drop(i, drops, tee, wall, along)
	}
	d.ring(drops+1, "", last, port, "point.inlet", "run-2", corner, 4)
	return d.job
}

// ringUp and outletUp are the heights of the ring and of the outlets, m.
const (
	ringUp   = 3.2
	outletUp = 1.2
)

// drawing is a hall while it is drawn.
type drawing struct {
	job  *job.Job
	size geom.Flat
}

func (d *drawing) around() float64 { return 2 * (d.size[0] + d.size[1]) }

// corners are those of the hall, each wall from one to the next as seen from inside.
func (d *drawing) corners() []geom.Flat {
	w, h := d.size[0], d.size[1]
	return []geom.Flat{{0, 0}, {0, h}, {w, h}, {w, 0}, {0, 0}}
}

func (d *drawing) long(wall int) float64 { return d.size[1-wall%2] }

// at is the wall at a way along the walls, and how far along it.
func (d *drawing) at(s float64) (wall int, along float64) {
	for wall = 0; wall < 3 && s > d.long(wall); wall++ {
		s -= d.long(wall)
	}
	return wall, s
}

func (d *drawing) building() job.Building {
	names := [...]string{"west", "north", "east", "south"}
	c := d.corners()
	b := job.Building{
		Zones: []job.Zone{{ID: "zone.hall", Name: "hall", Climate: "heated", Winter: To(unit.Celsius(15)), Summer: To(unit.Celsius(30))}},
		Rooms: []job.Room{{ID: "room.hall", Name: "Hall", Outline: c[:4], Ceiling: 6, Above: "open", Zone: "zone.hall"}},
	}
	for i, name := range names {
		b.Walls = append(b.Walls, job.Wall{ID: job.ID("wall." + name), Name: name + " wall", From: c[i], To: c[i+1], Height: 6, Thickness: 0.25, MadeOf: "block", Outside: true})
		b.Openings = append(b.Openings,
			job.Opening{ID: job.ID("opening.door-" + name), Wall: job.ID("wall." + name), Kind: "door", Along: unit.Length(d.long(i) / 2), Width: 1, Height: 2.1},
			job.Opening{ID: job.ID("opening.window-" + name), Wall: job.ID("wall." + name), Kind: "window", Along: unit.Length(d.long(i) / 4), Width: 2, Sill: 1.6, Height: 1})
	}
	for i := 0; float64(i)*6+5 < d.size[0]; i++ {
		x, y := float64(i)*6+2, d.size[1]/2
		b.Obstacles = append(b.Obstacles, job.Obstacle{
			ID: job.ID(fmt.Sprintf("obstacle.bench-%d", i+1)), Kind: "bench", Name: fmt.Sprintf("bench %d", i+1),
			Outline: []geom.Flat{{x, y - 0.4}, {x + 2, y - 0.4}, {x + 2, y + 0.4}, {x, y + 0.4}}, Top: 0.9,
		})
	}
	return b
}

// plant stands in the corner where the ring begins and ends.
func (d *drawing) plant(drops int) {
	n := Machine()
	n.Points[0].At, n.Points[1].At = &geom.Point{1, 1.5, 0.5}, &geom.Point{2.2, 1.5, 0.5}
	c := n.Points[0].Part.Compressor
	c.FreeAir = &job.Flow{Value: 0.004 * float64(drops), Reference: "iso1217"}
	n.Points = append(n.Points,
		job.Point{ID: "point.filter", At: &geom.Point{3, 1.5, 1}, Part: job.Part{Kind: "particle-filter", Flow: &job.Flow{Value: 0.004 * float64(drops), Reference: "iso1217"}}},
		job.Point{ID: "point.inlet", At: &geom.Point{0.05, 0.05, ringUp}, Part: job.Part{Kind: "tee"}})
	n.Runs = append(n.Runs,
		d.run("line.to-filter", "point.receiver", "out", "point.filter", "in", "1-1/2", "link"),
		d.run("line.riser", "point.filter", "out", "point.inlet", "branch", "1-1/2", "link", geom.Point{3, 0.05, 1}, geom.Point{3, 0.05, ringUp}))
	d.job.Net = n
}

// run is a line of copper between two ports, through the corners given.
func (d *drawing) run(id, from job.ID, out string, to job.ID, in, size, role string, path ...geom.Point) job.Run {
	return job.Run{
		ID: id, From: job.End{Point: from, Port: out}, To: job.End{Point: to, Port: in},
		Stock: "copper-l", Size: size, Role: role, Path: path,
	}
}

// point is a new point on a wall.
func (d *drawing) point(what string, i, wall int, along, up float64, part job.Part) job.ID {
	id := job.ID(fmt.Sprintf("point.%s-%d", what, i))
	d.job.Net.Points = append(d.job.Net.Points, job.Point{
		ID: id, Part: part, On: &job.OnWall{Wall: d.job.Building.Walls[wall].ID, Along: unit.Length(along), Up: unit.Length(up), Off: 0.05},
	})
	return id
}

// ring leads the ring on, through the corners between two walls.
func (d *drawing) ring(i int, suffix string, from job.ID, out string, to job.ID, in string, wall, next int) {
	var path []geom.Point
	c := d.corners()
	for ; wall < next; wall++ {
		q := c[wall+1]
		at := geom.Point{min(max(q[0], 0.05), d.size[0]-0.05), min(max(q[1], 0.05), d.size[1]-0.05), ringUp}
		if wall < 3 {
			path = append(path, at)
		}
	}
	id := job.ID(fmt.Sprintf("line.ring-%d%s", i, suffix))
	d.job.Net.Runs = append(d.job.Net.Runs, d.run(id, from, out, to, in, "1-1/2", "ring", path...))
}

// drop hangs a drop with its valve, outlet, hose and tool.
func (d *drawing) drop(i, drops int, tee job.ID, wall int, along float64) {
	valve := d.point("valve", i, wall, along, 1.8, job.Part{Kind: "ball-valve"})
	elbow := d.point("elbow", i, wall, along, outletUp, job.Part{Kind: "drop-elbow"})
	d.job.Net.Runs = append(d.job.Net.Runs,
		d.run(job.ID(fmt.Sprintf("line.drop-%d", i)), tee, "branch", valve, "in", "1/2", "drop"),
		d.run(job.ID(fmt.Sprintf("line.foot-%d", i)), valve, "out", elbow, "in", "1/2", "drop"))
	hang := []job.Part{{ID: job.ID(fmt.Sprintf("part.valve-%d", i)), Kind: "ball-valve", Size: "1/2"}}
	if i%3 == 0 {
		hang[0] = job.Part{ID: job.ID(fmt.Sprintf("part.regulator-%d", i)), Kind: "filter-regulator", Set: To(unit.GaugePressure(620e3)), Size: "1/2"}
	}
	hang = append(hang, job.Part{ID: job.ID(fmt.Sprintf("part.coupler-%d", i)), Kind: "coupler", Item: "industrial-3/8"})
	tool, next := job.ID(fmt.Sprintf("tool.%d", i)), job.ID(fmt.Sprintf("tool.%d", 1+i%drops))
	o := Outlet(fmt.Sprint(i), hang, "rubber-3/8", "industrial-3/8", 8, tool, next)
	o.Point = elbow
	d.job.Outlets = append(d.job.Outlets, o)
	d.job.Tools = append(d.job.Tools, job.Tool{
		ID: tool, Name: fmt.Sprintf("tool %d", i), Flow: &job.Flow{Value: 0.003 + 0.0001*float64(i%30), Reference: "iso1217"},
		At: To(unit.GaugePressure(600e3)), Least: To(unit.GaugePressure(500e3)), Share: To(unit.Ratio(0.15)),
	})
}

// Elements counts runs, parts and hoses of a job.
func Elements(j *job.Job) int {
	n := len(j.Net.Points) + len(j.Net.Runs)
	for i := range j.Outlets {
		n += len(j.Outlets[i].Hang)
		if j.Outlets[i].Hose != nil {
			n++
		}
	}
	return n
}
