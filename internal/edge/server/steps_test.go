package server

import (
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"dropleg/internal/edge/desk"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/model/shoptest"
	"dropleg/internal/show/screen"
)

// longer makes the hose at D longer: what it does is seen at D alone.
const longer = `{"base":%d,"by":%q,"step":{"edit":"set","id":"hose.d","key":"length_m","value":%d}}`

func TestStep(t *testing.T) {
	s := served(t)
	const look = "?view=plan&w=300&h=200"
	whole := read200[Live](t, get(s, of("/live"+look)))
	if whole.Since != 0 || whole.Patch == nil || len(whole.Pieces) < 20 || len(whole.Outlets) == 0 || len(whole.Frames) == 0 || whole.Undo != "" {
		t.Fatalf("whole: since %d, %d pieces, %d outlets", whole.Since, len(whole.Pieces), len(whole.Outlets))
	}
	first := read200[Live](t, ask(s, "POST", of("/steps"+look), fmt.Sprintf(longer, 0, "Ann", 9)))
	if first.Revision != 1 || first.Words == "" || first.Undo != first.Words {
		t.Errorf("%d, %q, undo %q", first.Revision, first.Words, first.Undo)
	}
	second := read200[Live](t, ask(s, "POST", of("/steps"+look), fmt.Sprintf(longer, 1, "Ann", 12)))
	if second.Since != 1 || second.Revision != 2 || len(second.Pieces) != 1 || second.Pieces[0].ID != "outlet.d" {
		t.Errorf("since %d, at %d, pieces %v", second.Since, second.Revision, second.Pieces)
	}
	small, _ := json.Marshal(second.Patch)
	large, _ := json.Marshal(whole.Patch)
	if len(small)*3 > len(large) {
		t.Errorf("the change takes %d bytes, the whole %d", len(small), len(large))
	}
	// Another browser looks another way: it is told whole.
	if other := read200[Live](t, get(s, of("/live?view=plan&w=100&h=100&since=1"))); other.Since != 0 || len(other.Pieces) < 20 {
		t.Errorf("since %d, %d pieces", other.Since, len(other.Pieces))
	}
	// One that has the newest already is told nothing.
	same := read200[Live](t, get(s, of("/live"+look+"&since=2")))
	if same.Since != 2 || same.Patch != nil || len(same.Pieces) != 0 || len(same.Gone) != 0 {
		t.Errorf("nothing new, and told %+v", same.Patch)
	}
	history := read200[History](t, get(s, of("/history?most=1")))
	if len(history.Steps) != 1 || !history.More || history.Steps[0].By != "Ann" || history.Steps[0].Revision != 2 {
		t.Errorf("%+v", history)
	}
}

// What was put on and taken off again leaves the drawing as it was.
func TestUndoRedoGoTo(t *testing.T) {
	s := served(t)
	before := get(s, of("/scene")).Body.String()
	for i := range 3 {
		read200[Live](t, ask(s, "POST", of("/steps"), fmt.Sprintf(longer, i, "Ann", 9+i)))
	}
	undone := read200[Live](t, ask(s, "POST", of("/undo"), `{"by":"Bea"}`))
	if undone.Revision != 4 || undone.Redo == "" || !strings.Contains(undone.Words, "Ann") {
		t.Errorf("%+v", undone)
	}
	if redone := read200[Live](t, ask(s, "POST", of("/redo"), `{}`)); redone.Revision != 5 || redone.Redo != "" {
		t.Errorf("%+v", redone)
	}
	if back := read200[Live](t, ask(s, "POST", of("/goto"), `{"revision":0,"by":"Ann"}`)); back.Revision != 6 {
		t.Errorf("%+v", back)
	}
	after := strings.Replace(get(s, of("/scene")).Body.String(), `"revision":6`, `"revision":0`, 1)
	if after != before {
		t.Error("back at the beginning the drawing is another")
	}
	wantFault(t, "no such revision", ask(s, "POST", of("/goto"), `{"revision":99}`), http.StatusUnprocessableEntity)
	wantFault(t, "nothing to redo", ask(s, "POST", of("/redo"), `{}`), http.StatusUnprocessableEntity)
}

// Two change one job: what does not touch is merged, what does is refused with the
// other's name and words.
func TestTwoPeople(t *testing.T) {
	s := served(t)
	read200[Live](t, ask(s, "POST", of("/steps"), fmt.Sprintf(longer, 0, "Ann", 9)))
	merged := read200[Live](t, ask(s, "POST", of("/steps"),
		`{"base":0,"by":"Bea","step":{"edit":"set","id":"tool.sander-1","key":"name","value":"belt sander"}}`))
	if !merged.Merged || merged.Revision != 2 {
		t.Errorf("%+v", merged.Stamp)
	}
	f := wantFault(t, "the same hose", ask(s, "POST", of("/steps"), fmt.Sprintf(longer, 0, "Bea", 15)), http.StatusConflict, "Ann")
	if f.Conflict == nil || f.Conflict.By != "Ann" || f.Conflict.Revision != 1 || f.Conflict.Words == "" || !slices.Contains(f.Conflict.Things, "hose.d") {
		t.Errorf("%+v", f.Conflict)
	}
	wantFault(t, "ahead", ask(s, "POST", of("/steps"), fmt.Sprintf(longer, 99, "Bea", 15)), http.StatusConflict)
}

func TestStepRefusals(t *testing.T) {
	s := served(t)
	for name, c := range map[string]struct {
		step    string
		status  int
		path    string
		nearest string
	}{
		"an unknown verb":    {`{"edit":"sett","id":"hose.d"}`, 422, "edit", "set"},
		"an unknown gesture": {`{"do":"lyne"}`, 422, "do", "line"},
		"neither":            {`{"edits":"set"}`, 422, "step", "edit"},
		"no such thing":      {`{"edit":"set","id":"hose.q","key":"length_m","value":5}`, 422, "id", ""},
		"no such size":       {`{"edit":"set","id":"hose.d","key":"length_m","value":-5}`, 422, "length_m", ""},
		"an unknown key":     {`{"edit":"set","id":"hose.d","kay":"length_m","value":5}`, 422, "kay", "key"},
		"no object":          {`5`, 422, "step", ""},
	} {
		w := ask(s, "POST", of("/steps"), `{"base":0,"step":`+c.step+`}`)
		f := wantFault(t, name, w, c.status)
		if len(f.Problems) == 0 || !strings.Contains(f.Problems[0].Path, c.path) || c.nearest != "" && f.Problems[0].Nearest != c.nearest || f.Problems[0].Want == "" {
			t.Errorf("%s: %+v", name, f.Problems)
		}
	}
	if j := headOf(t, s); j.Revision != 0 {
		t.Errorf("something was done: revision %d", j.Revision)
	}
	wantFault(t, "no base", ask(s, "POST", of("/steps"), `{"step":{"edit":"set"}}`), http.StatusBadRequest, "base")
}

// An alternative is shown and changed apart from the job, and adopted in one step.
func TestAlternative(t *testing.T) {
	s := served(t)
	add := read200[Live](t, ask(s, "POST", of("/steps"), `{"base":0,"step":{"edit":"add","what":"plan","thing":{"id":"plan.b","name":"B","edits":[]}}}`))
	if len(add.Made) != 1 || add.Made[0] != "plan.b" {
		t.Errorf("made %v", add.Made)
	}
	inside := read200[Live](t, ask(s, "POST", of("/steps?plan=plan.b"), fmt.Sprintf(longer, 1, "Ann", 30)))
	if inside.Revision != 2 {
		t.Errorf("%+v", inside.Stamp)
	}
	hose := func(query string) string {
		live := read200[Live](t, get(s, of("/live"+query)))
		i := slices.IndexFunc(live.Pieces, func(p screen.Piece) bool { return p.ID == "outlet.d" })
		if i < 0 {
			t.Fatal("no outlet.d")
		}
		return string(live.Pieces[i].Thing)
	}
	if a, b := hose(""), hose("?plan=plan.b"); strings.Contains(a, "30") || !strings.Contains(b, "30") {
		t.Errorf("the job has %s, the alternative %s", a, b)
	}
	if j := headOf(t, s); len(j.Plans) != 1 || j.Plans[0].ID != "plan.b" || j.Plans[0].Words != "B" {
		t.Errorf("%+v", j.Plans)
	}
	adopted := read200[Live](t, ask(s, "POST", of("/adopt?plan=plan.b"), `{"plan":"plan.b","base":2,"by":"Ann"}`))
	if adopted.Revision != 3 || !strings.Contains(hose(""), "30") {
		t.Errorf("%+v", adopted.Stamp)
	}
	wantFault(t, "gone", get(s, of("/live?plan=plan.b")), http.StatusNotFound)
}

// A name in the history is one line of moderate length, whatever was sent.
func TestSigned(t *testing.T) {
	for in, want := range map[string]string{"  Ann \n Lee ": "Ann Lee", "": "", strings.Repeat("é", 100): strings.Repeat("é", 59) + "…"} {
		if got := signed(in); got != want {
			t.Errorf("%q: %q", in, got)
		}
	}
}

// BenchmarkStep60 and BenchmarkStep1000 tell the time from a step to the whole answer,
// as the page waits for it, in a store in memory; the disk's own time is package
// store's to tell.
func BenchmarkStep60(b *testing.B)   { benchStep(b, 6) }
func BenchmarkStep1000(b *testing.B) { benchStep(b, 107) }

func benchStep(b *testing.B, drops int) {
	d := desk.New(desk.Options{Shelf: catalog.Builtin()})
	defer func() { _ = d.Close() }()
	shop := shoptest.Drawn(drops)
	id, err := d.Create(b.Context(), shop, "", "")
	if err != nil {
		b.Fatal(err)
	}
	s, err := New(Options{Desk: d})
	if err != nil {
		b.Fatal(err)
	}
	defer func() { _ = s.Close() }()
	const look = "?view=plan&w=360&h=225"
	get(s, "/api/jobs/"+id+"/live"+look)
	var took []time.Duration
	size, n := 0, 0
	for b.Loop() {
		body := fmt.Sprintf(`{"base":%d,"by":"Ann","step":{"edit":"set","id":"point.elbow-%d","key":"on.up_m","value":%g}}`, n, 1+n%drops, 1+0.1*float64(1+n/drops%5))
		before := time.Now()
		w := ask(s, "POST", "/api/jobs/"+id+"/steps"+look, body)
		took = append(took, time.Since(before))
		if w.Code != http.StatusOK {
			b.Fatalf("%d %.300s", w.Code, w.Body)
		}
		size += w.Body.Len()
		n++
	}
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)*95/100].Microseconds())/1000, "p95-ms")
	b.ReportMetric(float64(size)/float64(n), "bytes/step")
	b.ReportMetric(float64(shoptest.Elements(shop)), "elements")
}
