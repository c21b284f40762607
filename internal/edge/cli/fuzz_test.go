package cli

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// jobSeeds are what a job file may be and what it may be mistaken for.
func jobSeeds(f *testing.F) {
	f.Helper()
	f.Add([]byte(`{"dropleg": 1, "title": "t", "net": {"points": [], "runs": []}}`))
	f.Add([]byte(`{"dropleg": 1, "title": "t", "net": {"points": [{"id": "point.a", "at_m": [0, 0, NaN]}]`))
	f.Add([]byte(`{"gas": {"temperature_K": 293.15}, "nodes": [{"id": "s", "pressure_Pa_abs": 8e5}, {"id": "d", "demand_kg_s": 0.4}], "links": [{"id": "b", "from": "s", "to": "d", "kind": "iso6358", "C_m3_s_Pa": 1.2e-8, "b": 0.25}]}`))
	f.Add([]byte("PK\x03\x04"))
	f.Add([]byte{0xff, 0xfe})
	files, err := filepath.Glob(filepath.Join("testdata", "script", "*.txtar"))
	if err != nil {
		f.Fatal(err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		if _, job, ok := bytes.Cut(text, []byte("-- garage.json --\n")); ok {
			f.Add(job)
		}
	}
}

// FuzzFiles: whatever stands in a file, each command that reads one answers with
// status 0, 1 or 2, and with 2 writes nothing to standard output.
func FuzzFiles(f *testing.F) {
	jobSeeds(f)
	f.Fuzz(func(t *testing.T, text []byte) {
		for _, command := range []string{"check", "flow", "parts", "solve"} {
			var out, errs bytes.Buffer
			status := Run(context.Background(), []string{command, "-"}, Streams{
				In: bytes.NewReader(text), Out: &out, Err: &errs, Env: func(string) string { return "" },
			})
			if status > statusInput {
				t.Errorf("%s: status %d: %s", command, status, errs.String())
			}
			if status == statusInput && (out.Len() > 0 || errs.Len() == 0) {
				t.Errorf("%s: status 2 with %d bytes on standard output and %d beside", command, out.Len(), errs.Len())
			}
		}
	})
}

// FuzzCalc: whatever is typed behind calc, it answers or says what is wanted.
func FuzzCalc(f *testing.F) {
	f.Add("pipe bore=3/4in length=10 p=7bar flow=18cfm")
	f.Add("line stock=copper-l size=3/4 temp=150F")
	f.Add("receiver volume=80gal p_high=125psi p_low=90psi flow=20cfm supply=10cfm")
	f.Add("humid temp=-40C over=ice rh=1e999")
	f.Fuzz(func(t *testing.T, line string) {
		args := strings.Fields(line)
		for _, a := range args {
			if strings.HasPrefix(a, "-") {
				return // a flag
			}
		}
		var errs bytes.Buffer
		status := Run(context.Background(), append([]string{"calc"}, args...), Streams{
			In: strings.NewReader(""), Out: io.Discard, Err: &errs, Env: func(string) string { return "" },
		})
		if status > statusInput || status == statusInput && errs.Len() == 0 {
			t.Errorf("status %d: %s", status, errs.String())
		}
	})
}

// BenchmarkStart is what every call pays before it does anything.
func BenchmarkStart(b *testing.B) {
	for b.Loop() {
		Run(context.Background(), []string{"help"}, Streams{In: strings.NewReader(""), Out: io.Discard, Err: io.Discard, Env: func(string) string { return "" }})
	}
}
