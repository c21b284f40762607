package job

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"dropleg/engine/cite"
	"dropleg/engine/document"
	"dropleg/internal/shop/catalog"
)

func TestTypes(t *testing.T) {
	if err := document.CheckTypes(reflect.TypeFor[Job]()); err != nil {
		t.Error(err)
	}
	for _, v := range verbs() {
		e := blank(v)
		if e == nil || e.verb() != v {
			t.Errorf("%q makes %T", v, e)
			continue
		}
		if err := document.CheckTypes(reflect.TypeOf(e).Elem()); err != nil {
			t.Error(err)
		}
	}
}

func TestRoundTrip(t *testing.T) {
	j := parsed(t, shop)
	once := encoded(t, j)
	if twice := encoded(t, parsed(t, once)); once != twice {
		t.Errorf("written %s\nthen %s", once, twice)
	}
	// Keys in the order of the types, units as in the file, an edit flat.
	for _, want := range []string{
		`"site": {"altitude_m": 300, "hot_C": 32, "cold_C": -12},`, `"set_kPa_g": 600`,
		`"edits": [{"edit": "set", "id": "line.drop", "key": "size", "value": "3/4"}]`,
	} {
		if !strings.Contains(once, want) {
			t.Errorf("%s is not in\n%s", want, once)
		}
	}
}

// Bad input is told with path, what was read and what is wanted; nothing panics.
func TestParseRefuses(t *testing.T) {
	rows := []struct {
		name, text   string
		path, read   string
		want, nearby string
	}{
		{"wrong type", strings.Replace(shop, `"altitude_m": 300`, `"altitude_m": "300"`, 1), "site.altitude_m", `"300"`, "length in m", "300"},
		{"unknown key", strings.Replace(shop, `"altitude_m"`, `"altitude"`, 1), "site.altitude", `"altitude"`, "altitude_m", "altitude_m"},
		{"word", strings.Replace(shop, `"role": "drop"`, `"role": "dropp"`, 1), "net.runs[3] (line.drop).role", `"dropp"`, "one of main", "drop"},
		{"room of 5 km", strings.Replace(shop, `[10, 6], [0, 6]], "floor`, `[10, 5000], [0, 6]], "floor`, 1), "building.rooms[0] (room.hall).outline_m[2][1]", "5000", "-2000 to 2000", "2000"},
		{"900 bar", strings.Replace(shop, `"set_kPa_g": 600`, `"set_kPa_g": 90000`, 1), "outlets[0] (outlet.bench).hang[0] (part.regulator).set_kPa_g", "90000", "0 to 10000", "10000"},
		{"NaN", strings.Replace(shop, `"altitude_m": 300`, `"altitude_m": NaN`, 1), "site.altitude_m", "NaN", "number", ""},
		{"truncated", shop[:len(shop)/2], "", "end of the text", "cut off", ""},
		{"later version", `{"dropleg": 9, "shapes": []}`, "dropleg", "9", "later program", ""},
		{"version 0", `{"dropleg": 0}`, "dropleg", "0", "1 to 1", "1"},
		{"network", `{"nodes": [], "links": []}`, "dropleg", "nodes, links", "solve", ""},
		{"other", `{"name": "x", "scripts": {}}`, "dropleg", "name, scripts", "a job", ""},
		{"no object", `[1]`, "job", "a list", "object", ""},
		{"edit of a plan", strings.Replace(shop, `"edit": "set", "id"`, `"edit": "sett", "id"`, 1), "plans[0] (plan.b).edits[0].edit", `"sett"`, "one of add", "set"},
		{"key of an edit", strings.Replace(shop, `"key": "size"`, `"keey": "size"`, 1), "plans[0] (plan.b).edits[0].keey", `"keey"`, "key", "key"},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			j, found := Parse([]byte(row.text))
			if j != nil || len(found) == 0 {
				t.Fatalf("accepted, findings %v", found)
			}
			f := found[0]
			if row.path != "" && f.Path != row.path || !strings.Contains(f.Read, row.read) || !strings.Contains(f.Want, row.want) || f.Nearest != row.nearby || f.Severity != Fault {
				t.Errorf("got path %q read %q want %q nearest %q", f.Path, f.Read, f.Want, f.Nearest)
			}
			if f.Line == 0 || Usable(found) {
				t.Errorf("line %d, usable %v", f.Line, Usable(found))
			}
		})
	}
	if _, found := Parse(make([]byte, 100<<20)); len(found) != 1 || found[0].Read != "100 MB" {
		t.Errorf("100 MB: %+v", found)
	}
}

func TestValidateAccepts(t *testing.T) {
	for name, j := range map[string]*Job{"shop": parsed(t, shop), "large": large()} {
		for _, f := range Validate(j, catalog.Builtin()) {
			t.Errorf("%s: %s", name, f.Title)
		}
	}
}

// Each row breaks the good shop in one place.
func TestValidateFinds(t *testing.T) {
	rows := []struct{ code, old, new, path, near string }{
		{"id-twice", `"id": "point.end"`, `"id": "point.tee"`, "net.points[3] (point.tee).id", "point.tee-2"},
		{"id-form", `"id": "room.hall"`, `"id": "hall"`, "building.rooms[0] (hall).id", "room.hall"},
		{"leads-nowhere", `"to": {"point": "point.end"}`, `"to": {"point": "point.ende"}`, "net.runs[2] (line.main-2).to.point", "point.end"},
		{"leads-nowhere", `"tool": "tool.sander"`, `"tool": "tool.sandr"`, "work.sets[0] (set.sand).running[0].tool", "tool.sander"},
		{"run-in-itself", `"to": {"point": "point.end"}`, `"to": {"point": "point.tee"}`, "net.runs[2] (line.main-2).to.point", ""},
		{"unknown-stock", `"stock": "copper-l", "size": "1/2", "role": "drop"`, `"stock": "coper-l", "size": "1/2", "role": "drop"`, "net.runs[3] (line.drop).stock", "copper-l"},
		{"unknown-size", `"size": "1/2", "role": "drop"`, `"size": "1/3", "role": "drop"`, "net.runs[3] (line.drop).size", "1/4"},
		{"unknown-kind", `"kind": "cap"`, `"kind": "capp"`, "net.points[3] (point.end).part.kind", "cap"},
		{"unknown-item", `"item": "industrial-1/4"`, `"item": "industrial-1/5"`, "outlets[0] (outlet.bench).hang[1].item", "industrial-1/4"},
		{"unknown-hose", `"item": "rubber-3/8"`, `"item": "ruber-3/8"`, "outlets[0] (outlet.bench).hose.item", "rubber-3/8"},
		{"no-such-port", `"port": "run-2"`, `"port": "run-3"`, "net.runs[2] (line.main-2).from.port", "run-1"},
		{"port-twice", `"port": "run-2"`, `"port": "run-1"`, "net.runs[2] (line.main-2).from.port", "run-2"},
		{"too-many-joined", `"to": {"point": "point.receiver", "port": "in"}`, `"to": {"point": "point.end"}`, "net.points[3] (point.end).part.kind", ""},
		{"off-wall", `"along_m": 9,`, `"along_m": 12,`, "net.points[3] (point.end).on.along_m", "10"},
		{"off-wall", `"along_m": 7,`, `"along_m": 9.5,`, "building.openings[0] (opening.door).width_m", "0.5"},
		{"length-and-drawing", `"path_m"`, `"length_m": 3, "path_m"`, "net.runs[1] (line.main-1).length_m", ""},
		{"no-place", `"at_m": [0.5, 0.5, 0.8], `, ``, "net.runs[0] (line.link).length_m", ""},
		{"two-places", `"at_m": [0.5, 0.5, 0.8], `, `"at_m": [0.5, 0.5, 0.8], "on": {"wall": "wall.north", "along_m": 1, "up_m": 1}, `, "net.points[0] (point.compressor).on", ""},
		{"cut-in-above-cut-out", `"cut_in_kPa_g": 600`, `"cut_in_kPa_g": 900`, "net.points[0] (point.compressor).part.compressor.cut_in_kPa_g", "650"},
		{"burst-longer-than-day", `"nozzle_mm": 2`, `"nozzle_mm": 2, "burst_s": 90000`, "tools[1] (tool.gun).burst_s", "86400"},
		{"no-clock-time", `"nozzle_mm": 2`, `"nozzle_mm": 2, "hours": "morning"`, "tools[1] (tool.gun).hours", ""},
		{"ends-before-it-begins", `"nozzle_mm": 2`, `"nozzle_mm": 2, "hours": "15:00-14:00"`, "tools[1] (tool.gun).hours", "14:00-15:00"},
		{"times-overlap", `"nozzle_mm": 2`, `"nozzle_mm": 2, "hours": "9:00-9:30, 9:20-10"`, "tools[1] (tool.gun).hours", "9:00-10:00"},
		{"outline-crosses", `[[1, 4], [3, 4], [3, 5], [1, 5]]`, `[[1, 4], [3, 5], [3, 4], [1, 5]]`, "building.obstacles[0] (obstacle.bench).outline_m[0]", ""},
		{"open-outline", `[[1, 4], [3, 4], [3, 5], [1, 5]]`, `[[1, 4], [3, 4]]`, "building.obstacles[0] (obstacle.bench).outline_m", ""},
		{"no-date", `"2026-03-14T09:30:00Z"`, `"14 March"`, "records[0] (record.1).when", ""},
		{"plan-does-not-fit", `"id": "line.drop", "key"`, `"id": "line.dro", "key"`, "plans[0] (plan.b).edits[0].id", "line.drop"},
		{"figure-missing", `, "volume_L": 270`, ``, "net.points[1] (point.receiver).part.volume_L", ""},
	}
	for _, row := range rows {
		t.Run(row.code, func(t *testing.T) {
			text := strings.Replace(shop, row.old, row.new, 1)
			if text == shop {
				t.Fatal("the row changes nothing")
			}
			found := Validate(parsed(t, text), catalog.Builtin())
			for _, f := range found {
				if f.Code == row.code && f.Path == row.path && (row.near == "" || f.Nearest == row.near) {
					return
				}
			}
			for _, f := range found {
				t.Errorf("got %s at %q: %s; nearest %q", f.Code, f.Path, f.Title, f.Nearest)
			}
			if len(found) == 0 {
				t.Error("nothing is found")
			}
		})
	}
}

func TestWithLines(t *testing.T) {
	text := strings.Replace(shop, `"kind": "cap"`, `"kind": "capp"`, 1)
	found := WithLines(Validate(parsed(t, text), catalog.Builtin()), []byte(text))
	want := 1 + strings.Count(text[:strings.Index(text, "capp")], "\n")
	if len(found) != 1 || found[0].Line != want {
		t.Errorf("%+v, want line %d", found, want)
	}
}

// A job made in memory may hold what no file can.
func TestValidateMemory(t *testing.T) {
	j := parsed(t, shop)
	j.Net.Runs[1].Path[0][2] = math.NaN()
	crew := -1
	j.Work.Crew = crew
	codes := map[string]string{}
	for _, f := range Validate(j, catalog.Builtin()) {
		codes[f.Path] = f.Code
	}
	for _, path := range []string{"net.runs[1] (line.main-1).path_m[0][2]", "work.crew"} {
		if codes[path] != "out-of-bounds" {
			t.Errorf("%s: %v", path, codes)
		}
	}
}

func TestDefaults(t *testing.T) {
	j := &Job{}
	for _, d := range Defaults() {
		if _, ok := cite.Lookup(d.Source); !ok || d.Words == "" {
			t.Errorf("%s has source %q", d.Key, d.Source)
		}
		if _, known, problems := document.Get(&j.Rules, d.Key); known || problems != nil {
			t.Errorf("%s is no key of the rules: %v", d.Key, problems)
		}
	}
	// Rows CHEC-0168, TEST-0057 and DRYE-0052 of the reference tables.
	if j.RuleLeak().Value != 0.10 || j.RuleTestFactor().Value != 1.1 || j.RuleFreezeMargin().Value != 10 || j.RuleLeak().Stated {
		t.Error("defaults differ from their sources")
	}
}

func FuzzParse(f *testing.F) {
	f.Add([]byte(shop))
	f.Add([]byte(shop[:700]))
	f.Add([]byte(`{"dropleg": 1, "title": "", "net": {"points": [{"id": "point.a", "part": {"kind": ""}}], "runs": []}}`))
	cat := catalog.Builtin()
	f.Fuzz(func(t *testing.T, data []byte) {
		j, found := Parse(data)
		if (j == nil) == (len(found) == 0) {
			t.Fatalf("job %v with findings %v", j, found)
		}
		if j == nil {
			return
		}
		Validate(j, cat)
		ix := NewIndex(j)
		for i := range j.Net.Runs {
			if l, ok := ix.LengthOf(&j.Net.Runs[i]); ok && (math.IsNaN(float64(l)) || l < 0) {
				t.Fatalf("length %v", l)
			}
			ix.ZoneOf(&j.Net.Runs[i])
		}
		once := encoded(t, j)
		if twice := encoded(t, parsed(t, once)); once != twice {
			t.Fatalf("%s then %s", once, twice)
		}
	})
}

// BenchmarkLoad2000 reads and validates a job of 2,000 elements.
func BenchmarkLoad2000(b *testing.B) {
	text := []byte(encoded(b, large()))
	cat := catalog.Builtin()
	b.Run("parse", func(b *testing.B) {
		b.SetBytes(int64(len(text)))
		for b.Loop() {
			Parse(text)
		}
	})
	j := parsed(b, string(text))
	b.Run("validate", func(b *testing.B) {
		for b.Loop() {
			Validate(j, cat)
		}
	})
	b.Run("index", func(b *testing.B) {
		for b.Loop() {
			NewIndex(j)
		}
	})
	b.Run("edit", func(b *testing.B) {
		for b.Loop() {
			if _, _, err := (&Change{ID: "line.l-450", Key: "size", Value: []byte(`"1/2"`)}).Apply(j); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("all-899", func(b *testing.B) {
		var edits []Edit
		for i := 1; i < 900; i++ {
			edits = append(edits, &Change{ID: ID(fmt.Sprintf("line.l-%d", i)), Key: "size", Value: []byte(`"1/2"`)})
		}
		for b.Loop() {
			if _, _, err := AllOf("", edits...).Apply(j); err != nil {
				b.Fatal(err)
			}
		}
	})
}
