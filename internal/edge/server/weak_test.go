package server

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

func weakOf(t *testing.T, w *httptest.ResponseRecorder) Weak {
	t.Helper()
	var weak Weak
	if err := json.Unmarshal(w.Body.Bytes(), &weak); w.Code != http.StatusOK || err != nil || weak.Answer == nil {
		t.Fatalf("%d %v %.300s", w.Code, err, w.Body.String())
	}
	return weak
}

// TestWeak: a complaint is understood or not, a reading recorded is weighed, one taken
// back is not, and one that nobody can use is told with the reason.
func TestWeak(t *testing.T) {
	s := served(t)
	path := "/api/jobs/" + joinery
	weak := weakOf(t, ask(s, http.MethodGet, path+"/weak?complaint=nothing+works", ""))
	if weak.Answer.Read != 0 || weak.Answer.Found || !strings.HasPrefix(weak.Understood, "No tool or outlet") || weak.Answer.Next == nil {
		t.Errorf("%d readings, found %v, understood %q", weak.Answer.Read, weak.Answer.Found, weak.Understood)
	}
	if len(weak.Uses) == 0 || len(weak.Places) == 0 || weak.CutOut <= weak.CutIn {
		t.Fatalf("%d uses, %d places, band %g to %g", len(weak.Uses), len(weak.Places), weak.CutIn, weak.CutOut)
	}
	if long := weakOf(t, ask(s, http.MethodGet, path+"/weak?complaint=x"+strings.Repeat("%C3%A9", 300), "")); long.Complaint != "x"+strings.Repeat("é", 249) {
		t.Errorf("cut within a letter: %q", long.Complaint)
	}
	use := weak.Uses[0]
	weak = weakOf(t, ask(s, http.MethodGet, path+"/weak?complaint="+string(use.Tool)+"%40"+string(use.Outlet), ""))
	if n := weak.Answer.Next; n == nil || len(n.Reading.Running) != 1 || n.Reading.Running[0].Tool != use.Tool {
		t.Errorf("%s starves, and next is %+v", use.Tool, n)
	}
	send := func(record string) {
		t.Helper()
		if w := ask(s, http.MethodPost, path+"/records", `{"records":[`+record+`]}`); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), `"refused":[]`) {
			t.Fatalf("%d %s", w.Code, w.Body.String())
		}
	}
	about := `"when":"2026-03-01T09:00:00Z","about":["` + string(use.Outlet) + `"]`
	send(`{"id":"record.r1","kind":"reading",` + about + `,"reading":{"pressure_kPa_g":500,"receiver_kPa_g":800,"running":[{"tool":"` + string(use.Tool) + `","outlet":"` + string(use.Outlet) + `"}]}}`)
	send(`{"id":"record.r2","kind":"reading",` + about + `,"reading":{"pressure_kPa_g":900,"receiver_kPa_g":80}}`)
	send(`{"id":"record.said","kind":"note","when":"2026-03-01T09:00:00Z","task":"complaint","text":"` + string(use.Tool) + "@" + string(use.Outlet) + `"}`)
	weak = weakOf(t, ask(s, http.MethodGet, path+"/weak", ""))
	if weak.Answer.Read != 1 || len(weak.Taken) != 1 || weak.Taken[0].Record != "record.r1" {
		t.Errorf("%d readings: %+v", weak.Answer.Read, weak.Taken)
	}
	if len(weak.Answer.Unused) != 1 || !strings.Contains(weak.Answer.Unused[0], "cannot stand above the receiver") {
		t.Errorf("unused: %q", weak.Answer.Unused)
	}
	if !strings.HasPrefix(weak.Understood, "Understood") {
		t.Errorf("of the complaint in the records: %q", weak.Understood)
	}
	send(`{"id":"record.r3","kind":"note","when":"2026-03-01T09:05:00Z","takes_back":"record.r1"}`)
	if weak = weakOf(t, ask(s, http.MethodGet, path+"/weak", "")); weak.Answer.Read != 0 {
		t.Errorf("%d readings after it was taken back", weak.Answer.Read)
	}
}

// TestChain: an installation by its main parts becomes a job that faults are looked for
// in; what is wrong with its table comes with the lines.
func TestChain(t *testing.T) {
	s := served(t)
	table := `part,item,size,length,flow,cut-in,cut-out,volume\ncompressor,,3/4,,10 L/s,7 bar,9 bar,\nreceiver,,,,,,,270 L\nmain,,3/4,12 m,,,,\ndrop,,1/2,3 m,,,,\ntool,blow-gun,,,,,,`
	w := ask(s, http.MethodPost, "/api/jobs", `{"from":"chain","units":"metric","chain":"`+table+`"}`)
	var made Created
	if err := json.Unmarshal(w.Body.Bytes(), &made); err != nil || made.ID == "" {
		t.Fatalf("%d %s", w.Code, w.Body.String())
	}
	weak := weakOf(t, ask(s, http.MethodGet, "/api/jobs/"+made.ID+"/weak", ""))
	if len(weak.Uses) != 1 || weak.Answer.Next == nil {
		t.Errorf("uses %+v, next %+v", weak.Uses, weak.Answer.Next)
	}
	w = ask(s, http.MethodPost, "/api/jobs", `{"from":"chain","chain":"part,flow\ncompressor,22"}`)
	if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "with its unit") {
		t.Errorf("%d %s", w.Code, w.Body.String())
	}
}
