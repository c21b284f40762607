package server

import (
	"encoding/json"
	"strings"
	"testing"
)

// told is the lines of an answer that comes bit by bit: how far it is, and at last what came.
func toldOf(t *testing.T, body string) (doing []string, last Proposed) {
	t.Helper()
	for line := range strings.Lines(body) {
		var p Proposed
		if err := json.Unmarshal([]byte(line), &p); err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		doing, last = append(doing, p.Doing), p
	}
	return doing, last
}

// What is added to lines that stand comes as alternatives with what must grow and what shuts
// the line off; a wish that says nothing is refused in words, one that cannot be read at once.
func TestExtensions(t *testing.T) {
	s, path := yard(t, asItIs) // small: its days are gone through at once
	at := path("/extensions")
	w := ask(s, "POST", at, `{"machine":"screw-22"}`)
	doing, last := toldOf(t, w.Body.String())
	if w.Code != 200 || last.Fault != "" || last.Found == nil || len(last.Found.Rows) != 1 || !strings.Contains(strings.Join(last.Found.Rows[0].Notes, " "), "could not take") || len(doing) < 2 {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	row := &last.Found.Rows[0]
	grows := map[string]bool{}
	for _, g := range row.Grows {
		grows[g.What] = !g.Enough
	}
	if !grows["compressor"] || len(grows) != 8 || row.Step == nil || row.SVG == "" {
		t.Errorf("%+v", row)
	}
	if !strings.Contains(strings.Join(row.Cautions, " "), "electrician") {
		t.Errorf("no word of the electrics: %v", row.Cautions)
	}
	for _, c := range []struct{ body, want string }{
		{`{"at":{"wall":"wall.west","along_m":1,"up_m":1}}`, "no wall wall.west"},
		{`{}`, "Nothing is to be added"},
		{`{"tool":"brad-nailer"}`, "not said where"},
		{`{"machine":"screw-75"}`, "nearest is screw-7.5"},
	} {
		_, last := toldOf(t, ask(s, "POST", at, c.body).Body.String())
		if last.Found == nil || len(last.Found.Refused) != 1 || !strings.Contains(last.Found.Refused[0].Title, c.want) {
			t.Errorf("%s: %+v", c.body, last)
		}
	}
	if w := ask(s, "POST", at, `{"at":{"wal":"wall.west"}}`); w.Code != 400 || !strings.Contains(w.Body.String(), "wall") {
		t.Errorf("a key that is none: %d %s", w.Code, w.Body)
	}
}
