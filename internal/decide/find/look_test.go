package find_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/find"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// goOn takes what is proposed in a shop as it is, so many readings at most.
func goOn(t *testing.T, f *find.Finder, m *model.Model, most int) *find.Answer {
	t.Helper()
	ctx := context.Background()
	for n := 0; ; n++ {
		a, err := f.Answer(ctx)
		if err != nil {
			t.Fatal(err)
		}
		if n == most || a.Next == nil {
			return a
		}
		if err := f.Add(ctx, read(t, m, a.Next.Reading)); err != nil {
			t.Fatal(err)
		}
	}
}

func names(c find.Cause, id job.ID) bool {
	return slices.ContainsFunc(c.Members, func(m find.Member) bool { return m.ID == id })
}

// TestMendedAndGoneOn: of the two faults of the body shop the one found first is mended;
// what was read before still counts for the other, which then stands out; with that
// mended too, nothing is left.
func TestMendedAndGoneOn(t *testing.T) {
	ctx := context.Background()
	quiet := *shop(t, "ailing").Job()
	quiet.Records = nil
	f, err := find.New(ctx, study.Of(&quiet, catalog.Builtin()), unit.US)
	if err != nil {
		t.Fatal(err)
	}
	f.Complain("The sander at the far bench dies when someone blows off a part.")
	first, other := job.ID("point.filter"), job.ID("point.far-valve")
	a := goOn(t, f, real(t), 3)
	if names(a.Causes[0], other) {
		first, other = other, first
	}
	if !names(a.Causes[0], first) {
		t.Fatalf("after three readings %s", a.Causes[0].Words)
	}
	mend := func(id job.ID) {
		t.Helper()
		if err := f.Add(ctx, find.Reading{Kind: find.Look, Thing: id, Found: find.Mended}); err != nil {
			t.Fatal(err)
		}
	}
	mend(first)
	a = goOn(t, f, faulty(t, other), 3)
	if !names(a.Causes[0], other) || a.Read <= 3 {
		t.Errorf("the first mended, %d readings: %s", a.Read, a.Verdict)
	}
	if slices.ContainsFunc(a.Causes, func(c find.Cause) bool { return names(c, first) && c.Sort == find.Restricted }) {
		t.Error("what was mended is still named")
	}
	mend(other)
	a = goOn(t, f, faulty(t), 3)
	if !a.Sound || !strings.Contains(a.Verdict, "Nothing else is wrong") {
		t.Errorf("both mended: %s", a.Verdict)
	}
	if len(a.Unused) != 1 || !strings.HasPrefix(a.Unused[0], "3 taken before") {
		t.Errorf("with two mendings, those before the first are of another shop: %q", a.Unused)
	}
}

// TestLookFindsSound: what was looked at and found sound is named less, and the next in its
// stretch before it; that it was replaced says nothing of how it was.
func TestLookFindsSound(t *testing.T) {
	ctx := context.Background()
	s := shop(t, "ailing")
	f, err := find.New(ctx, s, unit.US)
	if err != nil {
		t.Fatal(err)
	}
	look := func(id job.ID, found find.Found) *find.Answer {
		t.Helper()
		if err := f.Add(ctx, find.Reading{Kind: find.Look, Thing: id, Found: found}); err != nil {
			t.Fatal(err)
		}
		a, err := f.Answer(ctx)
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	at := func(a *find.Answer) find.Cause {
		return a.Causes[slices.IndexFunc(a.Causes, func(c find.Cause) bool { return names(c, "point.far-valve") })]
	}
	before, err := f.Answer(ctx)
	if err != nil || at(before).Members[0].ID != "point.far-valve" || len(at(before).Members) < 2 {
		t.Fatal(err, at(before).Members)
	}
	if last := at(look("point.far-valve", find.Sound)).Members; last[len(last)-1].ID != "point.far-valve" {
		t.Errorf("found sound, it stands at %+v", last)
	}
	if a := look("point.filter", find.Replaced); a.Sound || a.Found && names(a.Causes[0], "point.filter") {
		t.Errorf("replaced, and nothing read since: %s", a.Verdict)
	} else if a.Next == nil {
		t.Error("whether that was all is not asked")
	}
	for _, bad := range []find.Reading{
		{Kind: find.Look, Thing: "point.nowhere", Found: find.Mended},
		{Kind: find.Look, Thing: "line.receiver-drain", Found: find.Mended}, // no air goes there to a tool
		{Kind: find.Look, Thing: "point.filter", Found: "clean"},
	} {
		if err := f.Add(ctx, bad); err == nil {
			t.Errorf("%+v is taken", bad)
		}
	}
}

// TestLookGivenUp: whoever stops waiting for what a look changes finds the search as it was.
func TestLookGivenUp(t *testing.T) {
	ctx := context.Background()
	f, err := find.New(ctx, shop(t, "ailing"), unit.US)
	if err != nil {
		t.Fatal(err)
	}
	want, err := f.Answer(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for _, looks := range []int{0, 3} {
		r := find.Reading{Kind: find.Look, Thing: "point.far-valve", Found: find.Mended}
		if err := f.Add(&patience{ctx, looks}, r); err == nil {
			t.Fatalf("after %d looks nobody waits, and it is taken", looks)
		}
		got, err := f.Answer(ctx)
		if err != nil {
			t.Fatal(err)
		}
		alike(t, looks, got, want)
	}
}

// TestLookByTable: a table holds what looks showed, several valves and a stopped compressor.
func TestLookByTable(t *testing.T) {
	j := shop(t, "ailing").Job()
	all, problems := find.ReadCSV(strings.NewReader(`place,tool,running,pressure,receiver,stopped,from,to,time,shut,found
filter,,,,,,,,,,mended
,sander,,,,,,,,,Sound
far bench,,sander at far bench,40 psi,60 psi,yes,,,,,
,,,,,,110 psi,90 psi,400 s,far-valve; valve-lift,
`), j)
	if len(problems) > 0 || len(all) != 4 {
		t.Fatal(problems, all)
	}
	if r := all[0]; r.Kind != find.Look || r.Thing != "point.filter" || r.Found != find.Mended {
		t.Errorf("%+v", r)
	}
	if r := all[1]; r.Thing != "tool.sander" || r.Found != find.Sound {
		t.Errorf("%+v", r)
	}
	if !all[2].Stopped || all[0].Stopped || len(all[3].Shut) != 2 {
		t.Errorf("stopped %v, shut %v", all[2].Stopped, all[3].Shut)
	}
	_, problems = find.ReadCSV(strings.NewReader("place,stopped,found,pressure,receiver\nfilter,,mendet,,\n,,sound,,\nfar bench,maybe,,50 psi,60 psi"), j)
	if len(problems) != 3 || problems[0].Nearest != "mended" || problems[1].Path != "place" || problems[2].Path != "stopped" {
		t.Errorf("%+v", problems)
	}
}

// TestLookAtNoCause: a drain's line that was mended explains nothing, and does not make the
// readings before it those of another shop.
func TestLookAtNoCause(t *testing.T) {
	ctx := context.Background()
	j := *shop(t, "ailing").Job()
	j.Records = append(slices.Clone(j.Records), job.Record{
		ID: "record.look", When: "2099-01-01T00:00:00Z", Kind: "note", Task: job.LookedAt, About: []job.ID{"line.receiver-drain"}, Found: job.Mended,
	})
	s := study.Of(&j, catalog.Builtin())
	f, err := find.New(ctx, s, unit.US)
	if err != nil {
		t.Fatal(err)
	}
	a, err := f.Answer(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if len(a.Unused) != 1 || !strings.HasPrefix(a.Unused[0], "record.look: The line receiver drain is no cause") || !a.Found {
		t.Errorf("%s %q", a.Verdict, a.Unused)
	}
	var keeps find.Memory
	if told, err := keeps.Weigh(ctx, s, unit.US, ""); err != nil || !told.Answer.Found || len(told.Answer.Unused) != 1 {
		t.Errorf("kept from one to the next: %v %+v", err, told)
	}
}

// TestLookAndReading: a row that tells of a look and of a reading at once is refused, cell by
// cell, and not read by half.
func TestLookAndReading(t *testing.T) {
	j := shop(t, "ailing").Job()
	all := "place,tool,running,pressure,receiver,stopped,from,to,time,starts,shut,found\n"
	_, problems := find.ReadCSV(strings.NewReader(all+`filter,,sander at far bench,40 psi,60 psi,no,110 psi,90 psi,400 s,6,far-valve,mended
far bench,sander,,,,,,,,,,sound
`), j)
	var got []string
	for _, p := range problems {
		if !strings.Contains(p.Want, "a row of its own") {
			t.Errorf("%+v", p)
		}
		got = append(got, fmt.Sprint(p.Line, " ", p.Path))
	}
	want := []string{"2 running", "2 pressure", "2 receiver", "2 stopped", "2 from", "2 to", "2 time", "2 starts", "2 shut", "3 place"}
	if !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
}

// TestOneSemicolonTooMany: behind the last word or doubled it names nothing, and nothing is asked of it.
func TestOneSemicolonTooMany(t *testing.T) {
	all, problems := find.ReadCSV(strings.NewReader(`place,running,pressure,receiver,from,to,time,shut
far bench,sander at far bench;,40 psi,60 psi,,,,
,,,,110 psi,90 psi,400 s,far-valve; ; valve-lift;
`), shop(t, "ailing").Job())
	if len(problems) > 0 || len(all) != 2 || len(all[0].Running) != 1 || len(all[1].Shut) != 2 {
		t.Errorf("%v %+v", problems, all)
	}
}

// TestStoppedFall: a receiver falls with the compressor off anyway; said or not, it is the same
// reading, and is proposed once.
func TestStoppedFall(t *testing.T) {
	s := shop(t, "ailing")
	all, problems := find.ReadCSV(strings.NewReader("stopped,from,to,time\nyes,110 psi,90 psi,400 s\n"), s.Job())
	if len(problems) > 0 || len(all) != 1 || all[0].Kind != find.Fall || all[0].Stopped {
		t.Errorf("by a table %v %+v", problems, all)
	}
	j := *s.Job()
	j.Records = []job.Record{{ID: "record.f", When: "2026-03-01T12:00:00Z", Kind: "reading", Reading: &job.Reading{
		From: new(unit.GaugePressure(7e5)), To: new(unit.GaugePressure(6e5)), Time: new(unit.Duration(400)), Stopped: true,
	}}}
	m, err := s.Model(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if all, lost := find.OfJob(&j, m); len(lost) > 0 || len(all) != 1 || all[0].Kind != find.Fall || all[0].Stopped {
		t.Errorf("by a record %v %+v", lost, all)
	}
}

// TestRecordsInOrder: a phone that was out of reach adds its reading after the mending that
// it was taken before.
func TestRecordsInOrder(t *testing.T) {
	s := shop(t, "ailing")
	j := *s.Job()
	m, err := s.Model(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	reading := func(id, when string) job.Record {
		return job.Record{ID: job.ID(id), When: when, Kind: "reading", About: []job.ID{"outlet.far-bench"}, Reading: &job.Reading{
			Pressure: new(unit.GaugePressure(4e5)), Receiver: new(unit.GaugePressure(5e5)), Stopped: true,
		}}
	}
	j.Records = []job.Record{
		{ID: "record.m", When: "2026-03-01T12:00:00+01:00", Kind: "note", Task: job.LookedAt, About: []job.ID{"point.filter"}, Found: "mended"},
		reading("record.a", "2026-03-01T11:30:00Z"),
		reading("record.b", "2026-03-01T10:30:00Z"),
		{ID: "record.n", When: "2026-03-01T13:00:00Z", Kind: "note", Task: job.LookedAt, Found: "mended"},
	}
	all, lost := find.OfJob(&j, m)
	var got []job.ID
	for _, r := range all {
		got = append(got, r.Record)
	}
	if !slices.Equal(got, []job.ID{"record.b", "record.m", "record.a"}) || !all[0].Stopped {
		t.Errorf("%v", got)
	}
	if len(lost) != 1 || !strings.HasPrefix(lost[0], "record.n: ") {
		t.Errorf("%q", lost)
	}
}
