package find

import (
	"context"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// regulated is a shop of one tool behind a filter and a regulator.
func regulated(t *testing.T) *Finder {
	t.Helper()
	j, problems := ReadChain(strings.NewReader(`part,name,size,length,flow,pressure,cut-in,cut-out,volume
compressor,,1,,10 L/s,,8 bar,10 bar,
receiver,,,,,,,,270 L
filter,,1,,,,,,
regulator,,1,,,5 bar,,,
main,,1,18 m,,,,,
drop,the bench,1/2,3.5 m,,,,,
hose,,3/8,10 m,,,,,
tool,the sander,,,6 L/s,5 bar,,,
`), catalog.Builtin())
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	f, err := Blank(context.Background(), study.Of(j, catalog.Builtin()), unit.Metric)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// TestLetDown: a clogged filter before a regulator that takes the rest off anyway shows on no
// gauge while the compressor keeps the receiver up. The receiver let down to what the regulator
// is set to shows it.
func TestLetDown(t *testing.T) {
	f := regulated(t)
	at := slices.IndexFunc(f.causes, func(c cause) bool { return c.sort == Restricted && c.id == "point.filter" })
	if at < 0 {
		t.Fatal("no filter among the causes")
	}
	real := newTruth(f.rig, 7, []fault{{Restricted, f.causes[at].at, f.holeFor(&f.causes[at], 160e3)}})
	a := session(t, f, real, f.usual[0])
	t.Log(a.Verdict)
	if _, group := f.rank(a, at); group != 0 {
		t.Errorf("the filter is named at place %d", group)
	}
	if !slices.ContainsFunc(f.read, func(r Reading) bool { return r.Stopped }) {
		t.Error("found without the receiver let down")
	}
}

// TestTakenNode: a leak where a tool takes its air would have taken the tool's place.
func TestTakenNode(t *testing.T) {
	f := regulated(t)
	for _, p := range f.rig.m.Pairs() {
		if slices.ContainsFunc(f.causes, func(c cause) bool { return c.sort == Leaking && c.at == p.Node }) {
			t.Errorf("%s at %s would stop running", p.Tool, p.Outlet)
		}
	}
}

// TestLockedOff: whoever reads with the compressor off is told to lock it: below its cut-in it
// starts by itself.
func TestLockedOff(t *testing.T) {
	f := regulated(t)
	of := append(f.letDown(), Reading{Kind: Fall, From: 9e5, To: 8e5}, Reading{Kind: Fall, From: 9e5, To: 8e5, Shut: []job.ID{"point.filter"}})
	if len(of) != 3 {
		t.Fatalf("%d readings", len(of))
	}
	for i := range of {
		if words := f.howTo(&of[i]); !strings.Contains(strings.ToLower(words), "switch the compressor off and lock it") {
			t.Error(words)
		}
	}
}
