package draw

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
	"dropleg/internal/show/scene/scenetest"
)

// shed is a small shop: a room with a bench, a receiver, a main along two walls
// and two outlets, one of them short.
func shed() Given {
	at := func(x, y, z float64) *geom.Point { return &geom.Point{x, y, z} }
	volume := unit.Volume(0.1)
	j := &job.Job{Title: "shed", Building: job.Building{
		Zones: []job.Zone{{ID: "zone.cold", Climate: "unheated"}},
		Rooms: []job.Room{{ID: "room.shed", Name: "shed", Outline: []geom.Flat{{0, 0}, {6, 0}, {6, 4}, {0, 4}}, Ceiling: 3, Zone: "zone.cold"}},
		Walls: []job.Wall{
			{ID: "wall.n", From: geom.Flat{0, 4}, To: geom.Flat{6, 4}, Height: 3, Thickness: 0.1},
			{ID: "wall.e", From: geom.Flat{6, 4}, To: geom.Flat{6, 0}, Height: 3, Thickness: 0.1},
		},
		Openings:  []job.Opening{{ID: "opening.d", Wall: "wall.e", Kind: "door", Along: 2.5, Width: 0.9, Height: 2}},
		Obstacles: []job.Obstacle{{ID: "obstacle.b", Kind: "bench", Outline: []geom.Flat{{1, 1}, {3, 1}, {3, 1.8}, {1, 1.8}}, Top: 1}},
	}, Net: job.Net{
		Points: []job.Point{
			{ID: "point.r", At: at(0.6, 3, 0.5), Part: job.Part{Kind: "receiver", Volume: &volume}},
			{ID: "point.v", At: at(2, 3.94, 2.5), Part: job.Part{Kind: "ball-valve", Shut: true}},
			{ID: "point.a", At: at(4, 3.94, 2.5), Part: job.Part{Kind: "tee"}},
			{ID: "point.b", At: at(5.94, 2.5, 1.2), Part: job.Part{Kind: "drop-elbow"}},
		},
		Runs: []job.Run{
			{ID: "line.1", From: job.End{Point: "point.r"}, To: job.End{Point: "point.v"}, Path: []geom.Point{{0.6, 3.94, 2.5}}, Stock: "copper-l", Size: "3/4", Role: "main"},
			{ID: "line.2", From: job.End{Point: "point.v"}, To: job.End{Point: "point.a"}, Stock: "copper-l", Size: "3/4", Role: "main"},
			{ID: "line.3", From: job.End{Point: "point.a"}, To: job.End{Point: "point.b"}, Path: []geom.Point{{5.94, 3.94, 2.5}}, Stock: "copper-l", Size: "1/2", Role: "branch"},
		},
	}, Outlets: []job.Outlet{{ID: "outlet.a", Name: "middle", Point: "point.a"}, {ID: "outlet.b", Name: "door", Point: "point.b", Mark: "D"}}}
	five, six := unit.GaugePressure(5e5), unit.GaugePressure(6.4e5)
	return Given{
		Index: job.NewIndex(j), Shelf: catalog.Builtin(), Source: 7e5,
		Ends:  map[job.ID][2]unit.GaugePressure{"line.1": {7e5, 6.9e5}, "line.2": {6.9e5, 6.6e5}, "line.3": {6.6e5, 5.2e5}},
		Dials: map[job.ID]Dial{"outlet.a": {Flowing: &six, Least: 5.5e5}, "outlet.b": {Flowing: &five, Least: 5.5e5, Short: true, InUse: true}},
	}
}

func TestPlanGolden(t *testing.T) {
	view := Plan(shed(), Sheet{Width: 160, Height: 110, Units: unit.Metric})
	var got bytes.Buffer
	if err := scene.WriteSVG(&got, view.Scene, scene.Daylight(), (160-2*margin)/6.0, margin); err != nil {
		t.Fatal(err)
	}
	scenetest.Golden(t, "testdata/shed.svg", got.Bytes())
}

// textBoxes gives the boxes of all texts of a scene in mm.
func textBoxes(s scene.Scene, scale float64) (boxes []box, texts []string) {
	for _, l := range s.Layers {
		for _, it := range l.Items {
			if t := it.Text; t != nil {
				at := scene.Point{t.At[0]*scale + t.Offset[0], t.At[1]*scale + t.Offset[1]}
				boxes = append(boxes, written(t.Text, t.Size, t.Bold, at, t.Anchor).box)
				texts = append(texts, t.Text)
			}
		}
	}
	return boxes, texts
}

// No two texts lie on each other, on a desk's sheet and on a phone's.
func TestTextsKeepClear(t *testing.T) {
	for _, size := range [][2]float64{{260, 170}, {160, 110}, {98, 150}} {
		sheet := Sheet{Width: size[0], Height: size[1], Units: unit.Metric}
		given := shed()
		low, high := extent(given)
		boxes, texts := textBoxes(Plan(given, sheet).Scene, sheet.scaleFor(low, high))
		for i := range boxes {
			for k := range i {
				if o := boxes[i].overlap(boxes[k]); o > 0.5 {
					t.Errorf("%v: %q and %q share %.1f mm²", size, texts[k], texts[i], o)
				}
			}
		}
	}
}

// A line along a wall is drawn off it, stays straight, and keeps its corners square.
func TestLinesStandOffWalls(t *testing.T) {
	given := shed()
	p := &planner{given: given, job: given.Index.Job(), scale: 20}
	p.walls = p.faces()
	course := p.course(given.Index.Job().Net.Runs[2])
	if len(course) != 3 {
		t.Fatalf("course %v", course)
	}
	if math.Abs(course[0][1]-course[1][1]) > 1e-9 || math.Abs(course[1][0]-course[2][0]) > 1e-9 {
		t.Errorf("bent by the walls: %v", course)
	}
	if gap := (4 - course[0][1]) * 20; math.Abs(gap-off) > 1e-6 {
		t.Errorf("stands %.2f mm off the wall, want %v", gap, off)
	}
	if !p.moved {
		t.Error("the drawing does not say that lines were moved")
	}
}

func TestPlanTellsWhatIsShort(t *testing.T) {
	view := Plan(shed(), Sheet{Width: 160, Height: 110, Units: unit.Metric})
	found := map[string]bool{}
	for _, l := range view.Scene.Layers {
		for _, it := range l.Items {
			if it.Text != nil && it.ID == "outlet.b" {
				found[it.Text.Text] = true
			}
		}
	}
	for _, want := range []string{"D", "5.0", "short"} {
		if !found[want] {
			t.Errorf("no %q at the outlet that is short: %v", want, found)
		}
	}
	if len(view.Legend) < 2 || !strings.HasSuffix(view.Legend[0].Words, "bar") {
		t.Errorf("legend %v", view.Legend)
	}
}

// Without a building, places, parts or pressures there is still a drawing.
func TestEmptyPlan(t *testing.T) {
	view := Plan(Given{Index: job.NewIndex(&job.Job{}), Shelf: catalog.Builtin()}, Sheet{})
	text := fmt.Sprint(view.Scene)
	if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
		t.Errorf("not finite: %s", text)
	}
	if view.Legend == nil || view.Notes == nil {
		t.Error("lists that are not there")
	}
}
