package main

import (
	"bytes"
	"strings"
	"testing"

	"dropleg/dev/reftest"
	"dropleg/internal/decide/calc"
)

func TestPages(t *testing.T) {
	root, err := reftest.Root()
	if err != nil {
		t.Fatal(err)
	}
	first, err := pages(root)
	if err != nil {
		t.Fatal(err)
	}
	again, err := pages(root)
	if err != nil {
		t.Fatal(err)
	}
	text := map[string]string{}
	for i, f := range first {
		if !bytes.Equal(f.Text, again[i].Text) {
			t.Errorf("%s is not the same twice", f.Path)
		}
		text[f.Path] = string(f.Text)
		for _, bad := range []string{"NaN", "Inf", "%!"} {
			if strings.Contains(text[f.Path], bad) {
				t.Errorf("%s holds %s", f.Path, bad)
			}
		}
	}
	rows, err := reftest.Load(root)
	if err != nil {
		t.Fatal(err)
	}
	// A read row that a law answers stands on the page by its id, one that the
	// catalogue only copies is counted.
	for _, r := range reftest.Judge(rows) {
		shown := r.Outcome == reftest.Explained || byLaw(r) && (isRead(r) || r.How == reftest.Solved)
		if shown && !strings.Contains(text["docs/validation.md"], "| "+r.ID+" |") {
			t.Errorf("%s is not on the page", r.ID)
		}
	}
	for _, f := range calc.All() {
		if !strings.Contains(text["docs/formulas.md"], "\n## "+f.Name+"\n") {
			t.Errorf("formula %s is not on the page", f.Name)
		}
	}
}

func TestDeviation(t *testing.T) {
	for _, c := range []struct {
		f    reftest.Figure
		want string
	}{
		{reftest.Figure{Want: 2, Got: 2.01}, "+0.5 %"},
		{reftest.Figure{Want: -2, Got: -2.01}, "+0.5 %"},
		{reftest.Figure{Want: 2, Got: 1.99}, "-0.5 %"},
		{reftest.Figure{Want: 2, Got: 2 + 1e-12}, "0"},
		{reftest.Figure{Want: 0, Got: 0.01, Unit: "C"}, "+0.01 K"},
		{reftest.Figure{Want: 0, Got: 0.25, Unit: "bar"}, "+0.25 bar"},
		{reftest.Figure{WantWord: "yes", Word: "yes"}, "0"},
		{reftest.Figure{WantWord: "yes", Word: "no"}, "differs"},
	} {
		if got := deviation(c.f); got != c.want {
			t.Errorf("%+v: %q, want %q", c.f, got, c.want)
		}
	}
}
