package server

import (
	"encoding/csv"
	"net/http"
	"strings"
	"testing"
)

// TestLists: the lists come as CSV; another name is not there.
func TestLists(t *testing.T) {
	s := served(t)
	look := func(file string) (int, string) {
		w := ask(s, http.MethodGet, "/api/jobs/"+joinery+"/lists/"+file, "")
		return w.Code, w.Body.String()
	}
	for _, list := range []string{"parts", "cut", "joints"} {
		code, body := look(list + ".csv")
		if rows, err := csv.NewReader(strings.NewReader(body)).ReadAll(); code != http.StatusOK || err != nil || len(rows) < 3 {
			t.Errorf("%s: %d, %v, %d rows", list, code, err, len(rows))
		}
	}
	for _, none := range []string{"none.csv", "buy.exe", "buy.xlsx"} {
		if code, _ := look(none); code != http.StatusNotFound {
			t.Errorf("%s: %d", none, code)
		}
	}
}
