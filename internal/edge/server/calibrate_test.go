package server

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
)

// calibratedOf asks for a calibration: how often it told how far it is, and what came.
func calibratedOf(t *testing.T, s *Server, at, body string) (told int, last Calibrated) {
	t.Helper()
	w := ask(s, "POST", at, body)
	if w.Code != 200 {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	for line := range strings.Lines(w.Body.String()) {
		last = Calibrated{}
		if err := json.Unmarshal([]byte(line), &last); err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		told++
	}
	return told, last
}

// Readings of a line that is rougher, of a filter that is cleaner and of more leak than drawn
// are told, taken over as one step, and taken back by undo; without readings it is said what
// is wanted.
func TestCalibration(t *testing.T) {
	s, path := yard(t, asItIs)
	at := path("/calibration")
	if _, none := calibratedOf(t, s, at, `{}`); none.Found == nil || none.Found.State != "none" || none.Found.Step != nil || !strings.Contains(none.Found.Sentence, "Wanted are pressures") {
		t.Fatalf("without readings: %+v", none.Found)
	}
	var records []string
	for i, r := range []struct {
		place, tool string
		kPa         float64
	}{
		{"point.mid", "", 799.49},
		{"outlet.end", "", 798.70},
		{"point.mid", "tool.small", 795.87},
		{"outlet.end", "tool.small", 782.25},
		{"point.mid", "tool.large", 790.02},
		{"outlet.end", "tool.large", 745.83},
	} {
		running := ""
		if r.tool != "" {
			running = `,"running":[{"tool":"` + r.tool + `","outlet":"outlet.end"}]`
		}
		records = append(records, fmt.Sprintf(`{"id":"record.c%d","kind":"reading","when":"2026-03-01T09:00:00Z","about":["%s"],"reading":{"pressure_kPa_g":%g,"receiver_kPa_g":800%s}}`, i, r.place, r.kPa, running))
	}
	if w := ask(s, "POST", path("/records"), `{"records":[`+strings.Join(records, ",")+`]}`); w.Code != 200 || !strings.Contains(w.Body.String(), `"refused":[]`) {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	told, last := calibratedOf(t, s, at, `{"gauge_Pa":200}`)
	c := last.Found
	if last.Fault != "" || c == nil || c.State != "fits" || c.Step == nil || told < 3 || last.Done != 0 {
		t.Fatalf("told %d times: %+v", told, last)
	}
	if len(c.Looks) != len(records) || !c.Figures[0].Told || c.Figures[0].Now == c.Figures[0].Before || len(c.Figures[0].Things) == 0 {
		t.Errorf("%+v", c)
	}
	untold := c.Figures[len(c.Figures)-1]
	if untold.Told || untold.Words == "" || untold.Now != untold.Before {
		t.Errorf("the last figure is told: %+v", untold)
	}
	// Records from a later day on: none of these.
	if _, later := calibratedOf(t, s, at, `{"since":"2026-04-01"}`); later.Found == nil || later.Found.State != "none" {
		t.Errorf("since April: %+v", later.Found)
	}
	step, err := json.Marshal(c.Step)
	if err != nil {
		t.Fatal(err)
	}
	before := ask(s, "GET", path("/file"), "").Body.String()
	if w := ask(s, "POST", path("/steps"), fmt.Sprintf(`{"base":%d,"step":%s}`, last.Revision, step)); w.Code != 200 {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	after := ask(s, "GET", path("/file"), "").Body.String()
	if !strings.Contains(after, "roughness_mm") || strings.Contains(before, "roughness_mm") {
		t.Error("the roughness found is not in the job, or was before")
	}
	if w := ask(s, "POST", path("/undo"), fmt.Sprintf(`{"base":%d}`, last.Revision+1)); w.Code != 200 {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if ask(s, "GET", path("/file"), "").Body.String() != before {
		t.Error("undo leaves something of it")
	}
	for body, want := range map[string]string{`{"since":"spring"}`: "2026-11-26", `{"gauge_Pa":-1}`: "gauge_Pa", `{"gauge_Pa":9e9}`: "gauge_Pa", `{"guage_Pa":1}`: "gauge_Pa"} {
		if w := ask(s, "POST", at, body); w.Code != 400 || !strings.Contains(w.Body.String(), want) {
			t.Errorf("%s: %d %s", body, w.Code, w.Body)
		}
	}
}
