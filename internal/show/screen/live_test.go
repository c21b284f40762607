package screen

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"dropleg/engine/geom"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/scene"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// kept is what a browser keeps of pieces: those told, by id.
type kept map[string]Piece

func (k kept) take(l Live) {
	for _, p := range l.Pieces {
		k[p.ID] = p
	}
	for _, id := range l.Gone {
		delete(k, id)
	}
}

// handEdit is an edit as a hand makes them; not each of them fits.
func handEdit(r *rand.Rand, j *job.Job) job.Edit {
	set := func(id job.ID, key, value string) job.Edit {
		return &job.Change{ID: id, Key: key, Value: json.RawMessage(value)}
	}
	point := &j.Net.Points[r.IntN(len(j.Net.Points))]
	run := &j.Net.Runs[r.IntN(len(j.Net.Runs))]
	outlet := &j.Outlets[r.IntN(len(j.Outlets))]
	switch r.IntN(7) {
	case 0:
		return &job.Move{ID: point.ID, By: &geom.Point{r.Float64() - 0.5, r.Float64() - 0.5, 0}}
	case 1:
		return set(run.ID, "size", fmt.Sprintf("%q", j.Net.Runs[r.IntN(len(j.Net.Runs))].Size))
	case 2:
		return set(outlet.ID, "name", fmt.Sprintf(`"bench %d"`, r.IntN(9)))
	case 3:
		return &job.Remove{ID: outlet.ID}
	case 4:
		wall := &j.Building.Walls[r.IntN(len(j.Building.Walls))]
		return &job.Move{ID: wall.ID, By: &geom.Point{r.Float64() - 0.5, r.Float64() - 0.5, 0}}
	case 5:
		return set("", "site.altitude_m", fmt.Sprint(r.IntN(900)))
	}
	near := geom.Point{r.Float64() * 10, r.Float64() * 10, 2}
	return &job.Split{Run: run.ID, Near: &near, Part: &job.Part{Kind: "union"}}
}

// A browser that lays each patch on what it has sees what one sees that begins anew,
// in every view, on every example, after every edit.
func TestPatchesGiveThePageAnew(t *testing.T) {
	for _, name := range []string{"boat-shop", "frame-garage", "ring-main"} {
		for _, sight := range draw.Sights() {
			t.Run(name+" "+sight.Name, func(t *testing.T) {
				raw, _ := example.Read(name)
				j, found := job.Parse(raw)
				if j == nil {
					t.Fatal(found)
				}
				follow(t, j, Window{View: sight.Name, Width: 300, Height: 200})
			})
		}
	}
}

func follow(t *testing.T, j *job.Job, w Window) {
	ctx := t.Context()
	r := rand.New(rand.NewPCG(3, 4))
	s := study.Of(j, catalog.Builtin())
	var page *Page
	var seen scene.Scene
	pieces := kept{}
	small, large := 0, 0
	for n := 0; n < 15; {
		if n > 0 {
			next, err := s.After(handEdit(r, s.Job()))
			var no *job.Refusal
			if errors.As(err, &no) {
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			s = next
		}
		n++
		next, err := On(s, nil).Page(ctx, w)
		if err != nil {
			t.Fatal(err)
		}
		live, err := next.Since(page)
		if err != nil {
			t.Fatal(err)
		}
		if live.Whole {
			seen, pieces = scene.Scene{}, kept{}
		}
		if live.Patch != nil {
			seen = scene.Apply(seen, *live.Patch)
		}
		pieces.take(live)
		if !sameText(t, next.Scene, seen) {
			t.Fatalf("step %d (-anew +patched):\n%s", n, cmp.Diff(next.Scene, seen, cmpopts.EquateEmpty()))
		}
		whole, err := On(s, nil).Pieces()
		if err != nil {
			t.Fatal(err)
		}
		anew := kept{}
		anew.take(Live{Pieces: whole})
		if !sameText(t, anew, pieces) {
			t.Fatalf("step %d, pieces (-anew +patched):\n%s", n, cmp.Diff(anew, pieces))
		}
		if text, err := json.Marshal(live); err != nil {
			t.Fatal(err)
		} else if page == nil {
			large = len(text)
		} else {
			small += len(text)
		}
		page = next
	}
	if small/14 > large {
		t.Errorf("a step takes %d bytes on average, the whole page %d", small/14, large)
	}
}

// sameText compares by what goes over the wire.
func sameText(t *testing.T, a, b any) bool {
	t.Helper()
	x, err1 := json.Marshal(a)
	y, err2 := json.Marshal(b)
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	return bytes.Equal(x, y)
}

// Nothing changed: nothing is told, and the whole is told where another view was.
func TestSinceTheSame(t *testing.T) {
	s := joinery(t)
	w := Window{View: "plan", Width: 260, Height: 170}
	first, err := s.Page(t.Context(), w)
	if err != nil {
		t.Fatal(err)
	}
	again, err := s.Page(t.Context(), w)
	if err != nil {
		t.Fatal(err)
	}
	live, err := again.Since(first)
	if err != nil || live.Patch != nil || len(live.Pieces) > 0 || len(live.Gone) > 0 || live.Whole {
		t.Errorf("nothing changed: %+v %v", live, err)
	}
	if live, err = again.Since(nil); err != nil || !live.Whole || live.Patch == nil || len(live.Pieces) < 20 {
		t.Errorf("the whole: %+v %v", live, err)
	}
	whole(t, "live", live, nil)
	var none *NotThere
	for _, w := range []Window{{View: "none"}, {View: "plan", Room: "room.none"}, {View: "plan", Ask: Ask{Set: "set.none"}}} {
		if _, err := s.Page(t.Context(), w); !errors.As(err, &none) {
			t.Errorf("%+v: %v", w, err)
		}
	}
}

// The page at once after an edit says what the full answer says of the same set, and
// that the set is only supposed to be the worst.
func TestPageIsAsTheFullAnswer(t *testing.T) {
	ctx := t.Context()
	s := joinery(t)
	w := Window{View: "plan", Width: 260, Height: 170}
	if _, err := s.Page(ctx, w); err != nil {
		t.Fatal(err)
	}
	next, err := s.study.After(&job.Change{ID: s.job.Net.Runs[2].ID, Key: "size", Value: json.RawMessage(`"1"`)})
	if err != nil {
		t.Fatal(err)
	}
	page, err := On(next, nil).Page(ctx, w)
	if err != nil || !page.Supposed {
		t.Fatalf("supposed %v: %v", page.Supposed, err)
	}
	fresh := On(study.Of(next.Job(), catalog.Builtin()), nil)
	rows, err := fresh.Outlets(ctx, Ask{Set: page.Set})
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(rows, page.Outlets); d != "" {
		t.Errorf("outlets (-full +page):\n%s", d)
	}
	if !slices.ContainsFunc(rows, func(r OutletRow) bool { return r.State == Short || r.State == Enough }) {
		t.Error("nothing runs: this test shows nothing")
	}
	// Once the questions were asked, the worst set is sure.
	if _, err := next.Flow(ctx); err != nil {
		t.Fatal(err)
	}
	if sure, err := On(next, nil).Page(ctx, w); err != nil || sure.Supposed {
		t.Errorf("still supposed: %v", err)
	}
}

// TestUnderlay: the picture of the floor plan comes to the page as a piece, and goes.
func TestUnderlay(t *testing.T) {
	j := &job.Job{Version: job.Version, Title: "Nobody's shop", Net: job.Net{Points: []job.Point{}, Runs: []job.Run{}}}
	bare := On(study.Of(j, catalog.Builtin()), nil).things()
	with := *j
	with.Building.Underlay = &job.Underlay{File: "floor.png", Marks: [2]geom.Flat{{0, 9}, {9, 9}}, At: [2]geom.Flat{{0, 0}, {4, 0}}}
	laid := On(study.Of(&with, catalog.Builtin()), nil).things()
	pieces, gone, err := changed(bare, laid)
	if err != nil || len(gone) != 0 || len(pieces) != 1 || pieces[0].ID != "underlay" || pieces[0].What != "underlay" ||
		!bytes.Contains(pieces[0].Thing, []byte(`"floor.png"`)) {
		t.Errorf("laid: %v, gone %v, %v", pieces, gone, err)
	}
	if _, gone, err = changed(laid, bare); err != nil || !slices.Equal(gone, []string{"underlay"}) {
		t.Errorf("taken away: gone %v, %v", gone, err)
	}
}
