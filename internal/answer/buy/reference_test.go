package buy

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// read takes a file of testdata/ref/bench/purchase: the question and its least price,
// proven by glpsol and found again by cbc (testdata/ref/bench/README.md).
func read(t testing.TB, path string) (Question, Money) {
	t.Helper()
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Instance
		Least float64 `json:"least_price"`
	}
	if err := json.Unmarshal(raw, &file); err != nil {
		t.Fatal(err)
	}
	q, err := file.Question()
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	least, err := Hundredths(file.Least)
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return q, least
}

func references(t testing.TB) []string {
	files, err := filepath.Glob(filepath.FromSlash("../../../testdata/ref/bench/purchase/*.json"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no reference files: %v", err)
	}
	return files
}

func nameOf(path string) string { return strings.TrimSuffix(filepath.Base(path), ".json") }

func TestReference(t *testing.T) {
	for _, path := range references(t) {
		q, want := read(t, path)
		b, err := Cheapest(context.Background(), q)
		if err != nil || b.Price != want || b.Bound != want || !b.Proven {
			t.Errorf("%s: %v, bound %v, want %v: %v", nameOf(path), b.Price, b.Bound, want, err)
		}
		holds(t, q, b)
	}
}

// holds counts a basket again from its lines alone.
func holds(t testing.TB, q Question, b Basket) {
	t.Helper()
	times := map[string]int{}
	for _, l := range b.Lines {
		times[l.Offer] += l.Times
	}
	bought, goods := map[string]float64{}, map[string]Money{}
	for _, o := range q.Offers {
		n := times[o.ID]
		if n == 0 {
			continue
		}
		if n < 0 || o.Available != nil && n > *o.Available {
			t.Errorf("%s is bought %d times", o.ID, n)
		}
		goods[o.Supplier] += o.Price * Money(n)
		for article, amount := range o.Contains {
			bought[article] += amount * float64(n)
		}
	}
	for article, n := range q.Need {
		lack := max(0, n+q.Spare[article]-q.Drawer[article])
		if bought[article] < lack*(1-1e-9) {
			t.Errorf("%v of %s bought, %v needed", bought[article], article, lack)
		}
		if left := bought[article] - lack; left-b.Left[article] > 1e-6 || b.Left[article]-left > 1e-6 {
			t.Errorf("%v of %s left over, told %v", left, article, b.Left[article])
		}
	}
	price := Money(0)
	for _, s := range q.Suppliers {
		value, used := goods[s.ID]
		price += value
		if used && (s.FreeFrom == 0 || value < s.FreeFrom) {
			price += s.Delivery
		}
	}
	if price != b.Price {
		t.Errorf("the lines come to %v, told %v", price, b.Price)
	}
}

func BenchmarkPurchase(b *testing.B) {
	for _, path := range references(b) {
		q, want := read(b, path)
		b.Run(nameOf(path), func(b *testing.B) { purchase(b, q, want) })
	}
}

// BenchmarkKinds runs ten questions of each kind, so that one odd case shows less.
func BenchmarkKinds(b *testing.B) {
	for _, s := range sizes() {
		b.Run(s.name, func(b *testing.B) {
			for b.Loop() {
				for seed := range uint64(10) {
					purchaseOnce(b, generate(s, seed), -1)
				}
			}
		})
	}
}

func purchase(b *testing.B, q Question, want Money) {
	for b.Loop() {
		purchaseOnce(b, q, want)
	}
}

func purchaseOnce(b *testing.B, q Question, want Money) {
	basket, err := Cheapest(context.Background(), q)
	if err != nil || !basket.Proven || want >= 0 && basket.Price != want {
		b.Fatalf("%v, proven %v, want %v: %v", basket.Price, basket.Proven, want, err)
	}
}
