package check

import (
	"context"
	"os"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// pair is a check's test data: a job that fails, one that just passes.
type pair struct {
	fails, passes []byte
	finds         []string // "severity id" of each finding, the id that leads it
	source        string
}

func pairOf(t *testing.T, code string) pair {
	t.Helper()
	raw, err := os.ReadFile("testdata/" + code + ".txtar")
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{}
	name := ""
	for line := range strings.Lines(string(raw)) {
		if head, ok := strings.CutPrefix(line, "-- "); ok {
			name = strings.TrimSuffix(strings.TrimSpace(head), " --")
			continue
		}
		files[name] += line
	}
	p := pair{source: strings.TrimSpace(files["source"]), fails: []byte(files["fails.json"]), passes: []byte(files["passes.json"])}
	if finds := strings.TrimSpace(files["finds"]); finds != "" {
		p.finds = strings.Split(finds, "\n")
	}
	if p.source == "" || p.finds == nil || len(p.fails) == 0 || len(p.passes) == 0 {
		t.Fatalf("%s lacks source, finds, fails.json or passes.json", code)
	}
	return p
}

// parse reads a job that must be usable as it stands.
func parse(t *testing.T, raw []byte) *job.Job {
	t.Helper()
	j, bad := job.Parse(raw)
	if j != nil {
		bad = append(bad, job.Validate(j, catalog.Builtin())...)
	}
	for _, f := range bad {
		if f.Severity == job.Fault || f.Severity == job.Danger {
			t.Errorf("%s: %s", f.Path, f.Title)
		}
	}
	if j == nil {
		t.FailNow()
	}
	return j
}

func findings(t *testing.T, s *study.Study, checks ...Check) []job.Finding {
	t.Helper()
	found, err := RunThese(context.Background(), s, unit.Metric, checks)
	if err != nil {
		t.Fatal(err)
	}
	return found
}

func leads(found []job.Finding) []string {
	var out []string
	for _, f := range found {
		lead := ""
		if len(f.Where) > 0 {
			lead = string(f.Where[0])
		}
		out = append(out, string(f.Severity)+" "+lead)
	}
	return out
}

func TestPairs(t *testing.T) {
	for _, c := range All() {
		t.Run(c.Code, func(t *testing.T) {
			p := pairOf(t, c.Code)
			fails := study.Of(parse(t, p.fails), catalog.Builtin())
			found := findings(t, fails, c)
			if got := leads(found); !slices.Equal(got, p.finds) {
				t.Errorf("the job that fails: found %q, want %q", got, p.finds)
			}
			for _, f := range found {
				wellFormed(t, f)
				cured(t, fails, c, f)
			}
			if got := findings(t, study.Of(parse(t, p.passes), catalog.Builtin()), c); len(got) > 0 {
				t.Errorf("the job that passes: %s", got[0].Title)
			}
		})
	}
}

// wellFormed holds that a finding says all that people need.
func wellFormed(t *testing.T, f job.Finding) {
	t.Helper()
	for what, text := range map[string]string{"title": f.Title, "why": f.Why} {
		switch {
		case len(text) < 12, !strings.HasSuffix(text, "."):
			t.Errorf("%s of %s is no sentence: %q", what, f.Code, text)
		case strings.ToUpper(text[:1]) != text[:1]:
			t.Errorf("%s of %s begins small: %q", what, f.Code, text)
		case strings.Contains(text, "%!"), strings.Contains(text, "  "), strings.Contains(strings.ToLower(text), "safe"):
			t.Errorf("%s of %s: %q", what, f.Code, text)
		}
	}
	if len(f.Where) == 0 || len(f.Source) == 0 {
		t.Errorf("%s says not where, or not by whom: %+v", f.Code, f)
	}
	for _, r := range f.Source {
		if _, ok := cite.Lookup(r.Source); !ok {
			t.Errorf("%s cites %q, which no table knows", f.Code, r.Source)
		}
	}
}

// cured applies each cure that claims to cure and looks again.
func cured(t *testing.T, s *study.Study, c Check, f job.Finding) {
	t.Helper()
	for _, cure := range f.Cures {
		after := s
		for _, form := range cure.Edits {
			edit, bad := job.ParseEdit(form)
			if bad != nil {
				t.Fatalf("cure %q cannot be read: %v", cure.Words, bad)
			}
			var err error
			if after, err = after.After(edit); err != nil {
				t.Fatalf("cure %q: %v", cure.Words, err)
			}
		}
		if bad := job.Validate(after.Job(), catalog.Builtin()); job.Severity(worstOf(bad)) == job.Fault {
			t.Errorf("cure %q leaves the job unusable: %v", cure.Words, bad)
		}
		still := slices.ContainsFunc(findings(t, after, c), func(g job.Finding) bool {
			return g.Code == f.Code && g.Severity == f.Severity && g.Where[0] == f.Where[0]
		})
		if still == cure.Cures {
			t.Errorf("cure %q says cures: %v, and the finding is there afterwards: %v", cure.Words, cure.Cures, still)
		}
	}
}

func worstOf(found []job.Finding) job.Severity { return Worst(found) }

// TestWellMade: a shop without a fault yields nothing worse than a note.
func TestWellMade(t *testing.T) {
	raw, err := os.ReadFile("testdata/well-made.json")
	if err != nil {
		t.Fatal(err)
	}
	found := findings(t, study.Of(parse(t, raw), catalog.Builtin()), All()...)
	for _, f := range found {
		if f.Severity != job.Note {
			t.Errorf("%s %s: %s", f.Severity, f.Code, f.Title)
		}
	}
	if len(found) > 3 {
		t.Errorf("%d notes on a well-made shop", len(found))
	}
}

// TestAllSay: every check is filled in.
func TestAllSay(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range All() {
		if c.Code == "" || c.Title == "" || c.Why == "" || c.Limit == "" || len(c.Source) == 0 || c.Run == nil || seen[c.Code] {
			t.Errorf("%q is not filled in, or twice there", c.Code)
		}
		seen[c.Code] = true
		for _, r := range c.Source {
			if _, ok := cite.Lookup(r.Source); !ok {
				t.Errorf("%s cites %q, which no table knows", c.Code, r.Source)
			}
		}
	}
}

// TestSame: the same study gives the same findings in the same order.
func TestSame(t *testing.T) {
	s := study.Of(thirty(), catalog.Builtin())
	first, again := findings(t, s, All()...), findings(t, study.Of(thirty(), catalog.Builtin()), All()...)
	if len(first) != len(again) {
		t.Fatalf("%d findings, then %d", len(first), len(again))
	}
	for i := range first {
		if first[i].Title != again[i].Title || !slices.Equal(first[i].Where, again[i].Where) || len(first[i].Cures) != len(again[i].Cures) {
			t.Errorf("%q, then %q", first[i].Title, again[i].Title)
		}
		if i > 0 && rank(first[i].Severity) < rank(first[i-1].Severity) {
			t.Errorf("%q stands behind what is milder", first[i].Title)
		}
	}
}

// TestCancelled: no findings where nobody waits any more.
func TestCancelled(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Run(ctx, study.Of(thirty(), catalog.Builtin()), unit.US); err == nil {
		t.Error("a cancelled run gave an answer")
	}
}

// TestEmpty: a job with nothing in it is no failure of the program.
func TestEmpty(t *testing.T) {
	found := findings(t, study.Of(&job.Job{Version: job.Version, Title: "nothing yet"}, catalog.Builtin()), All()...)
	for _, f := range found {
		if f.Severity == job.Danger {
			t.Errorf("%s: %s", f.Code, f.Title)
		}
	}
}

// TestTooHot: beyond the last temperature of its table a line has no rating
// (composite pipe: 82 °C, csa-b137.9 clause 1.1, read).
func TestTooHot(t *testing.T) {
	raw, err := os.ReadFile("testdata/well-made.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		summer float64
		want   []string
	}{{80, nil}, {84, []string{"caution line.main-2"}}} {
		j := parse(t, raw)
		j.Building.Zones = append(j.Building.Zones, job.Zone{ID: "zone.oven", Climate: "heated", Winter: at(18), Summer: at(row.summer)})
		for i := range j.Net.Runs {
			if r := &j.Net.Runs[i]; r.ID == "line.main-2" {
				r.Stock, r.Size, r.Zone = "pe-al-pe", "3/4", "zone.oven"
			}
		}
		j.Net.Points[0].Part.Compressor.CutOut = to(unit.GaugePressure(690e3))
		j.Net.Points[0].Part.Compressor.CutIn = to(unit.GaugePressure(600e3))
		if got := leads(findings(t, study.Of(j, catalog.Builtin()), overRating)); !slices.Equal(got, row.want) {
			t.Errorf("at %v °C: %q, want %q", row.summer, got, row.want)
		}
	}
}

func to[T any](x T) *T { return &x }

func at(celsius float64) *unit.Temperature { return to(unit.Celsius(celsius)) }
