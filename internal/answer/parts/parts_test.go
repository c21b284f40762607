package parts

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

func read(t testing.TB, text []byte) *job.Job {
	t.Helper()
	j, found := job.Parse(text)
	if j == nil {
		t.Fatalf("%+v", found)
	}
	return j
}

// examples are the built-in jobs, read as files.
func examples(t testing.TB) map[string]*job.Job {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "..", "shop", "example", "data", "*.json"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	jobs := map[string]*job.Job{}
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		jobs[filepath.Base(f)] = read(t, text)
	}
	return jobs
}

// TestNothingLeftOut holds the list against the drawing both ways: every run, point,
// hanging part and hose stands in exactly one line, and every line names only things
// that are there.
func TestNothingLeftOut(t *testing.T) {
	for name, j := range examples(t) {
		a := Of(j, catalog.Builtin())
		times := map[string]int{}
		ix := job.NewIndex(j)
		for _, l := range a.Lines {
			for _, from := range l.From {
				times[from]++
				thing, _, _ := strings.Cut(from, "/")
				if !ix.Has(job.ID(thing)) {
					t.Errorf("%s: %s is counted from %s, which is not on the drawing", name, l.Article, from)
				}
			}
		}
		var want []string
		for i := range j.Net.Runs {
			want = append(want, string(j.Net.Runs[i].ID))
		}
		for i := range j.Net.Points {
			want = append(want, string(j.Net.Points[i].ID))
		}
		for i := range j.Outlets {
			o := &j.Outlets[i]
			for n := range o.Hang {
				id := string(o.Hang[n].ID)
				if id == "" {
					id = within(o.ID, "hang", n+1)
				}
				want = append(want, id)
			}
			if h := o.Hose; h != nil {
				want = append(want, string(h.ID))
				if h.Plug != "" {
					want = append(want, string(h.ID)+"/plug")
				}
				if h.Socket != "" {
					want = append(want, string(h.ID)+"/socket")
				}
			}
		}
		for _, id := range want {
			if times[id] != 1 {
				t.Errorf("%s: %s is counted %d times, want once", name, id, times[id])
			}
		}
	}
}

// TestSums: the shares of rooms add up to the line, the metres of all lines to the
// lengths of all runs, and the costs to the sum.
func TestSums(t *testing.T) {
	for name, j := range examples(t) {
		a := Of(j, catalog.Builtin())
		ix := job.NewIndex(j)
		drawn, listed, cost := 0.0, 0.0, 0.0
		for i := range j.Net.Runs {
			long, _ := ix.LengthOf(&j.Net.Runs[i])
			drawn += float64(long)
		}
		for _, l := range a.Lines {
			if l.Cost != nil {
				cost += *l.Cost
			}
			pieces, metres := 0, 0.0
			for _, r := range l.Rooms {
				pieces, metres = pieces+r.Pieces, metres+float64(lengthOf(r.Length))
			}
			if l.Group == Stock {
				listed += float64(*l.Length)
				if math.Abs(metres-float64(*l.Length)) > 1e-3*max(1, metres) {
					t.Errorf("%s: %s: rooms hold %.3f m of %.3f m", name, l.Article, metres, float64(*l.Length))
				}
				continue
			}
			if pieces != l.Pieces {
				t.Errorf("%s: %s: rooms hold %d of %d pieces", name, l.Article, pieces, l.Pieces)
			}
		}
		if math.Abs(drawn-listed) > 1e-6*drawn {
			t.Errorf("%s: %.4f m drawn, %.4f m listed", name, drawn, listed)
		}
		if math.Abs(cost-a.Cost) > 1e-6*max(1, cost) {
			t.Errorf("%s: lines cost %v, the sum is %v", name, cost, a.Cost)
		}
	}
}

func TestSameBytes(t *testing.T) {
	for name, j := range examples(t) {
		if diff := cmp.Diff(Of(j, catalog.Builtin()), Of(j, catalog.Builtin())); diff != "" {
			t.Errorf("%s: two take-offs of one job differ: %s", name, diff)
		}
	}
}

// corners is a stick line with two right angles and one of 45°, a coil line with one
// corner, and two lines that meet at a plain place at a right angle.
const corners = `{"dropleg": 1, "title": "corners", "net": {"points": [
 {"id": "point.a", "at_m": [0, 0, 0], "part": {"kind": "cap"}},
 {"id": "point.b", "at_m": [3, 3, 2], "part": {"kind": "tee", "branch_size": "1/2"}},
 {"id": "point.c", "at_m": [9, 3, 2], "part": {"kind": ""}},
 {"id": "point.d", "at_m": [9, 5, 2], "part": {"kind": "cap"}, "state": "stub"},
 {"id": "point.e", "at_m": [3, 6, 0], "part": {"kind": "drop-elbow"}, "state": "existing"}],
 "runs": [
 {"id": "line.up", "from": {"point": "point.a"}, "to": {"point": "point.b", "port": "run-1"},
  "path_m": [[0, 0, 2], [2, 0, 2], [3, 1, 2]], "stock": "copper-l", "size": "3/4", "role": "main"},
 {"id": "line.on", "from": {"point": "point.b", "port": "run-2"}, "to": {"point": "point.c"}, "stock": "copper-l", "size": "3/4", "role": "main"},
 {"id": "line.end", "from": {"point": "point.c"}, "to": {"point": "point.d"}, "stock": "copper-l", "size": "3/4", "role": "stub", "state": "stub"},
 {"id": "line.drop", "from": {"point": "point.b", "port": "branch"}, "to": {"point": "point.e", "port": "in"},
  "path_m": [[3, 6, 2]], "stock": "pe-al-pe", "size": "1/2", "role": "drop", "state": "existing"}]},
 "prices": {"currency": "EUR", "list": [{"article": "copper-l 3/4", "each": 10, "per": "m"}, {"article": "Elbow-90  3/4", "each": 3}],
  "drawer": [{"article": "copper-l elbow-90 3/4", "number": 1}]}}`

// The expected counts are read off the coordinates above by hand.
func TestCorners(t *testing.T) {
	a := Of(read(t, []byte(corners)), catalog.Builtin())
	find := func(article string, s State) Line {
		for _, l := range a.Lines {
			if l.Article == article && l.State == s {
				return l
			}
		}
		t.Errorf("no line %s, %s", article, s)
		return Line{Length: new(lengthOf(nil))}
	}
	for _, want := range []struct {
		article string
		state   State
		pieces  int
		from    []string
	}{
		{"copper-l elbow-90 3/4", Planned, 2, []string{"line.up/corner-1", "point.c"}},
		{"copper-l elbow-45 3/4", Planned, 2, []string{"line.up/corner-2", "line.up/corner-3"}},
		{"bend pe-al-pe 1/2", Existing, 1, []string{"line.drop/corner-1"}},
		{"copper-l tee 3/4 x 1/2", Planned, 1, []string{"point.b"}},
		{"copper-l cap 3/4", Planned, 1, []string{"point.a"}},
		{"copper-l cap 3/4", Stub, 1, []string{"point.d"}},
		{"pe-al-pe drop-elbow 1/2", Existing, 1, []string{"point.e"}},
	} {
		l := find(want.article, want.state)
		slices.Sort(l.From)
		if l.Pieces != want.pieces || !slices.Equal(l.From, want.from) {
			t.Errorf("%s: %d from %v, want %d from %v", want.article, l.Pieces, l.From, want.pieces, want.from)
		}
	}
	line := find("copper-l 3/4", Planned)
	// 2 up, 2 along, √2 across, 2 on to the tee, 6 from the tee.
	if long := 12 + math.Sqrt2; math.Abs(float64(*line.Length)-long) > 1e-6 {
		t.Errorf("copper-l 3/4: %v m, want %v", *line.Length, long)
	}
	if elbows := find("copper-l elbow-90 3/4", Planned); elbows.Cost == nil || *elbows.Cost != 3 || elbows.Drawer != 1 {
		t.Errorf("elbows: %+v, want one of two from the drawer and the other for 3", elbows)
	}
	if find("copper-l 3/4", Stub).Cost != nil {
		t.Error("what is for later was priced")
	}
}

// A run that states its length has no drawing; one with neither is told as unknown.
func TestNoDrawing(t *testing.T) {
	j := read(t, []byte(`{"dropleg": 1, "title": "none", "net": {"points": [
	 {"id": "point.a", "part": {"kind": "union"}}, {"id": "point.b", "part": {"kind": "union"}}, {"id": "point.c", "part": {"kind": "cap"}}],
	 "runs": [
	 {"id": "line.a", "from": {"point": "point.a"}, "to": {"point": "point.b"}, "stock": "copper-l", "size": "1", "role": "main", "length_m": 7.5},
	 {"id": "line.b", "from": {"point": "point.b"}, "to": {"point": "point.c"}, "stock": "copper-l", "size": "1", "role": "main"}]}}`))
	for _, l := range Of(j, catalog.Builtin()).Lines {
		if l.Group == Stock && (*l.Length != 7.5 || l.Unknown != 1) {
			t.Errorf("%v m and %d unknown, want 7.5 and 1", *l.Length, l.Unknown)
		}
	}
}
