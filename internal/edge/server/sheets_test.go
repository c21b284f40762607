package server

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"net/http"
	"strings"
	"testing"
)

func wellFormed(text string) error {
	d := xml.NewDecoder(strings.NewReader(text))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
	}
}

// TestSheets: what the list has is shown as well-formed SVG on the paper asked for, and handed
// over as PDF and as an archive with the job inside; what is wrong is told.
func TestSheets(t *testing.T) {
	s := served(t)
	base := "/api/jobs/" + joinery
	get := func(path string) (int, []byte) {
		w := ask(s, http.MethodGet, base+path, "")
		return w.Code, w.Body.Bytes()
	}
	var list Sheets
	if code, body := get("/sheets"); code != http.StatusOK || json.Unmarshal(body, &list) != nil || len(list.Sheets) < 10 || len(list.Papers) != 4 {
		t.Fatalf("%d %s", code, body)
	}
	for _, one := range list.Sheets[:2] {
		var leaf SheetLeaf
		code, body := get("/sheets/" + one.ID + "?paper=a3&by=Quay%20%26%20Sons")
		if err := json.Unmarshal(body, &leaf); code != http.StatusOK || err != nil || leaf.Leaves < 1 {
			t.Fatalf("%s: %d, %v", one.ID, code, err)
		}
		if err := wellFormed(leaf.SVG); err != nil || !strings.Contains(leaf.SVG, `width="420mm"`) || !strings.Contains(leaf.SVG, "Quay &amp; Sons") {
			t.Errorf("%s: %v\n%.300s", one.ID, err, leaf.SVG)
		}
	}
	if code, body := get("/book/job-book.pdf?only=plan,cautions"); code != http.StatusOK || !bytes.HasPrefix(body, []byte("%PDF")) {
		t.Errorf("book: %d", code)
	}
	code, body := get("/book/job-book.zip?only=plan")
	packed, err := zip.NewReader(bytes.NewReader(body), int64(len(body)))
	if code != http.StatusOK || err != nil || packed.File[0].Name != "job.json" {
		t.Errorf("archive: %d, %v", code, err)
	}
	for path, want := range map[string]int{
		"/sheets/none": http.StatusNotFound, "/book/none.pdf": http.StatusNotFound, "/book/plan.exe": http.StatusNotFound,
		"/sheets/plan?paper=a9": http.StatusBadRequest, "/sheets/plan?by=" + strings.Repeat("x", 200): http.StatusBadRequest,
	} {
		if code, body := get(path); code != want {
			t.Errorf("%s: %d, want %d: %s", path, code, want, body)
		}
	}
}

// TestVariationOrder: the order of a variation names the state that it is told from; of an
// alternative that is the job itself; without one, and of a revision that never was, there is none.
func TestVariationOrder(t *testing.T) {
	s := served(t)
	stepped(t, s, 0, `{"edit": "set", "key": "prices.labour.rate_1_h", "value": 48}`)
	leaf := func(query string) (int, SheetLeaf) {
		w := ask(s, http.MethodGet, "/api/jobs/"+joinery+"/sheets/variation"+query, "")
		var leaf SheetLeaf
		if w.Code == http.StatusOK {
			if err := json.Unmarshal(w.Body.Bytes(), &leaf); err != nil {
				t.Fatal(err)
			}
		}
		return w.Code, leaf
	}
	if _, got := leaf(""); got.Missing == "" {
		t.Error("told from nothing")
	}
	for query, want := range map[string]string{"?against=0": "Told from the beginning.", "?against=1": "Told from state 1 of "} {
		if code, got := leaf(query); code != http.StatusOK || got.Missing != "" || !strings.Contains(got.SVG, want) {
			t.Errorf("%s: %d %q", query, code, got.Missing)
		}
	}
	stepped(t, s, 1, `{"edit":"add","what":"plan","thing":{"id":"plan.b","name":"B","edits":[{"edit":"set","key":"prices.labour.rate_1_h","value":50}]}}`)
	if code, got := leaf("?plan=plan.b&against=2"); code != http.StatusOK || !strings.Contains(got.SVG, "Told from the job without this alternative.") {
		t.Errorf("of an alternative: %d", code)
	}
	if code, _ := leaf("?against=9"); code != http.StatusUnprocessableEntity {
		t.Errorf("revision 9: %d", code)
	}
	if w := ask(s, http.MethodGet, "/api/jobs/"+joinery+"/book/variation.pdf?against=0&show=yes", ""); w.Code != http.StatusOK || !strings.HasPrefix(w.Body.String(), "%PDF") {
		t.Errorf("%d", w.Code)
	}
}
