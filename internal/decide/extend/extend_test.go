package extend_test

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/check"
	"dropleg/internal/decide/extend"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

func shop(t *testing.T, name string) *study.Study {
	t.Helper()
	raw, _ := example.Read(name)
	j, problems := job.Parse(raw)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return study.Of(j, catalog.Builtin())
}

func quiet(string, int, int) {}

// on is a place on a wall of the boat shop.
func on(wall job.ID, along float64) *fit.Place {
	return &fit.Place{Wall: wall, Along: new(unit.Length(along)), Up: new(unit.Length(1.2)), Off: 0.05}
}

// TestOutlet: a nailer at a new outlet of the boat shop is laid from a line that stands, no line
// that stands changes its way, the place of the tie-in is shut off by named valves, and the edit
// makes of the job what was looked at.
func TestOutlet(t *testing.T) {
	s := shop(t, "boat-shop")
	all, err := extend.Propose(t.Context(), s, extend.Wish{At: on("wall.west", 6.3), Tool: "brad-nailer", System: unit.Metric}, quiet)
	if err != nil {
		t.Fatal(err)
	}
	for i := range all {
		p := &all[i]
		after, _, err := p.Edit.Apply(s.Job())
		if err != nil {
			t.Fatalf("%s: %v", p.Name, err)
		}
		if !reflect.DeepEqual(after, p.After.Job()) {
			t.Errorf("%s: the edit makes another job than was looked at", p.Name)
		}
		ix := job.NewIndex(after)
		o := ix.Outlet(p.Outlet)
		if o == nil || len(o.Tools) != 1 || ix.Tool(o.Tools[0]).Item != "brad-nailer" {
			t.Fatalf("%s: the outlet is %+v", p.Name, o)
		}
		if i := slices.IndexFunc(after.Outlets, func(x job.Outlet) bool { return x.Mark == o.Mark }); o.Mark == "" || after.Outlets[i].ID != o.ID {
			t.Errorf("%s: the outlet has the mark %q", p.Name, o.Mark)
		}
		stays := strings.Contains(p.Name, "what stands stays")
		for _, r := range s.Job().Net.Runs {
			is := ix.Run(r.ID)
			if is == nil || is.From != r.From && is.To != r.To {
				t.Errorf("%s: %s is not where it was", p.Name, r.ID)
			} else if stays && is.Size != r.Size && !grown(p, "main") && !grown(p, "drop leg") {
				t.Errorf("%s: %s grew from %s to %s and nobody says so", p.Name, r.ID, r.Size, is.Size)
			}
		}
		if len(p.Lines) == 0 || len(p.Tie) != 1 || len(p.Tie[0].Shut) == 0 || !slices.Contains(p.Tie[0].Other, "point.regulator") {
			t.Errorf("%s: lines %v, tie-in %+v", p.Name, p.Lines, p.Tie)
		}
		flow, err := p.After.Flow(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for k := range flow.Tools {
			if f := &flow.Tools[k]; f.Outlet == p.Outlet {
				found = true
				if !f.Known || f.Pressure < f.Least {
					t.Errorf("%s: the nailer gets %.0f Pa and needs %.0f", p.Name, f.Pressure, f.Least)
				}
			}
		}
		if !found {
			t.Errorf("%s: no air is looked at for the new tool", p.Name)
		}
	}
}

// grown says whether things of a sort are told to change.
func grown(p *extend.Proposal, what string) bool {
	return slices.ContainsFunc(p.Grows, func(g extend.Grow) bool { return g.What == what && len(g.Changes) > 0 })
}

// TestMachine: another compressor in its place is told as such, and no line is opened for it;
// beside it, its line opens one.
func TestMachine(t *testing.T) {
	s := shop(t, "boat-shop")
	all, err := extend.Propose(t.Context(), s, extend.Wish{Machine: "piston-5.5", System: unit.Metric}, quiet)
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(all, func(p extend.Proposal) bool { return p.Name == "in its place" })
	if len(all) != 2 || i < 0 || !grown(&all[i], "compressor") || len(all[i].Tie) != 0 || len(all[i].Lines) != 0 {
		t.Errorf("%+v", all)
	}
}

// TestBeside: in every example a second compressor finds free floor; the air of both reaches
// the receiver, each through a check valve of the new one's line and no line that stands is
// laid otherwise; with the first shut off the second delivers alone.
func TestBeside(t *testing.T) {
	for _, e := range example.All() {
		name := e.Name
		t.Run(name, func(t *testing.T) {
			s := shop(t, name)
			all, err := extend.Propose(t.Context(), s, extend.Wish{Machine: "piston-5.5", System: unit.Metric}, quiet)
			if err != nil {
				t.Fatal(err)
			}
			i := slices.IndexFunc(all, func(p extend.Proposal) bool { return p.Name == "beside it" })
			if i < 0 {
				t.Fatalf("no proposal beside it: %+v", all)
			}
			p := &all[i]
			before, err := s.Model(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			m, err := p.After.Model(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			if len(m.Compressors()) != len(before.Compressors())+1 || len(p.Lines) == 0 || len(p.Tie) != 1 {
				t.Fatalf("%d compressors, lines %v, tie-ins %+v", len(m.Compressors()), p.Lines, p.Tie)
			}
			ix := p.After.Index()
			has := map[string]bool{}
			// Laid from the compressor on: it opens the check valve, and the other valve, shut, lets
			// down the compressor's side.
			arrives := map[string]string{"check-valve": "in", "lockable-valve": "out"}
			for _, id := range p.Lines {
				to := ix.Run(id).To
				kind := ix.Point(to.Point).Part.Kind
				has[kind] = true
				if want, ok := arrives[kind]; ok && to.Port != want {
					t.Errorf("the line from the compressor comes to the %s at %q, want %q", kind, to.Port, want)
				}
			}
			if !has["check-valve"] || !has["lockable-valve"] {
				t.Errorf("in its line: %v", has)
			}
			for _, r := range s.Job().Net.Runs {
				if is := ix.Run(r.ID); is == nil || is.Size != r.Size && !grown(p, "main") && !grown(p, "drop leg") {
					t.Errorf("%s is not as it was", r.ID)
				}
			}
			day, err := p.After.Day(t.Context(), day.Ask{Days: 2})
			if err != nil {
				t.Fatal(err)
			}
			if day.Untold != "" || len(day.Compressors) != len(m.Compressors()) {
				t.Errorf("a day with both: %q, %d compressors", day.Untold, len(day.Compressors))
			}
			if open := check.Worst(p.Open); open == job.Danger {
				t.Errorf("left open: %+v", p.Open)
			}
		})
	}
}

// TestNoFloor: where nobody drew the room of the compressor, or walls leave no floor beside it,
// the other way is offered and tells why this one is not.
func TestNoFloor(t *testing.T) {
	for name, spoil := range map[string]func(j *job.Job, at geom.Flat){
		"stands in no room": func(j *job.Job, _ geom.Flat) { j.Building.Rooms = nil },
		"no place of": func(j *job.Job, at geom.Flat) {
			corners := []geom.Flat{{at[0] - 1, at[1] - 1}, {at[0] + 1, at[1] - 1}, {at[0] + 1, at[1] + 1}, {at[0] - 1, at[1] + 1}}
			for i, c := range corners {
				j.Building.Walls = append(j.Building.Walls, job.Wall{
					ID: job.ID(fmt.Sprintf("wall.closet-%d", i)), From: c, To: corners[(i+1)%4], Height: 3, Thickness: 0.1,
				})
			}
		},
	} {
		s := shop(t, "frame-garage")
		m, err := s.Model(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		at, _ := s.Index().Where(s.Index().Point(m.Compressors()[0].ID))
		spoil(s.Job(), at.Plan())
		all, err := extend.Propose(t.Context(), study.Of(s.Job(), catalog.Builtin()), extend.Wish{Machine: "piston-3", System: unit.Metric}, quiet)
		if err != nil {
			t.Fatal(err)
		}
		if len(all) != 1 || all[0].Name != "in its place" || !slices.ContainsFunc(all[0].Notes, func(n string) bool { return strings.Contains(n, name) }) {
			t.Errorf("%s: %d proposals, %q: %q", name, len(all), all[0].Name, all[0].Notes)
		}
	}
}

// TestRefusals: what says nothing or what nobody knows is told with its nearest form.
func TestRefusals(t *testing.T) {
	s := shop(t, "boat-shop")
	for _, c := range []struct {
		wish extend.Wish
		want string
	}{
		{extend.Wish{}, "nothing is to be added"},
		{extend.Wish{Tool: "brad-nailer"}, "not said where"},
		{extend.Wish{At: on("wall.west", 6.3), Tool: "da-sander"}, "nearest is da-sander-6"},
		{extend.Wish{At: on("wall.wst", 6.3), Tool: "brad-nailer"}, "no wall wall.wst"},
		{extend.Wish{At: on("wall.west", 90), Tool: "brad-nailer"}, "29 ft 6-3/8 in long"},
		{extend.Wish{At: on("wall.west", 6.3), Like: "outlet.bensh"}, "nearest is outlet.bench"},
		{extend.Wish{Machine: "piston-55"}, "nearest is piston-5.5"},
	} {
		_, err := extend.Propose(t.Context(), s, c.wish, quiet)
		var refusal *job.Refusal
		if !errors.As(err, &refusal) || !strings.Contains(strings.ToLower(err.Error()), c.want) {
			t.Errorf("%+v: %v, want %q", c.wish, err, c.want)
		}
	}
	bare := shop(t, "boat-shop")
	bare.Job().Net.Runs = nil
	if _, err := extend.Propose(t.Context(), bare, extend.Wish{At: on("wall.west", 6.3)}, quiet); err == nil || !strings.Contains(err.Error(), "No outlet has a line yet") {
		t.Errorf("a shop without lines: %v", err)
	}
}
