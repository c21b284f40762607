package sheet_test

import (
	"context"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"dropleg/internal/answer/study"
	"dropleg/internal/decide/build"
	"dropleg/internal/decide/keep"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/sheet"
)

// textOf is the text of one sheet of a job.
func textOf(t *testing.T, j *job.Job, name string) string {
	t.Helper()
	m := maker(t, j, "a3")
	made, err := m.Make(context.Background(), []string{name})
	if err != nil {
		t.Fatal(err)
	}
	if made[0].Missing != "" {
		return ""
	}
	return texts(m.Leaves(made[0]))
}

// numbersIn are the numbers of "3, 7–9" and the like.
func numbersIn(text string) map[int]bool {
	out := map[int]bool{}
	for _, r := range regexp.MustCompile(`(\d+)(?:–(\d+))?`).FindAllStringSubmatch(text, -1) {
		from, _ := strconv.Atoi(r[1])
		to := from
		if r[2] != "" {
			to, _ = strconv.Atoi(r[2])
		}
		for n := from; n <= to; n++ {
			out[n] = true
		}
	}
	return out
}

// The order of work has every piece, every joint and every support of the steps, and in the
// order of the steps.
func TestOrderHasEveryStep(t *testing.T) {
	for _, name := range []string{"boat-shop", "frame-garage", "ring-main"} {
		j := exampleJob(t, name)
		s := study.Of(j, catalog.Builtin())
		a, err := build.Of(context.Background(), s)
		if err != nil {
			t.Fatal(err)
		}
		take, err := s.Parts(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		_, text, _ := strings.Cut(textOf(t, j, "order"), "hides a line for good")
		joints := numbersIn(text)
		pieces := map[string]int{}
		for i := range take.Pieces {
			pieces[take.Pieces[i].ID] = i + 1
		}
		at := 0
		for i := range a.Steps {
			step := &a.Steps[i]
			switch {
			case step.Joint != nil && !joints[step.Joint.Number]:
				t.Errorf("%s: joint %d is not there", name, step.Joint.Number)
			case step.Piece != nil:
				k := strings.Index(text, fmt.Sprintf("‹%d›", pieces[step.Piece.ID]))
				if k < 0 || k < at {
					t.Errorf("%s: piece %d at %d, the one before at %d", name, pieces[step.Piece.ID], k, at)
				}
				at = max(at, k)
			}
		}
		if all := textOf(t, j, "order"); !strings.Contains(all, "licensed electrician") || !strings.Contains(all, "locked and vented") {
			t.Errorf("%s: the cautions are missing", name)
		}
	}
	if textOf(t, exampleJob(t, "ailing"), "order") != "" {
		t.Error("nothing is planned, and yet there is work")
	}
}

// What gets hidden is held up by its test, and what the records say is done is ticked.
func TestOrderHoldsAndTicks(t *testing.T) {
	j := exampleJob(t, "boat-shop")
	var hidden job.ID
	for i := range j.Net.Runs {
		if r := &j.Net.Runs[i]; r.Role == "main" && r.State != "existing" {
			r.Support, hidden = "void", r.ID
			break
		}
	}
	text := textOf(t, j, "order")
	if !strings.Contains(text, "TEST: before") || !strings.Contains(text, "not found tight") {
		t.Errorf("nothing holds the work before %s is hidden:\n%s", hidden, text)
	}
	before := strings.Count(text, "\n■\n")
	a, err := build.Of(context.Background(), study.Of(j, catalog.Builtin()))
	if err != nil {
		t.Fatal(err)
	}
	for i := range a.Steps {
		if s := &a.Steps[i]; s.What == build.Fix {
			j.Records = append(j.Records, job.Record{ID: job.ID(fmt.Sprintf("record.fix-%d", i)), When: "2026-03-30T10:00:00Z", Kind: "build", Task: s.Task, Found: "done"})
			break
		}
	}
	if after := strings.Count(textOf(t, j, "order"), "\n■\n"); after != before+1 {
		t.Errorf("%d rows are ticked, want %d", after, before+1)
	}
}

// proofJob is the frame garage with a joint that bubbles, one that is tight, and a section that
// was pressed and held.
func proofJob(t *testing.T) *job.Job {
	t.Helper()
	j := exampleJob(t, "frame-garage")
	take, err := study.Of(j, catalog.Builtin()).Parts(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	j.Records = nil
	raw, err := j.Encode()
	if err != nil {
		t.Fatal(err)
	}
	section := string(j.Net.Runs[0].ID)
	records := fmt.Sprintf(`"records": [
		{"id": "record.a", "when": "2026-03-29T09:00:00Z", "by": "Ute", "kind": "joint", "joint": %q, "found": "tight"},
		{"id": "record.b", "when": "2026-03-29T09:05:00Z", "by": "Ute", "kind": "joint", "joint": %q, "found": "bubbles"},
		{"id": "record.c", "when": "2026-03-29T10:00:00Z", "by": "Ute", "kind": "test", "found": "tight", "text": "held",
			"test": {"way": "pressure", "section": %q}},
		{"id": "record.d", "when": "2026-03-29T12:00:00Z", "by": "Ute", "kind": "test",
			"test": {"way": "decay", "section": %q, "samples": [
				{"time_s": 0, "pressure_kPa_g": 800, "temperature_C": 19},
				{"time_s": 1800, "pressure_kPa_g": 500, "temperature_C": 19},
				{"time_s": 3600, "pressure_kPa_g": 300, "temperature_C": 19}]}}]`, take.Joints[0].ID, take.Joints[1].ID, section, section)
	return parsed(t, []byte(strings.Replace(string(raw), "{", "{"+records+",", 1)))
}

// The record to sign has the rule with its source, stages, energy and distance, every joint with
// its state, the readings with their verdict, what was and was not checked, and lines to sign on.
func TestRecordToSign(t *testing.T) {
	j := proofJob(t)
	text := textOf(t, j, "test")
	for _, want := range []string{
		"1.1 times", "ASME B31.3", "first look", "keep away", "shut, lock and tag it", "■1 ×2 □3", "It holds: the leak lies below",
		"29 March 2026", "Not checked", "signature", "tested by", "taken over by", "does not say that the lines are safe", "keeps the distance",
	} {
		if !strings.Contains(strings.ReplaceAll(text, "\n", " "), want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	take, err := study.Of(j, catalog.Builtin()).Parts(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	for i := range take.Joints {
		if k := &take.Joints[i]; k.State != "stub" && !regexp.MustCompile(fmt.Sprintf(`[□■×]%d\b`, k.Number)).MatchString(text) {
			t.Errorf("joint %d has no box", k.Number)
		}
	}
}

// The calendar has each thing as often as its interval says: what is done every week has a box
// for each week of the twelve months, what is done every year one.
func TestCalendarCounts(t *testing.T) {
	j := exampleJob(t, "boat-shop")
	day := options("a3").Date
	a, err := keep.Of(context.Background(), study.Of(j, catalog.Builtin()), day)
	if err != nil {
		t.Fatal(err)
	}
	text := textOf(t, j, "upkeep")
	until := time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC)
	weeks := int(until.Sub(day).Hours()/24-1)/7 + 1 // on the first day and then each seventh
	met := map[int]bool{}
	for i := range a.Tasks {
		task := &a.Tasks[i]
		dates := task.Dates(day, until)
		switch task.Days {
		case 7:
			if len(dates) != weeks {
				t.Errorf("%s: %d times, want %d", task.Task, len(dates), weeks)
			}
		case 365:
			if len(dates) != 1 {
				t.Errorf("%s: %d times in a year", task.Task, len(dates))
			}
		}
		met[task.Days] = true
		if !strings.Contains(strings.ReplaceAll(text, "\n", " "), task.Words) {
			t.Errorf("no %q", task.Words)
		}
	}
	if !met[7] || !met[365] {
		t.Errorf("intervals met: %v", met)
	}
	// In the row of what is done each week: 49 boxes, those of April four.
	rows := regexp.MustCompile(`every week\n((?:□+\n)+)`).FindStringSubmatch(text)
	if rows == nil || strings.Count(rows[1], "□") != weeks || strings.Split(rows[1], "\n")[1] != "□□□□" {
		t.Errorf("weeks: %q, want %d boxes", rows, weeks)
	}
	if !strings.Contains(text, "Common practice") || !strings.Contains(text, "Mar 26") {
		t.Error("neither source nor months")
	}
}

// A sheet that stands in the list is in the contents of the book, with those of build, prove and keep.
func TestBookHasTheWork(t *testing.T) {
	_, made, _ := book(t, "frame-garage", "a4")
	there := map[string]bool{}
	for i := range made {
		there[made[i].Sheet.Name] = made[i].Missing == ""
	}
	for _, name := range []string{"order", "test", "upkeep"} {
		if !there[name] {
			t.Errorf("%s is not there", name)
		}
	}
	if len(made) != len(sheet.All()) {
		t.Errorf("%d of %d sheets", len(made), len(sheet.All()))
	}
}
