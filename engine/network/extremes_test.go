package network

import (
	"strings"
	"testing"
)

// Figures from which no law can be made without leaving the range of a float64
// are refused at their key, and an m of zero is not taken for the default.
func TestExtremesAreRefused(t *testing.T) {
	const head = `{"gas": {"temperature_K": 293.15}, "nodes": [{"id": "s", "pressure_Pa_abs": 8e5}, {"id": "d", "demand_kg_s": 0.001}], "links": [{"id": "l", "from": "s", "to": "d", `
	for _, c := range []struct{ link, path string }{
		{`"kind": "pipe", "length_m": 1e308, "bore_m": 0.01, "roughness_m": 1e-6`, "links[0].length_m"},
		{`"kind": "pipe", "length_m": 1, "bore_m": 1e75, "roughness_m": 1e-6`, "links[0].bore_m"},
		{`"kind": "pipe", "length_m": 1, "bore_m": 0.01, "roughness_m": 1e-6, "k": 1e308`, "links[0].k"},
		{`"kind": "iso6358", "C_m3_s_Pa": 1e308, "b": 0.3`, "links[0].C_m3_s_Pa"},
		{`"kind": "iso6358", "C_m3_s_Pa": 1e-8, "b": 0.3, "m": 0`, "links[0].m"},
	} {
		_, problems := Read([]byte(head + c.link + "}]}"))
		if len(problems) != 1 || !strings.HasPrefix(problems[0].Path, c.path) {
			t.Errorf("%s: %+v, want one problem at %s", c.link, problems, c.path)
		}
	}
}
