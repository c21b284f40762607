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

// TestStoppedLeftOut: a receiver that falls while two gauges are read after each other says less
// than one that is held.
func TestStoppedLeftOut(t *testing.T) {
	held := find.Reading{Kind: find.Pressure, Place: find.Place{At: "point.filter"}, Pressure: 4e5, Receiver: 5e5}
	down := held
	down.Stopped = true
	a := Ask{Readings: []find.Reading{held, down}}.usable()
	if len(a.Readings) != 1 || a.Readings[0].Stopped || len(a.Unused) != 1 || !strings.Contains(a.Unused[0], "compressor stopped") {
		t.Errorf("%d readings, %q", len(a.Readings), a.Unused)
	}
}
