package screen

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

// everyID lists the job itself and everything in it, hoses and hanging parts too.
func everyID(s *Shop) []job.ID {
	ids := []job.ID{TheJob}
	for _, t := range s.things() {
		ids = append(ids, t.id)
		if o := s.index.Outlet(t.id); o != nil {
			if o.Hose != nil {
				ids = append(ids, o.Hose.ID)
			}
			for _, p := range o.Hang {
				if p.ID != "" {
					ids = append(ids, p.ID)
				}
			}
		}
	}
	for i := range s.job.Prices.Offers {
		ids = append(ids, s.job.Prices.Offers[i].ID)
	}
	for i := range s.job.Plans {
		ids = append(ids, s.job.Plans[i].ID)
	}
	for i := range s.job.Records {
		ids = append(ids, s.job.Records[i].ID)
	}
	return ids
}

// Every field of every thing of the examples can be read and written back: the job
// is then the same, byte for byte, in units other than its own too.
func TestFieldsGoThereAndBack(t *testing.T) {
	for _, e := range example.All() {
		s := opened(t, e.Name)
		before, err := s.job.Encode()
		if err != nil {
			t.Fatal(err)
		}
		other := Ask{System: unit.US}
		if s.job.Site.Units == "us" {
			other.System = unit.Metric
		}
		fields := 0
		for _, id := range everyID(s) {
			fields += thereAndBack(t, s, other, id, before)
		}
		if fields < 300 {
			t.Errorf("%s: %d fields", e.Name, fields)
		}
	}
}

func thereAndBack(t *testing.T, s *Shop, ask Ask, id job.ID, before []byte) (fields int) {
	t.Helper()
	thing, err := s.Thing(t.Context(), ask, id)
	if err != nil {
		t.Fatal(err)
	}
	text := whole(t, string(id), thing, nil)
	if id.Word() != "record" && len(thing.Groups) == 0 {
		t.Errorf("%s has no fields: %.200s", id, text)
	}
	var edits []job.Edit
	for _, g := range thing.Groups {
		for _, f := range g.Fields {
			fields++
			if f.Words == "" || f.Words == f.Key {
				t.Errorf("%s %s: no words", id, f.Key)
			}
			typed, err := s.Read(t.Context(), ask, job.ID(f.ID), f.Key, f.Value)
			if err != nil || !typed.Same {
				t.Errorf("%s %s: %q is not what stands there: %v", id, f.Key, f.Value, err)
				continue
			}
			if strings.Contains(string(typed.Step), `"do"`) {
				continue // a gesture, tried below
			}
			edit, bad := job.ParseEditJSON(typed.Step)
			if len(bad) > 0 {
				t.Fatalf("%s %s: %s: %v", id, f.Key, typed.Step, bad)
			}
			if g.Together == "" && id.Word() != "record" {
				edits = append(edits, edit)
			}
		}
	}
	if len(edits) == 0 {
		return fields
	}
	after, _, err := job.AllOf("", edits...).Apply(s.job)
	if err != nil {
		t.Errorf("%s: %v", id, err)
		return fields
	}
	if now, err := after.Encode(); err != nil || !bytes.Equal(now, before) {
		t.Errorf("%s: written back it is another job (%v)", id, err)
	}
	return fields
}

// What a field shows, typed anew, is what the file has within its rounding.
func TestFieldsSayWhatTheFileHas(t *testing.T) {
	s := opened(t, "boat-shop")
	for _, system := range []unit.System{unit.US, unit.Metric, unit.Mixed} {
		v, err := s.look(t.Context(), Ask{System: system})
		if err != nil {
			t.Fatal(err)
		}
		for _, id := range everyID(s) {
			_, places := s.places(id)
			for i := range places {
				p := &places[i]
				f := s.field(v, p)
				m, ok := meterOf(p.Leaf)
				if !ok || f.Value == "" || m.flow {
					continue
				}
				raw, _, _ := document.Get(p.root, p.Path)
				var file float64
				if err := json.Unmarshal(raw, &file); err != nil {
					t.Fatal(err)
				}
				si, err := unit.Parse(f.Value, m.kind, v.env)
				want := m.si(file)
				// Trade rounding: two figures at least, lengths to 1/8 in or 5 mm.
				off := max(0.03*abs(want), 0.006)
				if err != nil || abs(si-want) > off {
					t.Errorf("%s %s: %q is %g, the file has %g (%v)", id, f.Key, f.Value, si, want, err)
				}
			}
		}
	}
}

func abs(x float64) float64 { return max(x, -x) }

// A changed field gives the edit that the file wants. Factors are those of
// nist-sp811: psi 6894.757 Pa, US gallon 3.785411784 L, horsepower 745.7 W, foot
// 0.3048 m, cubic foot 0.028316846592 m³.
func TestTypedBecomesAnEdit(t *testing.T) {
	s := opened(t, "boat-shop")
	for _, c := range []struct {
		id, key, text string
		want          string // within the step
		words         string
	}{
		{"job", "site.altitude_m", "500 ft", `{"edit":"set","key":"site.altitude_m","value":152.4}`, "500 ft"},
		{"job", "site.altitude_m", "", `{"edit":"set","key":"site.altitude_m","value":null}`, ""},
		{"job", "rules.margin_kPa", "3 psi", `"key":"rules.margin_kPa","value":20.6842718795`, "3 psi"},
		{"job", "rules.leak", "8", `"key":"rules.leak","value":0.08`, "8 %"},
		{"job", "title", "Another shop", `{"edit":"set","key":"title","value":"Another shop"}`, "Another shop"},
		{"job", "site.units", "metric", `"value":"metric"`, "metric"},
		{"point.receiver", "part.volume_L", "80 gal", `"key":"part.volume_L","value":302.8329427`, "80 gal"},
		{"point.receiver", "part.rating_kPa_g", "11 bar", `"value":1100`, "160 psi"},
		{"line.main-1", "size", "1", `{"do":"stock","runs":["line.main-1"],"size":"1"}`, "1"},
		{"line.main-1", "state", "for later", `{"do":"state","ids":["line.main-1"],"state":"stub"}`, "for later"},
		{"tool.da-sander", "later", "yes", `"key":"later","value":true`, "yes"},
		{"tool.da-sander", "flow", "12 cfm scfm70", `{"m3_s":0.0056633693184,"reference":"scfm70","read":"12 cfm scfm70"}`, "12 cfm, dry, 14.7 psia, 70 °F"},
	} {
		typed, err := s.Read(t.Context(), Ask{System: unit.US}, job.ID(c.id), c.key, c.text)
		if err != nil {
			t.Errorf("%s %s %q: %v", c.id, c.key, c.text, err)
			continue
		}
		step := strings.ReplaceAll(string(typed.Step), `": `, `":`)
		if step = strings.ReplaceAll(step, `, "`, `,"`); !strings.Contains(step, c.want) || typed.Words != c.words {
			t.Errorf("%s %s %q: %q %s, want %q %s", c.id, c.key, c.text, typed.Words, step, c.words, c.want)
		}
	}
}

// What cannot be stated says what was read, what is wanted, and the nearest form.
func TestTypedWrong(t *testing.T) {
	s := opened(t, "boat-shop")
	for _, c := range []struct{ id, key, text, nearest, want string }{
		{"point.receiver", "part.volume_L", "80 gaal", "80 gal", "volume"},
		{"point.receiver", "part.rating_kPa_g", "90 pis", "90 psi", "gauge pressure"},
		{"job", "rules.leak", "95 %", "90 %", "0 % to 90 %"},
		{"job", "rules.test_factor", "2.5", "2", "1 to 2"},
		{"job", "site.units", "metrik", "metric", "one of US"},
		{"line.main-1", "size", "3/4x", "3/4", "one of"},
		{"tool.da-sander", "count", "2.5", "", "a whole number, 0 to 10000"},
		{"tool.da-sander", "flow", "12 cmf", "12 cfm", "flow of free air"},
		{"tool.da-sander", "later", "yess", "yes", "yes or no"},
		{"point.receiver", "part.kind", "", "", "cannot be left out"},
	} {
		_, err := s.Read(t.Context(), Ask{System: unit.US}, job.ID(c.id), c.key, c.text)
		var refusal *job.Refusal
		if !errors.As(err, &refusal) || len(refusal.Findings) != 1 {
			t.Errorf("%s %s %q: %v", c.id, c.key, c.text, err)
			continue
		}
		if f := refusal.Findings[0]; f.Nearest != c.nearest || !strings.Contains(f.Want, c.want) || f.Path != c.key {
			t.Errorf("%s %s %q: nearest %q, want %q: %+v", c.id, c.key, c.text, c.nearest, c.want, f)
		}
	}
	var missing *NotThere
	if _, err := s.Read(t.Context(), Ask{}, "line.main-1", "sise", "1"); !errors.As(err, &missing) || !strings.Contains(missing.ID, "size") {
		t.Errorf("%v", err)
	}
}

// What holds while a field is empty is told with where it comes from.
func TestFieldsTellTheirDefaults(t *testing.T) {
	s := opened(t, "boat-shop")
	rules := map[string]string{"rules.main_velocity_m_s": "6.0 m/s", "rules.leak": "10 %", "rules.test_factor": "1.1", "rules.freeze_margin_K": "10 K"}
	thing, err := s.Thing(t.Context(), Ask{System: unit.Metric}, TheJob)
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, g := range thing.Groups {
		for _, f := range g.Fields {
			want, ok := rules[f.Key]
			if !ok {
				continue
			}
			seen++
			if f.Value != "" || f.Default != want || f.From == nil || len(f.From.Sources) == 0 {
				t.Errorf("%s: %q, %q, %+v", f.Key, f.Value, f.Default, f.From)
			}
		}
	}
	if seen != len(rules) {
		t.Errorf("%d of %d rules", seen, len(rules))
	}
}
