package day_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// plants are so many shops of one compressor, one receiver and one bench, as the lists of a
// job file: points, runs, outlets, tools.
type plants struct{ points, runs, outlets, tools []string }

func (p *plants) add(n, hours string) {
	p.points = append(p.points, fmt.Sprintf(`{"id": "point.compressor%[1]s", "part": {"kind": "compressor", "compressor": {"free_air": {"m3_s": 0.008}, "cut_in_kPa_g": 700, "cut_out_kPa_g": 900}}},
		{"id": "point.receiver%[1]s", "part": {"kind": "receiver", "volume_L": 100}},
		{"id": "point.bench%[1]s", "part": {"kind": "drop-elbow"}}`, n))
	p.runs = append(p.runs, fmt.Sprintf(`{"id": "line.delivery%[1]s", "from": {"point": "point.compressor%[1]s"}, "to": {"point": "point.receiver%[1]s", "port": "in"}, "stock": "copper-l", "size": "1/2", "role": "link", "length_m": 1},
		{"id": "line.main%[1]s", "from": {"point": "point.receiver%[1]s", "port": "out"}, "to": {"point": "point.bench%[1]s", "port": "in"}, "stock": "copper-l", "size": "3/4", "role": "main", "length_m": 9}`, n))
	p.outlets = append(p.outlets, fmt.Sprintf(`{"id": "outlet.bench%[1]s", "name": "Bench %[1]s", "point": "point.bench%[1]s", "port": "out", "tools": ["tool.grinder%[1]s"]}`, n))
	p.tools = append(p.tools, fmt.Sprintf(`{"id": "tool.grinder%[1]s", "name": "grinder %[1]s", "item": "die-grinder", "hours": %q}`, n, hours))
}

func (p *plants) model(t testing.TB) (*job.Job, *model.Model) {
	t.Helper()
	list := func(l []string) string { return strings.Join(l, ",") }
	j, found := job.Parse([]byte(`{"dropleg": 1, "title": "plants", "net": {"points": [` + list(p.points) + `], "runs": [` + list(p.runs) +
		`]}, "outlets": [` + list(p.outlets) + `], "tools": [` + list(p.tools) + `]}`))
	if j == nil {
		t.Fatal(found)
	}
	m, _ := model.Build(j, catalog.Builtin())
	return j, m
}

const grinding = "8:10-8:40, 9-9:05, 9:06-9:11, 10-12:30, 13-13:01, 14-15:59"

// Two plants whose nets never meet have each its own course: that which it has alone, where
// it is one store between events in closed form.
func TestNetsThatDoNotMeet(t *testing.T) {
	of := func(p plants) *day.Answer {
		j, m := p.model(t)
		a, err := day.Of(t.Context(), j, m, day.Ask{Seed: 1, Trace: true})
		if err != nil || a.Untold != "" {
			t.Fatal(a.Untold, err)
		}
		return a
	}
	var one, other, two plants
	one.add("1", grinding)
	other.add("2", "8:30-9:30, 15-16")
	two.add("1", grinding)
	two.add("2", "8:30-9:30, 15-16")
	both := of(two)
	if len(both.Receivers) != 2 {
		t.Fatalf("receivers %+v", both.Receivers)
	}
	for i, alone := range []*day.Answer{of(one), of(other)} {
		k, want := both.Compressors[i], alone.Compressors[0]
		if math.Abs(float64(k.Duty-want.Duty)) > 1e-3*float64(want.Duty) || k.Starts != want.Starts || want.Starts < 1 {
			t.Errorf("plant %d: duty %v with %v starts, alone %v with %v", i+1, k.Duty, k.Starts, want.Duty, want.Starts)
		}
		if low := both.Receivers[i].Lowest; math.Abs(float64(low-alone.Lowest)) > 100 {
			t.Errorf("plant %d: lowest %v, alone %v", i+1, low, alone.Lowest)
		}
	}
}

// farBench is a shop with a second receiver at its bench behind a long thin line.
func farBench(t testing.TB) (*job.Job, *model.Model) {
	var p plants
	p.add("", grinding)
	p.points[0] += `, {"id": "point.far", "part": {"kind": "receiver", "volume_L": 200}}`
	p.runs[0] = strings.Replace(p.runs[0], `"to": {"point": "point.bench", "port": "in"}, "stock": "copper-l", "size": "3/4", "role": "main", "length_m": 9}`,
		`"to": {"point": "point.far", "port": "in"}, "stock": "copper-l", "size": "1/4", "role": "main", "length_m": 60},
		{"id": "line.drop", "from": {"point": "point.far", "port": "out"}, "to": {"point": "point.bench", "port": "in"}, "stock": "copper-l", "size": "3/4", "role": "drop", "length_m": 2}`, 1)
	return p.model(t)
}

// A receiver at the bench falls while the bench works, lower than the one by the
// compressor, and its bench starts with all that it holds: with it the tool goes short
// for less of its time than with the same volume by the compressor.
func TestFarReceiver(t *testing.T) {
	j, m := farBench(t)
	far, err := day.Of(t.Context(), j, m, day.Ask{Seed: 1, Trace: true})
	if err != nil || far.Untold != "" {
		t.Fatal(far.Untold, err)
	}
	if len(far.Receivers) != 2 || far.Receivers[0].IDs[0] != "point.receiver" {
		t.Fatalf("receivers %+v", far.Receivers)
	}
	if near, bench := far.Receivers[0].Lowest, far.Receivers[1].Lowest; bench > near-50e3 {
		t.Errorf("by the compressor down to %v, at the bench to %v", near, bench)
	}
	if math.Abs(far.Balance) > 1e-6 {
		t.Errorf("balance %g", far.Balance)
	}
	now, ok := far.At(far.Course[len(far.Course)/2].At)
	if !ok || len(now.Receivers) != 2 {
		t.Fatalf("at noon %+v", now)
	}
	r, err := m.NewSolver().Solve(t.Context(), far.Case(m, now))
	if err != nil || !r.Solved {
		t.Fatal("no answer at noon", err)
	}
	if p, _ := m.AtPoint(r, "point.far", "in"); math.Abs(float64(p-now.Receivers[1])) > 1 {
		t.Errorf("the drawing has %v at the bench's receiver at noon, the day %v", p, now.Receivers[1])
	}
	for i := range j.Net.Points {
		switch p := &j.Net.Points[i]; p.ID {
		case "point.receiver":
			*p.Part.Volume += 0.2
		case "point.far":
			*p.Part.Volume = 0.001
		}
	}
	m, _ = model.Build(j, catalog.Builtin())
	near, err := day.Of(t.Context(), j, m, day.Ask{Seed: 1})
	if err != nil || near.Untold != "" {
		t.Fatal(near.Untold, err)
	}
	if a, b := far.Tools[0].Short, near.Tools[0].Short; !(a < b) || b == 0 {
		t.Errorf("short for %v with the receiver at the bench, %v with all by the compressor", a, b)
	}
}

// What would do for receivers that stand apart is held against days of them as they
// stand: with it nobody goes short there.
func TestWhatWouldDoForFarReceiver(t *testing.T) {
	j, m := farBench(t)
	a, err := day.Of(t.Context(), j, m, day.Ask{Seed: 1, Days: 2, Remedies: true})
	if err != nil || a.Untold != "" {
		t.Fatal(a.Untold, err)
	}
	if len(a.Remedies) == 0 {
		t.Fatalf("nothing is sought: %+v", a.Tools)
	}
	did := 0
	for _, r := range a.Remedies {
		if !r.Does {
			continue
		}
		did++
		if r.Short > j.RuleRare().Value {
			t.Errorf("%s does, yet somebody is short for %v", r.What, r.Short)
		}
	}
	if did == 0 {
		t.Error("nothing does")
	}
}

// The air that a day of two receivers books as taken is what the network takes when it is
// solved again along the day by another rule, with the receivers held as they stand.
func TestTwoReceiversSolvedAgain(t *testing.T) {
	j, m := farBench(t)
	const hours = 2
	a, err := day.Of(t.Context(), j, m, day.Ask{Seed: 1, Time: hours * 3600, Trace: true})
	if err != nil {
		t.Fatal(err)
	}
	solver := m.NewSolver()
	atm := float64(m.Atmosphere())
	taken := func(s day.Sample) (sum float64) {
		r, err := solver.Solve(context.Background(), a.Case(m, day.Sample{Running: s.Running, Pressure: s.Pressure, Receivers: s.Receivers}))
		if err != nil || !r.Solved {
			t.Fatalf("no answer at %v: %v", s.At, err)
		}
		for _, st := range r.Stores {
			sum += float64(st.Out)
		}
		return sum + float64(air.Mass(a.Leak))*(float64(s.Pressure)+atm)/(float64(m.Compressors()[0].CutIn)+atm)
	}
	sum := 0.0
	for i, s := range a.Course[:len(a.Course)-1] {
		next := a.Course[i+1]
		mid, _ := a.At((s.At + next.At) / 2)
		end := next
		end.Running, mid.Running = s.Running, s.Running
		sum += float64(next.At-s.At) / 6 * (taken(s) + 4*taken(mid) + taken(end))
	}
	told := float64(air.Mass(a.Taken)) * hours * 3600
	if math.Abs(sum-told) > 1e-4*told {
		t.Errorf("took %.6g kg, solved again %.6g kg", told, sum)
	}
}

// A compressor whose receiver has no known volume has no day, and it is said whose.
func TestReceiverOfNoVolume(t *testing.T) {
	var p plants
	p.add("1", grinding)
	p.add("2", grinding)
	p.points[1] = strings.Replace(p.points[1], `, "volume_L": 100`, "", 1)
	j, m := p.model(t)
	a, err := day.Of(t.Context(), j, m, day.Ask{Seed: 1})
	if err != nil || !strings.Contains(a.Untold, "point.compressor2") {
		t.Errorf("%q: %v", a.Untold, err)
	}
}

// BenchmarkDayOfTwoReceivers is an eight-hour day of the boat shop with a second
// receiver at its far bench.
func BenchmarkDayOfTwoReceivers(b *testing.B) {
	j, _ := shopOf(b, "boat-shop")
	addFar(b, j, "outlet.far-bench")
	m, _ := model.Build(j, catalog.Builtin())
	for i := range b.N {
		a, err := day.Of(context.Background(), j, m, day.Ask{Seed: uint64(i), Days: 1})
		if err != nil || len(a.Receivers) != 2 {
			b.Fatal(err, a.Receivers)
		}
	}
}

// addFar puts a receiver into the line that ends at an outlet.
func addFar(t testing.TB, j *job.Job, outlet job.ID) {
	t.Helper()
	var at job.ID
	for _, o := range j.Outlets {
		if o.ID == outlet {
			at = o.Point
		}
	}
	for i := range j.Net.Runs {
		r := &j.Net.Runs[i]
		if r.To.Point != at {
			continue
		}
		held := unit.Volume(0.2)
		j.Net.Points = append(j.Net.Points, job.Point{ID: "point.far", Part: job.Part{Kind: "receiver", Volume: &held}})
		last := *r
		last.ID, last.From, last.Path = "line.far", job.End{Point: "point.far", Port: "out"}, nil
		r.To = job.End{Point: "point.far", Port: "in"}
		j.Net.Runs = append(j.Net.Runs, last)
		return
	}
	t.Fatal("no line ends at ", outlet)
}
