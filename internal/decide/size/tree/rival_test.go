package tree

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"dropleg/engine/num/numtest"
)

// TestRival holds prices against glpsol (GNU Linear Programming Kit) on generated trees of
// which every loss in squared pressure is a constant of flow and option, so that an integer
// programme in squared pressures is the same question exactly. (Of real air the loss hangs on
// the pressures too, by the logarithm in the law of lines; there the programme would be an
// approximation, and selections are counted out instead.) It shares no code with the package.
func TestRival(t *testing.T) {
	compared := 0
	for seed := range uint64(30) {
		rng := rand.New(rand.NewPCG(seed, 99))
		b := shop(rng, 9+3*rng.IntN(7), 1+rng.IntN(5))
		if seed%2 == 0 {
			b = generate(rng, 8+rng.IntN(20), 5, 1+rng.IntN(4))
		}
		switch {
		case seed%3 == 1:
			b.meet(rng, 6)
		case seed%6 == 5:
			b.reducers()
		}
		a, err := b.Solve(t.Context())
		rival := numtest.Glpsol(t, b.rivalText(), 5)
		want := rival.Best
		switch {
		case !rival.Ended:
			t.Logf("seed %d: not proven by glpsol in its time", seed)
			continue
		case math.IsInf(want, 1) != (err != nil):
			t.Errorf("seed %d: %v, glpsol %v", seed, err, want)
		case err == nil && math.Abs(a.Price-want) > 0.005:
			t.Errorf("seed %d: %v, proven %v, glpsol %v", seed, a.Price, a.Proven, want)
		}
		compared++
	}
	if compared < 20 {
		t.Errorf("only %d were compared", compared)
	}
}

// rivalText is the question as an integer programme: x says which option of a place is
// taken, s is the squared pressure at its lower end in each case, in units of 1e10 Pa².
func (b *bare) rivalText() string {
	const square = 1e10
	var price, rows, bounds, whole strings.Builder
	for i := range b.Places {
		v := &b.Places[i]
		fmt.Fprintf(&rows, " one%d:", i)
		for o := range v.Options {
			fmt.Fprintf(&price, " + %.10g x%d_%d", v.Options[o].Price, i, o)
			fmt.Fprintf(&rows, " + x%d_%d", i, o)
			fmt.Fprintf(&whole, " x%d_%d", i, o)
		}
		rows.WriteString(" = 1\n")
		for c := range b.Cases {
			fmt.Fprintf(&rows, " s%d_%d: + s%d_%d", i, c, i, c)
			right := 0.0
			if v.Parent < 0 {
				right = v.Supply[c] * v.Supply[c] / square
			} else {
				fmt.Fprintf(&rows, " - s%d_%d", v.Parent, c)
			}
			for o := range v.Options {
				fmt.Fprintf(&rows, " + %.15g x%d_%d", b.r[i][o]*v.Flow[c]*v.Flow[c]/square, i, o)
			}
			fmt.Fprintf(&rows, " = %.15g\n", right)
			// Nothing stands below vacuum, where nothing flows in a tree that holds.
			fmt.Fprintf(&bounds, " s%d_%d >= %.15g\n", i, c, leastOf(v, c)/square)
		}
		b.rivalBores(&rows, i)
	}
	for g := range b.Meets {
		b.rivalMeets(&price, &rows, g)
	}
	return "Minimize\n price:" + price.String() + "\nSubject To\n" + rows.String() + "Bounds\n" + bounds.String() + "Binary\n" + whole.String() + "\nEnd\n"
}

// leastOf is the squared pressure that is wanted at the lower end of a place.
func leastOf(v *Place, c int) float64 {
	if v.Flow[c] > 0 {
		return v.Least[c] * v.Least[c]
	}
	return 0
}

// rivalMeets prices what is taken together: y says which options of a meet are, of which
// those with an option of a place are as many as that.
func (b *bare) rivalMeets(price, rows *strings.Builder, g int) {
	m := b.Meets[g]
	by := make([][]strings.Builder, len(m.Places))
	for i, v := range m.Places {
		by[i] = make([]strings.Builder, len(b.Places[v].Options))
	}
	for at, much := range m.Price {
		fmt.Fprintf(price, " + %.10g y%d_%d", much, g, at)
		rest := at
		for i := len(m.Places) - 1; i >= 0; i-- {
			o := rest % len(by[i])
			rest /= len(by[i])
			fmt.Fprintf(&by[i][o], " + y%d_%d", g, at)
		}
	}
	for i, v := range m.Places {
		for o := range by[i] {
			fmt.Fprintf(rows, " meet%d_%d_%d:%s - x%d_%d = 0\n", g, i, o, by[i][o].String(), v, o)
		}
	}
}

// rivalBores keeps a line from being wider than the next line above it.
func (b *bare) rivalBores(rows *strings.Builder, i int) {
	up := b.Places[i].Parent
	for up >= 0 && !b.Places[up].Line {
		up = b.Places[up].Parent
	}
	if up < 0 || !b.Places[i].Line {
		return
	}
	fmt.Fprintf(rows, " bore%d:", i)
	for o, x := range b.Places[i].Options {
		fmt.Fprintf(rows, " + %.10g x%d_%d", x.Bore*1e3, i, o)
	}
	for o, x := range b.Places[up].Options {
		fmt.Fprintf(rows, " - %.10g x%d_%d", x.Bore*1e3, up, o)
	}
	rows.WriteString(" <= 0\n")
}
