package main

import (
	"strings"
	"testing"

	"dropleg/engine/cite"
	"dropleg/internal/decide/check"
)

func TestPage(t *testing.T) {
	text := string(page([]check.Check{{
		Code: "no-lid", Title: "a lid on each pot", Why: "Soup boils over.", Limit: "one lid", Law: "heat rises",
		Source: []cite.Ref{{Source: "common-practice", How: cite.Common}},
	}}))
	for _, want := range []string{"## `no-lid`", "A lid on each pot. Soup boils over.", "- Limit: one lid", "- Law: heat rises", "- Source: Common practice"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing in %s", want, text)
		}
	}
}
