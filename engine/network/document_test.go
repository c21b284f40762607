package network

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"os"
	"reflect"
	"strings"
	"testing"

	"dropleg/engine/document"
)

func TestDocumentTypes(t *testing.T) {
	for _, v := range []any{Document{}, Answer{}} {
		if err := document.CheckTypes(reflect.TypeOf(v)); err != nil {
			t.Error(err)
		}
	}
}

// Every fault of a file is told at once, with its path.
func TestReadTellsAllFaults(t *testing.T) {
	rows := []struct {
		name, text string
		paths      []string
	}{
		{"unknown key, nearest told", `{"gas":{"temperature_K":293.15},"nodes":[{"id":"s","presure_Pa_abs":8e5}],"links":[]}`, []string{"nodes[0]"}},
		{"wrong type", `{"gas":{"temperature_K":"warm"},"nodes":[{"id":"s"}],"links":[]}`, []string{"gas.temperature_K"}},
		{"double key", `{"gas":{"temperature_K":1,"temperature_K":2},"nodes":[],"links":[]}`, []string{"gas"}},
		{"not JSON numbers", `{"gas":{"temperature_K":NaN},"nodes":[],"links":[]}`, []string{""}},
		{
			"many at once",
			`{"gas":{"temperature_K":-3,"viscosity_Pa_s":0},
			 "nodes":[{"id":"s","pressure_Pa_abs":-1},{"id":"s"},{"id":"t","demand_kg_s":1,"pressure_Pa_abs":2},{"id":"u","C_m3_s_Pa":1e-8}],
			 "links":[{"id":"a","from":"s","to":"x","kind":"pipe","length_m":1,"bore_m":-0.01,"roughness_m":0},
			  {"id":"a","from":"s","to":"t","kind":"valve","k":1},
			  {"id":"c","from":"s","to":"s","kind":"orifice","bore_m":0.01,"cd":0.6,"b":0.3}]}`,
			[]string{
				"gas.temperature_K", "gas.viscosity_Pa_s", "nodes[0].pressure_Pa_abs", "nodes[1].id", "nodes[2]", "nodes[3]",
				"links[0].to", "links[0].bore_m", "links[1].id", "links[1]", "links[2].to", "links[2].b",
			},
		},
	}
	for _, r := range rows {
		_, problems := Read([]byte(r.text))
		if len(problems) != len(r.paths) {
			t.Errorf("%s: got %d problems %+v, want %d", r.name, len(problems), problems, len(r.paths))
			continue
		}
		for _, p := range r.paths {
			found := false
			for _, q := range problems {
				found = found || strings.HasPrefix(q.Path, p)
			}
			if !found {
				t.Errorf("%s: nothing about %s in %+v", r.name, p, problems)
			}
		}
	}
}

const kindsText = `{"title": "every kind", "gas": {"temperature_K": 293.15},
 "nodes": [{"id": "s", "pressure_Pa_abs": 801325}, {"id": "a"}, {"id": "b"}, {"id": "c"}, {"id": "d"}, {"id": "e", "demand_kg_s": 0.001},
  {"id": "f", "C_m3_s_Pa": 1e-8, "b": 0.3}, {"id": "g"}],
 "links": [
  {"id": "pipe", "from": "s", "to": "a", "kind": "pipe", "length_m": 10, "bore_m": 0.02, "roughness_m": 1e-6},
  {"id": "coupler", "from": "a", "to": "b", "kind": "iso6358", "C_m3_s_Pa": 5e-8, "b": 0.3},
  {"id": "check", "from": "b", "to": "c", "kind": "check", "cracking_Pa": 2000, "bore_m": 0.02, "k": 3},
  {"id": "regulator", "from": "c", "to": "d", "kind": "regulator", "set_Pa_abs": 500000, "droop_Pa_s_kg": 1000000, "C_m3_s_Pa": 5e-8, "b": 0.3},
  {"id": "valve", "from": "d", "to": "e", "kind": "valve", "bore_m": 0.01, "k": 0.5, "open": true},
  {"id": "hole", "from": "d", "to": "f", "kind": "orifice", "bore_m": 0.003, "cd": 0.7},
  {"id": "shut", "from": "d", "to": "g", "kind": "valve", "bore_m": 0.01, "k": 0.5, "open": false}],
 "expected": {"anything": [1, 2]}}`

func TestEveryKindIsAnswered(t *testing.T) {
	d, problems := Read([]byte(kindsText))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	a, problems, err := d.Answer(context.Background(), nil)
	if err != nil || len(problems) > 0 || a.Refused != nil {
		t.Fatal(err, problems, a.Refused)
	}
	total := 0.001 + *a.Nodes[6].Outflow
	if math.Abs(a.Links[0].Flow-total) > 1e-12 || *a.Nodes[6].Outflow <= 0 {
		t.Errorf("supply %g, taken %g", a.Links[0].Flow, total)
	}
	if want := 5e5 - 1e6*total; math.Abs(*a.Nodes[4].Pressure-want) > 1e-3 {
		t.Errorf("behind the regulator %g, want %g", *a.Nodes[4].Pressure, want)
	}
	if !a.Nodes[7].Undetermined || a.Nodes[7].Pressure != nil || a.Links[6].Flow != 0 {
		t.Errorf("behind the shut valve %+v", a.Nodes[7])
	}
	if a.Links[0].Velocity == nil || a.Links[1].Velocity != nil {
		t.Error("velocity belongs to what has a bore")
	}
	// Continuity: v = m R T Z/(p A), and Mach on √(1.4 Z R T).
	rt := *a.Gas.GasConstant * a.Gas.Temperature * *a.Gas.Compressibility
	v := a.Links[0].Flow * rt / (*a.Nodes[1].Pressure * math.Pi / 4 * 0.02 * 0.02)
	if math.Abs(*a.Links[0].Velocity-v) > 1e-12*v || math.Abs(*a.Links[0].Mach-v/math.Sqrt(1.4*rt)) > 1e-12 {
		t.Errorf("velocity %g Mach %g, want %g", *a.Links[0].Velocity, *a.Links[0].Mach, v)
	}
	one, err := document.Encode(a)
	if err != nil {
		t.Fatal(err)
	}
	b, _, _ := d.Answer(context.Background(), nil)
	two, _ := document.Encode(b)
	if !bytes.Equal(one, two) || !json.Valid(one) {
		t.Error("two answers differ in bytes")
	}
}

func TestRefusalStandsInTheAnswer(t *testing.T) {
	d, problems := Read([]byte(strings.Replace(kindsText, `"demand_kg_s": 0.001`, `"demand_kg_s": 9`, 1)))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	a, _, err := d.Answer(context.Background(), nil)
	if err != nil || a.Refused == nil || a.Refused.Reason != TooMuch || a.Refused.Nodes[0].ID != "e" {
		t.Fatalf("%v, %+v", err, a.Refused)
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(kindsText))
	for _, path := range referenceFiles(f) {
		data, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		d, problems := Read(data)
		if len(problems) > 0 {
			return
		}
		a, problems, err := d.Answer(context.Background(), nil)
		if err != nil || len(problems) > 0 {
			t.Fatal(err, problems)
		}
		if _, err := document.Encode(a); err != nil {
			t.Fatal(err) // refuses NaN
		}
	})
}
