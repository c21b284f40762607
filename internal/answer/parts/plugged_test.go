package parts

import (
	"testing"

	"dropleg/internal/shop/catalog"
)

// TestToolPlugs: the plug of a tool stands where the outlet that it is used at
// stands; counted by hand from the outlets below.
func TestToolPlugs(t *testing.T) {
	j := read(t, []byte(`{"dropleg": 1, "title": "plugs", "net": {"points": [
	 {"id": "point.a", "state": "existing", "part": {"kind": "drop-elbow"}},
	 {"id": "point.b", "state": "existing", "part": {"kind": "drop-elbow"}},
	 {"id": "point.c", "part": {"kind": "drop-elbow"}}], "runs": []},
	 "outlets": [
	 {"id": "outlet.a", "name": "A", "point": "point.a", "port": "out", "tools": ["tool.grinder", "tool.sander", "tool.later"]},
	 {"id": "outlet.b", "name": "B", "point": "point.b", "port": "out", "tools": ["tool.grinder"]},
	 {"id": "outlet.c", "name": "C", "point": "point.c", "port": "out", "tools": ["tool.grinder", "tool.nailer"]}],
	 "tools": [
	 {"id": "tool.grinder", "name": "Grinder", "count": 3, "plug": "industrial-1/4"},
	 {"id": "tool.sander", "name": "Sander", "plug": "industrial-3/8"},
	 {"id": "tool.nailer", "name": "Nailer", "plug": "industrial-1/2"},
	 {"id": "tool.later", "name": "Later", "later": true, "plug": "industrial-1/2"}]}`))
	got := map[string]int{}
	for _, l := range Of(j, catalog.Builtin()).Lines {
		if l.Group == Coupler {
			got[string(l.State)+" "+l.Article] = l.Pieces
		}
	}
	for line, want := range map[string]int{
		"existing plug industrial-1/4": 2, "planned plug industrial-1/4": 1, // used at A, B and C
		"existing plug industrial-3/8": 1,
		"planned plug industrial-1/2":  1, "stub plug industrial-1/2": 1,
	} {
		if got[line] != want {
			t.Errorf("%s: %d, want %d", line, got[line], want)
		}
		delete(got, line)
	}
	if len(got) > 0 {
		t.Errorf("besides: %v", got)
	}
}
