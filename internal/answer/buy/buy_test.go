package buy

import (
	"context"
	"errors"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

func drawQuestion(t *rapid.T) Question {
	q := Question{Need: map[string]float64{}, Drawer: map[string]float64{}, Spare: map[string]float64{}}
	articles := []string{"a", "b", "c"}[:rapid.IntRange(1, 3).Draw(t, "articles")]
	for _, a := range articles {
		q.Need[a] = float64(rapid.IntRange(0, 4).Draw(t, "need"))
		q.Drawer[a] = float64(rapid.IntRange(0, 2).Draw(t, "drawer"))
		q.Spare[a] = float64(rapid.IntRange(0, 1).Draw(t, "spare"))
	}
	money := func(most int, name string) Money { return Money(rapid.IntRange(0, most).Draw(t, name)) }
	for _, id := range []string{"s", "t"} {
		q.Suppliers = append(q.Suppliers, Supplier{id, money(60, "delivery"), money(150, "free from")})
	}
	for _, id := range []string{"o1", "o2", "o3", "o4"}[:rapid.IntRange(1, 4).Draw(t, "offers")] {
		o := Offer{ID: id, Supplier: rapid.SampledFrom([]string{"s", "t"}).Draw(t, "supplier"), Price: money(50, "price")}
		if rapid.IntRange(0, 3).Draw(t, "limited") == 0 {
			n := rapid.IntRange(0, 3).Draw(t, "available")
			o.Available = &n
		}
		o.Contains = map[string]float64{}
		for _, a := range articles {
			if n := rapid.IntRange(0, 3).Draw(t, "amount"); n > 0 {
				o.Contains[a] = float64(n)
			}
		}
		q.Offers = append(q.Offers, o)
	}
	return q
}

// brute counts through all baskets. An offer is of no use beyond seven times the most
// that is needed of anything, or beyond reaching a free delivery.
func brute(q Question) (Money, bool) {
	best, found := Money(math.MaxInt64), false
	times := make([]int, len(q.Offers))
	var fill func(k int)
	fill = func(k int) {
		if k == len(times) {
			if price, ok := priceOf(q, times); ok {
				best, found = min(best, price), true
			}
			return
		}
		most := 7
		if p := q.Offers[k].Price; p > 0 {
			most += int(60 / p)
		}
		if n := q.Offers[k].Available; n != nil {
			most = min(most, *n)
		}
		for times[k] = range min(most, 12) + 1 {
			fill(k + 1)
		}
	}
	fill(0)
	return best, found
}

func priceOf(q Question, times []int) (Money, bool) {
	bought, goods, used := map[string]float64{}, map[string]Money{}, map[string]bool{}
	for k, n := range times {
		o := q.Offers[k]
		goods[o.Supplier] += o.Price * Money(n)
		used[o.Supplier] = used[o.Supplier] || n > 0
		for article, amount := range o.Contains {
			bought[article] += amount * float64(n)
		}
	}
	for article, n := range q.Need {
		if bought[article] < n+q.Spare[article]-q.Drawer[article] {
			return 0, false
		}
	}
	price := Money(0)
	for _, s := range q.Suppliers {
		price += goods[s.ID]
		if used[s.ID] && (s.FreeFrom == 0 || goods[s.ID] < s.FreeFrom) {
			price += s.Delivery
		}
	}
	return price, true
}

// The expected price is found by counting through all baskets. Prices of 1 to 5 are
// left out, for they would have to be counted too far.
func TestBrute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuestion(t)
		for _, o := range q.Offers {
			if o.Price > 0 && o.Price < 12 {
				t.Skip("too many baskets to count")
			}
		}
		want, found := brute(q)
		b, err := Cheapest(context.Background(), q)
		var short *UncoveredError
		if errors.As(err, &short) != !found {
			t.Fatalf("%v, though there is a basket: %v", err, found)
		}
		if found && (err != nil || b.Price != want || !b.Proven) {
			t.Fatalf("%v, proven %v, want %v: %v", b.Price, b.Proven, want, err)
		}
	})
}

// One more offer never makes the basket dearer; a larger drawer never either.
func TestMoreIsNotDearer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := generate(sizes()[rapid.IntRange(0, 2).Draw(t, "kind")], rapid.Uint64Range(0, 1e6).Draw(t, "seed"))
		all, err := Cheapest(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		fewer := q
		fewer.Offers = q.Offers[:len(q.Offers)-1]
		without, err := Cheapest(context.Background(), fewer)
		if err != nil || without.Price < all.Price || !all.Proven {
			t.Fatalf("%v, with one offer more %v: %v", without.Price, all.Price, err)
		}
		q.Drawer = map[string]float64{articleName(0): 3}
		there, err := Cheapest(context.Background(), q)
		if err != nil || there.Price > all.Price {
			t.Fatalf("%v, with a drawer %v: %v", all.Price, there.Price, err)
		}
	})
}

func TestHolds(t *testing.T) {
	for _, s := range sizes() {
		for seed := range uint64(3) {
			q := generate(s, seed)
			b, err := Cheapest(context.Background(), q)
			if err != nil || !b.Proven {
				t.Fatalf("%s-%d: proven %v: %v", s.name, seed, b.Proven, err)
			}
			holds(t, q, b)
			again, _ := Cheapest(context.Background(), q)
			if !reflect.DeepEqual(b, again) {
				t.Errorf("%s-%d: another answer the second time", s.name, seed)
			}
		}
	}
}
