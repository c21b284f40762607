package job

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
)

// edit is an edit read from its JSON, which must be in order.
func edit(t testing.TB, text string) Edit {
	t.Helper()
	e, found := ParseEditJSON([]byte(text))
	for _, f := range found {
		t.Fatalf("%s: %s", text, f.Title)
	}
	return e
}

// Every verb, applied to the shop and undone: the words, what it did, and that
// the original is as it was.
func TestEdits(t *testing.T) {
	rows := []struct{ form, words, holds string }{
		{`{"edit": "set", "id": "line.drop", "key": "size", "value": "3/4"}`, `set size of line.drop to "3/4"`, `"size": "3/4", "role": "drop"`},
		{`{"edit": "set", "key": "site.humidity", "value": 0.6}`, "set site.humidity of the job to 0.6", `"humidity": 0.6`},
		{`{"edit": "set", "key": "rules.slope", "value": 0.02}`, "set rules.slope of the job to 0.02", `"slope": 0.02`},
		{`{"edit": "set", "id": "hose.bench", "key": "length_m", "value": 5}`, "set length_m of hose.bench to 5", `"length_m": 5`},
		{`{"edit": "set", "id": "part.regulator", "key": "droop_kPa", "value": 20}`, "set droop_kPa of part.regulator to 20", `"droop_kPa": 20`},
		{`{"edit": "set", "id": "point.receiver", "key": "part.compressor.power_kW", "value": 4}`, "set part.compressor.power_kW of point.receiver to 4", `"power_kW": 4`},
		{`{"edit": "set", "id": "line.main-1", "key": "path_m", "value": null}`, "took away path_m of line.main-1", ``},
		{`{"edit": "add", "what": "tool", "thing": {"id": "tool.saw", "name": "saw"}}`, `added tool "saw"`, `"tool.saw"`},
		{`{"edit": "add", "what": "tool", "thing": {"id": "tool.saw", "name": "saw"}, "at": 0}`, `added tool "saw"`, `"tool.saw"`},
		{`{"edit": "add", "what": "part", "to": "outlet.bench", "at": 1, "thing": {"id": "part.valve", "kind": "ball-valve"}}`, "added part.valve", `"part.valve"`},
		{`{"edit": "remove", "id": "hose.bench"}`, "removed hose.bench", `"hose.bench"`}, // among the retired
		{`{"edit": "remove", "id": "part.regulator"}`, "removed part.regulator", `"retired": ["part.regulator"]`},
		{`{"edit": "remove", "id": "point.end", "with_runs": true}`, "removed point.end", `"retired": ["line.main-2", "point.end"]`},
		{`{"edit": "move", "id": "point.receiver", "by_m": [0.3, 0, 0.4]}`, "moved point.receiver 0.5 m", `"at_m": [1.3, 0.5, 1.2`},
		{`{"edit": "move", "id": "point.end", "by_m": [-1, 0, 0]}`, "moved point.end 1 m", `"along_m": 8`},
		{`{"edit": "move", "id": "point.end", "to_m": [3, 3, 2]}`, "moved point.end", `"at_m": [3, 3, 2]`},
		{`{"edit": "move", "id": "point.receiver", "on": {"wall": "wall.north", "along_m": 1, "up_m": 1}}`, "moved point.receiver onto wall.north", `"along_m": 1,`},
		{`{"edit": "move", "id": "wall.north", "by_m": [0, 1, 0]}`, "moved wall.north 1 m", `"from_m": [0, 7]`},
		{`{"edit": "move", "id": "obstacle.bench", "to_m": [5, 3, 0]}`, "moved obstacle.bench", `[4, 2.5]`},
		{`{"edit": "move", "id": "opening.door", "by_m": [-2, 0, 0]}`, "moved opening.door 2 m", `"along_m": 5`},
		{`{"edit": "connect", "run": "line.drop", "end": "to", "point": "point.end"}`, "led the to end of line.drop to point.end", ``},
		{`{"edit": "split", "run": "line.main-1", "along_m": 3, "part": {"kind": "tee"}, "in": "run-1", "out": "run-2"}`, "split line.main-1 at 3 m", `"line.main-3"`},
		{`{"edit": "split", "run": "line.main-2", "near_m": [5, 6, 0], "point": "point.mid", "rest": "line.far"}`, "split line.main-2", `"line.far"`},
		{`{"edit": "within", "plan": "plan.b", "step": {"edit": "set", "id": "line.drop", "key": "slope", "value": 0.01}}`, `in alternative "wider drop": set slope of line.drop to 0.01`, `"key": "slope", "value": 0.01`},
		{`{"edit": "within", "plan": "plan.b", "off": 0, "step": {"edit": "set", "id": "line.drop", "key": "size", "value": "3/4"}}`, `took back in alternative "wider drop": set size of line.drop to "3/4"`, `"edits": []`},
		{`{"edit": "all", "title": "two things", "edits": [{"edit": "set", "key": "title", "value": "X"}, {"edit": "remove", "id": "opening.door"}]}`, "two things", `"opening.door"`},
	}
	j := parsed(t, shop)
	before := encoded(t, j)
	for _, row := range rows {
		t.Run(row.words, func(t *testing.T) {
			e := edit(t, row.form)
			if got := e.Words(j); !strings.HasPrefix(got, row.words) {
				t.Errorf("words %q", got)
			}
			after, inverse, err := e.Apply(j)
			if err != nil {
				t.Fatal(err)
			}
			text := encoded(t, after)
			if flat := strings.Join(strings.Fields(text), " "); !strings.Contains(flat, row.holds) || text == before {
				t.Errorf("%q is not in\n%s", row.holds, flat)
			}
			again, found := ParseEdit(inverse.Form())
			if found != nil {
				t.Fatalf("the inverse's form: %v", found)
			}
			undone, _, err := again.Apply(after)
			if err != nil {
				t.Fatal(err)
			}
			if got := encoded(t, undone); got != before {
				t.Errorf("undone:\n%s\nbefore:\n%s", got, before)
			}
			if encoded(t, j) != before {
				t.Fatal("the job given was changed")
			}
		})
	}
}

// What does not fit is refused with a code and a place.
func TestEditsRefused(t *testing.T) {
	rows := []struct{ code, form, near string }{
		{"leads-nowhere", `{"edit": "set", "id": "line.drup", "key": "size", "value": "3/4"}`, "line.drop"},
		{"cannot-read", `{"edit": "set", "id": "line.drop", "key": "sise", "value": "3/4"}`, "size"},
		{"cannot-read", `{"edit": "set", "id": "line.drop", "key": "size", "value": 3}`, ""},
		{"cannot-read", `{"edit": "set", "id": "hose.bench", "key": "length_m", "value": -1}`, ""},
		{"leads-nowhere", `{"edit": "set", "id": "line.drop", "key": "to.point", "value": "point.tea"}`, "point.tee"},
		{"run-in-itself", `{"edit": "connect", "run": "line.drop", "end": "to", "point": "point.tee"}`, ""},
		{"not-to-set", `{"edit": "set", "id": "line.drop", "key": "id", "value": "line.x"}`, ""},
		{"not-to-set", `{"edit": "set", "key": "net.runs", "value": []}`, ""},
		{"not-to-set", `{"edit": "set", "key": "building", "value": null}`, ""},
		{"not-to-set", `{"edit": "set", "id": "outlet.bench", "key": "hose", "value": null}`, ""},
		{"not-to-set", `{"edit": "set", "id": "part.regulator", "key": "id", "value": "part.x"}`, ""},
		{"records-stay", `{"edit": "remove", "id": "record.1"}`, ""},
		{"still-named", `{"edit": "remove", "id": "point.tee"}`, ""},
		{"still-named", `{"edit": "remove", "id": "point.drop", "with_runs": true}`, ""},
		{"still-named", `{"edit": "remove", "id": "tool.sander"}`, ""},
		{"still-named", `{"edit": "remove", "id": "zone.hall"}`, ""},
		{"id-twice", `{"edit": "add", "what": "tool", "thing": {"id": "tool.gun", "name": "x"}}`, "tool.gun-2"},
		{"id-form", `{"edit": "add", "what": "tool", "thing": {"id": "gun", "name": "x"}}`, "tool.gun"},
		{"off-wall", `{"edit": "set", "id": "wall.north", "key": "to_m", "value": [5, 6]}`, ""},
		{"off-run", `{"edit": "split", "run": "line.main-2", "along_m": 50}`, ""},
		{"no-place", `{"edit": "split", "run": "line.main-2"}`, ""},
		{"no-place", `{"edit": "move", "id": "point.end"}`, ""},
		{"not-to-move", `{"edit": "move", "id": "tool.gun", "by_m": [1, 1, 1]}`, ""},
		{"no-such-place", `{"edit": "add", "what": "tool", "thing": {"id": "tool.x", "name": "x"}, "at": 9}`, "2"},
		{"leads-nowhere", `{"edit": "within", "plan": "plan.c", "step": {"edit": "remove", "id": "point.end"}}`, "plan.b"},
		{"still-named", `{"edit": "within", "plan": "plan.b", "step": {"edit": "remove", "id": "point.tee"}}`, ""},
		{"not-the-last", `{"edit": "within", "plan": "plan.b", "off": 1, "step": {"edit": "remove", "id": "point.end"}}`, "0"},
		{"not-within", `{"edit": "within", "plan": "plan.b", "step": {"edit": "set", "id": "plan.b", "key": "name", "value": "x"}}`, ""},
		{"not-within", `{"edit": "within", "plan": "plan.b", "step": {"edit": "within", "plan": "plan.b", "step": {"edit": "remove", "id": "point.end"}}}`, ""},
		{"not-within", `{"edit": "within", "plan": "plan.b", "step": {"edit": "add", "what": "record", "thing": {"id": "record.2", "when": "2026-03-15T08:00:00Z", "kind": "note"}}}`, ""},
	}
	j := parsed(t, shop)
	for _, row := range rows {
		t.Run(row.code, func(t *testing.T) {
			_, _, err := edit(t, row.form).Apply(j)
			var r *Refusal
			if !errors.As(err, &r) || r.Findings[0].Code != row.code || row.near != "" && r.Findings[0].Nearest != row.near {
				t.Errorf("%s gives %v", row.form, err)
			}
		})
	}
	for _, bad := range []string{`{"edit": "fly"}`, `{}`, `[]`, ``, `{"edit": "set", "key": "a", "value": 1, "vlue": 2}`, `{"edit": 3}`, `{"edit": "within", "plan": "plan.b"}`, `{"edit": "within", "plan": "plan.b", "step": {"edit": "remove"}}`} {
		if e, found := ParseEditJSON([]byte(bad)); e != nil || len(found) == 0 {
			t.Errorf("%s is accepted", bad)
		}
	}
}

// A removed id is refused to anything new, and given back by undo only.
func TestIDsLiveForEver(t *testing.T) {
	j := parsed(t, shop)
	after, inverse, err := (&Remove{ID: "point.end", WithRuns: true}).Apply(j)
	if err != nil {
		t.Fatal(err)
	}
	again := AddOf(&Point{ID: "point.end", At: &geom.Point{1, 1, 1}})
	if _, _, err := again.Apply(after); err == nil || !strings.Contains(err.Error(), "was removed") {
		t.Errorf("the id was given away again: %v", err)
	}
	if got := NewIndex(after).FreshID("point.end"); got != "point.end-2" {
		t.Errorf("fresh id %s", got)
	}
	back, _, err := inverse.Apply(after)
	if err != nil || encoded(t, back) != encoded(t, j) {
		t.Errorf("undo: %v", err)
	}
	if found := Validate(after, catalog.Builtin()); !slices.ContainsFunc(found, func(f Finding) bool { return f.Code == "plan-does-not-fit" }) && !Usable(found) {
		t.Errorf("after removal: %v", found)
	}
}

// Records are appended and stay: undo does not take them away.
func TestRecordsStay(t *testing.T) {
	j := parsed(t, shop)
	after, inverse, err := AddOf(&Record{ID: "record.2", When: "2026-03-15T08:00:00Z", Kind: "note"}).Apply(j)
	if err != nil {
		t.Fatal(err)
	}
	undone, _, err := inverse.Apply(after)
	if err != nil || len(undone.Records) != 2 {
		t.Errorf("%d records, %v", len(undone.Records), err)
	}
}

// Lists that an edit does not touch are the very same memory.
func TestEditShares(t *testing.T) {
	j := parsed(t, shop)
	after, _, err := edit(t, `{"edit": "set", "id": "line.drop", "key": "size", "value": "3/4"}`).Apply(j)
	if err != nil {
		t.Fatal(err)
	}
	if &after.Net.Points[0] != &j.Net.Points[0] || &after.Tools[0] != &j.Tools[0] || &after.Net.Runs[0] == &j.Net.Runs[0] {
		t.Error("an edit of a run copies more than the runs")
	}
}

func FuzzParseEdit(f *testing.F) {
	f.Add([]byte(`{"edit": "split", "run": "line.main-1", "along_m": 3}`))
	f.Add([]byte(`{"edit": "all", "edits": [{"edit": "remove", "id": "point.end", "with_runs": true}, {"edit": "set", "id": "line.drop", "key": "slope", "value": -0.01}]}`))
	f.Add([]byte(`{"edit": "add", "what": "outlet", "thing": {"id": "outlet.x", "name": "x", "point": "point.end", "hang": [{"kind": ""}]}}`))
	f.Add([]byte(`{"edit": "move", "id": "point.end", "by_m": [1, 2, 3]}`))
	f.Add([]byte(`{"edit": "within", "plan": "plan.b", "step": {"edit": "remove", "id": "point.end", "with_runs": true}}`))
	j := parsed(f, shop)
	before := encoded(f, j)
	f.Fuzz(func(t *testing.T, data []byte) {
		e, found := ParseEditJSON(data)
		if (e == nil) == (len(found) == 0) {
			t.Fatalf("edit %v with findings %v", e, found)
		}
		if e == nil {
			return
		}
		e.Words(j)
		after, inverse, err := e.Apply(j)
		if err != nil {
			return
		}
		encoded(t, after)
		back, _, err := inverse.Apply(after)
		if err != nil {
			t.Fatal(err)
		}
		if len(after.Records) == len(j.Records) && encoded(t, back) != before {
			t.Fatalf("%s undone gives\n%s", data, encoded(t, back))
		}
	})
}
