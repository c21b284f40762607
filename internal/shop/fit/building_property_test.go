package fit_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// length draws a length on the grid of a centimetre, as people type them.
func length(t *rapid.T, low, high float64, label string) float64 {
	return float64(rapid.IntRange(int(low*100), int(high*100)).Draw(t, label)) / 100
}

// buildingGesture draws any gesture on the building of a job.
func buildingGesture(t *rapid.T, j *job.Job) string {
	room, wall := job.ID("room.none"), job.ID("wall.none")
	if n := len(j.Building.Rooms); n > 0 {
		room = j.Building.Rooms[rapid.IntRange(0, n-1).Draw(t, "room")].ID
	}
	if n := len(j.Building.Walls); n > 0 {
		wall = j.Building.Walls[rapid.IntRange(0, n-1).Draw(t, "wall")].ID
	}
	x, y := length(t, -20, 20, "x"), length(t, -20, 20, "y")
	w, d := length(t, -1, 15, "w"), length(t, 0, 15, "d")
	switch rapid.IntRange(0, 7).Draw(t, "gesture") {
	case 0:
		return fmt.Sprintf(`{"do":"room","name":"R","corner_m":[%g,%g],"size_m":[%g,%g],"ceiling_m":%g,"walls":{"thickness_m":0.2}}`, x, y, math.Abs(w), d, length(t, -1, 6, "z"))
	case 1:
		return fmt.Sprintf(`{"do":"room","name":"Q","outline_m":[[%g,%g],[%g,%g],[%g,%g],[%g,%g]],"ceiling_m":3,"walls":{"thickness_m":0.1}}`,
			x, y, x+d, y+length(t, -1, 1, "dy"), x+length(t, -2, 12, "dx"), y+d, x, y+w)
	case 2:
		return fmt.Sprintf(`{"do":"wall","from_m":[%g,%g],"to_m":[%g,%g],"height_m":3,"thickness_m":0.1}`, x, y, x+w, y+d)
	case 3:
		return fmt.Sprintf(`{"do":"opening","wall":%q,"kind":"door","along_m":%g,"width_m":%g,"height_m":2}`, wall, d, math.Abs(w)+0.01)
	case 4:
		return fmt.Sprintf(`{"do":"obstacle","kind":"bench","at_m":[%g,%g],"size_m":[%g,%g],"top_m":0.9}`, x, y, math.Abs(w), d)
	case 5:
		return fmt.Sprintf(`{"do":"stretch","room":%q,"side":%d,"length_m":%g,"hold":%q}`, room, rapid.IntRange(0, 5).Draw(t, "side"), d+0.01, rapid.SampledFrom([]string{"from", "to"}).Draw(t, "hold"))
	case 6:
		return fmt.Sprintf(`{"do":"stretch","wall":%q,"length_m":%g}`, wall, d+0.01)
	}
	return fmt.Sprintf(`{"do":"zone","name":"Z","climate":"unheated","rooms":[%q]}`, room)
}

// Whatever a hand does to a building, the job stays valid and the edit can be
// undone exactly; or it is refused in words.
func TestBuildingGesturesKeepTheJobValid(t *testing.T) {
	start := []*job.Job{emptyShop(t).job}
	for _, name := range []string{"boat-shop", "frame-garage"} {
		raw, _ := example.Read(name)
		j, found := job.Parse(raw)
		if found != nil {
			t.Fatal(found)
		}
		start = append(start, j)
	}
	rapid.Check(t, func(t *rapid.T) {
		j := rapid.SampledFrom(start).Draw(t, "shop")
		for range rapid.IntRange(1, 6).Draw(t, "gestures") {
			text := buildingGesture(t, j)
			g, found := fit.Parse([]byte(text))
			if found != nil {
				t.Fatalf("%s: %v", text, found)
			}
			e, _, err := g.Edit(job.NewIndex(j), catalog.Builtin())
			if err != nil {
				continue
			}
			holdEdit(t, j, e)
			if j, _, err = e.Apply(j); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// A side made longer and then as long as before leaves the job as it was. (The
// other way about, what comes near the wall meanwhile may go back with it.)
func TestStretchAndBackRestores(t *testing.T) {
	raw, _ := example.Read("frame-garage")
	garage, found := job.Parse(raw)
	if found != nil {
		t.Fatal(found)
	}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 3).Draw(t, "side")
		r := &garage.Building.Rooms[0]
		was := r.Outline[n].Distance(r.Outline[(n+1)%4])
		long := was + length(t, 0, 9, "longer")
		hold := rapid.SampledFrom([]string{"from", "to"}).Draw(t, "hold")
		j := garage
		for _, l := range []float64{long, was} {
			e, _, err := (&fit.Stretch{Room: r.ID, Side: &n, Length: unit.Length(l), Hold: hold}).Edit(job.NewIndex(j), catalog.Builtin())
			if err != nil {
				t.Fatal(err)
			}
			if j, _, err = e.Apply(j); err != nil {
				t.Fatal(err)
			}
		}
		if d := cmp.Diff(garage, j); d != "" {
			t.Fatal(d)
		}
	})
}
