package screen

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/decide/check"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// joinery opens the shop that the tests look at: seven outlets, a dead-end main,
// a lean-to without heating, two tools short at the bench.
func joinery(t *testing.T) *Shop {
	t.Helper()
	data, err := os.ReadFile("testdata/joinery.json")
	if err != nil {
		t.Fatal(err)
	}
	return shopOf(t, data)
}

func shopOf(t *testing.T, data []byte) *Shop {
	t.Helper()
	j, found := job.Parse(data)
	if j == nil {
		t.Fatal(found)
	}
	s, found := Open(j, catalog.Builtin(), check.Run)
	if s == nil {
		t.Fatal(found)
	}
	return s
}

// whole is JSON without a null: the page reads lists without asking.
func whole(t *testing.T, what string, v any, err error) []byte {
	t.Helper()
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	if bytes.Contains(text, []byte(":null")) {
		at := bytes.Index(text, []byte(":null"))
		t.Errorf("%s holds a null: …%s", what, text[max(0, at-60):at+5])
	}
	return text
}

func TestEveryAnswerIsWhole(t *testing.T) {
	s := joinery(t)
	ctx := t.Context()
	for _, system := range append(unit.Systems(), "") {
		for _, c := range []model.Supply{"", model.CutIn, model.CutOut} {
			ask := Ask{System: system, Case: c}
			head, err := s.Head(ctx, ask)
			whole(t, "head", head, err)
			plan, err := s.Plan(ctx, ask, 260, 170)
			whole(t, "plan", plan, err)
			rows, err := s.Outlets(ctx, ask)
			whole(t, "outlets", rows, err)
			questions, err := s.Questions(ctx, ask)
			whole(t, "questions", questions, err)
			findings, err := s.Findings(ctx, ask)
			whole(t, "findings", findings, err)
			buys, err := s.Purchase(ctx, ask)
			whole(t, "purchase", buys, err)
			for _, o := range s.job.Outlets {
				way, err := s.Way(ctx, ask, o.ID)
				whole(t, "way", way, err)
			}
			for _, r := range s.job.Net.Runs {
				thing, err := s.Thing(ctx, ask, r.ID)
				whole(t, "thing", thing, err)
			}
			for _, p := range s.job.Net.Points {
				thing, err := s.Thing(ctx, ask, p.ID)
				whole(t, "thing", thing, err)
			}
		}
	}
}

// The page's verdicts are those of the flow answer, set by set.
func TestStatesFollowTheFlow(t *testing.T) {
	s := joinery(t)
	a, err := s.study.Flow(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for i := range a.Sets {
		ask := Ask{Set: setID(&a.Sets[i])}
		rows, err := s.Outlets(t.Context(), ask)
		if err != nil {
			t.Fatal(err)
		}
		want := map[string]State{}
		for _, tool := range a.Sets[i].CutIn.Tools {
			if tool.Margin < 0 {
				want[string(tool.Outlet)] = Short
			} else if want[string(tool.Outlet)] == "" {
				want[string(tool.Outlet)] = Enough
			}
		}
		for _, r := range rows {
			if w := want[r.ID]; w != "" && r.State != w || w == "" && r.State != Unused {
				t.Errorf("%s, %s: %s, want %s", ask.Set, r.ID, r.State, w)
			}
		}
	}
}

// The steps of a way join: they begin at the receiver, end at the tool, and what
// they take adds up to the difference.
func TestWayAddsUp(t *testing.T) {
	s := joinery(t)
	v, err := s.look(t.Context(), Ask{Set: "set.rush"})
	if err != nil {
		t.Fatal(err)
	}
	for i := range v.state.Tools {
		tool := &v.state.Tools[i]
		falls, rows := s.steps(v, tool)
		if len(falls) == 0 || len(falls) != len(rows) {
			t.Fatalf("%s: %d steps, %d rows", tool.Tool, len(falls), len(rows))
		}
		sum := 0.0
		for k, f := range falls {
			sum += float64(f.In - f.Out)
			if k > 0 && math.Abs(float64(f.In-falls[k-1].Out)) > 1 {
				t.Errorf("%s: step %d begins at %v, the one before ends at %v", tool.Tool, k, f.In, falls[k-1].Out)
			}
		}
		if last := falls[len(falls)-1].Out; math.Abs(float64(last-tool.Pressure)) > 1 {
			t.Errorf("%s: ends at %v, the tool has %v", tool.Tool, last, tool.Pressure)
		}
		if want := float64(falls[0].In - tool.Pressure); math.Abs(sum-want) > 1 {
			t.Errorf("%s: steps take %v, want %v", tool.Tool, sum, want)
		}
		order := map[string]int{"plant": 0, "line": 1, "outlet": 2, "hose": 3}
		for k := 1; k < len(falls); k++ {
			if order[falls[k].Part] < order[falls[k-1].Part] {
				t.Errorf("%s: %s after %s", tool.Tool, falls[k].Part, falls[k-1].Part)
			}
		}
	}
}

func TestQuestionsAreAllThereAndHonest(t *testing.T) {
	s := joinery(t)
	questions, err := s.Questions(t.Context(), Ask{})
	if err != nil {
		t.Fatal(err)
	}
	if len(questions) != 9 {
		t.Fatalf("%d questions, want the 9 of the page", len(questions))
	}
	codes := map[string]string{}
	for _, q := range questions {
		if q.Answer == "" || (q.Verdict == "") != (q.Mark == Told) {
			t.Errorf("%s: answer %q, verdict %q", q.ID, q.Answer, q.Verdict)
		}
		for _, c := range q.Codes {
			if other := codes[c]; other != "" {
				t.Errorf("%s bears on %s and %s", c, other, q.ID)
			}
			codes[c] = q.ID
		}
	}
	found, err := s.found(t.Context(), unit.Metric)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		if codes[f.Code] == "" {
			t.Errorf("%s bears on no question", f.Code)
		}
	}
}

// A code that a question names must be one that something reports.
func TestCodesExist(t *testing.T) {
	known := map[string]bool{
		// Of the model, before any check.
		"compressor-flow-unknown": true, "no-receiver": true, "no-source": true, "length-unknown": true, "figure-out-of-range": true,
	}
	for _, c := range check.All() {
		known[c.Code] = true
	}
	for _, q := range all() {
		for _, c := range q.codes {
			if !known[c] {
				t.Errorf("%s: nothing reports %q", q.id, c)
			}
		}
	}
}

func TestUnitsReachEveryFigure(t *testing.T) {
	s := joinery(t)
	way, err := s.Way(t.Context(), Ask{System: unit.US}, "outlet.d")
	if err != nil {
		t.Fatal(err)
	}
	text := string(whole(t, "way", way, nil))
	if way.Unit != "psi" || strings.Contains(text, " bar\"") {
		t.Errorf("unit %q; bar stands in it: %v", way.Unit, strings.Contains(text, " bar\""))
	}
}

func TestUnknownIDs(t *testing.T) {
	s := joinery(t)
	var missing *NotThere
	if _, err := s.Way(t.Context(), Ask{}, "outlet.nowhere"); !errors.As(err, &missing) {
		t.Errorf("outlet: %v", err)
	}
	if _, err := s.Thing(t.Context(), Ask{}, "line.nowhere"); !errors.As(err, &missing) {
		t.Errorf("thing: %v", err)
	}
	if _, err := s.Outlets(t.Context(), Ask{Set: "set.nowhere"}); !errors.As(err, &missing) {
		t.Errorf("set: %v", err)
	}
}

// A job with next to nothing in it gets answers that say so.
func TestBareJob(t *testing.T) {
	s, found := Open(&job.Job{Version: job.Version, Title: "empty"}, catalog.Builtin(), check.Run)
	if s == nil {
		t.Fatal(found)
	}
	head, err := s.Head(t.Context(), Ask{})
	whole(t, "head", head, err)
	plan, err := s.Plan(t.Context(), Ask{}, 260, 170)
	whole(t, "plan", plan, err)
	questions, err := s.Questions(t.Context(), Ask{})
	whole(t, "questions", questions, err)
	for _, q := range questions {
		if q.Mark == Yes {
			t.Errorf("%s: yes, of an empty job: %s", q.ID, q.Answer)
		}
	}
}
