package fit_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dropleg/engine/document"
	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// shop is a job to which gestures are made one after the other.
type shop struct {
	t   testing.TB
	job *job.Job
}

func emptyShop(t testing.TB) *shop {
	return &shop{t, &job.Job{Version: job.Version, Title: "Nobody's shop", Net: job.Net{Points: []job.Point{}, Runs: []job.Run{}}}}
}

// try makes a gesture, and holds what is true of every one: the job stays valid,
// the inverse gives it back, the edit lives through its JSON.
func (s *shop) try(gesture string) ([]job.ID, error) {
	s.t.Helper()
	g, found := fit.Parse([]byte(gesture))
	if found != nil {
		s.t.Fatalf("%s: %v", gesture, found)
	}
	e, made, err := g.Edit(job.NewIndex(s.job), catalog.Builtin())
	if err != nil {
		var r *job.Refusal
		if !errors.As(err, &r) || len(r.Findings) == 0 || r.Findings[0].Title == "" {
			s.t.Fatalf("%s: refused without words: %v", gesture, err)
		}
		return nil, err
	}
	holdEdit(s.t, s.job, e)
	after, _, err := e.Apply(s.job)
	if err != nil {
		s.t.Fatalf("%s: %v", gesture, err)
	}
	for _, id := range made {
		if !job.NewIndex(after).Has(id) {
			s.t.Fatalf("%s: says it makes %s, which is not there", gesture, id)
		}
	}
	s.job = after
	return made, nil
}

// holdEdit holds that an edit leaves a valid job and can be undone.
func holdEdit(t interface {
	Helper()
	Fatalf(string, ...any)
}, before *job.Job, e job.Edit,
) {
	t.Helper()
	raw, err := json.Marshal(e.Form())
	if err != nil {
		t.Fatalf("writing the edit: %v", err)
	}
	read, found := job.ParseEditJSON(raw)
	if found != nil {
		t.Fatalf("reading the edit back: %v", found)
	}
	after, inverse, err := read.Apply(before)
	if err != nil {
		t.Fatalf("%s: %v", e.Words(before), err)
	}
	for _, f := range job.Validate(after, catalog.Builtin()) {
		if f.Severity == job.Fault {
			t.Fatalf("%s leaves the job unusable: %s", e.Words(before), f.Title)
		}
	}
	back, _, err := inverse.Apply(after)
	if err != nil {
		t.Fatalf("undoing %s: %v", e.Words(before), err)
	}
	was, err1 := before.Encode()
	is, err2 := back.Encode()
	if err1 != nil || err2 != nil || !bytes.Equal(was, is) {
		t.Fatalf("undoing %s: %v %v %s", e.Words(before), err1, err2, cmp.Diff(before, back))
	}
}

func (s *shop) do(gesture string) []job.ID {
	s.t.Helper()
	made, err := s.try(gesture)
	if err != nil {
		s.t.Fatalf("%s: %v", gesture, err)
	}
	return made
}

// refused makes a gesture that is to be refused, and looks for words in the reason.
func (s *shop) refused(gesture string, words ...string) {
	s.t.Helper()
	_, err := s.try(gesture)
	if err == nil {
		s.t.Fatalf("%s: done, and should be refused", gesture)
	}
	for _, w := range words {
		if !strings.Contains(err.Error(), w) {
			s.t.Fatalf("%s: refused with %q, which does not say %q", gesture, err, w)
		}
	}
}

func (s *shop) wall(id job.ID) *job.Wall {
	s.t.Helper()
	w := job.NewIndex(s.job).Wall(id)
	if w == nil {
		s.t.Fatalf("no wall %s", id)
	}
	return w
}

func (s *shop) room(id job.ID) *job.Room {
	s.t.Helper()
	r := job.NewIndex(s.job).Room(id)
	if r == nil {
		s.t.Fatalf("no room %s", id)
	}
	return r
}

const hall = `{"do":"room","name":"Hall","corner_m":[0,0],"size_m":[12,9],"ceiling_m":4,"climate":"heated","winter_C":16,
	"walls":{"thickness_m":0.2,"made_of":"brick"}}`

func TestRoomWallsRunLeftToRightFromInside(t *testing.T) {
	s := emptyShop(t)
	made := s.do(hall)
	want := []job.ID{"room.hall", "wall.south", "wall.east", "wall.north", "wall.west", "zone.hall"}
	if d := cmp.Diff(want, made); d != "" {
		t.Fatal(d)
	}
	for _, id := range want[1:5] {
		w := s.wall(id)
		middle := w.Frame().Out(w.Frame().Length()/2, 1, 0.5)
		if r := job.NewIndex(s.job).RoomAt(middle); r == nil || r.ID != "room.hall" {
			t.Errorf("%s: the room does not lie off its face", id)
		}
		if !w.Outside || w.Height != 4 {
			t.Errorf("%s: %+v", id, w)
		}
	}
	if z := s.room("room.hall").Zone; z != "zone.hall" {
		t.Errorf("zone %q", z)
	}
}

func TestNeighboursShareOneWall(t *testing.T) {
	for _, c := range []struct {
		name, gesture string
		outline       []geom.Flat
		walls         []job.ID // made
	}{
		{
			"typed: the size is kept and the room moves", `{"do":"room","name":"Spray","corner_m":[12,5],"size_m":[5,4],"ceiling_m":3.4,"climate":"heated","walls":{"thickness_m":0.1}}`,
			[]geom.Flat{{12.2, 5}, {17.2, 5}, {17.2, 9}, {12.2, 9}},
			[]job.ID{"wall.spray-south", "wall.spray-east", "wall.spray-north"},
		},
		{
			"drawn: the side is set back", `{"do":"room","name":"Spray","outline_m":[[12,5],[17,5],[17,9],[12,9]],"ceiling_m":3.4,"walls":{"thickness_m":0.1}}`,
			[]geom.Flat{{12.2, 5}, {17, 5}, {17, 9}, {12.2, 9}},
			[]job.ID{"wall.spray-south", "wall.spray-east", "wall.spray-north"},
		},
		{
			"drawn on the far face, clockwise", `{"do":"room","name":"Spray","outline_m":[[12.2,5],[12.2,9],[17,9],[17,5]],"ceiling_m":3.4,"walls":{"thickness_m":0.1}}`,
			[]geom.Flat{{12.2, 5}, {17, 5}, {17, 9}, {12.2, 9}},
			[]job.ID{"wall.spray-south", "wall.spray-east", "wall.spray-north"},
		},
		{
			"a booth in a corner takes both walls", `{"do":"room","name":"Booth","corner_m":[9,6],"size_m":[3,3],"ceiling_m":2.5,"walls":{"thickness_m":0.05}}`,
			[]geom.Flat{{9, 6}, {12, 6}, {12, 9}, {9, 9}},
			[]job.ID{"wall.booth-south", "wall.booth-west"},
		},
		{
			"longer than the neighbour's wall: the rest gets a wall", `{"do":"room","name":"Long","outline_m":[[12,0],[15,0],[15,14],[12,14]],"ceiling_m":3,"walls":{"thickness_m":0.2}}`,
			[]geom.Flat{{12.2, 0}, {15, 0}, {15, 14}, {12.2, 14}},
			[]job.ID{"wall.long-south", "wall.long-east", "wall.long-north", "wall.long-west"},
		},
		{
			"no walls wanted", `{"do":"room","name":"Yard","corner_m":[0,-5],"size_m":[12,4],"ceiling_m":3,"walls":null}`,
			[]geom.Flat{{0, -5}, {12, -5}, {12, -1}, {0, -1}},
			nil,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := emptyShop(t)
			s.do(hall)
			made := s.do(c.gesture)
			if d := cmp.Diff(c.outline, s.room(made[0]).Outline); d != "" {
				t.Error(d)
			}
			var walls []job.ID
			for _, id := range made {
				if id.Word() == "wall" {
					walls = append(walls, id)
				}
			}
			if d := cmp.Diff(c.walls, walls); d != "" {
				t.Error(d)
			}
		})
	}
}

func TestAWallWithARoomBehindIsNoOutsideWall(t *testing.T) {
	s := emptyShop(t)
	s.do(hall)
	s.do(`{"do":"room","name":"Store","corner_m":[12,0],"size_m":[5,9],"ceiling_m":3,"climate":"unheated","walls":{"thickness_m":0.1}}`)
	if s.wall("wall.east").Outside {
		t.Error("the wall between hall and store is still outside")
	}
	if !s.wall("wall.north").Outside || !s.wall("wall.store-east").Outside {
		t.Error("a wall to the open is not outside")
	}
}

func TestStretchTakesAllAlong(t *testing.T) {
	s := emptyShop(t)
	s.do(hall)
	s.do(`{"do":"room","name":"Spray","corner_m":[12,5],"size_m":[5,4],"ceiling_m":3.4,"walls":{"thickness_m":0.1}}`)
	s.do(`{"do":"opening","wall":"wall.north","kind":"window","name":"Near","along_m":1,"width_m":2,"sill_m":1,"height_m":1}`)
	s.do(`{"do":"opening","wall":"wall.north","kind":"window","name":"Far","along_m":9,"width_m":2,"sill_m":1,"height_m":1}`)
	s.do(`{"do":"opening","wall":"wall.east","kind":"door","name":"Spray door","along_m":1,"width_m":1,"height_m":2}`)
	s.do(`{"do":"obstacle","kind":"bench","name":"Bench","at_m":[11.6,2],"size_m":[0.8,2],"top_m":0.9}`)
	s.do(`{"do":"obstacle","kind":"lift","name":"Lift","at_m":[6,4],"size_m":[3,4],"top_m":2}`)
	add(s, &job.Point{ID: "point.on", On: &job.OnWall{Wall: "wall.east", Along: 3, Up: 2, Off: 0.05}})
	add(s, &job.Point{ID: "point.south", On: &job.OnWall{Wall: "wall.south", Along: 8, Up: 2, Off: 0.05}})
	add(s, &job.Point{ID: "point.hug", At: &geom.Point{11.94, 4, 2}})
	add(s, &job.Point{ID: "point.free", At: &geom.Point{6, 4, 3}})
	add(s, &job.Run{
		ID: "line.a", From: job.End{Point: "point.free"}, To: job.End{Point: "point.hug"}, Stock: "copper-l", Size: "1/2", Role: "main",
		Path: []geom.Point{{6, 4, 2}, {11.94, 4, 3}},
	})
	before := s.job
	s.do(`{"do":"stretch","room":"room.hall","side":0,"length_m":13}`)

	if d := cmp.Diff([]geom.Flat{{0, 0}, {13, 0}, {13, 9}, {0, 9}}, s.room("room.hall").Outline); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]geom.Flat{{13.2, 5}, {17.2, 5}, {17.2, 9}, {13.2, 9}}, s.room("room.spray").Outline); d != "" {
		t.Error("the neighbour does not follow:", d)
	}
	ends := map[job.ID][2]geom.Flat{
		"wall.east": {{13, 9}, {13, 0}}, "wall.south": {{13, 0}, {0, 0}}, "wall.north": {{0, 9}, {13, 9}}, "wall.west": {{0, 0}, {0, 9}},
		"wall.spray-north": {{13.2, 9}, {17.2, 9}}, "wall.spray-south": {{17.2, 5}, {13.2, 5}}, "wall.spray-east": {{17.2, 9}, {17.2, 5}},
	}
	for id, want := range ends {
		if w := s.wall(id); w.From != want[0] || w.To != want[1] {
			t.Errorf("%s runs from %v to %v, want %v", id, w.From, w.To, want)
		}
	}
	ix := job.NewIndex(s.job)
	along := map[job.ID]float64{"opening.near": 1, "opening.far": 10, "opening.spray-door": 1}
	for id, want := range along {
		if got := float64(ix.Opening(id).Along); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s at %g, want %g", id, got, want)
		}
	}
	if got := ix.Obstacle("obstacle.bench").Outline[1][0]; got != 13 {
		t.Errorf("the bench at the wall stays behind: %g", got)
	}
	if d := cmp.Diff(job.NewIndex(before).Obstacle("obstacle.lift"), ix.Obstacle("obstacle.lift")); d != "" {
		t.Error(d)
	}
	places := map[job.ID]geom.Point{"point.on": {12.95, 6, 2}, "point.south": {4, 0.05, 2}, "point.hug": {12.94, 4, 2}, "point.free": {6, 4, 3}}
	for id, want := range places {
		if got, _ := ix.Where(ix.Point(id)); got.Distance(want) > 1e-9 {
			t.Errorf("%s at %v, want %v", id, got, want)
		}
	}
	if d := cmp.Diff([]geom.Point{{6, 4, 2}, {12.94, 4, 3}}, ix.Run("line.a").Path); d != "" {
		t.Error(d)
	}

	s.do(`{"do":"stretch","room":"room.hall","side":0,"length_m":12}`)
	if d := cmp.Diff(before, s.job); d != "" {
		t.Error("back again:", d)
	}
}

func add(s *shop, thing any) {
	s.t.Helper()
	after, _, err := job.AddOf(thing).Apply(s.job)
	if err != nil {
		s.t.Fatal(err)
	}
	s.job = after
}

func TestStretchOfAnLShape(t *testing.T) {
	s := emptyShop(t)
	s.do(`{"do":"room","name":"L","outline_m":[[0,0],[8,0],[8,4],[4,4],[4,7],[0,7]],"ceiling_m":3,"walls":{"thickness_m":0.2}}`)
	called := map[string]bool{}
	for _, w := range s.job.Building.Walls {
		if called[w.Name] {
			t.Errorf("two walls are called %q", w.Name)
		}
		called[w.Name] = true
	}
	if !called["East wall"] || !called["East wall 2"] {
		t.Errorf("%v", called)
	}
	s.do(`{"do":"stretch","room":"room.l","side":2,"length_m":5}`) // from [8,4] to [4,4]: the wall at its end moves west
	if d := cmp.Diff([]geom.Flat{{0, 0}, {8, 0}, {8, 4}, {3, 4}, {3, 7}, {0, 7}}, s.room("room.l").Outline); d != "" {
		t.Error(d)
	}
	s.do(`{"do":"stretch","room":"room.l","side":2,"length_m":6,"hold":"to"}`)
	if d := cmp.Diff([]geom.Flat{{0, 0}, {9, 0}, {9, 4}, {3, 4}, {3, 7}, {0, 7}}, s.room("room.l").Outline); d != "" {
		t.Error(d)
	}
	s.refused(`{"do":"stretch","room":"room.l","side":2,"length_m":9.5}`, "too short", "the longest that fits is 8.9 m")
	s.refused(`{"do":"stretch","room":"room.l","side":7,"length_m":9.5}`, "sides 0 to 5")
}

func TestStretchOfASkewRoomKeepsDirections(t *testing.T) {
	s := emptyShop(t)
	s.do(`{"do":"room","name":"Skew","outline_m":[[0,0],[10,0],[8,6],[0,6]],"ceiling_m":3,"walls":{"thickness_m":0.2}}`)
	s.do(`{"do":"stretch","room":"room.skew","side":3,"length_m":3,"hold":"to"}`) // the west side; the north wall comes down
	if d := cmp.Diff([]geom.Flat{{0, 0}, {10, 0}, {9, 3}, {0, 3}}, s.room("room.skew").Outline); d != "" {
		t.Error(d)
	}
	if w := s.wall("wall.east"); w.From != (geom.Flat{9, 3}) || w.To != (geom.Flat{10, 0}) {
		t.Errorf("%+v", w)
	}
	if w := s.wall("wall.north"); w.From != (geom.Flat{0, 3}) || w.To != (geom.Flat{9, 3}) {
		t.Errorf("%+v", w)
	}
}

func TestStretchOfAWall(t *testing.T) {
	s := emptyShop(t)
	s.do(hall)
	s.do(`{"do":"stretch","wall":"wall.north","length_m":11}`)
	if d := cmp.Diff([]geom.Flat{{0, 0}, {11, 0}, {11, 9}, {0, 9}}, s.room("room.hall").Outline); d != "" {
		t.Error(d)
	}
	s.do(`{"do":"wall","name":"Screen","from_m":[3,3],"to_m":[3,6],"height_m":2,"thickness_m":0.1,"made_of":"sheet"}`)
	s.do(`{"do":"opening","wall":"wall.screen","kind":"gap","along_m":0.2,"width_m":1,"height_m":2}`)
	s.do(`{"do":"stretch","wall":"wall.screen","length_m":2}`)
	if w := s.wall("wall.screen"); w.To != (geom.Flat{3, 5}) {
		t.Errorf("%+v", w)
	}
	s.refused(`{"do":"stretch","wall":"wall.screen","length_m":0.5}`, "the shortest that fits is 1.2 m")
}

func TestBuildingRefusalsInPeoplesWords(t *testing.T) {
	s := emptyShop(t)
	s.do(hall)
	s.do(`{"do":"opening","wall":"wall.north","kind":"gate","name":"Gate","along_m":4,"width_m":4,"height_m":3.5}`)
	for gesture, words := range map[string][]string{
		`{"do":"room","name":"x","outline_m":[[0,0],[4,4],[4,0],[0,4]],"ceiling_m":3}`:                         {"crosses", "in order round"},
		`{"do":"room","name":"x","outline_m":[[0,0],[4,0]],"ceiling_m":3}`:                                     {"2 corners", "at least three"},
		`{"do":"room","name":"x","outline_m":[[0,0],[4,0],[8,0]],"ceiling_m":3}`:                               {"one line"},
		`{"do":"room","name":"x","corner_m":[0,0],"size_m":[4,0],"ceiling_m":3}`:                               {"no area"},
		`{"do":"room","name":"x","corner_m":[20,0],"size_m":[4,4],"ceiling_m":0}`:                              {"not above the floor", "3 m"},
		`{"do":"room","name":"x","corner_m":[20,0],"size_m":[4,4],"ceiling_m":3,"zone":"zone.hal"}`:            {"no zone zone.hal", "zone.hall"},
		`{"do":"room","name":"x","corner_m":[20,0],"size_m":[4,4],"ceiling_m":3,"winter_C":4}`:                 {"heated, unheated or outside"},
		`{"do":"wall","from_m":[1,1],"to_m":[1,1],"height_m":3,"thickness_m":0.1}`:                             {"one place"},
		`{"do":"wall","from_m":[0,0],"to_m":[0,9],"height_m":3,"thickness_m":0.1}`:                             {"a wall already"},
		`{"do":"opening","wall":"wall.nort","kind":"door","along_m":1,"width_m":1,"height_m":2}`:               {"no wall wall.nort", "wall.north"},
		`{"do":"opening","wall":"wall.north","kind":"door","along_m":11.5,"width_m":1,"height_m":2}`:           {"end at 12.5 m", "12 m long", "begins at 11 m"},
		`{"do":"opening","wall":"wall.north","kind":"door","along_m":3.5,"width_m":1,"height_m":2}`:            {"would overlap \"Gate\"", "begins at 3 m"},
		`{"do":"opening","wall":"wall.north","kind":"door","along_m":0,"width_m":5,"height_m":2}`:              {"wide enough for 5 m"},
		`{"do":"opening","wall":"wall.north","kind":"door","along_m":0,"width_m":1,"sill_m":1,"height_m":3.5}`: {"greatest height over this sill is 3 m"},
		`{"do":"obstacle","kind":"post","at_m":[3,3],"size_m":[0.2,0.2],"top_m":0}`:                            {"not above the foot"},
		`{"do":"zone","name":"Cold","climate":"unheated","rooms":["room.hal"]}`:                                {"no room room.hal", "room.hall"},
		`{"do":"put","what":"tol","thing":{"name":"x"}}`:                                                       {"tool"},
		`{"do":"put","what":"tool","thing":{"id":"tool.x","name":"x"}}`:                                        {"leave id out"},
		`{"do":"put","what":"tool","thing":[1]}`:                                                               {"without id"},
		`{"do":"underlay","file":"plan.png","marks_px":[[1,1],[1,1]],"length_m":4}`:                            {"one place of the picture"},
		`{"do":"underlay","file":"plan.png","marks_px":[[1,1],[9,1]]}`:                                         {"one of length_m and at_m"},
		`{"do":"stretch","room":"room.hall","side":0,"length_m":3}`:                                            {"beyond the end", "the shortest that fits is 8 m"},
		`{"do":"stretch","room":"room.hal","side":0,"length_m":3}`:                                             {"room.hall"},
		`{"do":"stretch","length_m":3}`:                                                                        {"room with side, or wall"},
	} {
		s.refused(gesture, words...)
	}
}

func TestZonePutUnderlay(t *testing.T) {
	s := emptyShop(t)
	s.do(hall)
	if made := s.do(`{"do":"zone","name":"Cold end","climate":"unheated","winter_C":-5,"rooms":["room.hall"]}`); made[0] != "zone.cold-end" || s.room("room.hall").Zone != "zone.cold-end" {
		t.Error(made)
	}
	if made := s.do(`{"do":"put","what":"tool","thing":{"name":"Die grinder, 6 mm","item":"die-grinder"}}`); made[0] != "tool.die-grinder-6-mm" {
		t.Error(made)
	}
	if made := s.do(`{"do":"put","what":"tool","thing":{"name":"Die grinder, 6 mm"}}`); made[0] != "tool.die-grinder-6-mm-2" {
		t.Error(made)
	}
	// 100 px are 5 m; the second mark lies to the right and below.
	s.do(`{"do":"underlay","file":"plan.png","marks_px":[[10,20],[70,100]],"length_m":5}`)
	if u := s.job.Building.Underlay; u.At != [2]geom.Flat{{0, 0}, {3, -4}} {
		t.Errorf("%+v", u)
	}
	s.do(`{"do":"underlay","file":"plan.png","marks_px":[[10,20],[70,100]],"at_m":[[1,1],[5,4]]}`)
	// Other marks of the same picture: it stays where it lies, and as it is turned.
	s.do(`{"do":"underlay","file":"plan.png","marks_px":[[70,100],[10,20]],"length_m":10}`)
	if u := s.job.Building.Underlay; u.At[0].Distance(geom.Flat{5, 4}) > 1e-6 || u.At[1].Distance(geom.Flat{-3, -2}) > 1e-6 {
		t.Errorf("%+v", u)
	}
}

func TestBuildingGesturesCanBeWritten(t *testing.T) {
	for _, g := range []any{fit.Room{}, fit.Wall{}, fit.Opening{}, fit.Obstacle{}, fit.Stretch{}, fit.Zone{}, fit.Put{}, fit.Underlay{}} {
		if err := document.CheckTypes(reflect.TypeOf(g)); err != nil {
			t.Error(err)
		}
	}
}

func TestInsetKeepsItsDistance(t *testing.T) {
	got := fit.Inset([]geom.Flat{{0, 0}, {8, 0}, {8, 4}, {4, 4}, {4, 7}, {0, 7}}, 0.1)
	want := []geom.Flat{{0.1, 0.1}, {7.9, 0.1}, {7.9, 3.9}, {3.9, 3.9}, {3.9, 6.9}, {0.1, 6.9}}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

// In a shop in feet the history tells feet, as a tape has them.
func TestHistoryInFeet(t *testing.T) {
	for units, want := range map[string]string{"us": "3 ft 3-3/8 in", "metric": "1 m", "": "1 m"} {
		s := emptyShop(t)
		s.job.Site.Units = units
		g, bad := fit.Parse([]byte(`{"do":"room","name":"A","corner_m":[0,0],"size_m":[1,1],"ceiling_m":3}`))
		if len(bad) > 0 {
			t.Fatal(bad)
		}
		e, _, err := g.Edit(s.ix(), catalog.Builtin())
		if err != nil {
			t.Fatal(err)
		}
		if got := e.Words(s.job); !strings.Contains(got, want+" by "+want) {
			t.Errorf("%q: %q, want %q in it", units, got, want)
		}
	}
}
