package example_test

import (
	"bytes"
	"context"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

// load parses an example.
func load(t *testing.T, name string) *job.Job {
	t.Helper()
	raw, ok := example.Read(name)
	if !ok {
		t.Fatalf("%s is not there", name)
	}
	j, found := job.Parse(raw)
	for _, f := range found {
		t.Error(f.Title)
	}
	if j == nil {
		t.FailNow()
	}
	return j
}

// solve is the flow of every set of an example.
func solve(t *testing.T, j *job.Job) *flow.Answer {
	t.Helper()
	a, err := study.Of(j, catalog.Builtin()).Flow(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// each runs a test on every example.
func each(t *testing.T, do func(t *testing.T, j *job.Job)) {
	t.Helper()
	for _, e := range example.All() {
		t.Run(e.Name, func(t *testing.T) { do(t, load(t, e.Name)) })
	}
}

func TestEveryFileIsListedOnce(t *testing.T) {
	var listed []string
	for _, e := range example.All() {
		listed = append(listed, e.Name+".json")
		if e.Title == "" {
			t.Errorf("%s has no title", e.Name)
		}
	}
	if d := cmp.Diff([]string{"boat-shop.json", "frame-garage.json", "ring-main.json", "ailing.json"}, listed); d != "" {
		t.Errorf("the order is the one that people were told (-want +got):\n%s", d)
	}
	files, err := os.ReadDir("data")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !strings.Contains(strings.Join(listed, " "), f.Name()) {
			t.Errorf("data/%s is not listed", f.Name())
		}
	}
	if len(files) != len(listed) {
		t.Errorf("%d files, %d listed", len(files), len(listed))
	}
}

func TestReadTellsWhatIsNotThere(t *testing.T) {
	for _, name := range []string{"", "boat", "../example", "boat-shop.json"} {
		if _, ok := example.Read(name); ok {
			t.Errorf("%q is read", name)
		}
	}
	for read, want := range map[string]string{"boatshop": "boat-shop", "Ring-Main": "ring-main", "aling": "ailing", "submarine": ""} {
		if got := example.Nearest(read); got != want {
			t.Errorf("nearest to %q: %q, want %q", read, got, want)
		}
	}
}

// TestListIsACopy: who writes into the list given does not change the next one.
func TestListIsACopy(t *testing.T) {
	example.All()[0].Name = "changed"
	if example.All()[0].Name != "boat-shop" {
		t.Error("the list is shared")
	}
}

// TestFilesAreAsWritten: the files are what the program itself writes.
func TestFilesAreAsWritten(t *testing.T) {
	each(t, func(t *testing.T, j *job.Job) {
		got, err := j.Encode()
		if err != nil {
			t.Fatal(err)
		}
		raw, _ := example.Read(strings.TrimPrefix(t.Name(), "TestFilesAreAsWritten/"))
		if !bytes.Equal(raw, got) {
			t.Errorf("the file is not in the form that the program writes:\n%s", cmp.Diff(string(raw), string(got)))
		}
	})
}

// TestDocumentsAreSound: nothing to find fault with in the documents, be it a note.
func TestDocumentsAreSound(t *testing.T) {
	each(t, func(t *testing.T, j *job.Job) {
		for _, f := range job.Validate(j, catalog.Builtin()) {
			t.Errorf("%s %s: %s", f.Severity, f.Code, f.Title)
		}
	})
}

// TestEverySetHasAnAnswer: the network is solved at both ends of the band for
// every set, named or worked out, and the model leaves nothing out.
func TestEverySetHasAnAnswer(t *testing.T) {
	each(t, func(t *testing.T, j *job.Job) {
		a := solve(t, j)
		for _, f := range a.Findings {
			t.Errorf("%s %s: %s", f.Severity, f.Code, f.Title)
		}
		if len(a.Sets) <= len(j.Work.Sets) {
			t.Errorf("%d sets, %d of them named: none was worked out", len(a.Sets), len(j.Work.Sets))
		}
		for i := range a.Sets {
			s := &a.Sets[i]
			if !s.CutIn.Solved || !s.CutOut.Solved {
				t.Errorf("%s: at cut-in %v, at cut-out %v", s.Name, s.CutIn.Solved, s.CutOut.Solved)
			}
			for _, at := range s.CutIn.Tools {
				if !at.Known {
					t.Errorf("%s: the pressure of %s is not known", s.Name, at.Tool)
				}
			}
		}
	})
}

// TestEveryToolHasAPlace: each tool is used somewhere, but for those to come.
func TestEveryToolHasAPlace(t *testing.T) {
	each(t, func(t *testing.T, j *job.Job) {
		used := map[job.ID]bool{}
		for _, o := range j.Outlets {
			for _, id := range o.Tools {
				used[id] = true
			}
		}
		for _, tool := range j.Tools {
			if used[tool.ID] == tool.Later {
				t.Errorf("%s: used %v, later %v", tool.ID, used[tool.ID], tool.Later)
			}
		}
	})
}

// TestPricesCoverTheTakeOff: where there is a price list, it knows every article
// to be bought, and holds none that nobody asks for.
func TestPricesCoverTheTakeOff(t *testing.T) {
	priced := 0
	each(t, func(t *testing.T, j *job.Job) {
		if len(j.Prices.List) == 0 {
			return
		}
		priced++
		a := parts.Of(j, catalog.Builtin())
		wanted := ""
		for _, l := range a.Lines {
			wanted += "|" + l.Article + "|"
			if l.Each == nil && l.Group != parts.Made && l.State == parts.Planned {
				t.Errorf("no price for %s", l.Article)
			}
		}
		for _, p := range j.Prices.List {
			if !strings.Contains(wanted, "|"+p.Article+"|") {
				t.Errorf("%s has a price and is not on the drawing", p.Article)
			}
		}
		if a.Currency != j.Site.Currency || a.Cost <= 0 {
			t.Errorf("costs %.2f %s", a.Cost, a.Currency)
		}
	})
	if priced < 2 {
		t.Errorf("%d examples with prices, want two", priced)
	}
}
