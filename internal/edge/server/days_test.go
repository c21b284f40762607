package server

import (
	"encoding/csv"
	"encoding/json"
	"net/http"
	"strings"
	"testing"
)

func TestDays(t *testing.T) {
	s := served(t)
	look := func(path string) (int, http.Header, string) {
		w := ask(s, http.MethodGet, "/api/jobs/"+joinery+path, "")
		return w.Code, w.Header(), w.Body.String()
	}
	var rough, closer Days
	for path, into := range map[string]*Days{"/days?rough=yes": &rough, "/days": &closer} {
		code, _, body := look(path)
		if code != http.StatusOK || json.Unmarshal([]byte(body), into) != nil || into.Sentence == "" {
			t.Fatalf("%s: %d %.200s", path, code, body)
		}
	}
	if closer.Rough || len(closer.Tools) != len(rough.Tools) {
		t.Errorf("closer: rough %v, %d tools of %d", closer.Rough, len(closer.Tools), len(rough.Tools))
	}
	code, _, body := look("/days/first/2")
	var hour Hour
	if code != http.StatusOK || json.Unmarshal([]byte(body), &hour) != nil || hour.From != 7200 || len(hour.Moments) == 0 {
		t.Fatalf("an hour: %d %.200s", code, body)
	}
	// The drawing of a moment, as the hour names it.
	if code, _, body := look("/live?w=300&h=200&set=" + hour.Moments[1].Set); code != http.StatusOK || !strings.Contains(body, "A moment of a working day") {
		t.Errorf("its drawing: %d %.200s", code, body)
	}
	for _, path := range []string{"/days/first/8", "/days/first/-1", "/days/first/noon", "/charts/day.exe", "/charts/weather.svg", "/live?set=moment-99999999"} {
		if code, _, body := look(path); code != http.StatusNotFound {
			t.Errorf("%s: %d %.200s", path, code, body)
		}
	}
	if code, _, _ := look("/days?rough=perhaps"); code != http.StatusBadRequest {
		t.Errorf("rough=perhaps: %d", code)
	}
	for _, chart := range []string{"day", "chance"} {
		code, head, body := look("/charts/" + chart + ".svg")
		if code != http.StatusOK || head.Get("Content-Type") != "image/svg+xml" || !strings.HasPrefix(body, "<svg ") {
			t.Errorf("%s: %d %.100s", chart, code, body)
		}
		_, head, body = look("/charts/" + chart + ".csv")
		if rows, err := csv.NewReader(strings.NewReader(body)).ReadAll(); err != nil || len(rows) < 2 || !strings.Contains(head.Get("Content-Disposition"), chart+".csv") {
			t.Errorf("%s: %d rows: %v", chart, len(rows), err)
		}
	}
}
