package calibrate

import (
	"strings"
	"testing"

	"dropleg/internal/decide/find"
)

// TestBeforeMending: what was read before something was mended tells of another shop; that a
// thing was looked at and found sound changes nothing.
func TestBeforeMending(t *testing.T) {
	read := find.Reading{Kind: find.Fall, From: 9e5, To: 7e5, Time: 300}
	look := func(found find.Found) find.Reading {
		return find.Reading{Kind: find.Look, Thing: "point.filter", Found: found}
	}
	a := Ask{Readings: []find.Reading{read, read, look(find.Replaced), read, look(find.Sound), read}}.usable()
	if len(a.Readings) != 2 || len(a.Unused) != 1 || !strings.HasPrefix(a.Unused[0], "2 taken before point.filter was replaced") {
		t.Errorf("%d readings, %q", len(a.Readings), a.Unused)
	}
}
