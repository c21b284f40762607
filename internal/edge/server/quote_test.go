package server

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"
)

// quoted asks for a quotation.
func quoted(t *testing.T, s *Server, query string) Quote {
	t.Helper()
	w := ask(s, http.MethodGet, "/api/jobs/"+joinery+"/quote"+query, "")
	var q Quote
	if err := json.Unmarshal(w.Body.Bytes(), &q); w.Code != http.StatusOK || err != nil {
		t.Fatalf("%s: %d %v %s", query, w.Code, err, w.Body)
	}
	return q
}

// stepped makes a step on the newest revision.
func stepped(t *testing.T, s *Server, base int, step string) {
	t.Helper()
	w := ask(s, http.MethodPost, "/api/jobs/"+joinery+"/steps", fmt.Sprintf(`{"base": %d, "step": %s}`, base, step))
	if w.Code != http.StatusOK {
		t.Fatalf("%s: %d %s", step, w.Code, w.Body)
	}
}

// TestQuote: hours and sums, priced once a rate is stated; a time of the job's own goes
// before the usual one; the variation is told from any earlier revision.
func TestQuote(t *testing.T) {
	s := served(t)
	first := quoted(t, s, "")
	if first.Priced || len(first.Lines) == 0 || len(first.Goods) == 0 || first.Change != nil || first.Lines[0].Cost != "" {
		t.Fatalf("%+v", first)
	}
	stepped(t, s, first.Revision, `{"edit": "set", "key": "prices.labour.rate_1_h", "value": 48}`)
	what := first.Lines[0].For
	stepped(t, s, first.Revision+1, `{"do": "labour", "for": "`+what+`", "min": 30}`)
	now := quoted(t, s, fmt.Sprintf("?against=%d", first.Revision))
	line := now.Lines[0]
	if !now.Priced || line.Usual || line.Minutes != "30" || line.Cost == "" {
		t.Errorf("%+v", line)
	}
	if c := now.Change; c == nil || c.Sentence != "Nothing differs that is bought or done." || !strings.Contains(strings.Join(c.Notes, " "), "had no rate for an hour") {
		t.Errorf("a rate that came in is no variation: %+v", c)
	}
	slower := quoted(t, s, fmt.Sprintf("?against=%d", first.Revision+1)).Change // it had the rate, and other minutes
	if sums := slower.Lists[len(slower.Lists)-1].Rows; strings.HasPrefix(slower.Sentence, "Nothing differs") || sums[0].Before == sums[0].After {
		t.Errorf("%+v", slower)
	}
	if same := quoted(t, s, fmt.Sprintf("?against=%d", now.Revision)); same.Change.Sentence != "Nothing differs that is bought or done." {
		t.Errorf("against itself: %q", same.Change.Sentence)
	}
	// Without minutes the usual time holds again.
	stepped(t, s, now.Revision, `{"do": "labour", "for": "`+what+`"}`)
	if back := quoted(t, s, "?units=us"); !back.Lines[0].Usual || back.Lines[0].Minutes != first.Lines[0].Minutes {
		t.Errorf("%+v", back.Lines[0])
	}
}

// TestQuoteUnits: lengths come in the units asked for.
func TestQuoteUnits(t *testing.T) {
	s := served(t)
	metres := func(q Quote) string {
		for _, l := range q.Lines {
			if l.For == "metre" {
				return l.Number
			}
		}
		return ""
	}
	if us, metric := metres(quoted(t, s, "?units=us")), metres(quoted(t, s, "?units=metric")); !strings.Contains(us, " ft") || !strings.HasSuffix(metric, "m") {
		t.Errorf("%q and %q", us, metric)
	}
}

// TestQuoteRefused: what is no revision, and work that there is not.
func TestQuoteRefused(t *testing.T) {
	s := served(t)
	for query, code := range map[string]int{
		"?against=99": http.StatusUnprocessableEntity, "?against=-1": http.StatusBadRequest, "?against=yesterday": http.StatusBadRequest,
		"?plan=plan.none": http.StatusNotFound,
	} {
		if w := ask(s, http.MethodGet, "/api/jobs/"+joinery+"/quote"+query, ""); w.Code != code {
			t.Errorf("%s: %d %s", query, w.Code, w.Body)
		}
	}
	w := ask(s, http.MethodPost, "/api/jobs/"+joinery+"/steps", `{"base": 0, "step": {"do": "labour", "for": "sodder", "min": 3}}`)
	if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "nearest is solder") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}
