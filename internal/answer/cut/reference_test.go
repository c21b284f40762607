package cut

import (
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The files of testdata/ref/bench/cutting; least_price was proven by integer programmes
// over all patterns (glpsol, HiGHS) and by arc flow (cbc), as the README there says.
const referenceFolder = "../../../testdata/ref/bench/cutting"

type reference struct {
	name  string
	ask   Question
	price int64
}

func references(t testing.TB) []reference {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(referenceFolder, "*.json"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no reference files: %v", err)
	}
	var all []reference
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var f struct {
			Instance
			Least float64 `json:"least_price"`
		}
		if err := json.Unmarshal(text, &f); err != nil {
			t.Fatal(err)
		}
		q, err := f.Question()
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		name := strings.TrimSuffix(filepath.Base(file), ".json")
		all = append(all, reference{name, q, cents(f.Least)})
	}
	return all
}

func cents(price float64) int64 { return int64(math.Round(price * 100)) }

func TestReferences(t *testing.T) {
	for _, r := range references(t) {
		t.Run(r.name, func(t *testing.T) {
			p, err := Solve(context.Background(), r.ask, nil)
			if err != nil {
				t.Fatal(err)
			}
			if p.Price != r.price || !p.Proven {
				t.Errorf("price %d, bound %d, want %d proven", p.Price, p.Bound, r.price)
			}
			faults(t, r.ask, p)
		})
	}
}

func BenchmarkCut(b *testing.B) {
	for _, r := range references(b) {
		b.Run(r.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Solve(context.Background(), r.ask, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkGenerated cuts many generated questions of each kind; one round is all of
// them, and the slowest one is told apart.
func BenchmarkGenerated(b *testing.B) {
	for _, kind := range kindsMade {
		b.Run(kind, func(b *testing.B) {
			for b.Loop() {
				for seed := range uint64(30) {
					p, err := Solve(context.Background(), generate(kind, seed).ask, nil)
					if err != nil || !p.Proven {
						b.Fatalf("%s-%d: %v, proven %t", kind, seed, err, p.Proven)
					}
				}
			}
		})
	}
}
