package catalog

import (
	"math"
	"testing"
)

func TestSizeAsTyped(t *testing.T) {
	for _, c := range []struct{ stock, typed, want string }{
		{"copper-l", "3/4", "3/4"},
		{"copper-l", "3/4in", "3/4"},
		{"copper-l", "3/4 in", "3/4"},
		{"copper-l", `3/4"`, "3/4"},
		{"copper-l", "0.75", "3/4"},
		{"copper-l", "0.75 inch", "3/4"},
		{"copper-l", "1 1/4", "1-1/4"},
		{"copper-l", "1-1/4 in", "1-1/4"},
		{"copper-l", "1.25", "1-1/4"},
		{"copper-l", "22 mm", ""},
		{"copper-l", "1 mm", ""},
		{"steel-en10255", "DN20", "3/4"},
		{"steel-en10255", "dn20", "3/4"},
		{"copper-en1057-thin", "22 mm", "22"},
		{"copper-en1057-thin", "22", "22"},
		{"copper-en1057-thin", "22 x 0.9", "22"},
		{"copper-en1057-thin", "22 in", ""},
		{"pe-al-pe-metric", "16 x 2.0", "16"},
		{"pe-al-pe-metric", "16x2", "16"},
		{"pe-al-pe", "2025", "3/4"},
		{"nylon-metric", "10", "10"},
		{"nylon-metric", "10x8", "10"},
		{"nylon-metric", "10 x 7.5", "10x7.5"},
		{"nylon-metric", "12x9", "12"},
		{"copper-l", "", ""},
		{"copper-l", "1/0", ""},
		{"copper-l", "NaN", ""},
		{"copper-l", "7/8", ""},
	} {
		z, ok := mustStock(t, c.stock).Size(c.typed)
		if ok != (c.want != "") || z.Size != c.want {
			t.Errorf("%s %q: %q, want %q", c.stock, c.typed, z.Size, c.want)
		}
	}
}

func TestNearest(t *testing.T) {
	c := Builtin()
	for _, q := range []struct{ shelf, word, want string }{
		{Stocks, "copper_L", "copper-l"},
		{Stocks, "coper-l", "copper-l"},
		{Kinds, "ball valve", "ball-valve"},
		{Kinds, "tea", "tee"},
		{Tools, "xyzzyxyzzy", ""},
	} {
		if got := c.Nearest(q.shelf, q.word); got != q.want {
			t.Errorf("nearest of %s to %q: %q, want %q", q.shelf, q.word, got, q.want)
		}
	}
}

func FuzzSize(f *testing.F) {
	for _, s := range []string{"3/4in", "1 1/4", "22 mm", "16 x 2.0", "DN20", "1e309", "-1/2", "1-/2", "x", "\""} {
		f.Add(s)
	}
	stocks := Builtin().Stocks()
	f.Fuzz(func(t *testing.T, typed string) {
		if v, ok := inches(bare(typed)); ok && (math.IsNaN(v) || math.IsInf(v, 0)) {
			t.Fatalf("%q reads as %v", typed, v)
		}
		for _, s := range stocks {
			if z, ok := s.Size(typed); ok {
				if again, ok := s.Size(z.Size); !ok || again.Size != z.Size {
					t.Fatalf("%s: %q finds %q, which finds %q", s.Stock, typed, z.Size, again.Size)
				}
			}
		}
	})
}
