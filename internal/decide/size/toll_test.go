package size

import (
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model/shoptest"
)

// told is a job in which an hour costs money and every article that may come up has a price
// of its own: so many cents by chance, dearer by the bores in its name.
func told(t *testing.T, j *job.Job) *study.Study {
	t.Helper()
	rate, none := 53.0, unit.Ratio(0)
	j.Prices = job.Prices{Currency: "XTS", Labour: &job.Labour{Rate: &rate}}
	j.Site.Currency = "XTS"
	j.Rules.SpareFittings, j.Rules.SpareClips = &none, &none
	shelf := catalog.Builtin()
	known := map[string]bool{}
	put := func(article, per string) {
		if name := parts.Fold(article); !known[name] {
			known[name] = true
			h := fnv.New32a()
			h.Write([]byte(name))
			j.Prices.List = append(j.Prices.List, job.Price{Article: article, Each: float64(100+h.Sum32()%2000) / 100, Per: per})
		}
	}
	for _, s := range shelf.Stocks() {
		for _, z := range s.Sizes {
			put(s.Stock+" "+z.Size, "m")
		}
	}
	for _, h := range shelf.Hoses() {
		put(h.Hose, "m")
		put(h.Hose+" reel", "piece")
	}
	for _, c := range shelf.Couplers() {
		put("socket "+c.Coupler, "piece")
		put("plug "+c.Coupler, "piece")
	}
	for _, x := range shelf.Treatment() {
		put(x.Item, "piece")
	}
	for {
		s := study.Of(j, shelf)
		w, err := newWork(t.Context(), s, Wish{})
		if err != nil {
			t.Fatal(err)
		}
		var lacking []string
		for _, c := range w.choices {
			for _, o := range c.options {
				lacking = append(lacking, o.guessed...)
			}
		}
		for _, m := range w.meets {
			w.each(m, func(_ []int, p priced) { lacking = append(lacking, p.guessed...) })
		}
		if len(lacking) == 0 {
			return s
		}
		for _, name := range lacking {
			put(name, "piece")
		}
	}
}

// comes is what a job comes to: the metres of the take-off and all else that the purchase
// needs, at the own prices, and the hours of the quotation. What the basket rounds up, whole
// metres of hose and of line as it is cut, is left out.
func comes(t *testing.T, s *study.Study) float64 {
	t.Helper()
	each := map[string]float64{}
	for _, p := range s.Job().Prices.List {
		each[parts.Fold(p.Article)] = p.Each
	}
	taken, err := s.Parts(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	bought, err := s.Purchase(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	quoted, err := s.Quote(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	sum := float64(quoted.Work) / 100
	for _, l := range taken.Lines {
		if l.Group == parts.Stock && l.State == parts.Planned {
			sum += each[parts.Fold(l.Article)] * float64(*l.Length)
		}
	}
	for _, n := range bought.Needs {
		if n.Group != parts.Stock {
			sum += each[parts.Fold(n.Article)] * n.Amount
		}
	}
	return sum
}

// What sizing says that a pick costs more than what is drawn is what the take-off, the
// purchase and the quotation of both come to, whatever is picked.
func TestPriceIsWhatThePurchaseTells(t *testing.T) {
	jobs := map[string]*job.Job{"ring of 3 drops": shoptest.Ring(3), "drawn ring": shoptest.Drawn(5)}
	for _, name := range []string{"boat-shop", "frame-garage"} {
		raw, _ := example.Read(name)
		jobs[name], _ = job.Parse(raw)
	}
	for name, j := range jobs {
		s := told(t, j)
		w, err := newWork(t.Context(), s, Wish{})
		if err != nil {
			t.Fatal(err)
		}
		told := func(s *study.Study, picks []int) float64 {
			clips, err := w.otherwise(t.Context(), s, picks)
			if err != nil {
				t.Fatal(err)
			}
			return w.total(picks) + clips
		}
		now, was := told(s, w.standing()), comes(t, s)
		rng := rand.New(rand.NewPCG(7, 7))
		for try := range 12 {
			picks := w.standing()
			for i, c := range w.choices {
				if rng.IntN(3) > 0 {
					picks[i] = rng.IntN(len(c.options))
				}
			}
			after, err := w.after(picks)
			if err != nil {
				t.Fatal(err)
			}
			is := comes(t, after)
			sum := 0.0
			for _, x := range w.moved(picks) {
				sum += x
			}
			sum += w.total(w.standing()) - w.total(picks)
			if more := told(after, picks) - now; math.Abs(more-(is-was)) > 0.02*float64(len(w.choices)) || math.Abs(sum) > 1e-6 {
				t.Errorf("%s, try %d: sizing says %.2f more, by choice %.2f; bought and done it is %.2f", name, try, more, sum, is-was)
			}
		}
	}
}

// An edit that does not apply at a point leaves it without a price: nothing is proposed as if
// what stands there came for nothing, and it is said where and why.
func TestWhatDoesNotApplyIsNoBargain(t *testing.T) {
	raw, _ := example.Read("boat-shop")
	j, _ := job.Parse(raw)
	w, err := newWork(t.Context(), told(t, j), Wish{Only: []job.ID{"hose.far-bench", "line.main-5", "line.main-6"}})
	if err != nil {
		t.Fatal(err)
	}
	c := w.choices[w.choiceWith["line.main-6"]]
	for k := range c.options {
		if k != c.now {
			c.options[k].edits = append(c.options[k].edits, cure.Set("line.main-6", "no_such_key", "1"))
		}
	}
	for _, m := range w.meets { // what was priced before it was spoilt
		clear(m.prices)
	}
	clear(w.starred)
	if _, _, err = w.propose(t.Context()); err == nil || !strings.Contains(err.Error(), "pricing what meets at point.") {
		t.Errorf("proposed, %v", err)
	}
}

// All sizes of a ring and of two drops on it are counted out at prices invented for all that
// may come up, the tees that they meet in with them: the proposal is the cheapest that holds.
func TestRingWithItsTeesCountedOut(t *testing.T) {
	for _, drops := range []int{2, 3} {
		s := told(t, shoptest.Ring(drops))
		j := s.Job()
		only := []job.ID{"hose.2"}
		ring := map[job.ID]bool{}
		for i := range j.Net.Runs {
			switch r := &j.Net.Runs[i]; {
			case r.Role == "ring":
				ring[r.ID] = true
				only = append(only, r.ID)
			case r.Role == "drop" && len(only) < 12:
				only = append(only, r.ID)
			}
		}
		p, err := Propose(t.Context(), s, Wish{Only: only}, nil)
		if err != nil {
			t.Fatal(err)
		}
		w, err := newWork(t.Context(), s, Wish{Only: only})
		if err != nil {
			t.Fatal(err)
		}
		f := w.frame()
		met := 0
		for _, m := range w.meets {
			if len(m.choices) > 1 {
				met++
			}
		}
		least, held, tried := math.Inf(1), 0, 0
		picks := make([]int, len(w.choices))
		var walk func(i, rung int)
		walk = func(i, rung int) {
			for i < len(picks) && ring[w.choices[i].ids[0]] {
				picks[i] = min(rung, len(w.choices[i].options)-1)
				i++
			}
			if i < len(picks) {
				for k := range w.choices[i].options {
					picks[i] = k
					walk(i+1, rung)
				}
				return
			}
			// Dearer than one that holds, or a line wider than the one before it: neither counts.
			if tried++; w.total(picks) >= least || !f.narrows(picks) {
				return
			}
			after, err := w.after(slices.Clone(picks))
			if err != nil {
				t.Fatal(err)
			}
			v, err := w.verify(t.Context(), after, slices.Clone(picks))
			if err != nil {
				t.Fatal(err)
			}
			if len(v.lacks) == 0 && len(v.fast) == 0 && len(v.mains) == 0 {
				least, held = w.total(picks), held+1
			}
		}
		for k := range w.rungs {
			walk(0, k)
		}
		t.Logf("%d drops, %d places where sizes meet: of %d selections the least is %v (the %dth found); proposed %v, bound %v", drops, met, tried, least, held, p[0].Price, p[0].Bound)
		if met < drops || p[0].Bound > least+1e-6 || math.Abs(p[0].Price-least) > 1e-6 {
			t.Errorf("%d drops: proposed %v, bound %v; the least that holds is %v", drops, p[0].Price, p[0].Bound, least)
		}
	}
}
