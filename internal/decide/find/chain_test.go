package find_test

import (
	"context"
	"math"
	"os"
	"reflect"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/find"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

const parts = `part,name,item,size,length,flow,pressure,cut-in,cut-out,volume
compressor,,,1,,10 L/s,,7 bar,9 bar,
receiver,,,,,,,,,270 L
filter,,,1,,,,,,
main,,,1,18 m,,,,,
main,,,3/4,6 m,,,,,
drop,the bench,,1/2,3.5 m,,,,,
coupler,,euro-7.2,,,,,,,
hose,,,3/8,10 m,,,,,
tool,the sander,,,,6 L/s,6.2 bar,,,
main,,,3/4,9 m,,,,,
drop,,,1/2,1.5 m,,,,,
tool,,blow-gun,,,,,,,
`

// TestChain: the job of a chain can be used, is as long as was said, and is looked
// into as any other.
func TestChain(t *testing.T) {
	j, problems := find.ReadChain(strings.NewReader(parts), catalog.Builtin())
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if found := job.Validate(j, catalog.Builtin()); !job.Usable(found) {
		t.Fatal(found)
	}
	text, err := j.Encode()
	if err != nil {
		t.Fatal(err)
	}
	if j, found := job.Parse(text); j == nil {
		t.Fatal("what was written cannot be read:", found)
	}
	ctx := context.Background()
	s := study.Of(j, catalog.Builtin())
	m, err := s.Model(ctx)
	if err != nil {
		t.Fatal(err)
	}
	by := map[string]float64{}
	for _, e := range m.Elements() {
		by[e.Role] += float64(e.Length)
	}
	if math.Abs(by["main"]-33) > 0.01 || math.Abs(by["drop"]-5) > 0.01 {
		t.Errorf("33 m of main and 5 m of drops come out as %v", by)
	}
	f, err := find.New(ctx, s, unit.Metric)
	if err != nil {
		t.Fatal(err)
	}
	if u := f.Complain("the sander starves"); len(u.Running) != 1 || u.Running[0].Outlet != "outlet.bench" {
		t.Errorf("understood %+v", u)
	}
	// The filter of a sound line loses about 0.1 bar there: two bars of loss stand in
	// the way before the first tee.
	for _, at := range []job.ID{"outlet.bench", "outlet.drop-b"} {
		r := find.Reading{
			Kind: find.Pressure, Place: find.Place{At: at}, Running: []job.InUse{{Tool: "tool.sander", Outlet: "outlet.bench"}},
			Pressure: 6e5, Receiver: 8.2e5,
		}
		if err := f.Add(ctx, r); err != nil {
			t.Fatal(err)
		}
	}
	a, err := f.Answer(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if c := a.Causes[0]; c.Sort != find.Restricted || c.Members[0].ID != "point.filter" {
		t.Errorf("%.2f %s", c.Chance, c.Words)
	}
}

// TestChainOfASpreadsheet: semicolons between cells and a mark of the encoding before them
// change nothing, and a class of the catalogue stands for what its row leaves out.
func TestChainOfASpreadsheet(t *testing.T) {
	want, _ := find.ReadChain(strings.NewReader(parts), catalog.Builtin())
	got, problems := find.ReadChain(strings.NewReader("\ufeff"+strings.ReplaceAll(parts, ",", ";")), catalog.Builtin())
	if len(problems) > 0 || !reflect.DeepEqual(want, got) {
		t.Errorf("%v %+v", problems, got)
	}
	bare := strings.Replace(parts, "compressor,,,1,,10 L/s,,7 bar,9 bar,", "compressor,,piston-4,1,,,,,,", 1)
	j, problems := find.ReadChain(strings.NewReader(bare), catalog.Builtin())
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	m, _ := catalog.Builtin().Machine("piston-4")
	c := j.Net.Points[0].Part.Compressor
	if c.FreeAir.Value != m.FreeAir.Value || *c.CutIn != m.CutIn || *c.CutOut != m.CutOut || !strings.Contains(j.Note, m.Words) {
		t.Errorf("%+v, %q", c, j.Note)
	}
	if _, problems = find.ReadChain(strings.NewReader(strings.Replace(bare, "piston-4", "pistn-4", 1)), catalog.Builtin()); len(problems) != 1 || problems[0].Nearest != "piston-4" {
		t.Errorf("%+v", problems)
	}
}

// FuzzReadChain: no table makes a job that cannot be used without its problems told.
func FuzzReadChain(f *testing.F) {
	f.Add(parts)
	f.Add("part\ncompressor\ntool")
	f.Add("part,length\nmain,1e9 m\nmain,-3 m\ndrop,NaN m")
	f.Fuzz(func(t *testing.T, text string) {
		j, problems := find.ReadChain(strings.NewReader(text), catalog.Builtin())
		if (j == nil) != (len(problems) > 0) {
			t.Fatalf("job %v, problems %v", j != nil, problems)
		}
		if j != nil {
			job.Validate(j, catalog.Builtin())
		}
	})
}

// FuzzReadCSV: no table of readings makes the reader fall over.
func FuzzReadCSV(f *testing.F) {
	raw, err := os.ReadFile("../../shop/example/data/ailing.json")
	if err != nil {
		f.Fatal(err)
	}
	j, _ := job.Parse(raw)
	f.Add("place,running,pressure,receiver\nbench,sander@far-bench,85 psi,100 psi")
	f.Add("from,to,time,shut,starts\n90 psi,120 psi,40 s,far-valve,\n,,,,6")
	f.Fuzz(func(t *testing.T, text string) {
		all, _ := find.ReadCSV(strings.NewReader(text), j)
		for _, r := range all {
			if math.IsNaN(float64(r.Pressure)) || math.IsNaN(float64(r.Time)) || math.IsNaN(r.Starts) {
				t.Fatalf("%+v", r)
			}
		}
	})
}
