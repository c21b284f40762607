package sheet_test

import (
	"context"
	"strings"
	"testing"

	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/show/page"
	"dropleg/internal/show/scene"
)

// every calls a function with all that is drawn on leaves.
func every(leaves []scene.Leaf, do func(it *scene.Item)) {
	for i := range leaves {
		for k := range leaves[i].Laid {
			for _, l := range leaves[i].Laid[k].Scene.Layers {
				for n := range l.Items {
					do(&l.Items[n])
				}
			}
		}
	}
}

// On every paper the isometric has each joint's number exactly once, on the drawing, on a part of
// it or on what is drawn larger; it takes no more leaves than a hand sorts, and what is ringed
// stands under its letter.
func TestIsometricHasEveryJointOnce(t *testing.T) {
	most := map[string]map[string]int{
		"boat-shop": {"a4": 1, "letter": 1, "a3": 1}, "frame-garage": {"a4": 1, "letter": 1, "a3": 1},
		"ring-main": {"a4": 4, "letter": 4, "a3": 2}, "ailing": {"a4": 1, "letter": 1, "a3": 1},
	}
	for name := range most {
		j := exampleJob(t, name)
		take, err := study.Of(j, catalog.Builtin()).Parts(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		for _, paper := range page.Papers() {
			m := maker(t, j, paper.Name)
			made, err := m.Make(context.Background(), []string{"isometric"})
			if err != nil {
				t.Fatal(err)
			}
			leaves := m.Leaves(made[0])
			if n := most[name][paper.Name]; n > 0 && len(leaves) > n {
				t.Errorf("%s, %s: %d leaves, want %d", name, paper.Name, len(leaves), n)
			}
			times := map[int]int{}
			rings, larger := map[string]bool{}, map[string]bool{}
			every(leaves, func(it *scene.Item) {
				if words, ok := strings.CutPrefix(it.Title, "joint "); ok && it.Mark != nil {
					for n := range numbersIn(words) {
						times[n]++
					}
				}
				if letter, ok := strings.CutPrefix(it.Title, "detail "); ok {
					rings[letter] = true
				}
				if letter, _, ok := strings.Cut(it.Title, ", "); ok && strings.HasSuffix(it.Title, "times as large") {
					larger[letter] = true
				}
			})
			for i := range take.Joints {
				k := &take.Joints[i]
				if want := map[bool]int{true: 1}[k.At != nil && k.State != parts.Stub]; times[k.Number] != want {
					t.Errorf("%s, %s: joint %d stands there %d times, want %d", name, paper.Name, k.Number, times[k.Number], want)
				}
			}
			if len(rings) != len(larger) {
				t.Errorf("%s, %s: rings %v, drawn larger %v", name, paper.Name, rings, larger)
			}
		}
	}
}

// A shop that has room is drawn whole and as it is; one that has none on any leaf says what is
// shorter and where lines go on.
func TestIsometricSaysWhatItIs(t *testing.T) {
	for name, want := range map[string][3]bool{"frame-garage": {}, "ailing": {}, "ring-main": {true, true, true}} {
		m := maker(t, exampleJob(t, name), "a4")
		made, err := m.Make(context.Background(), []string{"isometric"})
		if err != nil {
			t.Fatal(err)
		}
		words := strings.ReplaceAll(texts(m.Leaves(made[0])), "\n", " ")
		for i, said := range []string{"Shortened where broken", "goes on at the same small letter", "Part 1 of 3"} {
			if strings.Contains(words, said) != want[i] {
				t.Errorf("%s: %q stands there: %v", name, said, !want[i])
			}
		}
	}
	m, made := made(t, vastHall, "a4", "isometric")
	words := texts(m.Leaves(made[0]))
	if !strings.Contains(words, "true 198.00 m") || !strings.Contains(strings.ReplaceAll(words, "\n", " "), "Shortened where broken, lengths are written") {
		t.Errorf("the hall:\n%s", words)
	}
}
