package buy

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// size is one kind of question, after the reference files: one single offer for each
// article, then packs and kits below the price of their parts.
type size struct {
	name                        string
	articles, offers, suppliers int
	delivery                    bool
}

// sizes are those of the five reference files in their order of size, and beyond.
func sizes() []size {
	return []size{
		{"garage", 10, 20, 1, false},
		{"shop", 16, 34, 2, true},
		{"hall", 26, 50, 3, false},
		{"big", 36, 60, 3, false},
		{"yard", 30, 60, 3, true},
		{"depot", 40, 80, 4, true},
	}
}

// generate makes a question of a kind, the same for the same seed.
func generate(s size, seed uint64) Question {
	r := rand.New(rand.NewPCG(seed, 0x627579))
	q := Question{Need: map[string]float64{}, Drawer: map[string]float64{}}
	for k := range s.suppliers {
		supplier := Supplier{ID: fmt.Sprintf("supplier-%d", k+1)}
		if s.delivery {
			supplier.Delivery = pick(r, 950, 1250, 1450, 1800, 2050, 2650, 3500)
			supplier.FreeFrom = pick(r, 0, 15000, 20000, 22000, 40000, 90000, 150000, 260000)
		}
		q.Suppliers = append(q.Suppliers, supplier)
	}
	single := map[string]float64{}
	for k := range s.articles {
		article := articleName(k)
		q.Need[article] = float64(1 + r.IntN(24))
		price := float64(pick(r, 40, 130, 260, 300, 520, 560, 860, 900, 1320, 1470, 1980, 2300, 3500, 3800, 4100))
		single[article] = math.Round(price * (0.93 + 0.14*r.Float64()))
		q.add(r, Money(single[article]), map[string]float64{article: 1})
	}
	for len(q.Offers) < s.offers {
		contains := map[string]float64{}
		share := 0.64 + 0.21*r.Float64()
		if r.IntN(5) < 2 {
			contains[articleName(r.IntN(s.articles))] = float64(pick(r, 5, 10, 20))
		} else {
			share = 0.55 + 0.23*r.Float64()
			for _, k := range r.Perm(s.articles)[:3+r.IntN(5)] {
				contains[articleName(k)] = float64(1 + r.IntN(8))
			}
		}
		value := 0.0
		for _, article := range sortedKeys(contains) {
			value += single[article] * contains[article]
		}
		q.add(r, Money(math.Round(value*share)), contains)
	}
	return q
}

func articleName(k int) string { return fmt.Sprintf("part-%d", k+1) }

func pick(r *rand.Rand, from ...Money) Money { return from[r.IntN(len(from))] }

func (q *Question) add(r *rand.Rand, price Money, contains map[string]float64) {
	q.Offers = append(q.Offers, Offer{
		ID: fmt.Sprintf("offer-%d", len(q.Offers)+1), Supplier: q.Suppliers[r.IntN(len(q.Suppliers))].ID,
		Price: price, Contains: contains,
	})
}
