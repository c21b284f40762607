package server

import (
	"encoding/json"
	"net/http"
	"net/url"
	"testing"
)

func typedAt(id, key, text string) string {
	q := url.Values{"key": {key}, "text": {text}, "units": {"us"}}
	return of("/things/" + id + "/typed?" + q.Encode())
}

// What is typed into a field comes back as a step, which posted states it; emptied
// it is unknown again; undo puts back what stood there.
func TestTypedIsPosted(t *testing.T) {
	s := served(t)
	altitude := func() string {
		for _, g := range read200[Thing](t, get(s, of("/things/job?units=us"))).Groups {
			for _, f := range g.Fields {
				if f.Key == "site.altitude_m" {
					return f.Value
				}
			}
		}
		return "not there"
	}
	before := altitude()
	state := func(text string) {
		t.Helper()
		typed := read200[Typed](t, get(s, typedAt("job", "site.altitude_m", text)))
		body, err := json.Marshal(StepBody{Base: typed.Revision, By: "Ada", Step: typed.Step})
		if err != nil {
			t.Fatal(err)
		}
		read200[Live](t, ask(s, http.MethodPost, of("/steps"), string(body)))
	}
	state("1000 ft")
	if now := altitude(); now != "1000 ft" {
		t.Errorf("%q", now)
	}
	state("")
	if now := altitude(); now != "" {
		t.Errorf("%q", now)
	}
	for range 2 {
		read200[Live](t, ask(s, http.MethodPost, of("/undo"), `{"base":0,"by":"Ada"}`))
	}
	if now := altitude(); now != before {
		t.Errorf("%q, was %q", now, before)
	}
}

func TestTypedWrong(t *testing.T) {
	s := served(t)
	f := wantFault(t, "an unknown unit", get(s, typedAt("job", "rules.margin_kPa", "3 pzi")), http.StatusUnprocessableEntity)
	if len(f.Problems) != 1 || f.Problems[0].Path != "rules.margin_kPa" || f.Problems[0].Nearest != "3 psi" {
		t.Errorf("%+v", f.Problems)
	}
	wantFault(t, "no such key", get(s, typedAt("job", "rules.margins", "3 psi")), http.StatusNotFound)
	wantFault(t, "no such thing", get(s, typedAt("line.nowhere", "size", "1")), http.StatusNotFound)
	wantFault(t, "a book", get(s, typedAt("job", "note", string(make([]byte, 7000)))), http.StatusBadRequest)
}
