package reftest

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dropleg/engine/cite"
	"dropleg/engine/element"
	"dropleg/internal/decide/calc"
	"dropleg/internal/shop/catalog"
)

// TestNoRowDropsOut counts the lines of each file by itself: no table is left out
// and no row of one.
func TestNoRowDropsOut(t *testing.T) {
	rows, root := loaded(t)
	results := map[string]int{}
	for _, r := range Judge(rows) {
		results[r.File]++
	}
	ref := filepath.Join(root, "testdata", "ref")
	err := filepath.WalkDir(ref, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		file, err := filepath.Rel(ref, path)
		if err != nil {
			return err
		}
		switch file = filepath.ToSlash(file); filepath.Ext(file) {
		case ".csv":
			text, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			if want := csvLines(string(text)); results[file] != want {
				t.Errorf("%s: %d rows judged, %d lines in the file", file, results[file], want)
			}
			delete(results, file)
		case ".json":
			results[filepath.ToSlash(filepath.Dir(file))]--
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for file, n := range results {
		if n != 0 {
			t.Errorf("%s: %d more judged than there are files", file, n)
		}
	}
}

// csvLines counts lines but for comments and the head.
func csvLines(text string) int {
	n := -1
	for line := range strings.SplitSeq(strings.TrimRight(text, "\n"), "\n") {
		if line != "" && !strings.HasPrefix(line, "#") {
			n++
		}
	}
	return n
}

// TestTablesStandWhole holds the number of rows per file as they were delivered,
// so that a row taken out of a table is noticed too.
func TestTablesStandWhole(t *testing.T) {
	want := map[string]int{
		"air/air_properties.csv": 517, "air/humidity.csv": 307, "air/reference_flow.csv": 188, "air/friction.csv": 433,
		"air/orifices.csv": 258, "air/iso6358.csv": 74, "air/receiver.csv": 59, "air/power.csv": 162, "air/test.csv": 73,
		"air/checks_demand.csv": 169, "air/tools.csv": 72, "air/dryers.csv": 56, "air/purity.csv": 28,
		"piping/checks.csv": 120, "piping/pipe_dimensions.csv": 141, "piping/ratings.csv": 222, "piping/expansion.csv": 23,
		"piping/support_spacing.csv": 156, "piping/bend_radius.csv": 197, "piping/npt.csv": 27, "piping/takeouts.csv": 34,
		"piping/roughness.csv": 14, "piping/fittings_k.csv": 228, "piping/couplers.csv": 19, "piping/coupler_mates.csv": 14,
		"piping/labels.csv": 23, "bench/network": 4, "bench/demand": 4, "bench/cutting": 8, "bench/purchase": 5,
		"bench/steiner": 4, "bench/steiner-published": 4,
	}
	rows, _ := loaded(t)
	got, seen := map[string]int{}, map[string]bool{}
	for _, r := range rows {
		got[r.File]++
		if seen[r.ID] {
			t.Errorf("two rows are called %s", r.ID)
		}
		seen[r.ID] = true
	}
	for file, n := range got {
		if want[file] != n {
			t.Errorf("%s: %d rows, want %d", file, n, want[file])
		}
	}
	if len(got) != len(want) {
		t.Errorf("%d files, want %d", len(got), len(want))
	}
}

// TestOneLawARow: a row that two laws claim would be held by the first alone.
func TestOneLawARow(t *testing.T) {
	rows, _ := loaded(t)
	laws := Laws()
	used := map[string]bool{}
	for _, r := range rows {
		var claims []string
		for _, l := range laws {
			if l.claims(r) {
				claims = append(claims, l.Name)
				used[l.File+l.Name] = true
			}
		}
		if len(claims) > 1 {
			t.Errorf("%s (%s): claimed by %s", r.ID, r.Quantity, strings.Join(claims, " and "))
		}
	}
	for _, l := range laws {
		if !used[l.File+l.Name] {
			t.Errorf("%s on %s answers no row", l.Name, l.File)
		}
		if (l.Got == nil) == (l.Figures == nil) || l.Topic == "" || l.Code == "" {
			t.Errorf("%s on %s: one of Got and Figures, a topic and the code are wanted", l.Name, l.File)
		}
	}
}

// TestReasonsAreNeeded: every explanation explains a row that would fail without
// it, and every reason for having no law speaks of one.
func TestReasonsAreNeeded(t *testing.T) {
	rows, _ := loaded(t)
	explained, left := map[string]bool{}, map[*later]bool{}
	list := laters()
	for _, r := range Judge(rows) {
		switch {
		case r.Outcome == Explained, r.Outcome == Recalled && r.Why != "":
			explained[r.Law.Name+r.Why] = true
		case r.Law == nil:
			if l := laterOf(list, r.Row); l != nil {
				left[l] = true
			} else {
				t.Errorf("%s (%s; %s): no law and no reason", r.ID, r.Quantity, r.Inputs)
			}
		}
	}
	for _, l := range Laws() {
		for _, b := range l.Because {
			if !explained[l.Name+b.Why] {
				t.Errorf("%s: nothing differs because %q", l.Name, b.Why)
			}
			if b.Rel <= 0 && b.Abs <= 0 {
				t.Errorf("%s: %q bounds nothing", l.Name, b.Why)
			}
		}
	}
	for i := range list {
		if !left[&list[i]] {
			t.Errorf("%s %v: the reason speaks of no row", list[i].file, list[i].of)
		}
	}
}

// TestShelfSpacingIsInTheTable goes the other way: each spacing of the catalogue
// is that of a row, and says how it was had.
func TestShelfSpacingIsInTheTable(t *testing.T) {
	rows, _ := loaded(t)
	for _, s := range catalog.Builtin().Stocks() {
		for _, z := range s.Sizes {
			for _, have := range z.Spacing {
				found := false
				for _, r := range rows {
					found = found || r.File == supportFile && citesSpacing(have, r)
				}
				if !found {
					t.Errorf("%s %s: %s %v m (%s, %s) is in no row of support_spacing.csv", s.Stock, z.Size, have.Direction, have.Distance, have.Place, have.How)
				}
			}
		}
	}
}

// TestRecalledNeverFails holds the rule on a row made up to be wrong.
func TestRecalledNeverFails(t *testing.T) {
	law := Law{Name: "made up", Got: func(Row) (float64, error) { return 2, nil }}
	for how, want := range map[cite.How]Outcome{cite.Recalled: Recalled, cite.Read: Failed, cite.Computed: Failed, Solved: Failed} {
		r := judge(Row{ID: "X", Want: 1, Expected: "1", Tolerance: "rel:0.1", How: how}, &law)
		if r.Outcome != want || r.Within {
			t.Errorf("a wrong %s row is %s, within %v; want %s", how, r.Outcome, r.Within, want)
		}
	}
	if r := judge(Row{ID: "X", Want: 1, Expected: "1", Tolerance: "range", How: cite.Read}, &law); r.Outcome != Failed {
		t.Errorf("a tolerance that cannot be read is %s", r.Outcome)
	}
}

func TestAllowed(t *testing.T) {
	for _, c := range []struct {
		expected, tolerance string
		want                float64
		ok                  bool
	}{
		{"8.0", "rel:0.05", 0.4, true},
		{"1.394480762", "rel:2e-5 vs this equation; 2e-3 for an ideal-gas program", 2e-5 * 1.394480762, true},
		{"1.394480762", "rel:1e-12", 5e-10, true},
		{"40", "abs:1 (last row: printed 3, formula 3.0)", 1, true},
		{"-80.2111", "abs:0.05; charts differ by up to 2 K", 0.05, true},
		{"30", "exact", 3e-11, true},
		{"6.95", "10 percent", 0.695, true},
		{"407", "0", 0.5, true},
		{"0.598", "0.001", 0.001, true},
		{"2.5e3", "0", 50, true},
		{"70", "range 60-70", 0, false},
		{"1", "", 0, false},
	} {
		want, _ := number(c.expected)
		got, ok := Row{Expected: c.expected, Tolerance: c.tolerance, Want: want}.allowed()
		if ok != c.ok || ok && (got < c.want*(1-1e-9) || got > c.want*(1+1e-9)) {
			t.Errorf("%s with %q: allowed %g, %v; want %g, %v", c.expected, c.tolerance, got, ok, c.want, c.ok)
		}
	}
}

// TestCoverageIsWhole: every law of flow and every formula says what holds it.
func TestCoverageIsWhole(t *testing.T) {
	want := map[string]bool{}
	for _, e := range element.Laws() {
		want["element law "+e.Name] = true
	}
	for _, f := range calc.All() {
		want["formula "+f.Name] = true
	}
	names := map[string]bool{}
	for _, l := range Laws() {
		names[l.Name] = true
	}
	for _, c := range Coverage() {
		if key := c.Kind + " " + c.Name; !want[key] {
			t.Errorf("%s is no law of the program, or stands twice", key)
		} else {
			delete(want, key)
		}
		for _, by := range c.By {
			if !names[by] {
				t.Errorf("%s: no evaluator is called %q", c.Name, by)
			}
		}
		if len(c.By) == 0 && c.Open == "" {
			t.Errorf("%s: held by nothing, and says nothing of it", c.Name)
		}
	}
	for key := range want {
		t.Errorf("%s says not what holds it", key)
	}
}

// TestShelfRepeatsTheTable: a figure of the catalogue that leans on a row is the
// row's, recalled or read: what may be wrong is the figure, never the copy.
func TestShelfRepeatsTheTable(t *testing.T) {
	rows, _ := loaded(t)
	for _, r := range Judge(rows) {
		if r.Law != nil && r.Law.Shelf && len(r.Figures) > 0 && !r.Within {
			report(t, r)
		}
	}
}
