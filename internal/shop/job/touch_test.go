package job

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/geom"
)

func TestTouches(t *testing.T) {
	rows := []struct{ form, want string }{
		{`{"edit": "set", "id": "line.drop", "key": "size", "value": "3/4"}`, "line.drop/size"},
		{`{"edit": "set", "key": "site.humidity", "value": 0.6}`, "/site.humidity"},
		{`{"edit": "add", "what": "tool", "thing": {"id": "tool.saw", "name": "saw"}}`, "tool.saw/"},
		{`{"edit": "add", "what": "part", "to": "outlet.bench", "thing": {"id": "part.valve", "kind": "ball-valve"}}`, "outlet.bench/hang part.valve/"},
		{`{"edit": "add", "what": "hose", "to": "outlet.bench", "thing": {"id": "hose.x", "item": "rubber-3/8", "length_m": 1}}`, "hose.x/ outlet.bench/hose"},
		{`{"edit": "add", "what": "outlet", "thing": {"id": "outlet.x", "name": "x", "point": "point.end", "hang": [{"kind": "cap"}, {"id": "part.x", "kind": "cap"}], "hose": {"id": "hose.x", "item": "rubber-3/8", "length_m": 1}}}`, "hose.x/ outlet.x/ part.x/"},
		{`{"edit": "add", "what": "tool", "thing": []}`, ""},
		{`{"edit": "remove", "id": "point.end", "with_runs": true}`, "point.end/"},
		{`{"edit": "move", "id": "point.end", "by_m": [-1, 0, 0]}`, "point.end/at_m point.end/on"},
		{`{"edit": "connect", "run": "line.drop", "end": "to", "point": "point.end"}`, "line.drop/to"},
		{`{"edit": "split", "run": "line.main-1", "along_m": 3, "point": "point.mid"}`, "line.main-1/ point.mid/"},
		{`{"edit": "all", "edits": [{"edit": "remove", "id": "tool.a"}, {"edit": "set", "id": "line.b", "key": "size", "value": ""}, {"edit": "remove", "id": "tool.a"}]}`, "line.b/size tool.a/"},
		{`{"edit": "within", "plan": "plan.b", "step": {"edit": "remove", "id": "point.end"}}`, "plan.b:point.end/"},
		{`{"edit": "within", "plan": "plan.b", "off": 0, "step": {"edit": "remove", "id": "point.end"}}`, "plan.b:point.end/"},
	}
	for _, row := range rows {
		var got []string
		for _, x := range Touches(edit(t, row.form)) {
			in := ""
			if x.In != "" {
				in = string(x.In) + ":"
			}
			got = append(got, fmt.Sprintf("%s%s/%s", in, x.ID, x.Key))
		}
		if strings.Join(got, " ") != row.want {
			t.Errorf("%s touches %q, want %q", row.form, got, row.want)
		}
	}
}

func TestOverlap(t *testing.T) {
	rows := []struct {
		a, b Touch
		want bool
	}{
		{Touch{ID: "line.a", Key: "size"}, Touch{ID: "line.a", Key: "size"}, true},
		{Touch{ID: "line.a", Key: "size"}, Touch{ID: "line.a", Key: "stock"}, false},
		{Touch{ID: "line.a", Key: "size"}, Touch{ID: "line.b", Key: "size"}, false},
		{Touch{ID: "line.a"}, Touch{ID: "line.a", Key: "stock"}, true},
		{Touch{ID: "point.a", Key: "part"}, Touch{ID: "point.a", Key: "part.set_kPa_g"}, true},
		{Touch{ID: "point.a", Key: "part"}, Touch{ID: "point.a", Key: "parting"}, false},
		{Touch{ID: "outlet.a", Key: "hang"}, Touch{ID: "outlet.a", Key: "hang[2].set_kPa_g"}, true},
		{Touch{Key: "site.hot_C"}, Touch{Key: "site"}, true},
		{Touch{Key: "site.hot_C"}, Touch{ID: "line.a", Key: "site.hot_C"}, false},
		{Touch{}, Touch{ID: "line.a", Key: "size", In: "plan.b"}, true},
		{Touch{ID: "line.a", Key: "size", In: "plan.b"}, Touch{ID: "line.a", In: "plan.b"}, true},
		{Touch{ID: "line.a", Key: "size", In: "plan.b"}, Touch{ID: "line.a", Key: "size", In: "plan.c"}, false},
		{Touch{ID: "line.a", Key: "size", In: "plan.b"}, Touch{ID: "line.a", Key: "size"}, false},
		{Touch{ID: "line.a", Key: "size", In: "plan.b"}, Touch{ID: "plan.b"}, true},
		{Touch{ID: "line.a", Key: "size", In: "plan.b"}, Touch{ID: "plan.b", Key: "edits[0]"}, true},
		{Touch{ID: "line.a", Key: "size", In: "plan.b"}, Touch{ID: "plan.b", Key: "edits"}, true},
		{Touch{ID: "line.a", Key: "size", In: "plan.b"}, Touch{ID: "plan.b", Key: "name"}, false},
	}
	for _, row := range rows {
		a, b := []Touch{row.a}, []Touch{{ID: "tool.other"}, row.b}
		if Overlap(a, b) != row.want || Overlap(b, a) != row.want {
			t.Errorf("%v and %v: want %v", row.a, row.b, row.want)
		}
	}
	if Overlap(nil, []Touch{{}}) {
		t.Error("nothing overlaps something")
	}
}

// What names a thing that is gone says so, so that it can be told whose doing it was.
func TestRefusalNamesTheMissing(t *testing.T) {
	j := parsed(t, shop)
	_, _, err := AllOf("", AddOf(&Point{ID: "point.n", At: &geom.Point{1, 1, 1}}), AddOf(&Run{
		ID: "line.n", From: End{Point: "point.n"}, To: End{Point: "point.gone"}, Stock: "copper-l", Size: "1/2", Role: "main",
	})).Apply(j)
	var r *Refusal
	if !errors.As(err, &r) || !slices.Contains(r.Findings[0].Where, "point.gone") {
		t.Errorf("%v", err)
	}
}
