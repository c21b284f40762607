package cli

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dropleg/internal/shop/example"
)

// TestSameByCommandAndPage: for every example, `check` and the page give the same
// findings with the same figures, and the same of a job by its file and by its name.
func TestSameByCommandAndPage(t *testing.T) {
	type finding struct {
		Code     string `json:"code"`
		Severity string `json:"severity"`
		Title    string `json:"title"`
		Why      string `json:"why"`
	}
	type answer struct {
		Findings []finding `json:"findings"`
	}
	for _, e := range example.All() {
		t.Run(e.Name, func(t *testing.T) {
			env := ownHome(t)
			text, _ := example.Read(e.Name)
			file := filepath.Join(t.TempDir(), e.Name+".json")
			if err := os.WriteFile(file, text, 0o600); err != nil {
				t.Fatal(err)
			}
			check := func(word string) (raw string, a answer) {
				t.Helper()
				var out, errs bytes.Buffer
				status := Run(context.Background(), []string{"check", word, "--json"}, Streams{In: strings.NewReader(""), Out: &out, Err: &errs, Env: env})
				if status > statusShort {
					t.Fatalf("status %d: %s", status, errs.String())
				}
				if err := json.Unmarshal(out.Bytes(), &a); err != nil {
					t.Fatal(err)
				}
				return out.String(), a
			}
			byFile, want := check(file)
			pages, _ := opened(t, env, []string{"open", file, "--no-browser"}, "job/findings", "job")
			var got answer
			if err := json.Unmarshal([]byte(pages[0]), &got); err != nil {
				t.Fatal(err)
			}
			if len(got.Findings) < len(want.Findings) || len(want.Findings) == 0 {
				t.Fatalf("%d findings on the page, %d by the command", len(got.Findings), len(want.Findings))
			}
			// Behind them the page has what is strange in the document itself, which
			// the command tells on standard error.
			for i, w := range want.Findings {
				if got.Findings[i] != w {
					t.Errorf("finding %d: %+v on the page, %+v by the command", i, got.Findings[i], w)
				}
			}
			var head struct {
				ID string `json:"id"`
			}
			if err := json.Unmarshal([]byte(pages[1]), &head); err != nil || head.ID == "" {
				t.Fatalf("%v: %.200s", err, pages[1])
			}
			if byName, _ := check(head.ID); byName != byFile {
				t.Error("by its name the job has other figures than by its file")
			}
		})
	}
}
