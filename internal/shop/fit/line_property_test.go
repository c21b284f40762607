package fit_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// hand draws random gestures on a job.
type hand struct {
	*rapid.T
	job *job.Job
	ix  *job.Index
}

func (h *hand) n(most int, label string) int { return rapid.IntRange(0, most).Draw(h.T, label) }

// metre is a length on a grid of 50 mm.
func (h *hand) metre(low, high float64, label string) float64 {
	return float64(rapid.IntRange(int(low*20), int(high*20)).Draw(h.T, label)) / 20
}

func (h *hand) run() *job.Run {
	return &h.job.Net.Runs[h.n(len(h.job.Net.Runs)-1, "run")]
}

func (h *hand) point() *job.Point {
	return &h.job.Net.Points[h.n(len(h.job.Net.Points)-1, "point")]
}

// place is somewhere near a place, square to it mostly.
func (h *hand) place(from geom.Point) geom.Point {
	by := h.metre(-2, 2, "by")
	if h.n(9, "askew") == 0 {
		return from.Plus(geom.Point{by, h.metre(-2, 2, "y"), 0})
	}
	from[h.n(2, "axis")] += by
	return from
}

func (h *hand) anchor() (string, geom.Point) {
	switch h.n(3, "anchor") {
	case 0:
		p := h.point()
		at, _ := h.ix.Where(p)
		return fmt.Sprintf(`{"point":%q}`, p.ID), at
	case 1:
		at := geom.Point{h.metre(0, 8, "x"), h.metre(0, 6, "y"), h.metre(0, 3, "z")}
		return fmt.Sprintf(`{"place":{"at_m":[%v,%v,%v]}}`, at[0], at[1], at[2]), at
	}
	r := h.run()
	way := h.ix.Centreline(r)
	along := math.Round(geom.Length(way)*rapid.Float64Range(0, 1).Draw(h.T, "share")*100) / 100
	at, _, _ := geom.OnPath(way, along)
	return fmt.Sprintf(`{"run":%q,"along_m":%v}`, r.ID, along), at
}

func at(p geom.Point) string { return fmt.Sprintf(`{"at_m":[%v,%v,%v]}`, p[0], p[1], p[2]) }

// id is any point, run or outlet.
func (h *hand) id() job.ID {
	switch h.n(3, "what") {
	case 0:
		if n := len(h.job.Outlets); n > 0 {
			return h.job.Outlets[h.n(n-1, "outlet")].ID
		}
	case 1:
		return h.point().ID
	}
	return h.run().ID
}

// gesture draws one gesture and its word.
func (h *hand) gesture() (word, raw string) {
	sizes := [][2]string{{"copper-l", "3/4"}, {"copper-l", "1/2"}, {"pe-al-pe-metric", "20"}, {"aluminium-metric", "25"}}
	stock := sizes[h.n(3, "stock")]
	of := ""
	if h.n(1, "own") == 1 {
		of = fmt.Sprintf(`,"stock":%q,"size":%q`, stock[0], stock[1])
	}
	switch word = []string{"line", "line", "drop", "drag", "drag", "drag", "erase", "stock", "split", "join", "reroute", "state", "plant", "into", "bypass", "compose"}[h.n(15, "do")]; word {
	case "line":
		from, start := h.anchor()
		corner := h.place(start)
		role := []string{"main", "branch", "stub", "drop"}[h.n(3, "role")]
		extra := []string{"", `,"corners":"elbow"`, `,"corners":"sweep"`, `,"flexible":true`}[h.n(3, "corners")]
		return word, fmt.Sprintf(`{"do":"line","from":%s,"via":[%s],"to":{"place":%s},"role":%q%s%s}`, from, at(corner), at(h.place(corner)), role, of, extra)
	case "drop":
		from, start := h.anchor()
		to := geom.Point{start[0] + h.metre(-0.5, 0.5, "x"), start[1] + h.metre(-0.5, 0.5, "y"), h.metre(0.5, 1.5, "z")}
		take := []string{"top", "side", "bottom"}[h.n(2, "take")]
		return word, fmt.Sprintf(`{"do":"drop","from":%s,"to":%s,"take_off":%q,"valve":%v%s,"outlet":{"name":"Somewhere","hang":[{"kind":"coupler","item":"industrial-1/4"}]}}`, from, at(to), take, h.n(1, "valve") == 1, of)
	case "drag":
		by := h.place(geom.Point{})
		return word, fmt.Sprintf(`{"do":"drag","ids":[%q],"by_m":[%v,%v,%v]}`, h.id(), by[0], by[1], by[2])
	case "erase":
		return word, fmt.Sprintf(`{"do":"erase","ids":[%q,%q]}`, h.id(), h.id())
	case "stock":
		return word, fmt.Sprintf(`{"do":"stock","runs":[%q],"stock":%q,"size":%q}`, h.run().ID, stock[0], stock[1])
	case "split":
		r := h.run()
		return word, fmt.Sprintf(`{"do":"split","run":%q,"along_m":%v}`, r.ID, h.metre(0, 2, "along"))
	case "join":
		for _, p := range h.job.Net.Points { // a plain place, if there is one
			if p.Part.Kind == "joint" && len(h.ix.Ends(p.ID)) == 2 {
				return word, fmt.Sprintf(`{"do":"join","point":%q}`, p.ID)
			}
		}
		return word, fmt.Sprintf(`{"do":"join","point":%q}`, h.point().ID)
	case "reroute":
		r := h.run()
		way := h.ix.Centreline(r)
		if len(way) < 2 {
			return word, fmt.Sprintf(`{"do":"reroute","run":%q}`, r.ID)
		}
		return word, fmt.Sprintf(`{"do":"reroute","run":%q,"via":[%s,%s]}`, r.ID, at(geom.Point{way[0][0], way[0][1], 2.7}), at(geom.Point{way[len(way)-1][0], way[len(way)-1][1], 2.7}))
	case "state":
		return word, fmt.Sprintf(`{"do":"state","ids":[%q],"state":%q}`, h.id(), []string{"existing", "planned", "stub"}[h.n(2, "state")])
	case "plant":
		return word, fmt.Sprintf(`{"do":"plant","kind":"receiver","at":%s,"figures":{"volume_L":50}}`, at(geom.Point{h.metre(0, 8, "x"), h.metre(0, 6, "y"), 0.5}))
	case "into":
		r := h.run()
		kind := []string{"ball-valve", "union", "regulator", "check-valve", "particle-filter"}[h.n(4, "kind")]
		return word, fmt.Sprintf(`{"do":"plant","kind":%q,"into":{"run":%q,"along_m":%v}}`, kind, r.ID, h.metre(0, 2, "along"))
	case "bypass":
		return word, fmt.Sprintf(`{"do":"bypass","around":[%q]}`, h.point().ID)
	}
	if len(h.job.Outlets) == 0 {
		return "compose", fmt.Sprintf(`{"do":"compose","point":%q,"name":"Here"}`, h.point().ID)
	}
	return "compose", fmt.Sprintf(`{"do":"compose","outlet":%q,"hang":[{"kind":"coupler","item":"euro-7.2"}],"hose":{"item":"rubber-1/2","length_m":4}}`, h.job.Outlets[h.n(len(h.job.Outlets)-1, "outlet")].ID)
}

// drawn is the length of all runs.
func drawn(j *job.Job) float64 {
	s := shop{job: j}
	return s.metres()
}

// gestures makes random gestures on a job: each is refused in words, or leaves a
// valid job that can be undone and solved, with the metres of line that it says.
func gestures(t *rapid.T, j *job.Job, most int, done map[string]int) {
	for range rapid.IntRange(1, most).Draw(t, "gestures") {
		if len(j.Net.Runs) == 0 {
			return
		}
		h := &hand{t, j, job.NewIndex(j)}
		word, raw := h.gesture()
		g, found := fit.Parse([]byte(raw))
		if found != nil {
			t.Fatalf("%s: %v", raw, found)
		}
		e, made, err := g.Edit(h.ix, catalog.Builtin())
		if err != nil {
			var r *job.Refusal
			if !errors.As(err, &r) || len(r.Findings) == 0 || r.Findings[0].Title == "" || r.Findings[0].Path == "" {
				t.Fatalf("%s: refused without words: %v", raw, err)
			}
			if r.Findings[0].Code == "does-not-fit" || r.Findings[0].Why != "It cannot be built so." {
				t.Fatalf("%s: the job refused what the gesture gave: %v", raw, err)
			}
			done[word+" refused"]++
			continue
		}
		done[word]++
		holdEdit(t, j, e)
		after, _, err := e.Apply(j)
		if err != nil {
			t.Fatalf("%s: %v", raw, err)
		}
		ix := job.NewIndex(after)
		for _, id := range made {
			if !ix.Has(id) {
				t.Fatalf("%s: says it makes %s, which is not there", raw, id)
			}
		}
		if l, ok := g.(*fit.Line); ok {
			want := drawn(j) + length3(h.ix, l)
			if got := drawn(after); math.Abs(got-want) > 0.0101 { // a cut within 10 mm of an end is at the end
				t.Fatalf("%s: %.6f m of line, want %.6f", raw, got, want)
			}
		}
		switch word {
		case "split", "join", "state", "into", "compose", "plant":
			if got, want := drawn(after), drawn(j); math.Abs(got-want) > 1e-5 {
				t.Fatalf("%s: %.6f m of line, want %.6f", raw, got, want)
			}
		}
		j = after
	}
	solvable(t, j)
}

// length3 is how long a line gesture's way is.
func length3(ix *job.Index, l *fit.Line) float64 {
	var start geom.Point
	switch {
	case l.From.Point != "":
		start, _ = ix.Where(ix.Point(l.From.Point))
	case l.From.Run != "":
		start, _, _ = geom.OnPath(ix.Centreline(ix.Run(l.From.Run)), float64(*l.From.Along))
	default:
		start = *l.From.Place.At
	}
	return geom.Length([]geom.Point{start, *l.Via[0].At, *l.To.Place.At})
}

func solvable(t interface {
	Helper()
	Fatalf(string, ...any)
}, j *job.Job,
) {
	t.Helper()
	if err := solve(j); err != nil {
		t.Fatalf("solving: %v", err)
	}
}

func TestRandomGesturesOnADrawnShop(t *testing.T) {
	first := dropped(t).job
	done := map[string]int{}
	words := []string{"line", "drop", "drag", "erase", "stock", "split", "join", "reroute", "state", "plant", "into", "compose"}
	missing := func() []string {
		return slices.DeleteFunc(slices.Clone(words), func(word string) bool { return done[word] > 0 })
	}
	// The rarest of them may not come up in a hundred draws.
	for round := 0; round == 0 || round < 5 && len(missing()) > 0 && !testing.Short(); round++ {
		rapid.Check(t, func(t *rapid.T) { gestures(t, first, 8, done) })
	}
	t.Log(done)
	if list := missing(); len(list) > 0 && !testing.Short() { // short: too few to meet every gesture
		t.Errorf("never done: %v", list)
	}
}

func TestTheExamplesSurviveRandomGestures(t *testing.T) {
	var jobs []*job.Job
	for _, x := range example.All() {
		jobs = append(jobs, exampleJob(t, x.Name))
	}
	done := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		gestures(t, jobs[rapid.IntRange(0, len(jobs)-1).Draw(t, "example")], 4, done)
	})
	t.Log(done)
}

func FuzzParse(f *testing.F) {
	for _, raw := range []string{
		`{"do":"line","from":{"point":"point.a"},"to":{"place":{"at_m":[1,2,3]}},"stock":"copper-l","size":"3/4"}`,
		`{"do":"drop","from":{"run":"line.main","along_m":1},"to":{"wall":"wall.a","along_m":1,"up_m":1},"outlet":{"name":"A","hose":{"item":"rubber-3/8","length_m":5}}}`,
		`{"do":"drag","ids":["line.main"],"by_m":[1,0,0]}`, `{"do":"erase","ids":["line.main"]}`, `{"do":"nothing"}`,
		`{"do":"plant","kind":"receiver","figures":{},"at":{"at_m":[0,0,0]}}`, `{"do":"bypass","around":[]}`, `{`, `{"do":null}`,
		`{"do":"room","name":"A","corner_m":[0,0],"size_m":[1e300,1],"ceiling_m":3}`,
	} {
		f.Add([]byte(raw))
	}
	j := dropped(f).job
	f.Fuzz(func(t *testing.T, raw []byte) {
		g, found := fit.Parse(raw)
		if (g == nil) != (len(found) > 0) {
			t.Fatalf("%v and %v", g, found)
		}
		for _, x := range found {
			if x.Path == "" || x.Title == "" {
				t.Fatalf("%+v", x)
			}
		}
		if g == nil {
			return
		}
		if e, _, err := g.Edit(job.NewIndex(j), catalog.Builtin()); err == nil {
			holdEdit(t, j, e)
		}
	})
}

func exampleJob(t testing.TB, name string) *job.Job {
	t.Helper()
	raw, _ := example.Read(name)
	j, found := job.Parse(raw)
	if found != nil {
		t.Fatal(found)
	}
	return j
}

// benchGesture times a gesture with the indexing of the job, as it comes by the wire.
func benchGesture(b *testing.B, j *job.Job, raw string) {
	for b.Loop() {
		g, found := fit.Parse([]byte(raw))
		if found != nil {
			b.Fatal(found)
		}
		if _, _, err := g.Edit(job.NewIndex(j), catalog.Builtin()); err != nil {
			b.Fatal(err)
		}
	}
}
