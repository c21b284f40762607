package start_test

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/check"
	"dropleg/internal/decide/start"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// hold is what is true of every plan: valid, solved, and no thing left hanging.
func hold(t interface {
	Helper()
	Fatalf(string, ...any)
}, p *start.Plan,
) *study.Study {
	t.Helper()
	for _, f := range job.Validate(p.Job, catalog.Builtin()) {
		if f.Severity == job.Fault {
			t.Fatalf("not valid: %s", f.Title)
		}
	}
	s := study.Of(p.Job, catalog.Builtin())
	f, err := s.Flow(context.Background())
	if err != nil {
		t.Fatalf("%v", err)
	}
	for i := range f.Sets {
		if !f.Sets[i].CutIn.Solved || !f.Sets[i].CutOut.Solved {
			t.Fatalf("%s is not solved", f.Sets[i].Name)
		}
		for _, u := range f.Sets[i].CutIn.Tools {
			if !u.Known {
				t.Fatalf("%s: no air comes to %s", f.Sets[i].Name, u.Tool)
			}
		}
	}
	return s
}

func tool(item string, count int, at ...string) start.Tool {
	return start.Tool{Item: item, Count: count, At: at}
}

func spot(name, wall string, along float64) start.Place {
	return start.Place{Name: name, Spot: start.Spot{Wall: wall, Along: unit.Length(along)}}
}

// shops are a dozen shops as people have them, small to large.
func shops() map[string]start.Answers {
	door := []start.Door{{Wall: "south"}}
	return map[string]start.Answers{
		"one blow gun": {Room: start.Room{Width: 3, Depth: 4, Height: 2.4, Doors: door}, Tools: []start.Tool{tool("blow-gun", 1)}},
		"garage": {
			Room:       start.Room{Name: "Garage", Width: 6, Depth: 5.5, Height: 2.5, MadeOf: "brick", Doors: []start.Door{{Wall: "south", Kind: "gate", Height: 2.1}}},
			Compressor: start.Compressor{Machine: "piston-4"},
			Tools:      []start.Tool{tool("impact-wrench-1/2", 1, "Bench"), tool("blow-gun", 2), tool("ratchet", 1, "Lift")},
			Places:     []start.Place{spot("Bench", "north", 2), spot("Lift", "east", 3)},
		},
		"joiner": {
			Units: "us", Room: start.Room{Width: 9, Depth: 7, Height: 3, Doors: door}, Spread: 4,
			Tools: []start.Tool{tool("brad-nailer", 2), tool("da-sander-6", 1), tool("blow-gun", 2)},
		},
		"paint": {
			Room:   start.Room{Width: 8, Depth: 6, Height: 3.2, Doors: door},
			Places: []start.Place{spot("Booth", "north", 4), spot("Prep", "west", 3)},
			Tools:  []start.Tool{tool("spray-gun", 1, "Booth"), tool("hvlp-gun", 1, "Booth"), tool("da-sander-6", 1, "Prep"), tool("da-sander-6", 1, "Booth")},
		},
		"us garage": {
			Units: "us", Room: start.Room{Width: 7.3, Depth: 7.3, Height: 2.74, Doors: []start.Door{{Wall: "east", Kind: "gate", Width: 4.8, Height: 2.13}}}, Spread: 5,
			Tools: []start.Tool{tool("impact-wrench-1/2", 1), tool("die-grinder", 1), tool("blow-gun", 1)},
		},
		"plate": {
			Room: start.Room{Width: 10, Depth: 8, Height: 3.5, Doors: door}, Spread: 6,
			Compressor: start.Compressor{FreeAir: &job.Flow{Value: 0.02, Read: "1200 L/min"}, CutIn: ptr(unit.GaugePressure(7e5)), CutOut: ptr(unit.GaugePressure(9e5)), Volume: ptr(unit.Volume(0.5)), Power: ptr(unit.Power(11e3))},
			Tools:      []start.Tool{tool("angle-grinder", 1), tool("drill-small", 1), tool("blow-gun", 2)},
		},
		"L shape": {
			Room: start.Room{Outline: flats(0, 0, 12, 0, 12, 5, 6, 5, 6, 10, 0, 10), Height: 3.5, Doors: door}, Spread: 8,
			Tools: []start.Tool{tool("die-grinder", 2), tool("blow-gun", 3)},
		},
		"body shop": {
			Room: start.Room{Width: 15, Depth: 12, Height: 4.5, MadeOf: "block", Doors: []start.Door{{Wall: "south", Kind: "gate", Width: 4, Height: 4}}}, Spread: 12,
			Tools: []start.Tool{tool("da-sander-6", 4), tool("hvlp-gun", 2), tool("impact-wrench-1/2", 2), tool("blow-gun", 4)},
		},
		"blasting": {
			Room: start.Room{Width: 10, Depth: 10, Height: 4, Doors: door}, Spread: 2, Tools: []start.Tool{tool("blast-nozzle-1/8", 1), tool("needle-scaler", 1)},
		},
		"school": {
			Room: start.Room{Width: 18, Depth: 12, Height: 3.6, Doors: []start.Door{{Wall: "south"}, {Wall: "east"}}}, Spread: 20,
			Tools: []start.Tool{tool("brad-nailer", 10), tool("drill-small", 4), tool("blow-gun", 6)},
		},
		"foundry": {
			Room: start.Room{Width: 30, Depth: 18, Height: 7, MadeOf: "steel-frame", Doors: []start.Door{{Wall: "south", Kind: "gate", Width: 5, Height: 5}}}, Spread: 30,
			Tools: []start.Tool{tool("chipping-hammer", 2), tool("angle-grinder", 4), tool("blow-gun", 8)},
		},
		"works": {
			Room: start.Room{Width: 40, Depth: 25, Height: 6, Doors: []start.Door{{Wall: "south", Kind: "gate"}, {Wall: "north", Kind: "gate"}}}, Spread: 40,
			Tools: []start.Tool{tool("impact-wrench-1/2", 8), tool("die-grinder", 4), tool("blow-gun", 20), tool("ratchet", 8)},
		},
	}
}

func ptr[T any](x T) *T { return &x }

func TestAFirstPlanHasNoDangerAndNoFault(t *testing.T) {
	for name, a := range shops() {
		t.Run(name, func(t *testing.T) {
			p, err := start.Of(context.Background(), a, catalog.Builtin(), nil)
			if err != nil {
				t.Fatal(err)
			}
			s := hold(t, p)
			found, err := check.Run(context.Background(), s, unit.Metric)
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range found {
				if f.Severity == job.Danger || f.Severity == job.Fault {
					t.Errorf("%s: %s %v", f.Severity, f.Title, f.Where)
				}
			}
			if len(p.Assumptions) == 0 || p.Job.Note == "" {
				t.Error("nothing is said of what was assumed")
			}
			if testing.Verbose() {
				dump(p, found)
			}
		})
	}
}

func dump(p *start.Plan, found []job.Finding) {
	for _, s := range p.Assumptions {
		fmt.Println("  assumed:", s)
	}
	for _, f := range found {
		fmt.Println("  ", f.Severity, f.Code, f.Title)
	}
	sizes := map[string]int{}
	for _, r := range p.Job.Net.Runs {
		sizes[r.Role+" "+r.Size]++
	}
	fmt.Println("  sizes", sizes, len(p.Job.Outlets), "outlets", len(p.Job.Net.Points), "points")
}

func refusal(t *testing.T, err error) *job.Refusal {
	t.Helper()
	var r *job.Refusal
	if !errors.As(err, &r) {
		t.Fatalf("not refused in words: %v", err)
	}
	return r
}

func flats(xy ...float64) []geom.Flat {
	var out []geom.Flat
	for i := 0; i+1 < len(xy); i += 2 {
		out = append(out, geom.Flat{xy[i], xy[i+1]})
	}
	return out
}

func TestAnExistingInstallationStands(t *testing.T) {
	p, err := start.Existing(context.Background(), shops()["garage"], catalog.Builtin(), nil)
	if err != nil {
		t.Fatal(err)
	}
	hold(t, p)
	for _, pt := range p.Job.Net.Points {
		if pt.State != "existing" {
			t.Errorf("%s is %q", pt.ID, pt.State)
		}
	}
	for _, r := range p.Job.Net.Runs {
		if r.State != "existing" {
			t.Errorf("%s is %q", r.ID, r.State)
		}
	}
}

func TestAnEmptyRoom(t *testing.T) {
	p, err := start.Empty("Shed", "us", start.Room{Width: 5, Depth: 4, Height: 2.5, Doors: []start.Door{{Wall: "south"}}}, catalog.Builtin())
	if err != nil {
		t.Fatal(err)
	}
	hold(t, p)
	if b := &p.Job.Building; len(b.Rooms) != 1 || len(b.Walls) != 4 || len(b.Openings) != 1 || len(p.Job.Net.Points) != 0 || p.Job.Title != "Shed" {
		t.Errorf("%+v", p.Job)
	}
}

// The pattern: a main that starts at the filter, falls all the way to a drain, and
// legs that leave it from the top.
func TestThePatternOfTheTrade(t *testing.T) {
	p, err := start.Of(context.Background(), shops()["body shop"], catalog.Builtin(), nil)
	if err != nil {
		t.Fatal(err)
	}
	ix := job.NewIndex(p.Job)
	mains, highest := 0, 0.0
	for i := range p.Job.Net.Runs {
		r := &p.Job.Net.Runs[i]
		line := ix.Centreline(r)
		switch r.Role {
		case "main":
			if r.From.Port != "out" { // the first one rises to its height
				for k := 1; k < len(line); k++ {
					if line[k][2] > line[k-1][2]+1e-9 {
						t.Errorf("%s rises", r.ID)
					}
				}
			}
			mains++
			highest = max(highest, line[len(line)-1][2])
		case "drop":
			if r.From.Port == "branch" && line[1][2] <= line[0][2] {
				t.Errorf("%s leaves the main %v not from the top", r.ID, line[:2])
			}
		}
	}
	if mains != 13 || highest < 3 {
		t.Errorf("%d runs of main, highest %g m", mains, highest)
	}
	for _, o := range p.Job.Outlets {
		if o.Hose == nil || o.Mark == "" || len(o.Hang) == 0 {
			t.Errorf("%+v", o)
		}
	}
}

func TestAllThatIsWrongIsToldAtOnce(t *testing.T) {
	_, err := start.Of(context.Background(), start.Answers{
		Room: start.Room{Width: 1, Depth: 5, Height: 1.5}, Compressor: start.Compressor{Machine: "piston-5"}, Stock: "pvc",
		Tools: []start.Tool{{Item: "blow-gnu"}, {Item: "ratchet", At: []string{"Bunch"}}}, Places: []start.Place{spot("Bench", "north", 1), spot("bench ", "north", 2)},
	}, catalog.Builtin(), nil)
	want := map[string]string{
		"room.width_m": "", "room.height_m": "2.20 m", "compressor.machine": "piston-3", "stock": "aluminium-metric",
		"tools[0].item": "blow-gun", "tools[1].at[0]": "Bench", "places[1].name": "Place 2",
	}
	for _, f := range refusal(t, err).Findings {
		near, ok := want[f.Path]
		if !ok || f.Nearest != near && near != "" {
			t.Errorf("%s: nearest %q, want %q", f.Title, f.Nearest, near)
		}
		delete(want, f.Path)
	}
	if len(want) > 0 {
		t.Errorf("not told: %v", want)
	}
}

func BenchmarkTwelveOutlets(b *testing.B) {
	a := shops()["body shop"]
	for b.Loop() {
		if _, err := start.Of(context.Background(), a, catalog.Builtin(), nil); err != nil {
			b.Fatal(err)
		}
	}
}
