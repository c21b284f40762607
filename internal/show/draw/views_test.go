package draw

import (
	"bytes"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
	"dropleg/internal/show/scene/scenetest"

	"pgregory.net/rapid"
)

func TestSightsGolden(t *testing.T) {
	for _, s := range Sights()[1:] {
		sheet := Sheet{Width: 160, Height: 110, Units: unit.Metric}
		view := s.Draw(shed(), sheet, "")
		var got bytes.Buffer
		if err := scene.WriteSVG(&got, view.Scene, scene.Daylight(), sheet.scaleFor(view.Scene.Min, view.Scene.Max), margin); err != nil {
			t.Fatal(err)
		}
		scenetest.Golden(t, "testdata/shed-"+s.Name+".svg", got.Bytes())
	}
}

// places gives, for a layer, the places of its marks by the id of their item.
func marksOf(v View, id string) map[string]scene.Point {
	out := map[string]scene.Point{}
	for _, it := range layer(v.Scene, id) {
		if it.Mark != nil && it.ID != "" {
			out[it.ID] = it.Mark.At
		}
	}
	return out
}

// A place on the drawing of a wall is the place on the wall: the frames give back
// where points on walls stand, also for a wall that is seen from behind.
func TestFramesOfWalls(t *testing.T) {
	given := readings(t, "boat-shop")
	view := Elevation(given, Sheet{Width: 250, Height: 130, Units: unit.Metric}, "room.hall")
	frames := map[job.ID]Frame{}
	for _, f := range view.Frames {
		if f.Kind != FrameWall || f.Flip || f.Room != "room.hall" {
			t.Errorf("frame %+v", f)
		}
		frames[f.Wall] = f
	}
	if len(frames) != 4 {
		t.Fatalf("%d walls", len(frames))
	}
	parts, met := marksOf(view, "parts"), 0
	for _, pt := range given.Index.Job().Net.Points {
		at, drawn := parts[string(pt.ID)]
		if pt.On == nil || !drawn || pt.Part.Kind != "ball-valve" {
			continue
		}
		f := frames[pt.On.Wall]
		// Symbols may slide along their line by some millimetres: 0.8 m here.
		along, up := at[0]-f.Origin[0], at[1]-f.Origin[1]
		if math.Abs(along-float64(pt.On.Along)) > 1e-6 || math.Abs(up-float64(pt.On.Up)) > 0.8 {
			t.Errorf("%s: at %.2f along, %.2f up, want %v, %v", pt.ID, along, up, pt.On.Along, pt.On.Up)
		}
		if at[0] < f.Min[0] || at[0] > f.Max[0] || at[1] < f.Min[1] || at[1] > f.Max[1] {
			t.Errorf("%s: out of its frame", pt.ID)
		}
		met++
	}
	if met < 4 {
		t.Errorf("only %d valves on walls", met)
	}
	view = Elevation(given, Sheet{Width: 250, Height: 130, Units: unit.Metric}, "room.spray")
	for _, f := range view.Frames {
		if f.Wall != "wall.east" {
			continue
		}
		// From the spray room the wall's own along runs to the left: its start, at
		// y = 9, is the room's corner on the right.
		if !f.Flip || math.Abs(f.Origin[0]-f.Max[0]) > 1e-6 || math.Abs(f.Max[0]-f.Min[0]-4) > 1e-6 {
			t.Errorf("frame from behind %+v", f)
		}
		return
	}
	t.Error("the spray room has no west wall")
}

// Lines that go round a corner end at the edge where the panels meet, at one height.
func TestLinesMeetAtPanelEdges(t *testing.T) {
	given := readings(t, "ring-main")
	j := given.Index.Job()
	e := &elevator{planner: &planner{given: given, job: j, scale: 5}, room: given.Index.Room("room.hall")}
	e.panels = panels(j, e.room)
	e.ceiling, e.top = tallest(j, e.room)
	e.find()
	round := map[int]int{}
	for _, c := range e.pieces {
		for _, q := range []geom.Flat{c.way[0], c.way[len(c.way)-1]} {
			if math.Abs(q[0]-e.panels[c.panel].long) < 1e-9 || math.Abs(q[0]) < 1e-9 {
				round[c.panel]++
				if math.Abs(q[1]-3.2) > 1e-9 {
					t.Errorf("panel %d: meets at %.3f m, the ring is at 3.2 m", c.panel, q[1])
				}
			}
		}
	}
	if len(round) != 4 {
		t.Errorf("the ring reaches the edges of %d panels, want 4", len(round))
	}
	for p, n := range round {
		if n != 2 {
			t.Errorf("panel %d is met at %d edges", p, n)
		}
	}
}

// The axes of the isometric view are 30° off the level, at full length.
func TestIsometricAxes(t *testing.T) {
	m := &isometer{eye: geom.Isometric(0)}
	for _, c := range []struct {
		at   geom.Point
		want scene.Point
	}{
		{geom.Point{1, 0, 0}, scene.Point{math.Sqrt(3) / 2, 0.5}},
		{geom.Point{0, 1, 0}, scene.Point{-math.Sqrt(3) / 2, 0.5}},
		{geom.Point{0, 0, 1}, scene.Point{0, 1}},
	} {
		got := m.seen(c.at)
		if math.Abs(got[0]-c.want[0])+math.Abs(got[1]-c.want[1]) > 1e-9 {
			t.Errorf("%v is seen at %v, want %v", c.at, got, c.want)
		}
	}
}

// Diagram and isometric show every line; a diagram's lines are level or upright but
// for their bridges, and no two of its symbols touch.
func TestDiagramShowsEverything(t *testing.T) {
	for _, e := range example.All() {
		given := readings(t, e.Name)
		sheet := Sheet{Width: 250, Height: 130, Units: unit.Metric}
		for _, draw := range []func(Given, Sheet) View{Diagram, Isometric} {
			view := draw(given, sheet)
			seen := map[string]bool{}
			for _, it := range layer(view.Scene, "lines") {
				seen[it.ID] = true
			}
			for _, r := range given.Index.Job().Net.Runs {
				if !seen[string(r.ID)] {
					t.Errorf("%s: %s has no %s", e.Name, view.Scene.Title, r.ID)
				}
			}
			for _, o := range given.Index.Job().Outlets {
				if _, ok := marksOf(view, "outlets")[string(o.ID)]; !ok {
					t.Errorf("%s: %s has no %s", e.Name, view.Scene.Title, o.ID)
				}
			}
		}
		view := Diagram(given, sheet)
		scale := sheet.scaleFor(view.Scene.Min, view.Scene.Max)
		for _, it := range layer(view.Scene, "lines") {
			for k := 1; it.Line != nil && k < len(it.Line.Points); k++ {
				a, b := it.Line.Points[k-1], it.Line.Points[k]
				dx, dy := math.Abs(a[0]-b[0])*scale, math.Abs(a[1]-b[1])*scale
				if min(dx, dy) > 0.01 && max(dx, dy) > 1.2 {
					t.Errorf("%s: %s goes askew by %.2f × %.2f mm", e.Name, it.ID, dx, dy)
				}
			}
		}
		d := takenBy(view.Scene, scale)
		for i := range d.bodies {
			for k := range i {
				if in := d.bodies[i].overlap(d.bodies[k]); in > 0.5 {
					t.Errorf("%s: two symbols share %.1f mm²", e.Name, in)
				}
			}
		}
	}
}

// No two level texts of a view lie on each other.
func TestViewsKeepTextsClear(t *testing.T) {
	for _, e := range example.All() {
		for _, size := range sheets {
			for _, s := range Sights()[1:] {
				sheet := Sheet{Width: size[0], Height: size[1], Units: unit.Metric}
				view := s.Draw(readings(t, e.Name), sheet, "")
				level := view.Scene
				for i := range level.Layers {
					var kept []scene.Item
					for _, it := range level.Layers[i].Items {
						if it.Text != nil && it.Text.Turn == 0 {
							kept = append(kept, it)
						}
					}
					level.Layers[i].Items = kept
				}
				boxes, words := textBoxes(level, sheet.scaleFor(view.Scene.Min, view.Scene.Max))
				for i := range boxes {
					for k := range i {
						if in := boxes[i].overlap(boxes[k]); in > 0.6 {
							t.Errorf("%s %v %s: %q and %q share %.1f mm²", e.Name, size, s.Name, words[k], words[i], in)
						}
					}
				}
			}
		}
	}
}

// Whatever is missing from a job or crossed in it, every view is a drawing: finite,
// the same twice, without a panic.
func TestViewsOfBrokenJobs(t *testing.T) {
	all := example.All()
	rapid.Check(t, func(t *rapid.T) {
		data, _ := example.Read(rapid.SampledFrom(all).Draw(t, "example").Name)
		j, _ := job.Parse(data)
		for range rapid.IntRange(0, 12).Draw(t, "changes") {
			spoil(t, j)
		}
		given := Given{Index: job.NewIndex(j), Shelf: catalog.Builtin(), Ends: map[job.ID][2]unit.GaugePressure{}, Dials: map[job.ID]Dial{}}
		for i, r := range j.Net.Runs {
			if i%3 > 0 {
				given.Ends[r.ID] = [2]unit.GaugePressure{6e5, unit.GaugePressure(6e5 - 3e3*float64(i))}
			}
		}
		sheet := Sheet{Width: rapid.Float64Range(0, 900).Draw(t, "width"), Height: rapid.Float64Range(0, 900).Draw(t, "height"), Units: unit.US}
		room := job.ID(rapid.SampledFrom([]string{"", "room.hall", "room.none"}).Draw(t, "room"))
		for _, s := range append(Sights(), Sight{Name: "thumb", Draw: func(g Given, _ Sheet, _ job.ID) View { return View{Scene: Thumb(g)} }}) {
			view := s.Draw(given, sheet, room)
			if text := fmt.Sprint(deref(view)); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
				t.Fatalf("%s: not finite", s.Name)
			}
			if s.Name == "diagram" {
				missing(t, view, given.Index)
			}
			if !reflect.DeepEqual(view, s.Draw(given, sheet, room)) {
				t.Fatalf("%s: not the same twice", s.Name)
			}
		}
	})
}

// missing looks for runs of the net that a diagram does not show.
func missing(t *rapid.T, v View, ix *job.Index) {
	seen := map[string]bool{}
	for _, it := range layer(v.Scene, "lines") {
		seen[it.ID] = true
	}
	for _, r := range ix.Job().Net.Runs {
		if ix.Point(r.From.Point) != nil && ix.Point(r.To.Point) != nil && r.From.Point != r.To.Point && !seen[string(r.ID)] {
			t.Fatalf("the diagram has no %s", r.ID)
		}
	}
}

// deref writes a view out, for looking through all its figures.
func deref(v View) string {
	var out bytes.Buffer
	_ = scene.WriteSVG(&out, v.Scene, scene.Daylight(), 10, 5) // a buffer takes everything
	return out.String() + fmt.Sprint(v.Frames, v.Scene.Min, v.Scene.Max)
}

// spoil makes one change that no drawing may stumble over.
func spoil(t *rapid.T, j *job.Job) {
	pick := func(n int, name string) int { return rapid.IntRange(0, n-1).Draw(t, name) }
	net, b := &j.Net, &j.Building
	switch what := rapid.IntRange(0, 11).Draw(t, "what"); {
	case what == 0 && len(net.Points) > 0:
		p := &net.Points[pick(len(net.Points), "point")]
		p.At, p.On = nil, nil
	case what == 1 && len(net.Points) > 1:
		i := pick(len(net.Points), "point")
		net.Points = append(net.Points[:i:i], net.Points[i+1:]...)
	case what == 2 && len(net.Runs) > 1:
		i := pick(len(net.Runs), "run")
		net.Runs = append(net.Runs[:i:i], net.Runs[i+1:]...)
	case what == 3 && len(net.Points) > 1:
		a, c := pick(len(net.Points), "from"), pick(len(net.Points), "to")
		role := rapid.SampledFrom([]string{"main", "ring", "drop", "link", "stub"}).Draw(t, "role")
		net.Runs = append(net.Runs, job.Run{ID: job.ID(fmt.Sprint("line.new-", len(net.Runs))), From: job.End{Point: net.Points[a].ID}, To: job.End{Point: net.Points[c].ID}, Stock: "copper-l", Size: "3/4", Role: role})
	case what == 4:
		b.Rooms = nil
	case what == 5:
		b.Walls = b.Walls[:min(len(b.Walls), pick(3, "walls"))]
	case what == 6 && len(b.Rooms) > 0:
		r := &b.Rooms[pick(len(b.Rooms), "room")]
		r.Outline = r.Outline[:pick(len(r.Outline)+1, "corners")]
	case what == 7:
		j.Outlets = nil
	case what == 8 && len(net.Points) > 0 && len(j.Outlets) > 0:
		j.Outlets[pick(len(j.Outlets), "outlet")].Point = net.Points[pick(len(net.Points), "point")].ID
	case what == 9 && len(net.Points) > 1:
		net.Points[pick(len(net.Points), "point")].At = &geom.Point{rapid.Float64Range(-50, 50).Draw(t, "x"), 2, rapid.Float64Range(-3, 9).Draw(t, "z")}
	case what == 10 && len(net.Points) > 0:
		net.Points[pick(len(net.Points), "point")].Part.Kind = rapid.SampledFrom([]string{"", "tee", "compressor", "manifold", "no-such-kind"}).Draw(t, "kind")
	case what == 11 && len(b.Walls) > 0:
		w := &b.Walls[pick(len(b.Walls), "wall")]
		w.To = w.From
	}
}

// A larger sheet of the same proportions shows the same drawing closer, in its place.
func TestViewsKeepTheirExtent(t *testing.T) {
	for _, e := range example.All() {
		for _, s := range Sights() {
			given := readings(t, e.Name)
			far := s.Draw(given, Sheet{Width: 250, Height: 130, Units: unit.Metric}, "")
			near := s.Draw(given, Sheet{Width: 500, Height: 260, Units: unit.Metric}, "")
			if far.Scene.Min != near.Scene.Min || far.Scene.Max != near.Scene.Max {
				t.Errorf("%s %s: %v to %v, closer %v to %v", e.Name, s.Name, far.Scene.Min, far.Scene.Max, near.Scene.Min, near.Scene.Max)
			}
		}
	}
}

// Without anything there is still a drawing that says so.
func TestViewsOfNothing(t *testing.T) {
	for _, s := range Sights() {
		view := s.Draw(Given{Index: job.NewIndex(&job.Job{}), Shelf: catalog.Builtin()}, Sheet{}, "")
		if view.Frames == nil || view.Legend == nil || view.Notes == nil || view.Scene.Layers == nil {
			t.Errorf("%s: lists that are not there", s.Name)
		}
		if s.Name != "plan" && len(view.Notes) == 0 {
			t.Errorf("%s: nothing said", s.Name)
		}
	}
}

func TestThumbIsSmallAndWordless(t *testing.T) {
	for _, n := range []int{3, 60, 400} {
		s := Thumb(largeShop(n))
		var out bytes.Buffer
		if err := scene.WriteSVG(&out, s, scene.Daylight(), 2, 2); err != nil {
			t.Fatal(err)
		}
		if out.Len() > 20_000 {
			t.Errorf("%d outlets: %d bytes", n, out.Len())
		}
		if strings.Contains(out.String(), "<text") {
			t.Errorf("%d outlets: words", n)
		}
		if len(layer(s, "outlets")) == 0 || len(layer(s, "lines")) == 0 || len(layer(s, "building")) < 5 {
			t.Errorf("%d outlets: something is missing", n)
		}
	}
}

func TestThumbOfAMerePictureIsNotBlank(t *testing.T) {
	given := largeShop(0)
	j := given.Index.Job()
	j.Building = job.Building{Underlay: &job.Underlay{File: "floor.png", At: [2]geom.Flat{{0, 0}, {8, 0}}}}
	j.Net = job.Net{}
	given.Index = job.NewIndex(j)
	building := layer(Thumb(given), "building")
	if len(building) != 1 || building[0].Area == nil || building[0].Area.Hatch == "" {
		t.Errorf("drawn: %+v", building)
	}
}

// largeShop is a hall with a ring main and so many outlets, each with four points
// and four runs of its own.
func largeShop(outlets int) Given {
	const deep = 30.0
	wide := max(float64(outlets)*1.1, 10)
	at := func(x, y, z float64) *geom.Point { return &geom.Point{x, y, z} }
	j := &job.Job{Title: "large", Building: job.Building{
		Rooms: []job.Room{{ID: "room.hall", Name: "hall", Outline: []geom.Flat{{0, 0}, {wide, 0}, {wide, deep}, {0, deep}}, Ceiling: 5}},
		Walls: []job.Wall{
			{ID: "wall.n", From: geom.Flat{0, deep}, To: geom.Flat{wide, deep}, Height: 5, Thickness: 0.2},
			{ID: "wall.e", From: geom.Flat{wide, deep}, To: geom.Flat{wide, 0}, Height: 5, Thickness: 0.2},
			{ID: "wall.s", From: geom.Flat{wide, 0}, To: geom.Flat{0, 0}, Height: 5, Thickness: 0.2},
			{ID: "wall.w", From: geom.Flat{0, 0}, To: geom.Flat{0, deep}, Height: 5, Thickness: 0.2},
		},
	}}
	volume := unit.Volume(1)
	given := Given{Shelf: catalog.Builtin(), Source: 7e5, Ends: map[job.ID][2]unit.GaugePressure{}, Dials: map[job.ID]Dial{}}
	run := func(a, b job.ID, role string, path ...geom.Point) {
		id := job.ID(fmt.Sprint("line.", len(j.Net.Runs)))
		j.Net.Runs = append(j.Net.Runs, job.Run{ID: id, From: job.End{Point: a}, To: job.End{Point: b}, Path: path, Stock: "copper-l", Size: "1", Role: role})
		given.Ends[id] = [2]unit.GaugePressure{6.8e5, 6.5e5}
	}
	point := func(id job.ID, kind string, p *geom.Point) {
		j.Net.Points = append(j.Net.Points, job.Point{ID: id, At: p, Part: job.Part{Kind: kind}})
	}
	point("point.compressor", "compressor", at(2, 15, 1))
	point("point.receiver", "receiver", at(4, 15, 1))
	j.Net.Points[1].Part.Volume = &volume
	point("point.feed", "tee", at(0.1, 15, 3))
	run("point.compressor", "point.receiver", "link")
	run("point.receiver", "point.feed", "main", geom.Point{4, 15, 3})
	before := job.ID("point.feed")
	for i := range outlets {
		y, x, half := deep-0.1, (float64(i)+0.5)*2*wide/float64(outlets), i >= (outlets+1)/2
		if half {
			y, x = 0.1, 2*wide-x
		}
		x = min(max(x, 0.3), wide-0.3)
		name := func(what string) job.ID { return job.ID(fmt.Sprint("point.", what, "-", i)) }
		point(name("tee"), "tee", at(x, y, 3))
		point(name("valve"), "ball-valve", at(x, y, 1.6))
		point(name("foot"), "drip-leg", at(x, y, 1.2))
		point(name("drain"), "drain-cock", at(x, y, 1))
		var path []geom.Point
		switch {
		case i == 0:
			path = []geom.Point{{0.1, y, 3}}
		case i == (outlets+1)/2:
			path = []geom.Point{{wide - 0.1, deep - 0.1, 3}, {wide - 0.1, y, 3}}
		}
		run(before, name("tee"), "ring", path...)
		run(name("tee"), name("valve"), "drop")
		run(name("valve"), name("foot"), "drop")
		run(name("foot"), name("drain"), "drip")
		id := job.ID(fmt.Sprint("outlet.", i))
		j.Outlets = append(j.Outlets, job.Outlet{ID: id, Name: "bay " + fmt.Sprint(i), Point: name("foot"), Hang: []job.Part{{Kind: "coupler", Item: "industrial-1/4"}}})
		p := unit.GaugePressure(6.4e5)
		given.Dials[id] = Dial{Flowing: &p, Least: 6e5, Short: i%9 == 1}
		before = name("tee")
	}
	run(before, "point.feed", "ring", geom.Point{0.1, 0.1, 3})
	given.Index = job.NewIndex(j)
	return given
}

func BenchmarkSights(b *testing.B) {
	for _, n := range []int{7, 125} { // 60 and 1,000 points and runs
		given := largeShop(n)
		for _, s := range Sights() {
			b.Run(fmt.Sprint(s.Name, "-", len(given.Index.Job().Net.Points)+len(given.Index.Job().Net.Runs)), func(b *testing.B) {
				for b.Loop() {
					s.Draw(given, Sheet{Width: 250, Height: 130, Units: unit.Metric}, "")
				}
			})
		}
	}
}
