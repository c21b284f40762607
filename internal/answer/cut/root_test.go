package cut

import (
	"context"
	"fmt"
	"testing"
)

// The relaxation over listed patterns and the one over patterns that are asked for are
// one programme: their bounds may differ by the rounding of multipliers alone.
func TestAskingFindsTheSameBound(t *testing.T) {
	eachListed(t, 12, func(name string, s *shape, listed root) {
		start, _ := greedy(s)
		asked, err := askRoot(context.Background(), s, start)
		if err != nil {
			t.Fatal(err)
		}
		// One coin in a hundred thousand, and one coin.
		near := listed.bound/100_000 + s.fine
		if d := asked.bound - listed.bound; d > near || d < -near {
			t.Errorf("%s: bound %d, listed %d", name, asked.bound/s.fine, listed.bound/s.fine)
		}
		checkWorth(t, s, asked.worth)
	})
}

// eachListed goes through generated questions of each kind whose full patterns can be listed.
func eachListed(t *testing.T, seeds uint64, look func(name string, s *shape, listed root)) {
	t.Helper()
	for _, kind := range []string{"stocks", "coil", "few", "sticks"} {
		for seed := range seeds {
			s := shapeOf(generate(kind, seed).ask)
			listed, err := solveRoot(context.Background(), s, nil)
			if err != nil {
				t.Fatal(err)
			}
			if listed.complete {
				look(fmt.Sprintf("%s-%d", kind, seed), s, listed)
			}
		}
	}
}

// checkWorth holds that no full pattern at all is worth more than it costs.
func checkWorth(t *testing.T, s *shape, w worth) {
	t.Helper()
	all, ok := patterns(context.Background(), s, s.free(), 0, fullMost)
	if !ok {
		t.Fatal("too many patterns")
	}
	for i := range all.len() {
		if c := w.overrun(s.joint, all.load(i)); c < 0 {
			t.Fatalf("pattern %v is worth %d parts more than it costs", all.load(i), -c)
		}
	}
}
