package draw

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"

	"pgregory.net/rapid"
)

// Whatever is missing from a job or crossed in it, its leaves are drawings: finite, and the same
// twice.
func TestLeavesOfBrokenJobs(t *testing.T) {
	all := example.All()
	rapid.Check(t, func(t *rapid.T) {
		data, _ := example.Read(rapid.SampledFrom(all).Draw(t, "example").Name)
		j, _ := job.Parse(data)
		for range rapid.IntRange(0, 12).Draw(t, "changes") {
			spoil(t, j)
		}
		given := Given{Index: job.NewIndex(j), Shelf: catalog.Builtin(), Work: &Work{}}
		for i := range j.Net.Points {
			if at, ok := given.Index.Where(&j.Net.Points[i]); ok {
				given.Work.Joints = append(given.Work.Joints, Numbered{Number: i + 1, At: at})
			}
		}
		for i := range j.Net.Runs {
			if line := given.Index.Centreline(&j.Net.Runs[i]); len(line) > 1 {
				given.Work.Cuts = append(given.Work.Cuts, Cutting{Run: j.Net.Runs[i].ID, A: line[0], B: line[len(line)-1], Words: "‹1› 1000 mm", Short: "‹1›"})
			}
		}
		paper := a4()
		paper.Working = rapid.Float64Range(1, 20).Draw(t, "working")
		leaves := IsometricLeaves(given, paper)
		for i := range leaves {
			s := &leaves[i].Scene
			for _, l := range s.Layers {
				for k := range l.Items {
					for _, p := range places(&l.Items[k]) {
						if !finite(p[0]) || !finite(p[1]) {
							t.Fatalf("leaf %d: %+v", i, l.Items[k])
						}
					}
				}
			}
		}
		if !reflect.DeepEqual(leaves, IsometricLeaves(given, paper)) {
			t.Fatal("not the same twice")
		}
	})
}

func places(it *scene.Item) []scene.Point {
	switch {
	case it.Line != nil:
		return it.Line.Points
	case it.Area != nil:
		return it.Area.Points
	case it.Text != nil:
		return []scene.Point{it.Text.At}
	case it.Mark != nil:
		return []scene.Point{it.Mark.At}
	}
	return nil
}

// In parts, too, each stretch that comes out shorter than it is has its break, with its length by
// the job; what is not cut off and has none is drawn in full; and what stands in a part stands in
// no other.
func TestPartsOfTheRing(t *testing.T) {
	given := readings(t, "ring-main")
	given.Work = &Work{}
	ix := given.Index
	for i := range ix.Job().Net.Points {
		if at, ok := ix.Where(&ix.Job().Net.Points[i]); ok {
			given.Work.Joints = append(given.Work.Joints, Numbered{Number: i + 1, At: at})
		}
	}
	paper := a4()
	l := &leafer{given: given, paper: paper, sheet: paper.Open}
	l.split()
	if len(l.parts) < 2 {
		t.Fatalf("%d parts", len(l.parts))
	}
	held := map[job.ID]int{}
	for i, p := range l.parts {
		if p.scale < paper.Working {
			t.Errorf("part %d at %g mm to the metre", i+1, p.scale)
		}
		j := p.drawn.given.Index.Job()
		for k := range j.Net.Points {
			held[j.Net.Points[k].ID]++
		}
		for k := range j.Net.Runs {
			r := &j.Net.Runs[k]
			of := job.ID(strings.Split(string(r.ID), "~")[0])
			line := ix.Centreline(ix.Run(of))
			for _, g := range p.drawn.legs(r) {
				if !slices.ContainsFunc(line[1:], func(q geom.Point) bool {
					n := slices.Index(line, q)
					return n > 0 && math.Abs(line[n-1].Distance(q)-g.true) < 1e-9
				}) {
					t.Errorf("%s: %g m is no stretch of it", r.ID, g.true)
				}
				drawn := g.a.Distance(g.b)
				broken := slices.ContainsFunc(p.drawn.breaks, func(b lineBreak) bool { return b.run == r.ID && b.leg == g })
				if whole := g.cut == [2]bool{}; whole && broken != (drawn < g.true-1e-6) {
					t.Errorf("%s: %g m drawn as %g, broken: %v", r.ID, g.true, drawn, broken)
				}
			}
		}
	}
	for i := range ix.Job().Net.Points {
		if id := ix.Job().Net.Points[i].ID; held[id] != 1 {
			t.Errorf("%s is held by %d parts", id, held[id])
		}
	}
}

// Leaves of a shop with many outlets are made in a time that a person waits for.
func BenchmarkLeaves(b *testing.B) {
	given := largeShop(250)
	given.Work = &Work{}
	for i := range given.Index.Job().Net.Points {
		if at, ok := given.Index.Where(&given.Index.Job().Net.Points[i]); ok {
			given.Work.Joints = append(given.Work.Joints, Numbered{Number: i + 1, At: at})
		}
	}
	for b.Loop() {
		IsometricLeaves(given, a4())
	}
}
