package network

import (
	"context"
	"math"
	"testing"

	"pgregory.net/rapid"

	"dropleg/engine/element"
)

// near tells whether all pressures and flows of two answers agree.
func near(t rapid.TB, n *Network, a, b *State, rel float64) {
	t.Helper()
	scale := 0.0
	for l := range a.Flow {
		scale = max(scale, math.Abs(a.Flow[l]))
	}
	for i := range a.Pressure {
		if a.Determined[i] != b.Determined[i] || math.Abs(a.Pressure[i]-b.Pressure[i]) > rel*(a.Pressure[i]+b.Pressure[i]) {
			t.Fatalf("%s: %.15g and %.15g Pa", n.Nodes[i].Name, a.Pressure[i], b.Pressure[i])
		}
	}
	for l := range a.Flow {
		if math.Abs(a.Flow[l]-b.Flow[l]) > rel*(math.Abs(a.Flow[l])+scale)+1e-9 {
			t.Fatalf("%s: %.15g and %.15g kg/s", n.Links[l].Name, a.Flow[l], b.Flow[l])
		}
	}
}

// feasible draws a network that has an answer.
func feasible(t *rapid.T, plain bool) (*Network, *Solver, *State) {
	n := drawNetwork(t, plain, 0.002)
	s, a, none := solve(t, n)
	if none != nil {
		t.Skip("no answer")
	}
	return n, s, a.Clone()
}

func TestAnyStartGivesTheSameAnswer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, s, want := feasible(t, true)
		start := want.Clone()
		for i := range start.Pressure {
			start.Pressure[i] = rapid.Float64Range(1, 2e6).Draw(t, "p")
		}
		for l := range start.Flow {
			start.Flow[l] = rapid.Float64Range(-1, 1).Draw(t, "m")
		}
		s.StartFrom(start)
		got, none := answer(t, s)
		if none != nil {
			t.Fatal(none)
		}
		near(t, n, want, got, 1e-9)
	})
}

func TestWarmEqualsCold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, s, _ := feasible(t, true)
		i := rapid.IntRange(1, len(n.Nodes)-1).Draw(t, "node")
		n.Nodes[i].Fixed = false
		s.Free(i)
		n.Nodes[i].Demand = rapid.Float64Range(0, 0.003).Draw(t, "new demand")
		s.SetDemand(i, n.Nodes[i].Demand)
		l := rapid.IntRange(0, len(n.Links)-1).Draw(t, "link")
		n.Links[l].Law = drawPipe(t)
		s.SetLaw(l, n.Links[l].Law)
		warm, none := answer(t, s)
		if none != nil {
			t.Skip("no answer")
		}
		_, cold, none := solve(t, n)
		if none != nil {
			t.Fatal(none)
		}
		near(t, n, cold, warm, 1e-9)
	})
}

func TestPressuresRiseWithTheSource(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, s, before := feasible(t, true)
		s.SetPressure(0, n.Nodes[0].Pressure*1.1)
		after, none := answer(t, s)
		if none != nil {
			t.Fatal(none)
		}
		for i := range n.Nodes {
			if after.Pressure[i] < before.Pressure[i]*(1-1e-9) {
				t.Fatalf("%s falls from %g to %g", n.Nodes[i].Name, before.Pressure[i], after.Pressure[i])
			}
		}
	})
}

func TestPressuresFallWithDemand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, s, before := feasible(t, true)
		i := rapid.IntRange(1, len(n.Nodes)-1).Draw(t, "node")
		s.SetDemand(i, n.Nodes[i].Demand+0.001)
		after, none := answer(t, s)
		if none != nil {
			t.Skip("no answer")
		}
		for j := range n.Nodes {
			if after.Pressure[j] > before.Pressure[j]*(1+1e-9) {
				t.Fatalf("%s rises from %g to %g", n.Nodes[j].Name, before.Pressure[j], after.Pressure[j])
			}
		}
	})
}

// A second line beside one of a tree raises or keeps every pressure, for all
// demands are fixed; so it does at the demand of any network with only one. (In
// a ring with several demands it can lower a pressure elsewhere.)
func TestParallelLineNeverHurts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		doc := treeDocument(rapid.IntRange(1, 40).Draw(t, "size"), rapid.Uint64().Draw(t, "seed"))
		n := networkOf(t, doc)
		before, err := solverOf(t, n).Solve(context.Background())
		if err != nil {
			t.Skip(err)
		}
		l := n.Links[rapid.IntRange(0, len(n.Links)-1).Draw(t, "link")]
		l.Law = drawPipe(t)
		n.AddLink(l)
		after, err := solverOf(t, n).Solve(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		for i := range n.Nodes {
			if after.Pressure[i] < before.Pressure[i]*(1-1e-12) {
				t.Fatalf("%s falls from %.15g to %.15g", n.Nodes[i].Name, before.Pressure[i], after.Pressure[i])
			}
		}
	})
}

func TestParallelLineHelpsTheOnlyDemand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		doc := gridDocument(rapid.IntRange(2, 5).Draw(t, "side"), rapid.Uint64().Draw(t, "seed"))
		n := networkOf(t, doc)
		for i := range n.Nodes {
			n.Nodes[i].Demand = 0
		}
		at := rapid.IntRange(1, len(n.Nodes)-1).Draw(t, "demand at")
		n.Nodes[at].Demand = 0.02
		before, err := solverOf(t, n).Solve(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		n.AddLink(Link{Name: "new", From: rapid.IntRange(0, at-1).Draw(t, "from"), To: at, Law: drawPipe(t)})
		after, err := solverOf(t, n).Solve(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		if after.Pressure[at] < before.Pressure[at]*(1-1e-12) {
			t.Fatalf("falls from %.15g to %.15g", before.Pressure[at], after.Pressure[at])
		}
	})
}

// A ring cut at a link is the tree without it.
func TestOpenedRingIsATree(t *testing.T) {
	d, _ := readReference(t, "../../testdata/ref/bench/network/ring-4.json")
	for l := 1; l <= 4; l++ {
		n := networkOf(t, d)
		s := solverOf(t, n)
		s.SetLaw(l, element.Shut{})
		ring, none := answer(t, s)
		if none != nil {
			t.Fatal(none)
		}
		tree := &Network{Nodes: n.Nodes}
		tree.Links = append(append(tree.Links, n.Links[:l]...), n.Links[l+1:]...)
		want, err := solverOf(t, tree).Solve(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		for i := range n.Nodes {
			if math.Abs(ring.Pressure[i]-want.Pressure[i]) > 1e-13*want.Pressure[i] {
				t.Errorf("without %s, %s: %v and %v", n.Links[l].Name, n.Nodes[i].Name, ring.Pressure[i], want.Pressure[i])
			}
		}
		if ring.Flow[l] != 0 {
			t.Errorf("the shut link carries %g", ring.Flow[l])
		}
	}
}

// Laws by C scale: twice all pressures and twice all demands is twice the answer.
func TestSonicNetworksScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := &Network{}
		n.AddNode(Node{Name: "s", Fixed: true, Pressure: 8e5})
		for i := 1; i < 12; i++ {
			n.AddNode(Node{Name: "n", Demand: rapid.Float64Range(0, 5e-4).Draw(t, "d")})
			n.AddLink(Link{Name: "l", From: rapid.IntRange(0, i-1).Draw(t, "from"), To: i, Law: must(element.NewISO6358(shopAir, element.ISO6358Spec{C: 8e-8, B: rapid.Float64Range(0, 0.6).Draw(t, "b")}))})
		}
		one, none := answer(t, solverOf(t, n))
		if none != nil {
			t.Skip("no answer")
		}
		twice := &Network{Nodes: append([]Node(nil), n.Nodes...), Links: n.Links}
		for i := range twice.Nodes {
			twice.Nodes[i].Pressure *= 2
			twice.Nodes[i].Demand *= 2
		}
		two, none := answer(t, solverOf(t, twice))
		if none != nil {
			t.Fatal(none)
		}
		for i := range one.Pressure {
			if math.Abs(two.Pressure[i]-2*one.Pressure[i]) > 1e-11*two.Pressure[i] {
				t.Fatalf("%v and %v Pa", one.Pressure[i], two.Pressure[i])
			}
		}
	})
}

func TestSensitivityAgreesWithDifferences(t *testing.T) {
	for _, d := range []*Document{treeDocument(30, 3), gridDocument(5, 3)} {
		n := networkOf(t, d)
		s := solverOf(t, n)
		base, none := answer(t, s)
		if none != nil {
			t.Fatal(none)
		}
		p0 := append([]float64(nil), base.Pressure...)
		at := len(n.Nodes) / 2
		v := s.Sensitivity()
		byDemand, bySource, of := make([]float64, len(p0)), make([]float64, len(p0)), make([]float64, len(p0))
		v.ByDemand(at, byDemand)
		v.BySource(0, bySource)
		v.Of(at, of)
		const dm, dp = 1e-6, 10.0
		s.SetDemand(at, n.Nodes[at].Demand+dm)
		more, none := answer(t, s)
		if none != nil {
			t.Fatal(none)
		}
		for i := range p0 {
			if got := (more.Pressure[i] - p0[i]) / dm; math.Abs(got-byDemand[i]) > 1e-3*math.Abs(byDemand[at]) {
				t.Errorf("%s by demand: %g, differences %g", n.Nodes[i].Name, byDemand[i], got)
			}
		}
		if math.Abs(of[at]-byDemand[at]) > 1e-9*math.Abs(byDemand[at]) {
			t.Errorf("own pull %g, by demand %g", of[at], byDemand[at])
		}
		s.SetDemand(at, n.Nodes[at].Demand)
		s.SetPressure(0, n.Nodes[0].Pressure+dp)
		higher, none := answer(t, s)
		if none != nil {
			t.Fatal(none)
		}
		for i := range p0 {
			if got := (higher.Pressure[i] - p0[i]) / dp; math.Abs(got-bySource[i]) > 1e-4 {
				t.Errorf("%s by source: %g, differences %g", n.Nodes[i].Name, bySource[i], got)
			}
		}
	}
}
