package catalog

import (
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dropleg/engine/cite"
	"dropleg/engine/document"
	"dropleg/engine/unit"
)

// The built-in rows pass the same sieve as a person's own.
func TestBuiltInRowsAreSound(t *testing.T) {
	c := Builtin()
	_, problems := c.sift(&c.shelf)
	for _, p := range problems {
		t.Errorf("%s: read %s, want %s", p.Path, p.Read, p.Want)
	}
}

// refs walks every reference of a value.
func refs(v reflect.Value, path string, visit func(path string, r cite.Ref)) {
	if r, ok := v.Interface().(cite.Ref); ok {
		visit(path, r)
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			refs(v.Field(i), path+"."+v.Type().Field(i).Name, visit)
		}
	case reflect.Slice:
		for i := range v.Len() {
			refs(v.Index(i), path+"["+strconv.Itoa(i)+"]", visit)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			refs(v.Elem(), path, visit)
		}
	}
}

// Every row names a source that exists and says how it was had.
func TestEveryRowHasASource(t *testing.T) {
	count, recalled := 0, 0
	refs(reflect.ValueOf(Builtin().shelf), "shelf", func(path string, r cite.Ref) {
		count++
		if _, ok := cite.Lookup(r.Source); !ok {
			t.Errorf("%s: source %q is in no bibliography", path, r.Source)
		}
		switch r.How {
		case cite.Read, cite.Computed, cite.Common:
		case cite.Recalled:
			recalled++
		default:
			t.Errorf("%s: how %q", path, r.How)
		}
	})
	if count < 1000 {
		t.Errorf("only %d references seen", count)
	}
	if recalled == 0 || recalled == count {
		t.Errorf("%d of %d recalled", recalled, count)
	}
	got, all := Builtin().Recalled()
	if got != recalled || all != count {
		t.Errorf("Recalled tells %d of %d, want %d of %d", got, all, recalled, count)
	}
}

func TestKinds(t *testing.T) {
	path := regexp.MustCompile(`^(?:[MLHVA](?:-?\d+(?:\.\d+)?)(?: -?\d+(?:\.\d+)?)*|Z)+$`)
	for _, k := range Builtin().Kinds() {
		if !path.MatchString(k.Symbol) {
			t.Errorf("%s: symbol %q", k.Kind, k.Symbol)
		}
		if k.Law.Name == "minor" && k.Law.LeOverD == nil && k.Law.K == nil {
			t.Errorf("%s: a minor loss without a figure", k.Kind)
		}
		if k.Law.Name == "tee" && (k.Law.LeOverD == nil || k.Law.BranchLe == nil || !slices.ContainsFunc(k.Ports, func(p Port) bool { return strings.HasPrefix(p.ID, "branch") })) {
			t.Errorf("%s: a tee without its legs", k.Kind)
		}
		if (k.Law.Name == "end") != (len(k.Ports) == 1 && k.Law.Name != "source") {
			t.Errorf("%s: %d ports and the law %s", k.Kind, len(k.Ports), k.Law.Name)
		}
		for _, p := range k.Ports {
			if _, ok := Builtin().JointAt(p, mustStock(t, "copper-l"), ""); !ok {
				t.Errorf("%s %s: no way of joining", k.Kind, p.ID)
			}
		}
	}
	// Every role is played by some kind.
	for _, r := range Roles() {
		if !slices.ContainsFunc(Builtin().Kinds(), func(k Kind) bool { return k.Has(r) }) {
			t.Errorf("no kind %s", r)
		}
	}
	if k, ok := Builtin().Kind(""); !ok || k.Kind != "joint" || k.Names("en") != "places on the line" || k.Names("xx") != "places on the lines" && k.Name("xx") != "place on the line" {
		t.Errorf("the plain place: %+v", k.Words)
	}
}

func TestEveryStockStandsOnItsShelves(t *testing.T) {
	c := Builtin()
	for _, s := range c.Stocks() {
		if _, ok := c.Material(s.Material); !ok {
			t.Errorf("%s: no material %s", s.Stock, s.Material)
		}
		for _, z := range s.Sizes {
			if _, ok := c.Thread("npt", z.ThreadFor); z.ThreadFor != "" && !ok && z.ThreadFor != "2-1/2" && z.ThreadFor != "3" {
				t.Errorf("%s %s: no thread %s", s.Stock, z.Size, z.ThreadFor)
			}
			if got, ok := s.Size(z.Size); !ok || got.Size != z.Size {
				t.Errorf("%s: size %s is not found by its name", s.Stock, z.Size)
			}
			for _, other := range z.Also {
				if got, ok := s.Size(other); !ok || got.Size != z.Size {
					t.Errorf("%s: %s finds %q, want %s", s.Stock, other, got.Size, z.Size)
				}
			}
		}
	}
}

func TestListsAreSorted(t *testing.T) {
	want := []string{"rubber-1/4", "rubber-3/8", "rubber-1/2", "rubber-3/4"}
	if got := Builtin().IDs(Hoses); !slices.Equal(got, want) {
		t.Errorf("hoses %v, want %v", got, want)
	}
	if a, b := Builtin().IDs(Threads)[5:8], []string{"npt 1", "npt 1-1/4", "npt 1-1/2"}; !slices.Equal(a, b) {
		t.Errorf("threads %v, want %v", a, b)
	}
}

// own decodes a person's shelf as it stands in a job.
func own(t *testing.T, text string) *Shelf {
	t.Helper()
	var s Shelf
	if p := document.Decode([]byte(text), &s); len(p) > 0 {
		t.Fatalf("%+v", p)
	}
	return &s
}

func TestOwnRowsOnTop(t *testing.T) {
	base := Builtin()
	c, problems := base.With(own(t, `{
 "couplers": [{"coupler": "industrial-1/4", "words": "measured", "profile": "industrial", "body": "1/4", "C_m3_s_Pa": 5e-8,
   "C_low_m3_s_Pa": 4.9e-8, "C_high_m3_s_Pa": 5.1e-8, "b": 0.35, "rating_kPa_g": 1600, "source": "data sheet"}],
 "hoses": [{"hose": "mine", "words": "my hose", "size": "3/8", "bore_m": 0.01, "outside_m": 0.016,
   "roughness_m": {"value": 1e-5, "low": 1e-6, "high": 1e-4, "source": "own"},
   "end_bore": {"value": 0.8, "low": 0.7, "high": 0.9, "source": "own"}, "rating_kPa_g": 1500, "max_C": 60, "source": "own"}],
 "mates": [{"socket": "high-flow-1/4", "plug": "industrial-1/4", "mates": "yes", "source": "tried"}]}`))
	if len(problems) > 0 {
		t.Fatalf("%+v", problems)
	}
	if k, _ := c.Coupler("industrial-1/4"); k.C != 5e-8 || c.Origin(Couplers, "industrial-1/4") != Replaces {
		t.Errorf("own coupler: %v, %q", k.C, c.Origin(Couplers, "industrial-1/4"))
	}
	if _, ok := c.Hose("mine"); !ok || c.Origin(Hoses, "mine") != Own || c.Origin(Hoses, "rubber-3/8") != BuiltIn || c.Origin(Hoses, "none") != "" {
		t.Errorf("own hose: %v, %q", ok, c.Origin(Hoses, "mine"))
	}
	if got, _ := c.Mates("high-flow-1/4", "industrial-1/4"); got != "yes" {
		t.Errorf("own mate: %s", got)
	}
	// What lies beneath is as it was.
	if k, _ := base.Coupler("industrial-1/4"); k.C != 3.4e-8 || base.Origin(Couplers, "industrial-1/4") != BuiltIn {
		t.Errorf("built-in coupler changed: %v", k.C)
	}
	again, _ := c.With(own(t, `{}`))
	if again.Origin(Couplers, "industrial-1/4") != Replaces || again.Origin(Hoses, "mine") != Own {
		t.Error("a second layer forgot the first")
	}
	if same, p := base.With(nil); same != base || p != nil {
		t.Error("no rows of one's own change nothing")
	}
}

// All that is wrong is told at once, and such rows are left out.
func TestOwnRowsThatCannotBeUsed(t *testing.T) {
	c, problems := Builtin().With(own(t, `{
 "stocks": [{"stock": "bad", "words": "bad", "material": "copper", "joining": ["soldr"], "form": "stick", "lengths_m": [3], "fit_for_air": "maybe",
   "roughness_m": {"value": 1e-6, "low": 2e-6, "high": 3e-6, "source": "own"}, "corners": "elbow",
   "sizes": [{"size": "1/2", "outside_m": 0.02, "wall_m": 0.001, "bore_m": 0.01, "source": "own",
     "ratings": [{"of": "line", "basis": "x", "temp_C": [20, 10], "pressure_kPa_g": [100], "source": "own"}]}], "source": "own"}],
 "kinds": [{"kind": "odd", "words": {}, "group": "fiting", "symbol": "", "ports": [{"id": "in", "toward": [1, 1, 0], "joint": "stock"}],
   "law": {"name": "minr", "source": "own"}, "source": "own"}]}`))
	want := map[string]string{
		"kinds[0] (odd).words": "", "kinds[0] (odd).group": "fitting", "kinds[0] (odd).law.name": "minor", "kinds[0] (odd).ports[0].toward": "",
		"stocks[0] (bad).joining": "solder", "stocks[0] (bad).fit_for_air": "", "stocks[0] (bad).why": "", "stocks[0] (bad).roughness_m": "",
		"stocks[0] (bad).sizes[0].outside_m": "", "stocks[0] (bad).sizes[0].ratings[0].pressure_kPa_g": "", "stocks[0] (bad).sizes[0].ratings[0].temp_C[1]": "",
	}
	for _, p := range problems {
		nearest, ok := want[p.Path]
		if !ok || p.Nearest != nearest || p.Want == "" {
			t.Errorf("%+v", p)
		}
		delete(want, p.Path)
	}
	for path := range want {
		t.Errorf("%s was not told", path)
	}
	if _, ok := c.Stock("bad"); ok {
		t.Error("a stock that cannot be used is on the shelf")
	}
}

func TestFormulas(t *testing.T) {
	run := func(name string, args ...string) (string, error) {
		for _, f := range Formulas() {
			if f.Name == name {
				in, problems := f.Read(args, unit.Env{})
				if len(problems) > 0 {
					t.Fatalf("%+v", problems)
				}
				out, err := f.Run(in)
				if err != nil {
					return "", err
				}
				text, err := f.JSON(out)
				return string(text), err
			}
		}
		t.Fatalf("no formula %s", name)
		return "", nil
	}
	for _, c := range []struct {
		name, args string
		want       []string
		wrong      string
		from       string
	}{
		{"thread", "size=1/2 kind=npt", []string{`"hand_tight_m": 0.008128`, `"effective_m": 0.013556`, `"make_up_m": 0.0135636`}, "", "checks.csv 121"},
		{"thread", "size=1/2in kind=R", []string{`"pitch_diameter_m": 0.020955`, `"threads_per_inch": 14`}, "", "npt.csv"},
		{"thread", "size=5/8", nil, "nearest is", ""},
		{"line", "stock=pe-al-pe size=3/4 temp=71C", []string{`"rating_Pa_g": 862500`, `"bore_m": 0.02012`, `"outside_m": 0.02515`, `"wall_m": 0.00251`}, "", "checks.csv 115; pipe_dimensions.csv"},
		{"line", "stock=pe_al_pe size=3/4in temp=90C", nil, "temp: refused", "checks.csv 117"},
		{"line", "stock=pvc size=1/2", nil, "stock: refused: not fit", "checks.csv 118"},
		{"line", "stock=copper-l size=3/4 temp=150F", []string{`"rating_Pa_g": 275800`}, "", "checks.csv 120: 400 psi"},
		{"line", "stock=steel-sch40 size=3", []string{`"bore_m": 0.0779`, `"basis": "no rating is known`}, "", "pipe_dimensions.csv; no row of ratings.csv"},
		{"line", "stock=coper-l size=3/4", nil, "nearest is copper-l", ""},
		{"line", "stock=copper-l size=7/9", nil, "size: read", ""},
	} {
		got, err := run(c.name, strings.Fields(c.args)...)
		if (err != nil) != (c.wrong != "") || err != nil && !strings.Contains(err.Error(), c.wrong) {
			t.Errorf("%s %s: %v, want %q", c.name, c.args, err, c.wrong)
		}
		for _, w := range c.want {
			if !strings.Contains(got, w) {
				t.Errorf("%s %s: %s lacks %s (%s)", c.name, c.args, got, w, c.from)
			}
		}
	}
}

func BenchmarkRead(b *testing.B) {
	for b.Loop() {
		var s Shelf
		if err := s.read(); err != nil {
			b.Fatal(err)
		}
		build(s)
	}
}
