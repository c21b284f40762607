package start_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/decide/check"
	"dropleg/internal/decide/start"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// planned is the plan of a shop that can be had.
func planned(t *testing.T, a start.Answers) *start.Plan {
	t.Helper()
	p, err := start.Of(context.Background(), a, catalog.Builtin(), nil)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// says gives what was assumed under a key, "" for nothing.
func says(p *start.Plan, key string) string {
	var out []string
	for _, a := range p.Assumptions {
		if a.Key == key {
			out = append(out, a.Words)
		}
	}
	return strings.Join(out, " ")
}

// partOf is the part of a kind that the plan has one of.
func partOf(t *testing.T, p *start.Plan, kind string) (*job.Part, string) {
	t.Helper()
	for i := range p.Job.Net.Points {
		if pt := &p.Job.Net.Points[i]; pt.Part.Kind == kind {
			return &pt.Part, pt.State
		}
	}
	t.Fatalf("the plan has no %s", kind)
	return nil, ""
}

func small() start.Answers {
	return start.Answers{
		Room:  start.Room{Width: 6, Depth: 5, Height: 3, Doors: []start.Door{{Wall: "south"}}},
		Tools: []start.Tool{tool("blow-gun", 1)}, Spread: 1,
	}
}

// The coldest night comes into the job as it is said; where an unheated room has none, one is
// assumed, aloud and under its key.
func TestColdNight(t *testing.T) {
	for _, c := range []struct {
		climate     string
		cold        *unit.Temperature
		want        *unit.Temperature
		key, assume string
	}{
		{"unheated", ptr(unit.Celsius(-18)), ptr(unit.Celsius(-18)), "room.cold_C", ""},
		{"unheated", nil, ptr(unit.Celsius(-10)), "room.cold_C", "-10 °C is taken for the coldest night"},
		{"heated", ptr(unit.Celsius(-12)), ptr(unit.Celsius(-12)), "room.cold_C", ""},
		{"", nil, nil, "room.climate", "The room is heated"},
	} {
		a := small()
		a.Room.Climate, a.Room.Cold = c.climate, c.cold
		p := planned(t, a)
		switch got := p.Job.Site.Cold; {
		case (got == nil) != (c.want == nil) || got != nil && *got != *c.want:
			t.Errorf("%q, %v: the job has %v", c.climate, c.cold, got)
		case c.assume == "" && says(p, c.key) != "" || !strings.Contains(says(p, c.key), c.assume):
			t.Errorf("%q, %v: assumed %q, want %q", c.climate, c.cold, says(p, c.key), c.assume)
		}
	}
}

// What the plate says stands in the job as it was read, the machine is there already, and what
// the plate does not say comes from its class, aloud.
func TestThePlateCounts(t *testing.T) {
	a := small()
	a.Compressor = start.Compressor{
		FreeAir: &job.Flow{Value: 0.0075, Read: "450 L/min"}, At: ptr(unit.GaugePressure(7e5)), Power: ptr(unit.Power(4e3)),
		CutIn: ptr(unit.GaugePressure(7.2e5)), CutOut: ptr(unit.GaugePressure(9.3e5)), Volume: ptr(unit.Volume(0.27)),
	}
	p := planned(t, a)
	part, state := partOf(t, p, "compressor")
	c := part.Compressor
	if state != "existing" || c.FreeAir.Value != 0.0075 || c.FreeAir.Read != "450 L/min" || *c.At != 7e5 || *c.CutIn != 7.2e5 || *c.CutOut != 9.3e5 || *c.Power != 4e3 {
		t.Errorf("%s: %+v", state, c)
	}
	vessel, state := partOf(t, p, "receiver")
	relief, _ := partOf(t, p, "relief-valve")
	if state != "existing" || *vessel.Volume != 0.27 || *relief.Set <= 9.3e5 || *relief.Set > *vessel.Rating {
		t.Errorf("%s: %+v, relief valve %+v", state, vessel, relief)
	}
	if !strings.Contains(says(p, ""), "not on the shopping list") || says(p, "compressor.cut_in_kPa_g") != "" || says(p, "compressor.volume_L") != "" {
		t.Errorf("%+v", p.Assumptions)
	}

	a.Compressor.CutIn, a.Compressor.Volume = nil, nil
	p = planned(t, a)
	part, _ = partOf(t, p, "compressor")
	if c := part.Compressor; *c.CutOut != 9.3e5 || *c.CutIn >= *c.CutOut || *c.CutIn < *c.CutOut/2 {
		t.Errorf("%+v", part.Compressor)
	}
	if !strings.Contains(says(p, "compressor.cut_in_kPa_g"), "read the pressure switch") || says(p, "compressor.volume_L") == "" {
		t.Errorf("%+v", p.Assumptions)
	}

	a.Compressor.CutIn = ptr(unit.GaugePressure(9.5e5))
	_, err := start.Of(context.Background(), a, catalog.Builtin(), nil)
	if r := refusal(t, err); r.Findings[0].Path != "compressor.cut_in_kPa_g" || r.Findings[0].Nearest != "7.4 bar" {
		t.Errorf("%+v", r.Findings)
	}
}

// Where no filter bears what the relief valve opens at, a separator stands in its place and the
// plan says so. Paint gets a fine filter at its own outlet, and no other tool does.
func TestFilters(t *testing.T) {
	a := small()
	a.Compressor = start.Compressor{FreeAir: &job.Flow{Value: 0.0075}, CutIn: ptr(unit.GaugePressure(20e5)), CutOut: ptr(unit.GaugePressure(24e5))}
	p := planned(t, a)
	part := job.Part{}
	for i := range p.Job.Net.Points {
		if p.Job.Net.Points[i].Name == "Main separator" {
			part = p.Job.Net.Points[i].Part
		}
	}
	shelf := catalog.Builtin()
	if k, ok := shelf.Kind(part.Kind); !ok || !k.Has(catalog.Separates) || k.Has(catalog.Filters) || !strings.Contains(says(p, ""), "a water separator stands in its place") {
		t.Errorf("%+v: %+v", part, p.Assumptions)
	}

	p = planned(t, shops()["paint"])
	for _, o := range p.Job.Outlets {
		fine := slices.ContainsFunc(o.Hang, func(h job.Part) bool { k, _ := shelf.Kind(h.Kind); return k.Has(catalog.DeOils) })
		paints := slices.ContainsFunc(o.Tools, func(id job.ID) bool {
			i := slices.IndexFunc(p.Job.Tools, func(x job.Tool) bool { return x.ID == id })
			return strings.Contains(p.Job.Tools[i].Item, "gun")
		})
		if fine != paints {
			t.Errorf("%s: fine filter %v, paint %v", o.Name, fine, paints)
		}
	}
}

// Tools are called by the kind of their class, by all of its words where two are of a kind, and
// as the shop calls them where it says so; places keep their names, and a place with two
// pressures has both.
func TestNames(t *testing.T) {
	a := start.Answers{
		Room:   start.Room{Width: 10, Depth: 7, Height: 3, Doors: []start.Door{{Wall: "south"}}},
		Tools:  []start.Tool{tool("blow-gun", 1, "Saw"), tool("spray-gun", 1, "Booth"), tool("hvlp-gun", 1, "Booth"), {Item: "brad-nailer", Name: "Frame nailer", At: []string{"Saw"}}},
		Places: []start.Place{spot("Saw", "north", 2), spot("Booth", "west", 3)},
	}
	p := planned(t, a)
	var tools, outlets []string
	for _, x := range p.Job.Tools {
		tools = append(tools, x.Name)
	}
	for _, o := range p.Job.Outlets {
		outlets = append(outlets, o.Name)
	}
	if want := []string{"Blow gun", "Spray gun", "Spray gun, high volume low pressure", "Frame nailer"}; !slices.Equal(tools, want) {
		t.Errorf("%q, want %q", tools, want)
	}
	for _, want := range []string{"Saw", "Booth"} {
		if !slices.ContainsFunc(outlets, func(o string) bool { return strings.HasPrefix(o, want) }) {
			t.Errorf("no outlet %s: %q", want, outlets)
		}
	}
	if !strings.Contains(says(p, ""), "“Saw") || !strings.Contains(says(p, ""), "has an outlet of its own beside it") {
		t.Errorf("nothing is said of the outlets: %+v", p.Assumptions)
	}
	for i, o := range outlets {
		if slices.Contains(outlets[:i], o) || o == "" {
			t.Errorf("two outlets are called %q, or one nothing: %q", o, outlets)
		}
	}
}

// The class that is chosen is the smallest that does: with the next smaller one the supply is
// told to fall short. Tools that starve in lines without sizes are for the sizes.
func TestTheSmallestCompressorThatDoes(t *testing.T) {
	a := start.Answers{
		Room: start.Room{Outline: flats(0, 0, 14, 0, 14, 5, 8, 5, 8, 9, 0, 9), Height: 3.4, Doors: []start.Door{{Wall: "south", Kind: "gate", Width: 3, Height: 2.6}, {Wall: "west"}}},
		Tools: []start.Tool{
			tool("da-sander-6", 2, "bench 1", "bench 2"), tool("blow-gun", 2, "saw", "bench 1"), tool("brad-nailer", 2, "assembly", "bench 2"),
			tool("clamp", 1, "assembly"), tool("hvlp-gun", 1, "booth"), tool("vacuum-press", 1, "press"),
		},
		Places: []start.Place{
			spot("saw", "south", 2), spot("bench 1", "west", 2), spot("bench 2", "west", 7), spot("assembly", "north", 2), spot("booth", "east", 3), spot("press", "south", 10),
		},
	}
	p := planned(t, a)
	part, _ := partOf(t, p, "compressor")
	chosen, _ := catalog.Builtin().Machine(part.Item)
	if found := ofSupply(t, p); len(found) > 0 {
		t.Errorf("%s: %q", chosen.Machine, found)
	}
	smaller := catalog.Machine{}
	for _, m := range catalog.Builtin().Machines() {
		if m.FreeAir.Value < chosen.FreeAir.Value && m.FreeAir.Value > smaller.FreeAir.Value {
			smaller = m
		}
	}
	a.Compressor.Machine = smaller.Machine
	if found := ofSupply(t, planned(t, a)); len(found) == 0 {
		t.Errorf("%s was chosen, and with %s nothing is short", chosen.Machine, smaller.Machine)
	}
}

// ofSupply is what is found of the compressor of a plan.
func ofSupply(t *testing.T, p *start.Plan) []string {
	t.Helper()
	found, err := check.Run(t.Context(), hold(t, p), unit.Metric)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for i := range found {
		if slices.Contains([]string{"supply-short", "short-in-the-day", "never-full", "motor-overworked"}, found[i].Code) && found[i].Severity != job.Note {
			out = append(out, found[i].Title)
		}
	}
	return out
}
