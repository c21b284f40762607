package reftest

import "testing"

// loaded is every row, and the root that they come from.
func loaded(t *testing.T) ([]Row, string) {
	t.Helper()
	root, err := Root()
	if err != nil {
		t.Fatal(err)
	}
	rows, err := Load(root)
	if err != nil {
		t.Fatal(err)
	}
	return rows, root
}

// TestRows holds every row of every table; the source of each expected number is
// the row's own and stands beside it.
func TestRows(t *testing.T) {
	rows, _ := loaded(t)
	byFile := map[string][]Result{}
	var files []string
	for _, r := range Judge(rows) {
		if byFile[r.File] == nil {
			files = append(files, r.File)
		}
		byFile[r.File] = append(byFile[r.File], r)
	}
	for _, file := range files {
		t.Run(file, func(t *testing.T) {
			for _, r := range byFile[file] {
				if r.Outcome == Failed {
					report(t, r)
				}
			}
		})
	}
}

func report(t *testing.T, r Result) {
	t.Helper()
	t.Errorf("%s (%s; %s): %s; source: %s", r.ID, r.Quantity, r.Inputs, r.Why, r.Source)
	for _, f := range r.Figures {
		switch {
		case f.Off() <= f.Allowed:
		case f.WantWord != "":
			t.Logf("  %s: got %q, want %q", f.Name, f.Word, f.WantWord)
		default:
			t.Logf("  %s: got %.10g, want %.10g %s, off %.3g, allowed %.3g", f.Name, f.Got, f.Want, f.Unit, f.Off(), f.Allowed)
		}
	}
}
