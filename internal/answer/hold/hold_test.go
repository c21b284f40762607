package hold

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/cite"
	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// examples are the built-in jobs, read as files.
func examples(t testing.TB) map[string]*job.Job {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "..", "shop", "example", "data", "*.json"))
	if err != nil || len(files) == 0 {
		t.Fatal("no examples", err)
	}
	all := map[string]*job.Job{}
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		j, found := job.Parse(text)
		if j == nil {
			t.Fatalf("%s: %+v", f, found)
		}
		all[strings.TrimSuffix(filepath.Base(f), ".json")] = j
	}
	return all
}

// TestExamples: every shop is told whole, and what is told holds together.
func TestExamples(t *testing.T) {
	for name, j := range examples(t) {
		for _, warm := range []Temps{nil, hot(j)} {
			a := Of(j, catalog.Builtin(), warm)
			if len(a.Supports) == 0 || len(a.Stretches) == 0 || len(a.Walls) != len(j.Building.Walls) || len(a.Runs) != len(j.Net.Runs) {
				t.Errorf("%s: %d supports, %d stretches, %d walls, %d runs", name, len(a.Supports), len(a.Stretches), len(a.Walls), len(a.Runs))
			}
			wholeAnswer(t, name, j, a)
		}
	}
}

// hot is every line at 60 °C.
func hot(j *job.Job) Temps {
	out := Temps{}
	for i := range j.Net.Runs {
		out[j.Net.Runs[i].ID] = 333.15
	}
	return out
}

// wholeAnswer holds what is so of every answer: supports on their runs, off fittings
// and bends, no farther apart than allowed unless the gap is told; sources that exist;
// marks in order; numbers that are numbers.
func wholeAnswer(t tester, name string, j *job.Job, a *Answer) {
	t.Helper()
	if _, err := json.Marshal(a); err != nil {
		t.Errorf("%s: %v", name, err)
	}
	ix := job.NewIndex(j)
	seen := map[string]bool{}
	byRun := map[job.ID][]Support{}
	for _, s := range a.Supports {
		if seen[s.ID] || !strings.HasPrefix(s.ID, string(s.Run)+"/clip-") {
			t.Errorf("%s: support %s of %s twice or misnamed", name, s.ID, s.Run)
		}
		seen[s.ID] = true
		byRun[s.Run] = append(byRun[s.Run], s)
		path := ix.Centreline(ix.Run(s.Run))
		at, _, _ := geom.OnPath(path, float64(s.Along))
		if s.Along <= 0 || float64(s.Along) >= geom.Length(path) || at.Distance(s.At) > 1e-6 {
			t.Errorf("%s: %s at %v of %v m is not on its run", name, s.ID, s.Along, geom.Length(path))
		}
		offFittings(t, ix, a, s, path)
	}
	for _, r := range a.Runs {
		if r.Drawn > 0 {
			spaced(t, name, a, r, ix.Centreline(ix.Run(r.ID)), byRun[r.ID])
		}
	}
	for _, r := range a.Rules {
		if _, ok := cite.Lookup(r.Source); !ok || r.How == "" {
			t.Errorf("rule %s: source %q", r.Name, r.Source)
		}
	}
	for _, w := range a.Walls {
		for i, m := range w.Marks {
			if i > 0 && m.Place.Along < w.Marks[i-1].Place.Along || math.IsNaN(float64(m.Place.Along)) {
				t.Errorf("%s: marks of %s out of order at %s", name, w.ID, m.ID)
			}
		}
	}
	for _, l := range a.Legs {
		if l.Until != "" && strings.Contains(l.Until, "clip") && !seen[l.Until] {
			t.Errorf("%s: leg at %s ends at %q, which is no support", name, l.At, l.Until)
		}
	}
}

// offFittings: the body of an elbow by the catalogue, the tangent of a bend by hand.
func offFittings(t tester, ix *job.Index, a *Answer, s Support, path []geom.Point) {
	t.Helper()
	r := ix.Run(s.Run)
	shelf := catalog.Builtin()
	stock, _ := shelf.Stock(r.Stock)
	size, ok := stock.Size(r.Size)
	if !ok {
		return
	}
	for i, c := range geom.Corners(path, 10*math.Pi/180) {
		if i >= 40 {
			break
		}
		off := math.Abs(float64(s.Along) - c.Along)
		if stock.Corners == "sweep" {
			k := slices.IndexFunc(a.Bends, func(b Bend) bool { return b.Run == s.Run && b.At.Distance(c.At) < 1e-9 })
			if k < 0 {
				t.Errorf("%s: no bend at corner %d", s.Run, i+1)
				continue
			}
			if tangent := float64(a.Bends[k].Radius) * math.Tan(c.Turn/2); off < tangent-1e-6 && c.Turn < 2.9 {
				t.Errorf("%s is within the bend %s: %v of %v m", s.ID, a.Bends[k].ID, off, tangent)
			}
			continue
		}
		if elbow, ok := shelf.TakeOutOf(stock, size, "elbow-90"); ok && math.Abs(c.Turn-math.Pi/2) < 0.1 && off < float64(elbow.CentreEnd) {
			t.Errorf("%s is within the elbow %d: %v of %v m", s.ID, i+1, off, elbow.CentreEnd)
		}
	}
}

// spaced: along a run no two supports, nor a support and an end, are farther apart than
// the greater of the run's spacings, unless the answer tells the gap.
func spaced(t tester, name string, a *Answer, r Run, path []geom.Point, list []Support) {
	t.Helper()
	if !r.Horizontal.Known {
		return
	}
	most := max(r.Horizontal.Distance, r.Vertical.Distance)
	marks := []float64{0}
	for _, s := range list {
		marks = append(marks, float64(s.Along))
	}
	marks = append(marks, geom.Length(path))
	for i := 1; i < len(marks); i++ {
		told := slices.ContainsFunc(a.Gaps, func(g Gap) bool {
			return g.Run == r.ID && math.Abs(float64(g.From)-marks[i-1]) < 1e-6 && math.Abs(float64(g.To)-marks[i]) < 1e-6
		})
		if gap := marks[i] - marks[i-1]; gap > float64(most)+1e-6 && !told {
			t.Errorf("%s: %s: %.3f m from %.3f m without a support, %v allowed", name, r.ID, gap, marks[i-1], most)
		}
		if marks[i] < marks[i-1] {
			t.Errorf("%s: supports of %s out of order", name, r.ID)
		}
	}
}

// In the examples no straight line, through all its tees and valves, has more between
// two supports than its runs allow, nor has a corner of two legs.
func TestChainsAreSpaced(t *testing.T) {
	for name, j := range examples(t) {
		s := work(j, catalog.Builtin(), nil)
		for _, c := range s.chains {
			for i := 1; i < len(c.clips); i++ {
				p, q := c.clips[i-1].at, c.clips[i].at
				if q-p > c.spacing(p, q)+1e-6 {
					t.Errorf("%s: %s: %.3f m between %s and %s, %.3f allowed", name, c.nodes[0].id, q-p, c.clips[i-1].id, c.clips[i].id, c.spacing(p, q))
				}
			}
		}
		for _, n := range s.order {
			if len(n.ends) != 2 || len(n.pairs) > 0 {
				continue
			}
			sum := 0.0
			for _, e := range n.ends {
				over := e.bar.chain.long
				for _, k := range e.bar.chain.clips {
					over = min(over, math.Abs(k.at-e.where()))
				}
				sum += over
			}
			if most := min(n.ends[0].bar.allowed(), n.ends[1].bar.allowed()); sum > most+1e-6 {
				t.Errorf("%s: %.3f m round %s, %.3f allowed", name, sum, n.id, most)
			}
		}
	}
}

// Every drop leg of the ring main that ends at an outlet has a support near its top and
// one above the outlet, existing shops have nothing to buy, compressors their links.
func TestExamplesByEye(t *testing.T) {
	all := examples(t)
	ring := Of(all["ring-main"], catalog.Builtin(), nil)
	for _, o := range all["ring-main"].Outlets {
		leg := strings.Replace(string(o.ID), "outlet.", "line.drop-", 1)
		n := 0
		for _, s := range ring.Supports {
			if s.Run == job.ID(leg+"-1") || s.Run == job.ID(leg+"-2") {
				n++
			}
		}
		if n < 2 {
			t.Errorf("%s: %d supports", o.ID, n)
		}
	}
	if len(ring.Links) != 2 || ring.Links[0].Part != "point.flex-1" || ring.Links[1].Part != "point.flex-2" {
		t.Errorf("links %+v", ring.Links)
	}
	ailing := Of(all["ailing"], catalog.Builtin(), nil)
	if len(ailing.Links) != 1 || ailing.Links[0].There {
		t.Errorf("the ailing shop's compressor stands rigid: %+v", ailing.Links)
	}
	for _, f := range ailing.Fixings {
		if f.For == "supports" {
			t.Errorf("all of the ailing shop stands: %+v", f)
		}
	}
	boat := Of(all["boat-shop"], catalog.Builtin(), nil)
	if !slices.ContainsFunc(boat.Fixings, func(f Fixing) bool { return f.For == "reel" && f.ID == "hose.reel" && *f.Load == 1000 }) {
		t.Error("the reel over the hull is fixed nowhere")
	}
}

func BenchmarkHold(b *testing.B) {
	j, shelf := examples(b)["ring-main"], catalog.Builtin()
	b.ReportAllocs()
	for b.Loop() {
		Of(j, shelf, nil)
	}
}

// tester is a test, or one draw of a property.
type tester interface {
	Helper()
	Errorf(format string, args ...any)
}
