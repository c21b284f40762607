package server

import (
	"archive/zip"
	"encoding/csv"
	"net/http"
	"strings"
	"testing"
)

// TestLists: the lists come as CSV and as workbooks; another name is not there.
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
	for _, list := range []string{"buy", "parts", "cut", "joints", "quote"} {
		code, body := look(list + ".xlsx")
		if z, err := zip.NewReader(strings.NewReader(body), int64(len(body))); code != http.StatusOK || err != nil || z.File[0].Name != "[Content_Types].xml" {
			t.Errorf("%s: %d, %v", list, code, err)
		}
	}
	for _, none := range []string{"none.csv", "buy.exe", "none.xlsx", "buy"} {
		if code, _ := look(none); code != http.StatusNotFound {
			t.Errorf("%s: %d", none, code)
		}
	}
}
