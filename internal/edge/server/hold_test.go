package server

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"
)

func TestHold(t *testing.T) {
	s := served(t)
	w := ask(s, http.MethodGet, "/api/jobs/"+joinery+"/hold?units=metric", "")
	var hold Hold
	if w.Code != http.StatusOK || json.Unmarshal(w.Body.Bytes(), &hold) != nil || hold.Sentence == "" || len(hold.Supports) == 0 || len(hold.Walls) == 0 {
		t.Fatalf("%d %.300s", w.Code, w.Body.String())
	}
	for path, want := range map[string]bool{"/live?w=300&h=200": false, "/live?w=300&h=200&supports=yes": true} {
		w := ask(s, http.MethodGet, "/api/jobs/"+joinery+path, "")
		if got := strings.Contains(w.Body.String(), hold.Supports[0].Lines[0].Supports[0]); w.Code != http.StatusOK || got != want {
			t.Errorf("%s: %d, supports drawn: %v", path, w.Code, got)
		}
	}
	if w := ask(s, http.MethodGet, "/api/jobs/"+joinery+"/live?supports=perhaps", ""); w.Code != http.StatusBadRequest {
		t.Errorf("supports=perhaps: %d", w.Code)
	}
}
