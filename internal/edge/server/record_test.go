package server

import (
	"archive/zip"
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strings"
	"testing"
)

// yard is a small job with one long line, on a desk of its own.
func yard(t *testing.T, change func(string) string) (s *Server, at func(string) string) {
	t.Helper()
	d := newDesk(t)
	s = servedBy(t, Options{Desk: d})
	raw, err := os.ReadFile("../../decide/calibrate/testdata/long-line.json")
	if err != nil {
		t.Fatal(err)
	}
	id, err := Import(t.Context(), d, []byte(change(string(raw))), "", "")
	if err != nil {
		t.Fatal(err)
	}
	return s, func(path string) string { return "/api/jobs/" + id + path }
}

func asItIs(text string) string { return text }

func into[T any](t *testing.T, raw []byte) (out T) {
	t.Helper()
	if err := json.Unmarshal(raw, &out); err != nil {
		t.Fatalf("%s: %v", raw, err)
	}
	return out
}

// A pressure that can hardly be meant as it was taken is asked back, in the unit that would fit
// (8.2 on a gauge in bar, taken as psi); one that fits is not.
func TestDecayInAnotherUnit(t *testing.T) {
	s, at := yard(t, asItIs)
	section := into[Prove](t, get(s, at("/prove")).Body.Bytes()).Sections[0].ID
	for _, c := range []struct {
		units string
		kPa   [2]float64
		want  string
	}{
		{"us", [2]float64{56.54, 56.5}, "read 8.2: bar or psi?"},
		{"us", [2]float64{820, 819}, ""},
		{"metric", [2]float64{82, 81.9}, "read 0.82: MPa or bar?"},
		{"metric", [2]float64{820, 819}, ""},
	} {
		body := fmt.Sprintf(`{"way":"decay","section":%q,"samples":[{"time_s":0,"pressure_kPa_g":%g,"temperature_C":19},{"time_s":1800,"pressure_kPa_g":%g,"temperature_C":19}]}`, section, c.kPa[0], c.kPa[1])
		w := ask(s, "POST", at("/decay?units="+c.units), body)
		doubts := strings.Join(into[Decay](t, w.Body.Bytes()).Doubts, " ")
		if w.Code != 200 || c.want == "" && doubts != "" || !strings.Contains(doubts, c.want) {
			t.Errorf("%s %v: %d, doubts %q, want %q", c.units, c.kPa, w.Code, doubts, c.want)
		}
	}
}

// Without temperatures the band says what a kelvin does, and is wider; a section that gained
// air tells nothing of its leak.
func TestDecayWithoutTemperature(t *testing.T) {
	s, at := yard(t, asItIs)
	section := into[Prove](t, get(s, at("/prove")).Body.Bytes()).Sections[0].ID
	answer := func(samples string) Decay {
		return into[Decay](t, ask(s, "POST", at("/decay"), fmt.Sprintf(`{"way":"decay","section":%q,"samples":[%s]}`, section, samples)).Body.Bytes())
	}
	read := answer(`{"time_s":0,"pressure_kPa_g":820,"temperature_C":19},{"time_s":3600,"pressure_kPa_g":818,"temperature_C":19}`)
	unread := answer(`{"time_s":0,"pressure_kPa_g":820},{"time_s":3600,"pressure_kPa_g":818}`)
	if !strings.Contains(unread.Words, "Without temperatures each kelvin counts as") || strings.Contains(read.Words, "kelvin") || read.Figure == unread.Figure {
		t.Errorf("read: %q %q; unread: %q %q", read.Figure, read.Words, unread.Figure, unread.Words)
	}
	if rises := answer(`{"time_s":0,"pressure_kPa_g":780,"temperature_C":19},{"time_s":3600,"pressure_kPa_g":860,"temperature_C":19}`); rises.State != "gains" || !strings.Contains(rises.Words, "gained air") {
		t.Errorf("%q %q", rises.State, rises.Words)
	}
}

// A record under a figure that no gauge shows is refused with its path; a fall that rises is
// kept, as all that was written, and told to be none.
func TestRecordsThatCannotBe(t *testing.T) {
	s, at := yard(t, asItIs)
	body := `{"by":"Ann","records":[
		{"id":"record.a","when":"2026-03-14T09:00:00Z","kind":"reading","about":["outlet.end"],"reading":{"pressure_kPa_g":82000}},
		{"id":"record.b","when":"2026-03-14T09:00:00Z","kind":"test","test":{"way":"bleed-down","samples":[{"time_s":0,"pressure_kPa_g":700},{"time_s":600,"pressure_kPa_g":760}]}},
		{"id":"record.c","when":"2026-03-14T09:00:00Z","kind":"test","test":{"way":"bleed-down","samples":[{"time_s":0,"pressure_kPa_g":760},{"time_s":600,"pressure_kPa_g":700}]}}]}`
	done := into[Recorded](t, ask(s, "POST", at("/records"), body).Body.Bytes())
	if len(done.Taken) != 2 || len(done.Refused) != 1 || done.Refused[0].ID != "record.a" || !strings.Contains(done.Refused[0].Why, "pressure_kPa_g") {
		t.Fatalf("%+v", done)
	}
	words := map[string]string{}
	for _, m := range into[Prove](t, get(s, at("/prove")).Body.Bytes()).Whole {
		words[m.Record] = m.Figure + " " + m.Words
	}
	if !strings.Contains(words["record.b"], "stood higher at the end than at the start") || !strings.Contains(words["record.c"], "% of what the compressors deliver") {
		t.Errorf("%v", words)
	}
}

// A test pressure above what the weakest part bears is refused with the part and its rating.
func TestTestPressureAboveTheLowestRating(t *testing.T) {
	s, at := yard(t, func(text string) string {
		return strings.Replace(text, `"kind": "drop-elbow"`, `"kind": "drop-elbow", "rating_kPa_g": 910`, 1)
	})
	for _, x := range into[Prove](t, get(s, at("/prove")).Body.Bytes()).Sections {
		if !strings.Contains(strings.ToLower(x.Refused), "elbow") {
			continue
		}
		if x.Test != nil || !strings.Contains(x.Refused, "9.1 bar; the test would be") {
			t.Errorf("%+v", x)
		}
		return
	}
	t.Error("no section is refused for the elbow that bears 9.1 bar")
}

// The interval of a task is the shop's to set, and to give back.
func TestIntervalOfUpkeep(t *testing.T) {
	s, at := yard(t, asItIs)
	every := func() (row string, own bool) {
		for _, x := range into[Keep](t, get(s, at("/keep")).Body.Bytes()).Tasks {
			if x.Task == "oil point.compressor" {
				return x.Every, x.Own
			}
		}
		t.Fatal("nobody changes the oil")
		return "", false
	}
	usual, _ := every()
	for _, c := range []struct {
		value, want string
		own         bool
	}{
		{`[{"task":"oil point.compressor","every_d":120,"every_running_h":250}]`, "every 120 days or 250 running hours, as set here", true},
		{`null`, usual, false},
	} {
		base := into[Keep](t, get(s, at("/keep")).Body.Bytes()).Revision
		w := ask(s, "POST", at("/steps"), fmt.Sprintf(`{"base":%d,"step":{"edit":"set","key":"rules.upkeep","value":%s}}`, base, c.value))
		if got, own := every(); w.Code != 200 || got != c.want || own != c.own {
			t.Errorf("%s: %d, %q own %v, want %q; %s", c.value, w.Code, got, own, c.want, w.Body)
		}
	}
	if w := ask(s, "POST", at("/steps"), `{"base":2,"step":{"edit":"set","key":"rules.upkeep","value":[{"task":"x","every_d":0}]}}`); w.Code == 200 {
		t.Errorf("no days at all: %s", w.Body)
	}
}

// A photo of a joint is kept beside the job and not in it: the record names it, the file is an
// archive with the picture as it came, and the job in it grows by the name alone. One that is
// too large is refused before anything of it is kept.
func TestPhotoOfARecord(t *testing.T) {
	s, at := yard(t, asItIs)
	if before := get(s, at("/file")); before.Header().Get("Content-Type") != "application/json" {
		t.Fatalf("without pictures the file is %s", before.Header().Get("Content-Type"))
	}
	if w := ask(s, "PUT", at("/pictures/huge.jpg"), strings.Repeat("\xff", mostPicture+1), "Content-Type", "image/jpeg"); w.Code != 413 {
		t.Errorf("a picture of more than 24 MB: %d", w.Code)
	}
	photo := dot(t)
	if w := ask(s, "PUT", at("/pictures/a.png"), string(photo), "Content-Type", "image/png"); w.Code != 204 {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	done := into[Recorded](t, ask(s, "POST", at("/records"), `{"by":"Ann","records":[{"id":"record.a","when":"2026-03-14T09:00:00Z","kind":"joint","joint":"point.end/in","found":"bubbles","photo":"a.png"}]}`).Body.Bytes())
	if len(done.Taken) != 1 {
		t.Fatalf("%+v", done)
	}
	out := get(s, at("/file"))
	archive, err := zip.NewReader(bytes.NewReader(out.Body.Bytes()), int64(out.Body.Len()))
	if err != nil {
		t.Fatal(err)
	}
	held := map[string][]byte{}
	for _, f := range archive.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		if held[f.Name], err = io.ReadAll(r); err != nil {
			t.Fatal(err)
		}
	}
	if len(held) != 2 || !bytes.Equal(held["pictures/a.png"], photo) {
		t.Errorf("the archive holds %d entries, the picture %d of %d bytes", len(held), len(held["pictures/a.png"]), len(photo))
	}
	text := held["job.json"]
	if !bytes.Contains(text, []byte(`"photo": "a.png"`)) || bytes.Contains(text, photo[:16]) || bytes.Contains(text, []byte(base64.StdEncoding.EncodeToString(photo)[:20])) {
		t.Errorf("the job in it: %s", text)
	}
}
