package server

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"image"
	"image/png"
	"net/http"
	"os"
	"strings"
	"testing"
)

// dot is a picture of a few pixels.
func dot(t testing.TB) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 3, 2))); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Out and in again gives the same bytes, with pictures and without.
func TestOutAndIn(t *testing.T) {
	s := served(t)
	for _, c := range []struct{ kind, name string }{{"application/json", joinery + ".json"}, {"application/zip", joinery + ".zip"}} {
		if c.kind == zipType {
			if w := ask(s, "PUT", of("/pictures/floor.png"), string(dot(t)), "Content-Type", "image/png"); w.Code != http.StatusNoContent {
				t.Fatalf("%d %s", w.Code, w.Body)
			}
		}
		out := get(s, of("/file"))
		if out.Code != http.StatusOK || out.Header().Get("Content-Type") != c.kind || !strings.Contains(out.Header().Get("Content-Disposition"), c.name) {
			t.Fatalf("%d %v", out.Code, out.Header())
		}
		made := read200[Created](t, ask(s, "POST", "/api/jobs", out.Body.String(), "Content-Type", c.kind))
		if made.ID == joinery {
			t.Error("the name was taken twice")
		}
		again := get(s, "/api/jobs/"+made.ID+"/file")
		if !bytes.Equal(again.Body.Bytes(), out.Body.Bytes()) {
			t.Errorf("%s: in and out again it is another file", c.kind)
		}
	}
	wantFault(t, "no job", ask(s, "POST", "/api/jobs", `{"dropleg":1,"titel":"x"}`), http.StatusUnprocessableEntity, "titel")
}

func TestCreate(t *testing.T) {
	s := served(t)
	for body, title := range map[string]string{
		`{"from":"empty"}`: "New shop",
		`{"from":"empty","title":"Shed","units":"us"}`:                                                       "Shed",
		`{"from":"empty","title":"Shed","room":{"width_m":6,"depth_m":4,"height_m":3}}`:                      "Shed",
		`{"from":"start","start":{"room":{"width_m":8,"depth_m":5,"height_m":3},"spread":2,"units":"us"}}`:   "",
		`{"from":"existing","title":"C","start":{"room":{"width_m":8,"depth_m":5,"height_m":3},"spread":2}}`: "C",
		`{"from":"example","example":"boat-shop"}`:                                                           "",
		`{"from":"copy","copy":"alder-lane-joinery"}`:                                                        "Alder Lane joinery",
		`{"from":"copy","copy":"` + joinery + `","title":"B"}`:                                               "B",
	} {
		made := read200[Created](t, ask(s, "POST", "/api/jobs", body))
		j := read200[Job](t, get(s, "/api/jobs/"+made.ID))
		if j.ID != made.ID || title != "" && j.Head.Title != title {
			t.Errorf("%s: %s, %q", body, j.ID, j.Head.Title)
		}
		if strings.Contains(body, `"start":`) == (len(made.Assumed) == 0 || len(made.Facts) == 0) {
			t.Errorf("%s: assumed %v, facts %q", body, made.Assumed, made.Facts)
		}
		if w := get(s, "/api/jobs/"+made.ID+"/live"); w.Code != http.StatusOK {
			t.Errorf("%s: %d", body, w.Code)
		}
	}
	for body, status := range map[string]int{
		`{"from":"nowhere"}`: 400, `{}`: 400, `{"from":"example","example":"boatshop"}`: 422,
		`{"from":"empty","units":"imperial"}`: 400, `{"from":"start"}`: 422, `{"from":"start","start":{"room":{"height_m":-1}}}`: 400,
		`{"from":"start","start":{"room":{"width_m":1,"depth_m":1,"height_m":3}}}`: 422, `{"from":"copy","copy":"nowhere"}`: 404, `[]`: 400,
	} {
		wantFault(t, body, ask(s, "POST", "/api/jobs", body), status)
	}
}

// A shop out of five answers tells line by line how far it is, and at last what was made or
// why not.
func TestMakingTellsHowFarItIs(t *testing.T) {
	s := served(t)
	for body, well := range map[string]bool{
		`{"from":"start","start":{"room":{"width_m":8,"depth_m":5,"height_m":3},"spread":2}}`: true,
		`{"from":"start","start":{"room":{"width_m":1,"depth_m":1,"height_m":3}}}`:            false,
	} {
		w := ask(s, "POST", "/api/jobs", body, "Accept", linesType)
		var all []Making
		for line := range strings.Lines(w.Body.String()) {
			var m Making
			if err := json.Unmarshal([]byte(line), &m); err != nil {
				t.Fatalf("%q: %v", line, err)
			}
			all = append(all, m)
		}
		last := all[len(all)-1]
		if well != (last.Made != nil) || well == (last.Fault != nil) || well && len(all) < 3 {
			t.Errorf("%s: %d lines, %+v", body, len(all), last)
		}
		if !well && len(last.Fault.Problems) == 0 {
			t.Errorf("no problem is told: %+v", last.Fault)
		}
	}
}

// A job goes to the bin and comes back as it was.
func TestBin(t *testing.T) {
	s := served(t)
	if w := ask(s, "DELETE", of(""), ""); w.Code != http.StatusNoContent {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	list := read200[Jobs](t, get(s, "/api/jobs"))
	if len(list.Jobs) != 0 || len(list.Bin) != 1 || list.Bin[0].ID != joinery {
		t.Errorf("%+v", list)
	}
	if w := ask(s, "POST", of("/restore"), ""); w.Code != http.StatusNoContent {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	list = read200[Jobs](t, get(s, "/api/jobs"))
	if len(list.Jobs) != 1 || len(list.Bin) != 0 || list.Jobs[0].Title != "Alder Lane joinery" || len(list.Examples) == 0 {
		t.Errorf("%+v", list)
	}
	if w := get(s, list.Jobs[0].Thumb); w.Code != http.StatusOK || w.Header().Get("Content-Type") != "image/svg+xml" {
		t.Errorf("%d %v", w.Code, w.Header())
	}
	wantFault(t, "none", ask(s, "DELETE", "/api/jobs/nowhere", ""), http.StatusNotFound)
}

// packed is an archive of the entries given, name and body in turn.
func packed(t testing.TB, entries ...string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for i := 0; i+1 < len(entries); i += 2 {
		e, err := z.Create(entries[i])
		if err != nil {
			t.Fatal(err)
		}
		if _, err := e.Write([]byte(entries[i+1])); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Archives that are none, lead elsewhere or swell beyond all measure are refused.
func TestArchivesRefused(t *testing.T) {
	s := served(t)
	good, err := os.ReadFile(sample)
	if err != nil {
		t.Fatal(err)
	}
	many := []string{"job.json", string(good)}
	for range mostEntries {
		many = append(many, "pictures/a.png", "x")
	}
	nested := packed(t, "job.json", string(packed(t, "job.json", strings.Repeat(" ", 1<<20))))
	for name, data := range map[string][]byte{
		"no archive":                []byte("PK\x03\x04 and then something else"),
		"empty":                     packed(t),
		"no job":                    packed(t, "pictures/a.png", string(dot(t))),
		"two jobs":                  packed(t, "job.json", string(good), "job.json", string(good)),
		"a path upwards":            packed(t, "../job.json", string(good)),
		"a picture upwards":         packed(t, "job.json", string(good), "pictures/../../a.png", string(dot(t))),
		"a path from the root":      packed(t, "/etc/passwd", "x"),
		"backslashes":               packed(t, `pictures\a.png`, "x"),
		"something else":            packed(t, "job.json", string(good), "run.exe", "x"),
		"a picture that is none":    packed(t, "job.json", string(good), "pictures/a.png", `<svg onload="alert(1)"/>`),
		"too many":                  packed(t, many...),
		"blanks beyond all measure": packed(t, "job.json", `{"dropleg":1,`+strings.Repeat(" ", 80<<20)+`}`),
		"a picture of nothing":      packed(t, "job.json", string(good), "pictures/a.png", strings.Repeat("\x00", mostPicture+1)),
		"an archive in an archive":  nested,
		"a sheet of a workbook":     packed(t, "[Content_Types].xml", "<x/>", "xl/workbook.xml", "<x/>"),
	} {
		w := ask(s, "POST", "/api/jobs", string(data), "Content-Type", "application/zip")
		wantFault(t, name, w, http.StatusUnprocessableEntity)
	}
	if list := read200[Jobs](t, get(s, "/api/jobs")); len(list.Jobs) != 1 {
		t.Errorf("%d jobs, want the first alone", len(list.Jobs))
	}
	wantFault(t, "other type", ask(s, "POST", "/api/jobs", "x", "Content-Type", "application/pdf"), http.StatusUnsupportedMediaType)
}

// FuzzArchive: whatever comes in, it is refused in words or is a job's text with
// pictures whose names lead nowhere.
func FuzzArchive(f *testing.F) {
	f.Add(packed(f, "job.json", `{"dropleg":1,"title":"t","net":{"points":[],"runs":[]}}`, "pictures/a.png", string(dot(f))))
	f.Add(packed(f, "pictures/../a.png", "x"))
	f.Add([]byte("PK\x03\x04"))
	f.Fuzz(func(t *testing.T, data []byte) {
		text, pictures, err := unpack(data)
		if err != nil {
			if err.Error() == "" {
				t.Error("refused without a word")
			}
			return
		}
		if text == nil || len(text) > len(data)*mostRatio {
			t.Errorf("%d bytes out of %d", len(text), len(data))
		}
		for _, p := range pictures {
			if strings.ContainsAny(p.name, "/\\") || !strings.HasPrefix(p.kind, "image/") {
				t.Errorf("%q, %q", p.name, p.kind)
			}
		}
	})
}
