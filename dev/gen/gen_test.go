package main

import (
	"encoding/json"
	"strings"
	"testing"

	"dropleg/dev/gen/output"
)

type Inner struct {
	Plain string `json:"plain"`
}

type Outer struct {
	Inner
	Maybe *float64           `json:"maybe"`
	Some  *Inner             `json:"some,omitempty"`
	Many  [][2]float64       `json:"many"`
	Open  []*Inner           `json:"open"`
	Not   func()             `json:"-"`
	Words []string           `json:"words,omitempty"`
	Of    map[string][]Inner `json:"of"`
	One   string             `json:"one,omitempty" enum:"this,that"`
	Raw   json.RawMessage    `json:"raw"`
}

func TestTypeScript(t *testing.T) {
	text, err := typescript([]any{Outer{}})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"plain: string;", "maybe: number | null;", "some?: GenInner;", "many: [number, number][];", "open: (GenInner | null)[];", "words?: string[];",
		"of: Record<string, GenInner[]>;", `one?: "this" | "that";`, "raw: unknown;",
	} {
		if !strings.Contains(string(text), want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	if strings.Contains(string(text), "Not") {
		t.Errorf("too much in\n%s", text)
	}
}

type Mapped struct {
	F map[int]int `json:"f"`
}

func TestUnknownKindIsAnError(t *testing.T) {
	for name, v := range map[string]any{"a map of numbers": Mapped{}, "a struct without a name": struct{ A int }{}} {
		if _, err := typescript([]any{v}); err == nil {
			t.Errorf("%s passes", name)
		}
	}
}

// The committed file is what the types give.
func TestUpToDate(t *testing.T) {
	if err := output.Run("gen", []string{"-check"}, files); err != nil {
		t.Error(err)
	}
}
