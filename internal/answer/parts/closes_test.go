package parts

import (
	"math"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// near is a tenth of a millimetre.
const near = 1e-4

// failer is what a test and a property have in common.
type failer interface {
	Helper()
	Errorf(format string, args ...any)
}

// closes holds that a take-off closes: lengths, joints and what they belong to.
func closes(t failer, j *job.Job, shelf *catalog.Catalog, a *Answer) {
	t.Helper()
	lengthsClose(t, j, shelf, a)
	jointsClose(t, j, shelf, a)
	thingsClose(t, a)
	totalsClose(t, j, a)
}

// totalsClose: the rooms' totals are all there is.
func totalsClose(t failer, j *job.Job, a *Answer) {
	t.Helper()
	var sum Total
	for _, x := range a.Totals {
		sum.Length, sum.Pieces, sum.Joints, sum.Parts = sum.Length+x.Length, sum.Pieces+x.Pieces, sum.Joints+x.Joints, sum.Parts+x.Parts
	}
	long, parts := 0.0, 0
	ix := job.NewIndex(j)
	for i := range j.Net.Runs {
		l, _ := ix.LengthOf(&j.Net.Runs[i])
		long += float64(l)
	}
	for _, l := range a.All() {
		if !slices.Contains([]Group{Stock, Made, Supplies, Label}, l.Group) {
			parts += l.Pieces
		}
	}
	if sum.Pieces != len(a.Pieces) || sum.Joints != len(a.Joints) || sum.Parts != parts || math.Abs(float64(sum.Length)-long) > near {
		t.Errorf("rooms hold %+v of %.4f m, %d pieces, %d joints, %d parts", sum, long, len(a.Pieces), len(a.Joints), parts)
	}
}

// lengthsClose: each piece is its cut length with its take-outs and what bends save,
// and the pieces' shares of a run add up to its centre-line.
func lengthsClose(t failer, j *job.Job, shelf *catalog.Catalog, a *Answer) {
	t.Helper()
	share, unknown := map[job.ID]float64{}, map[job.ID]bool{}
	for _, p := range a.Pieces {
		whole := 0.0
		for _, s := range p.Spans {
			unknown[s.Run] = unknown[s.Run] || s.Length == nil
			share[s.Run] += float64(lengthOf(s.Length))
			whole += float64(lengthOf(s.Length))
		}
		if p.Cut == nil {
			continue
		}
		sum := float64(*p.Cut + p.From.TakeOut + p.To.TakeOut - p.Missing)
		for _, b := range p.Bends {
			sum += float64(b.Saved)
		}
		if c := float64(*p.CentreToCentre); math.Abs(sum-c) > near || math.Abs(whole-c) > near {
			t.Errorf("%s: %.5f m of pipe, take-outs and bends, %.5f m of runs, want %.5f m", p.ID, sum, whole, c)
		}
		if *p.Cut < 0 || p.Missing < 0 || p.Missing > 0 && !p.TooShort {
			t.Errorf("%s: cut %v, missing %v", p.ID, *p.Cut, p.Missing)
		}
		stock, _ := shelf.Stock(p.Stock)
		if len(stock.Lengths) > 0 && *p.Cut > slices.Max(stock.Lengths)+near {
			t.Errorf("%s: cut %v m, and the longest sold is %v m", p.ID, *p.Cut, slices.Max(stock.Lengths))
		}
	}
	ix := job.NewIndex(j)
	for i := range j.Net.Runs {
		r := &j.Net.Runs[i]
		long, known := ix.LengthOf(r)
		if known && !unknown[r.ID] && math.Abs(share[r.ID]-float64(long)) > near {
			t.Errorf("%s: pieces share %.5f m of %.5f m", r.ID, share[r.ID], float64(long))
		}
		if _, ok := share[r.ID]; !ok {
			t.Errorf("%s: no piece", r.ID)
		}
	}
}

// jointsClose: as many joints as connected ends of pieces and connections of part to
// part, counted from the job; each end has one joint, each joint two sides.
func jointsClose(t failer, j *job.Job, shelf *catalog.Catalog, a *Answer) {
	t.Helper()
	ends, open := 0, map[string]int{}
	for _, p := range a.Pieces {
		for _, e := range []PieceEnd{p.From, p.To} {
			if e.Joint != "" {
				ends++
				open[e.Joint]++
			}
		}
	}
	ids, numbers := map[string]bool{}, make([]bool, len(a.Joints)+1)
	for _, joint := range a.Joints {
		if ids[joint.ID] || joint.Number < 1 || joint.Number >= len(numbers) || numbers[joint.Number] {
			t.Errorf("%s: number %d or the id twice", joint.ID, joint.Number)
			continue
		}
		ids[joint.ID], numbers[joint.Number] = true, true
		if joint.Sides[0] == joint.Sides[1] || joint.Sides[0].Thing == "" || joint.Sides[1].Thing == "" {
			t.Errorf("%s belongs to %v", joint.ID, joint.Sides)
		}
		want := 0
		if strings.Contains(joint.Sides[1].Thing, "/piece-") {
			want = 1
		}
		if open[joint.ID] != want {
			t.Errorf("%s: %d ends of pieces, want %d", joint.ID, open[joint.ID], want)
		}
	}
	if want := ends + partToPart(j, shelf, a); len(a.Joints) != want {
		t.Errorf("%d joints, want %d: %d ends of pieces and the rest part to part", len(a.Joints), want, ends)
	}
}

// partToPart counts connections without a pipe: hanging parts, hoses, faces of unions,
// and one more for each nipple, adapter or socket that is between two others.
func partToPart(j *job.Job, shelf *catalog.Catalog, a *Answer) int {
	n := 0
	tied := map[job.ID]bool{} // first hanging parts at the end of a line are joined to its pipe
	ends := map[job.ID]int{}
	for i := range j.Net.Runs {
		ends[j.Net.Runs[i].From.Point]++
		ends[j.Net.Runs[i].To.Point]++
	}
	for i := range j.Net.Points {
		p := &j.Net.Points[i]
		kind, ok := shelf.Kind(p.Part.Kind)
		if ok && kind.Has(catalog.Unions) {
			n++
		}
		tied[p.ID] = ok && kind.Law.Name == "none" && ends[p.ID] == 1
	}
	for i := range j.Outlets {
		o := &j.Outlets[i]
		n += len(o.Hang)
		for k := range o.Hang {
			if kind, ok := shelf.Kind(o.Hang[k].Kind); ok && kind.Has(catalog.Unions) {
				n++
			}
		}
		if o.Hose != nil {
			n++
		}
		if tied[o.Point] && (len(o.Hang) > 0 || o.Hose != nil) {
			n--
		}
		tied[o.Point] = false
	}
	for _, l := range a.Implied {
		if l.Group != Fitting {
			continue
		}
		for _, from := range l.From {
			if !strings.Contains(from, "/coupling") {
				n++
			}
		}
	}
	return n
}

// thingsClose: what joints and pieces name is there, and is found from each thing.
func thingsClose(t failer, a *Answer) {
	t.Helper()
	there := map[string]bool{}
	for _, l := range a.All() {
		for _, from := range l.From {
			there[from] = true
		}
	}
	for i := range a.Pieces {
		there[a.Pieces[i].ID] = true
	}
	for i := range a.Joints {
		j := &a.Joints[i]
		for _, s := range j.Sides {
			if !there[s.Thing] {
				t.Errorf("%s belongs to %s, which is nowhere listed", j.ID, s.Thing)
			}
			if !slices.Contains(a.ByThing[s.Thing].Joints, j) {
				t.Errorf("%s is not found from %s", j.ID, s.Thing)
			}
		}
	}
	for i := range a.Pieces {
		p := &a.Pieces[i]
		if !slices.Contains(a.ByThing[string(p.Run)].Pieces, p) {
			t.Errorf("%s is not found from its run", p.ID)
		}
	}
	for _, lines := range [][]Line{a.Lines, a.Implied} {
		for i := range lines {
			for _, from := range lines[i].From {
				if !slices.Contains(a.ByThing[from].Lines, &lines[i]) {
					t.Errorf("%s is not found from %s", lines[i].Article, from)
				}
			}
		}
	}
}

func TestExamplesClose(t *testing.T) {
	for name, j := range examples(t) {
		t.Run(name, func(t *testing.T) {
			a := Of(j, catalog.Builtin())
			closes(t, j, catalog.Builtin(), a)
			portsClose(t, j, a)
		})
	}
}

// portsClose: a point's part has one joint for each run and outlet that takes a port of
// it; an elbow at a corner, a coupling, an adapter have two.
func portsClose(t *testing.T, j *job.Job, a *Answer) {
	t.Helper()
	at := map[string]int{}
	for _, joint := range a.Joints {
		if joint.Sides[0].Thing == joint.Sides[1].Thing {
			continue // the face of a union
		}
		name := func(s Side) string { return s.Thing + "/" + s.Port }
		if !strings.HasSuffix(joint.ID, "/end") && name(joint.Sides[0]) != joint.ID && name(joint.Sides[1]) != joint.ID {
			t.Errorf("%s is at none of its sides: %v", joint.ID, joint.Sides)
		}
		at[joint.Sides[0].Thing]++
		at[joint.Sides[1].Thing]++
	}
	want := map[string]int{}
	for i := range j.Net.Runs {
		want[string(j.Net.Runs[i].From.Point)]++
		want[string(j.Net.Runs[i].To.Point)]++
	}
	for i := range j.Outlets {
		if o := &j.Outlets[i]; len(o.Hang) > 0 || o.Hose != nil {
			want[string(o.Point)]++
		}
	}
	for _, l := range a.All() {
		for _, from := range l.From {
			if l.Group == Fitting && strings.Contains(from, "/") && !strings.Contains(from, "/hang-") || strings.HasSuffix(from, "adapter") {
				want[from] = 2
			}
		}
	}
	for thing, n := range want {
		if at[thing] != n {
			t.Errorf("%s has %d joints, want %d", thing, at[thing], n)
		}
	}
}

// TestSweptAsGeometrySays: of lines from a coil whose bends have room the cut length is
// that of the swept centre-line by package geom, less the take-outs.
func TestSweptAsGeometrySays(t *testing.T) {
	j := examples(t)["frame-garage.json"]
	shelf := catalog.Builtin()
	ix := job.NewIndex(j)
	swept := 0
	for _, p := range Of(j, shelf).Pieces {
		if len(p.Bends) == 0 || slices.ContainsFunc(p.Bends, func(b Bend) bool { return b.Tight }) {
			continue
		}
		swept++
		want := geom.Swept(ix.Centreline(ix.Run(p.Run)), 0.1) - float64(p.From.TakeOut+p.To.TakeOut)
		if got := float64(*p.Cut); math.Abs(got-want) > near {
			t.Errorf("%s: cut %.5f m, want %.5f m", p.ID, got, want)
		}
	}
	if swept == 0 {
		t.Error("no swept line was compared")
	}
}
