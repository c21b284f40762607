package route

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/check"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

// mazeFor builds the maze of a shop as Propose does.
func mazeFor(t testing.TB, s *shop, w *Wish) *maze {
	t.Helper()
	p, err := penOf(s.study(), w)
	if err != nil {
		t.Fatal(err)
	}
	n := netOf(job.NewIndex(s.job), s.shelf)
	m, err := ready(n, append(n.feet(), stubs(w)...), w, pricesOf(s.job, p))
	if err != nil {
		t.Fatal(titles(err))
	}
	return m
}

// TestAgainstEveryBranching: with three outlets a tree branches at two places at most.
// All pairs of these are tried, with the cheapest ways between all ways of arriving by
// Floyd and Warshall: nothing of the search's own is used but the prices of the maze.
func TestAgainstEveryBranching(t *testing.T) {
	for name, w := range map[string]*Wish{"walls": {}, "ceiling": {Over: []string{Ceiling}}, "beams": {Over: []string{Beams}}} {
		s := ell(t)
		m := mazeFor(t, s, w)
		want := everyBranching(m)
		l, err := layoutOf(context.Background(), s.draft, w, mustPen(t, s, w), nil)
		if err != nil {
			t.Fatal(name, titles(err))
		}
		if l.price != want || l.bound != want {
			t.Errorf("%s: %d, not below %d; every branching gives %d", name, l.price, l.bound, want)
		}
	}
}

func mustPen(t testing.TB, s *shop, w *Wish) pen {
	t.Helper()
	p, err := penOf(s.study(), w)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func everyBranching(m *maze) int64 {
	type arrival struct{ way, node int }
	var all []arrival
	for i, w := range m.ways {
		if w.blocked == nil {
			all = append(all, arrival{i, w.a}, arrival{i, w.b})
		}
	}
	n := len(all)
	const never = int64(1) << 50
	dist := make([][]int64, n)
	for i, a := range all {
		dist[i] = make([]int64, n)
		for k, b := range all {
			dist[i][k] = never
			from := m.ways[b.way].a + m.ways[b.way].b - b.node
			if i == k {
				dist[i][k] = 0
			} else if from == a.node && a.way != b.way {
				dist[i][k] = m.ways[b.way].price + m.turn(a.node, &m.ways[a.way], &m.ways[b.way])
			}
		}
	}
	for k := range n {
		for i := range n {
			if dist[i][k] < never {
				for j := range n {
					dist[i][j] = min(dist[i][j], dist[i][k]+dist[k][j])
				}
			}
		}
	}
	start, ends := slices.Repeat([]int64{never}, n), make([][]int64, len(m.ends))
	for i, a := range all { // from the root to every arrival, and from there to the feet
		if w := m.ways[a.way]; w.a+w.b-a.node == m.root {
			for k := range n {
				start[k] = min(start[k], w.price+dist[i][k])
			}
		}
	}
	for f, end := range m.ends {
		ends[f] = slices.Repeat([]int64{never}, n)
		for k, b := range all {
			for i := range n {
				if b.node == end {
					ends[f][i] = min(ends[f][i], dist[i][k])
				}
			}
		}
	}
	best := never
	for i := range n {
		for k := range n {
			for f := range ends {
				g, h := (f+1)%3, (f+2)%3
				best = min(best, start[i]+ends[f][i]+dist[i][k]+ends[g][k]+ends[h][k])
			}
		}
	}
	return best
}

// TestMoreSurfacesNeverCostMore: what may be used and need not be cannot make it dearer.
func TestMoreSurfacesNeverCostMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := newShop(&testing.T{})
		wide, deep := rapid.Float64Range(4, 15).Draw(t, "wide"), rapid.Float64Range(4, 12).Draw(t, "deep")
		s.room("Shop", rapid.Float64Range(2.6, 6).Draw(t, "high"), geom.Flat{0, 0}, geom.Flat{wide, 0}, geom.Flat{wide, deep}, geom.Flat{0, deep})
		s.obstacle("beam", "beam", 2.5, 2.6, geom.Flat{wide/2 - 0.1, 0.2}, geom.Flat{wide/2 + 0.1, deep - 0.2})
		s.compressor(geom.Point{0.3, deep / 2, 0.9})
		outlets := rapid.IntRange(1, 5).Draw(t, "outlets")
		for k := range outlets {
			x := rapid.Float64Range(0.5, wide/2-0.4).Draw(t, "x") // not right under the beam
			if rapid.Bool().Draw(t, "east") {
				x = wide - x
			}
			p := geom.Point{x, 0.08, 1.1}
			switch rapid.IntRange(0, 2).Draw(t, "where") {
			case 0:
				p[1] = deep - 0.08
			case 1:
				p[1] = rapid.Float64Range(0.7, deep-0.7).Draw(t, "y")
			}
			s.outlet(strings.Repeat("I", k+1), p)
		}
		last := math.Inf(1)
		for _, over := range [][]string{nil, {Ceiling}, {Ceiling, Beams}} {
			w := &Wish{Over: over}
			l, err := layoutOf(context.Background(), s.draft, w, pen{stock: must(s.shelf.Stock("aluminium-metric")), main: "25", drop: "20"}, nil)
			if err != nil {
				t.Fatal(titles(err))
			}
			// Places nearer than a centimetre are one, and another surface may make others one: each
			// outlet, and the plant, is that much off; and ways are counted in pieces.
			p := &l.maze.prices
			off := float64(counted(float64(outlets+1) * merge * max(p.Metre, p.Leg) * 1.4)) // up to 40 % more a metre out of reach
			if float64(l.bound) > last+off+unitsOf/1000 {
				t.Fatalf("with %v: %d, without %v", over, l.bound, last)
			}
			last = float64(l.price)
		}
	})
}

func must(s catalog.Stock, ok bool) catalog.Stock {
	if !ok {
		panic("no such stock")
	}
	return s
}

// TestExamplesLaidAnew: the built-in shops with their lines taken away are laid so that
// the job reads and is valid, every outlet gets air, and nothing is found that was not
// found of the lines that a hand drew, but what is about sizes.
func TestExamplesLaidAnew(t *testing.T) {
	sizes := []string{"velocity", "undersized-main", "thin-hose", "short-of-pressure", "short-in-the-day", "supply-short", "regulator-starved"}
	for _, e := range example.All() {
		t.Run(e.Name, func(t *testing.T) {
			raw, _ := example.Read(e.Name)
			j, _ := job.Parse(raw)
			s := study.Of(j, catalog.Builtin())
			laid, err := Propose(context.Background(), s, Wish{Clear: ClearAll}, nil)
			if err != nil {
				t.Fatal(err, titles(err))
			}
			after, back, err := laid[0].Edit.Apply(j)
			if err != nil {
				t.Fatal(err)
			}
			text, err := after.Encode()
			if err != nil {
				t.Fatal(err)
			}
			again, found := job.Parse(text)
			if again == nil || !job.Usable(job.Validate(again, catalog.Builtin())) {
				t.Fatalf("the job does not read: %v", found)
			}
			if n := netOf(job.NewIndex(after), catalog.Builtin()); len(n.feet()) > 0 {
				t.Errorf("no air at %v", n.feet())
			}
			if was, _, err := back.Apply(after); err != nil || !sameText(t, was, j) {
				t.Errorf("it cannot be taken back: %v", err)
			}
			if !laid[0].Proven {
				t.Errorf("not proven: %+v", laid[0].Figures)
			}
			before := codes(t, j)
			for code, title := range codes(t, after) {
				if _, had := before[code]; !had && !slices.Contains(sizes, code) {
					t.Errorf("%s: %s", code, title)
				}
			}
		})
	}
}

func sameText(t *testing.T, a, b *job.Job) bool {
	t.Helper()
	x, err1 := (&job.Job{Net: a.Net, Outlets: a.Outlets}).Encode()
	y, err2 := (&job.Job{Net: b.Net, Outlets: b.Outlets}).Encode()
	return err1 == nil && err2 == nil && string(x) == string(y)
}

// codes are the findings worse than a note.
func codes(t *testing.T, j *job.Job) map[string]string {
	t.Helper()
	found, err := check.Run(context.Background(), study.Of(j, catalog.Builtin()), unit.Metric)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, f := range found {
		if f.Severity != job.Note {
			out[f.Code] = f.Title
		}
	}
	return out
}

// TestLinesKeepClear: no line of a shop runs through what stands in the way.
func TestLinesKeepClear(t *testing.T) {
	s := ell(t)
	for _, over := range [][]string{nil, {Ceiling}, {Ceiling, Beams}} {
		laid, err := Propose(context.Background(), s.study(), Wish{Over: over}, nil)
		if err != nil {
			t.Fatal(titles(err))
		}
		after, _, err := laid[0].Edit.Apply(s.job)
		if err != nil {
			t.Fatal(err)
		}
		ix := job.NewIndex(after)
		for _, b := range blocks(&after.Building, ix.Wall, 0) {
			b.clear = 0
			for i := range after.Net.Runs {
				way := ix.Centreline(&after.Net.Runs[i])
				for k := 1; k < len(way); k++ {
					if b.hits(way[k-1], way[k]) {
						t.Errorf("%v: %s runs through %s at %v", over, after.Net.Runs[i].ID, b.name, way[k])
					}
				}
			}
		}
	}
}

// TestKept: what is drawn stays and is used: the second outlet gets its leg off the main
// that the first has, and a stub its cap.
func TestKept(t *testing.T) {
	s := newShop(t)
	s.room("Shop", 3, geom.Flat{0, 0}, geom.Flat{8, 0}, geom.Flat{8, 5}, geom.Flat{0, 5})
	s.compressor(geom.Point{0.3, 0.3, 0.9})
	s.outlet("Far", geom.Point{7.92, 3, 1.1})
	lay := func(w Wish) Proposal {
		laid, err := Propose(context.Background(), s.study(), w, nil)
		if err != nil {
			t.Fatal(titles(err))
		}
		after, _, err := laid[0].Edit.Apply(s.job)
		if err != nil {
			t.Fatal(err)
		}
		s.job = after
		return laid[0]
	}
	first := lay(Wish{})
	s.outlet("Near", geom.Point{4, 0.08, 1.1})
	had := len(s.job.Net.Runs)
	second := lay(Wish{Stubs: []Stub{{"Later", geom.Point{6, 0.08, 2}}}})
	if first.Figures.Mains < 8 || second.Figures.Mains > 1 || second.Figures.Legs < 1.5 || len(s.job.Net.Runs) <= had {
		t.Errorf("first %+v, then %+v", first.Figures, second.Figures)
	}
	if !slices.ContainsFunc(s.job.Net.Runs, func(r job.Run) bool { return r.Role == "stub" && r.State == "stub" }) {
		t.Error("no stub was drawn")
	}
	if _, err := Propose(context.Background(), s.study(), Wish{}, nil); codeOf(err) != "nothing-to-lay" {
		t.Errorf("a shop with all its lines: %v", titles(err))
	}
}

// TestRefusals: what stands in the way is told in words.
func TestRefusals(t *testing.T) {
	plain := func(edit func(*shop)) *shop {
		s := newShop(t)
		s.room("Shop", 3, geom.Flat{0, 0}, geom.Flat{8, 0}, geom.Flat{8, 5}, geom.Flat{0, 5})
		edit(s)
		return s
	}
	here, there := geom.Point{0.3, 0.3, 0.9}, geom.Point{7.92, 3, 1.1}
	for _, row := range []struct {
		code, says string
		shop       *shop
	}{
		{"no-room", "o room is drawn", newShop(t)},
		{"no-plant", "o compressor", plain(func(s *shop) { s.outlet("A", there) })},
		{"no-outlet", "o outlet", plain(func(s *shop) { s.compressor(here) })},
		{"outside", "\"A\" lies outside every room", plain(func(s *shop) { s.compressor(here); s.outlet("A", geom.Point{20, 3, 1.1}) })},
		{"no-way", "big tank stands in it", plain(func(s *shop) {
			s.compressor(here)
			s.outlet("A", there)
			s.obstacle("keep-out", "big tank", 0, 3, geom.Flat{3, -0.1}, geom.Flat{4, 5.1})
		})},
		{"no-way", "leads to the room of \"A\" (store)", plain(func(s *shop) {
			s.room("Store", 3, geom.Flat{12, 0}, geom.Flat{16, 0}, geom.Flat{16, 5}, geom.Flat{12, 5})
			s.compressor(here)
			s.outlet("A", geom.Point{14, 0.08, 1.1})
		})},
	} {
		_, err := Propose(context.Background(), row.shop.study(), Wish{}, nil)
		if codeOf(err) != row.code || !strings.Contains(strings.Join(titles(err), " "), row.says) {
			t.Errorf("%s: %q %v %v", row.code, codeOf(err), titles(err), err)
		}
	}
}

// TestThroughAWall: two rooms side by side are joined by a hole, and that is said.
func TestThroughAWall(t *testing.T) {
	s := newShop(t)
	s.room("Shop", 3, geom.Flat{0, 0}, geom.Flat{8, 0}, geom.Flat{8, 5}, geom.Flat{0, 5})
	s.room("Store", 3, geom.Flat{8.2, 0}, geom.Flat{12, 0}, geom.Flat{12, 5}, geom.Flat{8.2, 5})
	s.compressor(geom.Point{0.3, 0.3, 0.9})
	s.outlet("A", geom.Point{10, 0.08, 1.1})
	laid, err := Propose(context.Background(), s.study(), Wish{}, nil)
	if err != nil || laid[0].Figures.Holes != 1 || !strings.Contains(strings.Join(laid[0].Words, " "), "One hole") {
		t.Errorf("%v %v", laid, titles(err))
	}
}

// TestCancelled: a search that is stopped before it has anything gives the error of ctx.
func TestCancelled(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Propose(ctx, ell(t).study(), Wish{}, nil); err == nil || codeOf(err) != "" {
		t.Errorf("%v", err)
	}
}

// Where the time is over while it is drawn, what was found is drawn all the same; who gives
// it up gets nothing. Lines go to the outlets that are named alone.
func TestTimeIsOver(t *testing.T) {
	s := ell(t)
	over, done := context.WithDeadline(t.Context(), time.Now().Add(-time.Second))
	defer done()
	drawing, end := untimed(over)
	defer end()
	if drawing.Err() != nil {
		t.Errorf("nothing can be drawn: %v", drawing.Err())
	}
	given, up := context.WithCancel(t.Context())
	drawing, end = untimed(given)
	defer end()
	up()
	select {
	case <-drawing.Done():
	case <-time.After(10 * time.Second):
		t.Error("it is drawn though it was given up")
	}
	all := len(mazeFor(t, s, &Wish{}).feet)
	laid, err := Propose(t.Context(), s.study(), Wish{Outlets: []job.ID{s.job.Outlets[0].ID}}, nil)
	if err != nil || all < 2 || laid[0].Figures.Feet != 1 {
		t.Errorf("%d outlets, %d proposals: %v", all, len(laid), err)
	}
}

// TestLegsLeaveEveryHeight: a leg may begin at each height at which lines pass over its foot.
func TestLegsLeaveEveryHeight(t *testing.T) {
	s := longHall(t, 20)
	m := mazeFor(t, s, &Wish{Over: []string{Ceiling}})
	for i, end := range m.ends {
		heights := map[float64]bool{}
		for _, w := range m.ways {
			if w.sort == leg && (w.a == end || w.b == end) {
				heights[m.nodes[w.a+w.b-end][2]] = true
			}
		}
		if !heights[3.5] || !heights[4.8] {
			t.Errorf("foot %d: legs from %v, want 3.5 and 4.8 m", i, heights)
		}
	}
}
