package network

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"dropleg/engine/element"
)

func pipe(length, bore float64) element.Law {
	return must(element.NewPipe(shopAir, element.PipeSpec{Length: length, Bore: bore, Roughness: 1.5e-6}))
}

func coupler(c float64) element.Law {
	return must(element.NewISO6358(shopAir, element.ISO6358Spec{C: c, B: 0.3}))
}

func check(cracking float64) element.Law {
	return must(element.NewCheck(shopAir, element.ISO6358Spec{C: 1e-7, B: 0.3, Cracking: cracking}))
}

func regulator(set float64) element.Law {
	return must(element.NewRegulator(shopAir, element.RegulatorSpec{Set: set, C: 1e-7, B: 0.3}))
}

// refusal solves a network that must have no answer, for the given reason and
// at the given nodes.
func refusal(t *testing.T, n *Network, reason Reason, nodes ...int) (*State, *NoAnswer) {
	t.Helper()
	a, err := solverOf(t, n).Solve(context.Background())
	var none *NoAnswer
	if !errors.As(err, &none) || none.Reason != reason {
		t.Fatalf("got %v, want %q", err, reason)
	}
	if len(none.Nodes) != len(nodes) {
		t.Fatalf("got %+v, want nodes %v", none.Nodes, nodes)
	}
	for k, i := range nodes {
		if none.Nodes[k].Node != i || !strings.Contains(none.Error(), n.Nodes[i].Name) {
			t.Errorf("got %v, want node %d", none, i)
		}
	}
	return a, none
}

func TestShutOffPartHasNoPressure(t *testing.T) {
	n := &Network{
		Nodes: []Node{{Name: "s", Fixed: true, Pressure: 8e5}, {Name: "live", Demand: 0.002}, {Name: "dead"}, {Name: "end"}},
		Links: []Link{{"a", 0, 1, pipe(10, 0.02)}, {"valve", 1, 2, element.Shut{}}, {"b", 2, 3, pipe(3, 0.02)}},
	}
	a, err := solverOf(t, n).Solve(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if !a.Determined[1] || a.Determined[2] || a.Determined[3] || a.Pressure[2] != 0 || a.Flow[2] != 0 {
		t.Errorf("got %+v", a)
	}
	n.Nodes[3].Demand = 0.001
	a, none := refusal(t, n, NoSource, 3)
	if none.Nodes[0].Most != 0 || math.Abs(a.Flow[0]-0.002) > 1e-15 || a.Pressure[1] < 7e5 {
		t.Errorf("the rest is not answered: %+v", a)
	}
	n.Nodes[3] = Node{Name: "end", Outflow: coupler(1e-8), Back: 101325}
	if a, err = solverOf(t, n).Solve(context.Background()); err != nil || a.Pressure[2] != 101325 || !a.Determined[3] {
		t.Errorf("a part open to the atmosphere alone: %+v, %v", a, err)
	}
}

// A choked coupler passes C·ρ0·p at 293.15 K and no more (ISO 6358-1:2013).
func TestDemandBeyondChoking(t *testing.T) {
	const c, p = 1e-8, 8e5
	most := c * element.RefDensity * p
	n := &Network{
		Nodes: []Node{{Name: "s", Fixed: true, Pressure: p}, {Name: "tool", Demand: 1.001 * most}, {Name: "other", Demand: 0.001}},
		Links: []Link{{"c", 0, 1, coupler(c)}, {"p", 0, 2, pipe(5, 0.02)}},
	}
	_, none := refusal(t, n, TooMuch, 1)
	if got := none.Nodes[0].Most; math.Abs(got-most) > 1e-6*most {
		t.Errorf("at most %g, want %g", got, most)
	}
	n.Nodes[1].Demand = 0.999 * most
	if _, err := solverOf(t, n).Solve(context.Background()); err != nil {
		t.Error(err)
	}
}

func TestDemandBeyondAPipe(t *testing.T) {
	line := pipe(20, 0.006)
	most, _, _ := line.Flow(8e5, 0)
	n := &Network{
		Nodes: []Node{{Name: "s", Fixed: true, Pressure: 8e5}, {Name: "tool", Demand: 1.2 * most}},
		Links: []Link{{"hose", 0, 1, line}},
	}
	_, none := refusal(t, n, TooMuch, 1)
	if got := none.Nodes[0].Most; math.Abs(got-most) > 1e-6*most {
		t.Errorf("at most %g, want %g", got, most)
	}
}

func TestAirPutIn(t *testing.T) {
	n := &Network{
		Nodes: []Node{{Name: "compressor", Demand: -0.01}, {Name: "tool", Outflow: coupler(1e-8), Back: 101325}},
		Links: []Link{{"p", 0, 1, pipe(10, 0.02)}},
	}
	a, err := solverOf(t, n).Solve(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	// Choked: p = m/(C ρ0).
	if want := 0.01 / (1e-8 * element.RefDensity); math.Abs(a.Pressure[1]-want) > 1e-9*want {
		t.Errorf("tool at %g, want %g", a.Pressure[1], want)
	}
	n.Nodes[1] = Node{Name: "tool", Demand: 0.01}
	refusal(t, n, NoLevel, 0, 1)
	n = &Network{
		Nodes: []Node{{Name: "s", Fixed: true, Pressure: 8e5}, {Name: "in", Demand: -0.01}},
		Links: []Link{{"check", 0, 1, check(0)}},
	}
	refusal(t, n, NoExit, 1)
}

func TestDeadEndsFill(t *testing.T) {
	n := &Network{
		Nodes: []Node{{Name: "s", Fixed: true, Pressure: 8e5}, {Name: "held"}, {Name: "set"}, {Name: "behind"}, {Name: "loop"}, {Name: "upstream"}},
		Links: []Link{
			{"check", 0, 1, check(2e4)},
			{"regulator", 1, 2, regulator(5e5)},
			{"pipe", 2, 3, pipe(3, 0.01)},
			{"in", 3, 4, check(1e4)},
			{"out", 4, 3, check(1e4)},
			{"from", 5, 0, check(0)},
		},
	}
	a, err := solverOf(t, n).Solve(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{8e5, 7.8e5, 5e5, 5e5, 4.9e5, 0} {
		if a.Pressure[i] != want || a.Determined[i] != (want > 0) {
			t.Errorf("%s at %v, want %v", n.Nodes[i].Name, a.Pressure[i], want)
		}
	}
}

func TestTwoSourcesAndAReserve(t *testing.T) {
	n := &Network{
		Nodes: []Node{
			{Name: "a", Fixed: true, Pressure: 8e5},
			{Name: "b", Fixed: true, Pressure: 7e5},
			{Name: "hall", Demand: 0.01},
			{Name: "zone", Demand: 0.004},
		},
		Links: []Link{{"a", 0, 2, check(0)}, {"b", 1, 2, check(0)}, {"r", 2, 3, regulator(4e5)}},
	}
	a, err := solverOf(t, n).Solve(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(a.Flow[0]-0.014) > 1e-14 || a.Flow[1] != 0 {
		t.Errorf("flows %v: the lower source must rest", a.Flow)
	}
	if math.Abs(a.Pressure[3]-4e5) > 1e-3 {
		t.Errorf("zone at %v", a.Pressure[3])
	}
}

func TestBadNumbersAndStops(t *testing.T) {
	for _, n := range []*Network{
		{Nodes: []Node{{Name: "s", Fixed: true, Pressure: math.NaN()}}},
		{Nodes: []Node{{Name: "s", Fixed: true, Pressure: -1}}},
		{Nodes: []Node{{Name: "s", Fixed: true, Pressure: 8e5, Demand: math.Inf(1)}}},
	} {
		var none *NoAnswer
		if _, err := solverOf(t, n).Solve(context.Background()); !errors.As(err, &none) || none.Reason != BadNumber {
			t.Errorf("got %v", err)
		}
	}
	if _, err := (&Network{Nodes: []Node{{}}, Links: []Link{{From: 0, To: 1, Law: element.Shut{}}}}).Compile(); err == nil {
		t.Error("a link to nowhere is compiled")
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := solverOf(t, networkOf(t, treeDocument(5, 1))).Solve(ctx); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v, want canceled", err)
	}
}

type record []Step

func (r *record) Step(s Step) { *r = append(*r, s) }

func TestTraceSeesEachStep(t *testing.T) {
	s := solverOf(t, networkOf(t, gridDocument(6, 1)))
	var r record
	s.Trace = &r
	a, err := s.Solve(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if len(r) != a.Iterations || r[0].Method != First || r[1].Method != Newton || r[len(r)-1].Law > r[1].Law/100 {
		t.Errorf("%d iterations, trace %+v", a.Iterations, r)
	}
}
