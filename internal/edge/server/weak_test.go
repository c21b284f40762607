package server

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"
)

func TestWeak(t *testing.T) {
	s := served(t)
	w := ask(s, http.MethodGet, "/api/jobs/"+joinery+"/weak?complaint=nothing+works", "")
	var weak Weak
	if w.Code != http.StatusOK || json.Unmarshal(w.Body.Bytes(), &weak) != nil || weak.Answer == nil || len(weak.Answer.Causes) == 0 || weak.Answer.Next == nil {
		t.Fatalf("%d %.300s", w.Code, w.Body.String())
	}
	if weak.Answer.Read != 0 || weak.Answer.Found || !strings.HasPrefix(weak.Understood, "No tool or outlet") {
		t.Errorf("%d readings, found %v, understood %q", weak.Answer.Read, weak.Answer.Found, weak.Understood)
	}
}
