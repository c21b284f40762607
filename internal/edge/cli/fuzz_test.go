package cli

import (
	"bytes"
	"context"
	"io"
	"math"
	"strings"
	"testing"

	"dropleg/engine/document"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// smallJob is a shop of four points, one outlet and one tool.
const smallJob = `{"dropleg": 1, "title": "t",
 "net": {"points": [
   {"id": "point.c", "at_m": [0, 0, 1], "part": {"kind": "compressor", "compressor": {"free_air": {"m3_s": 0.004}, "cut_in_kPa_g": 700, "cut_out_kPa_g": 900}}},
   {"id": "point.r", "at_m": [1, 0, 1], "part": {"kind": "receiver", "volume_L": 100}},
   {"id": "point.v", "at_m": [2, 0, 1], "part": {"kind": "ball-valve"}},
   {"id": "point.b", "at_m": [6, 3, 1], "part": {"kind": "drop-elbow"}}],
  "runs": [
   {"id": "line.a", "from": {"point": "point.c"}, "to": {"point": "point.r", "port": "in"}, "stock": "copper-l", "size": "1/2", "role": "link"},
   {"id": "line.b", "from": {"point": "point.r", "port": "out"}, "to": {"point": "point.v", "port": "in"}, "stock": "copper-l", "size": "3/4", "role": "link"},
   {"id": "line.m", "from": {"point": "point.v", "port": "out"}, "to": {"point": "point.b", "port": "in"}, "path_m": [[2, 3, 1]], "stock": "copper-l", "size": "3/4", "role": "main"}]},
 "outlets": [{"id": "outlet.b", "name": "B", "point": "point.b", "port": "out", "hang": [{"kind": "coupler", "item": "industrial-1/4"}],
   "hose": {"id": "hose.b", "item": "rubber-1/4", "length_m": 10, "plug": "industrial-1/4"}, "tools": ["tool.g"]}],
 "tools": [{"id": "tool.g", "name": "G", "flow": {"m3_s": 0.004}, "at_kPa_g": 620, "least_kPa_g": 600}]}`

const smallNetwork = `{"gas": {"temperature_K": 293.15}, "nodes": [{"id": "s", "pressure_Pa_abs": 8e5}, {"id": "d", "demand_kg_s": 0.004}],
 "links": [{"id": "b", "from": "s", "to": "d", "kind": "iso6358", "C_m3_s_Pa": 1.2e-8, "b": 0.25}]}`

// FuzzFiles: whatever stands in a file, it is refused with every problem told in full,
// or it is computed. The commands do the same around it; the scripts hold their
// statuses.
func FuzzFiles(f *testing.F) {
	for _, seed := range []string{
		smallJob, smallNetwork, smallJob[:300], `{"dropleg":`, "PK\x03\x04", "\xff\xfe", "",
		`{"dropleg": 1, "title": "t", "net": {"points": [], "runs": []}}`,
		`{"dropleg": 1, "title": "t", "net": {"points": [{"id": "point.a", "at_m": [0, 0, NaN]}]`,
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		if len(text) > 1<<13 {
			return // a larger file takes longer and tells no more
		}
		jobFile(t, text)
		networkFile(t, text)
	})
}

// jobFile puts a text through what the commands on a job do.
func jobFile(t *testing.T, text []byte) {
	j, found := job.Parse(text)
	if j != nil {
		found = job.Validate(j, catalog.Builtin())
	}
	if j == nil || !job.Usable(found) {
		toldInFull(t, problemsOf(found, text))
		return
	}
	s := study.Of(j, catalog.Builtin())
	if _, err := s.Parts(context.Background()); err != nil {
		t.Errorf("parts: %v", err)
	}
	a, err := s.Flow(context.Background())
	if err != nil {
		t.Errorf("flow: %v", err)
		return
	}
	for i := range a.Sets {
		for _, tool := range a.Sets[i].CutIn.Tools {
			if p := float64(tool.Pressure); math.IsNaN(p) || math.IsInf(p, 0) {
				t.Errorf("%s has the pressure %v", tool.Tool, p)
			}
		}
	}
}

// networkFile puts a text through what solve does.
func networkFile(t *testing.T, text []byte) {
	doc, problems := readNetwork(text)
	if len(problems) > 0 {
		toldInFull(t, problems)
		return
	}
	a, problems, err := doc.Answer(context.Background(), nil)
	switch {
	case err != nil:
		t.Errorf("solve: %v", err)
	case len(problems) > 0:
		toldInFull(t, problems)
	default:
		if _, err := document.Encode(a); err != nil {
			t.Errorf("the answer cannot be written: %v", err) // a figure that is none
		}
	}
}

// toldInFull wants at least one problem, each with what was read and what is wanted.
func toldInFull(t *testing.T, problems []document.Problem) {
	t.Helper()
	if len(problems) == 0 {
		t.Error("refused without a problem")
	}
	for _, p := range problems {
		if p.Read == "" || p.Want == "" {
			t.Errorf("told by halves: %+v", p)
		}
	}
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
