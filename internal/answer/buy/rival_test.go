package buy

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"dropleg/engine/num/numtest"
)

// TestRival holds prices against glpsol (GNU Linear Programming Kit), which reads a
// formulation of its own below: it shares no code with the package.
func TestRival(t *testing.T) {
	compared := 0
	for _, s := range sizes() {
		for seed := range uint64(4) {
			q := generate(s, 100+seed)
			b, err := Cheapest(context.Background(), q)
			if err != nil || !b.Proven {
				t.Fatalf("%s-%d: proven %v: %v", s.name, seed, b.Proven, err)
			}
			holds(t, q, b)
			rival := numtest.Glpsol(t, rivalText(q), 10)
			want := Money(math.Round(rival.Best))
			if !rival.Ended {
				t.Logf("%s-%d: not proven by glpsol in its time, %v here", s.name, seed, b.Price)
				continue
			}
			compared++
			if b.Price != want {
				t.Errorf("%s-%d: %v, glpsol %v", s.name, seed, b.Price, want)
			}
		}
	}
	if compared == 0 {
		t.Error("nothing was compared")
	}
}

// rivalText writes the question as text for glpsol, in hundredths. x is how often an
// offer is bought, c tells that its supplier charges, f that it delivers free; the
// bound on x is what covers any need and reaches any free delivery alone.
func rivalText(q Question) string {
	var cost, rows, whole, binary strings.Builder
	fmt.Fprint(&cost, "Minimize\n price:")
	most := make([]float64, len(q.Offers))
	for k, o := range q.Offers {
		fmt.Fprintf(&cost, "\n + %d x%d", o.Price, k)
		fmt.Fprintf(&whole, " x%d\n", k)
		for article, n := range o.Contains {
			most[k] = max(most[k], math.Ceil(q.Need[article]/n))
		}
	}
	for _, article := range sortedKeys(q.Need) {
		for k, o := range q.Offers {
			if n := o.Contains[article]; n > 0 {
				fmt.Fprintf(&rows, " + %v x%d\n", n, k)
			}
		}
		fmt.Fprintf(&rows, " >= %v\n", q.Need[article])
	}
	for i, s := range q.Suppliers {
		fmt.Fprintf(&cost, "\n + %d c%d + 0 f%d", s.Delivery, i, i)
		fmt.Fprintf(&binary, " c%d f%d\n", i, i)
		goods := ""
		for k, o := range q.Offers {
			if o.Supplier != s.ID {
				continue
			}
			reach := most[k] + math.Ceil(float64(s.FreeFrom)/float64(o.Price))
			fmt.Fprintf(&rows, " x%d - %v c%d - %v f%d <= 0\n", k, reach, i, reach, i)
			goods += fmt.Sprintf(" + %d x%d\n", o.Price, k)
		}
		switch {
		case s.FreeFrom == 0:
			fmt.Fprintf(&rows, " f%d = 0\n", i)
		case goods != "":
			fmt.Fprintf(&rows, "%s - %d f%d >= 0\n", goods, s.FreeFrom, i)
		}
	}
	return fmt.Sprintf("%s\nSubject To\n%sGeneral\n%sBinary\n%sEnd\n", &cost, &rows, &whole, &binary)
}
