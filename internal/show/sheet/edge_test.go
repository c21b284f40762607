package sheet_test

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"

	"dropleg/internal/show/scene"
	"dropleg/internal/show/screen"
	"dropleg/internal/show/sheet"
)

// made is a job from its text.
func made(t *testing.T, raw, paper string, names ...string) (*sheet.Maker, []sheet.Made) {
	t.Helper()
	m := maker(t, parsed(t, []byte(raw)), paper)
	all, err := m.Make(context.Background(), names)
	if err != nil {
		t.Fatal(err)
	}
	return m, all
}

// texts are all texts on the leaves of a sheet.
func texts(leaves []scene.Leaf) string {
	var b strings.Builder
	for i := range leaves {
		for k := range leaves[i].Laid {
			for _, l := range leaves[i].Laid[k].Scene.Layers {
				for _, it := range l.Items {
					if it.Text != nil {
						b.WriteString(it.Text.Text + "\n")
					}
				}
			}
		}
	}
	return b.String()
}

// A job with nothing in it has the sheets that need nothing, and says what the others lack.
func TestNothingDrawn(t *testing.T) {
	m, all := made(t, `{"dropleg": 1, "title": "Nothing yet", "net": {"points": [], "runs": []}}`, "a4")
	there := 0
	for _, one := range all {
		if one.Missing == "" {
			there++
		} else if one.Missing == "nothing" {
			t.Errorf("%s needs nothing and is missing", one.Sheet.Name)
		}
	}
	if there != 2 {
		t.Errorf("%d sheets, want cautions and sources", there)
	}
	if pdf, err := m.PDF(all); err != nil || !bytes.HasPrefix(pdf, []byte("%PDF")) {
		t.Errorf("%v", err)
	}
}

// Lists come without a drawing: a job whose lines state only their lengths.
func TestListsAlone(t *testing.T) {
	raw := `{"dropleg": 1, "title": "By length", "net": {"points": [
		{"id": "point.a", "part": {"kind": ""}}, {"id": "point.b", "part": {"kind": "ball-valve", "size": "1/2"}}], "runs": [
		{"id": "line.a", "from": {"point": "point.a"}, "to": {"point": "point.b", "port": "in"}, "stock": "copper-l", "size": "1/2", "role": "branch", "length_m": 4}]}}`
	m, all := made(t, raw, "a4")
	for _, one := range all {
		if one.Sheet.Name == "shopping" && one.Missing != "" || one.Sheet.Name == "walls" && one.Missing == "" {
			t.Errorf("%s: missing %q", one.Sheet.Name, one.Missing)
		}
	}
	b, err := m.Write(context.Background(), nil)
	if err != nil || len(b.Files) == 0 || len(b.Missing) == 0 {
		t.Fatalf("%v", err)
	}
}

const vastHall = `{"dropleg": 1, "title": "A hall", "site": {"units": "metric"}, "building": {
	"rooms": [{"id": "room.hall", "name": "Hall", "outline_m": [[0,0],[200,0],[200,80],[0,80]], "floor_m": 0, "ceiling_m": 9}],
	"walls": [{"id": "wall.s", "name": "South wall", "from_m": [200,0], "to_m": [0,0], "height_m": 9, "thickness_m": 0.3}]},
	"net": {"points": [{"id": "point.a", "at_m": [1,0.1,5], "part": {"kind": ""}}, {"id": "point.b", "at_m": [199,0.1,4], "part": {"kind": ""}}],
	"runs": [{"id": "line.a", "from": {"point": "point.a"}, "to": {"point": "point.b"}, "stock": "copper-l", "size": "1", "role": "main"}]}}`

// A hall of 200 m on A4: the whole at a scale of the list, then parts with match lines at one to
// work from, no more than a hand can sort, and none of bare floor.
func TestVastHall(t *testing.T) {
	m, all := made(t, vastHall, "a4", "plan")
	leaves := m.Leaves(all[0])
	words := texts(leaves)
	for _, want := range []string{"1:1000", "1:200", "match line, goes on on", "1:198"} {
		if !strings.Contains(words, want) {
			t.Errorf("no %q", want)
		}
	}
	if len(leaves) < 3 || len(leaves) > 31 {
		t.Errorf("%d leaves", len(leaves))
	}
}

// Signs that the type lacks stand as boxes, and the sheet says so.
func TestAnyScript(t *testing.T) {
	m, all := made(t, strings.ReplaceAll(vastHall, `"Hall"`, `"工場 ورشة Цех Ωμέγα"`), "a3", "plan", "cautions")
	words := texts(m.Leaves(all[0]))
	if !strings.Contains(words, "Цех Ωμέγα") {
		t.Error("what can be set is gone")
	}
	if pdf, err := m.PDF(all); err != nil || len(pdf) < 1000 {
		t.Error(err)
	}
	named := maker(t, parsed(t, []byte(strings.ReplaceAll(vastHall, `"A hall"`, `"工場"`))), "a4")
	one, err := named.Make(context.Background(), []string{"cautions"})
	if err != nil {
		t.Fatal(err)
	}
	if got := texts(named.Leaves(one[0])); !strings.Contains(got, "cannot be set here") {
		t.Errorf("no note:\n%s", got)
	}
}

func TestUnknownSheetAndCancelled(t *testing.T) {
	m := maker(t, exampleJob(t, "frame-garage"), "a4")
	var missing *screen.NotThere
	if _, err := m.Make(context.Background(), []string{"plam"}); !errors.As(err, &missing) {
		t.Errorf("got %v", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := m.Write(ctx, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

// The same job and choices give the same bytes, archive and all.
func TestSameBytes(t *testing.T) {
	archive := func() []byte {
		m := maker(t, exampleJob(t, "frame-garage"), "a4")
		b, err := m.Write(context.Background(), []string{"plan", "diagram", "labels", "cuts"})
		if err != nil {
			t.Fatal(err)
		}
		packed, err := m.Zip(b.Files)
		if err != nil {
			t.Fatal(err)
		}
		return packed
	}
	first, second := archive(), archive()
	if !bytes.Equal(first, second) {
		t.Error("they differ")
	}
	r, err := zip.NewReader(bytes.NewReader(first), int64(len(first)))
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]bool{}
	for _, f := range r.File {
		if names[f.Name] {
			t.Errorf("%s twice", f.Name)
		}
		names[f.Name] = true
	}
	for _, want := range []string{"job.json", "job-book.pdf", "plan.pdf", "plan.svg", "plan.dxf", "labels-01.svg", "cut.csv", "lists.xlsx"} {
		if !names[want] {
			t.Errorf("no %s in %v", want, names)
		}
	}
}

// Every sheet says what it is, for whom, and what it needs, and its name is its own.
func TestList(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range sheet.All() {
		if s.Name == "" || s.Title == "" || s.Audience == "" || s.Needs == "" || s.Make == nil || seen[s.Name] {
			t.Errorf("%+v", s)
		}
		seen[s.Name] = true
	}
}
