package qr

import (
	"strings"
	"testing"

	foreign "github.com/boombuler/barcode/qr"
	"pgregory.net/rapid"
)

// With one of the eight masks each code is, square by square, what a second program makes of the
// same text: that one in bytes too, for the texts have letters that its shorter modes lack.
func TestAgainstSecondProgram(t *testing.T) {
	met := map[int]bool{}
	compare := func(t testing.TB, text string) {
		want, err := foreign.Encode(text, foreign.Q, foreign.Unicode)
		if err != nil {
			t.Fatal(err)
		}
		version := fits(len(text))
		met[version] = true
		if size := want.Bounds().Dx(); size != 17+4*version {
			t.Fatalf("%d bytes: %d squares, want %d", len(text), 17+4*version, size)
		}
		for mask := range 8 {
			d := newDrawing(version)
			d.write(shared(packed(text, version), version))
			d.mask(mask)
			d.format(mask)
			same := true
			for y := range d.size {
				for x := range d.size {
					r, _, _, _ := want.At(x, y).RGBA()
					same = same && d.dark[y][x] == (r == 0)
				}
			}
			if same {
				return
			}
		}
		t.Fatalf("%q: no mask gives the same squares", text)
	}
	for n := 1; n <= 1663; n += 1 + n/6 {
		compare(t, strings.Repeat("dropleg:point.valve-far/in ", 70)[:n])
	}
	if len(met) < 20 {
		t.Errorf("only %d sizes were met", len(met))
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[a-z:/.#=&%0-9-]{1,160}`).Draw(t, "text") + "a"
		if _, err := Encode(text); err != nil {
			t.Fatal(err)
		}
	})
}

// Every version holds the bytes that the standard gives for level Q: 11 in the smallest, 151 in
// version 10, 1663 in the largest (ISO/IEC 18004, table 7; recalled).
func TestCapacity(t *testing.T) {
	for text, want := range map[int]int{1: 1, 11: 1, 12: 2, 151: 10, 152: 11, 1663: 40, 1664: 0} {
		if got := fits(text); got != want {
			t.Errorf("%d bytes: version %d, want %d", text, got, want)
		}
	}
	if _, err := Encode(strings.Repeat("a", 1664)); err == nil {
		t.Error("too long a text was taken")
	}
}

// The mask is the one of least penalty, and so the same each time.
func TestSameSquares(t *testing.T) {
	a, _ := Encode("dropleg:outlet.a")
	b, _ := Encode("dropleg:outlet.a")
	for y := range a {
		for x := range a[y] {
			if a[y][x] != b[y][x] {
				t.Fatal("they differ")
			}
		}
	}
}

func BenchmarkEncode(b *testing.B) {
	for b.Loop() {
		if _, err := Encode("dropleg:point.valve-far/in"); err != nil {
			b.Fatal(err)
		}
	}
}
