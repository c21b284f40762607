package server

import (
	"encoding/base64"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"
)

// supplied is a list with a row that is sure, one that is in question, one without a price,
// and one in words.
const supplied = "Art.-No.;Description;Pack;Price\n" +
	"A1;copper-l tee 3/4 x 1/2;10;45,90\n" +
	"A2;Copper ell 3/4\";10;12,00\n" +
	"A3;copper-l ball-valve 3/4;1;0\n" +
	"A4;copper-l ball-valve 1;1;on request\n"

// listBody is a body with a list in it.
func listBody(t *testing.T, list string, more string) string {
	t.Helper()
	return fmt.Sprintf(`{"file": %q, %s}`, base64.StdEncoding.EncodeToString([]byte(list)), more)
}

func looked(t *testing.T, s *Server, list, asked string) PriceList {
	t.Helper()
	w := ask(s, http.MethodPost, "/api/jobs/"+joinery+"/pricelist", listBody(t, list, `"ask": `+asked))
	var in PriceList
	if err := json.Unmarshal(w.Body.Bytes(), &in); w.Code != http.StatusOK || err != nil {
		t.Fatalf("%d %v %s", w.Code, err, w.Body)
	}
	return in
}

// states is each row's number and what becomes of it.
func states(in PriceList) string {
	text := ""
	for _, r := range in.Rows {
		text += fmt.Sprintf("%d %s, ", r.Row, r.State)
	}
	return strings.TrimSuffix(text, ", ")
}

// TestPriceListLooked: columns with their fields and cells, rows with their problems by
// column; nothing is kept.
func TestPriceListLooked(t *testing.T) {
	s := served(t)
	before := quoted(t, s, "").Revision
	in := looked(t, s, supplied, `{"supplier": "Any Supply"}`)
	if got := states(in); got != "2 take, 3 unsure, 4 fault, 5 fault" {
		t.Errorf("%s: %+v", got, in.Rows)
	}
	fields := ""
	for _, c := range in.Columns {
		fields += c.Name + " " + string(c.Field) + " " + c.Head + "; "
	}
	if fields != "A number Art.-No.; B description Description; C pack Pack; D price Price; " {
		t.Errorf("%s", fields)
	}
	for row, want := range map[int]string{2: "Column D: read 0", 3: "Column D: read on request"} {
		if p := in.Rows[row].Problems; len(p) != 1 || !strings.Contains(p[0], want) {
			t.Errorf("row %d: %q, want %q", in.Rows[row].Row, p, want)
		}
	}
	if near := in.Rows[1].Nearest; len(near) == 0 || !in.Rows[1].Open {
		t.Errorf("%+v", in.Rows[1])
	}
	if after := quoted(t, s, "").Revision; after != before {
		t.Errorf("revision %d after %d", after, before)
	}
	// A column that is stated goes before what its head says.
	passed := looked(t, s, supplied, `{"supplier": "Any Supply", "columns": [{"column": "D", "field": "nothing"}]}`)
	if passed.Sure != 0 || len(passed.Problems) == 0 {
		t.Errorf("without a price: %d sure, %q", passed.Sure, passed.Problems)
	}
}

// TestPricesTaken: the sure rows come as one step, which can be taken back; sent again under
// its key it is made once; where no row is sure and new it is refused.
func TestPricesTaken(t *testing.T) {
	s := served(t)
	base := quoted(t, s, "").Revision
	take := func(asked string) (int, string) {
		w := ask(s, http.MethodPost, "/api/jobs/"+joinery+"/prices", listBody(t, supplied, fmt.Sprintf(`"base": %d, "key": "0123456789abcdef0123456789abcdef", "ask": %s`, base, asked)))
		return w.Code, w.Body.String()
	}
	const sure = `{"supplier": "Any Supply", "pairs": [{"row": 3, "article": "copper-l elbow-90 3/4"}]}`
	for range 2 {
		if code, body := take(sure); code != http.StatusOK {
			t.Fatalf("%d %s", code, body)
		}
	}
	offers := func() (n int) {
		w := ask(s, http.MethodGet, "/api/jobs/"+joinery+"/file", "")
		var j struct {
			Prices struct {
				Offers []struct{ Supplier, Number string }
			}
		}
		if err := json.Unmarshal(w.Body.Bytes(), &j); err != nil {
			t.Fatal(err)
		}
		for _, o := range j.Prices.Offers {
			if o.Supplier == "Any Supply" && (o.Number == "A1" || o.Number == "A2") {
				n++
			}
		}
		return n
	}
	if n, revision := offers(), quoted(t, s, "").Revision; n != 2 || revision != base+1 {
		t.Errorf("%d offers at revision %d, want 2 at %d", n, revision, base+1)
	}
	if got := states(looked(t, s, supplied, `{"supplier": "Any Supply"}`)); got != "2 same, 3 same, 4 fault, 5 fault" {
		t.Errorf("once more: %s", got)
	}
	base++
	w := ask(s, http.MethodPost, "/api/jobs/"+joinery+"/prices", listBody(t, supplied, fmt.Sprintf(`"base": %d, "ask": %s`, base, sure)))
	if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "no row of the list is sure and new") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
	if w := ask(s, http.MethodPost, "/api/jobs/"+joinery+"/undo", `{"by": "Ida"}`); w.Code != http.StatusOK || offers() != 0 {
		t.Errorf("taken back: %d, %d offers", w.Code, offers())
	}
}

// TestPriceListRefused: what is no list is told in its problems, what is no request as one.
func TestPriceListRefused(t *testing.T) {
	s := served(t)
	at := "/api/jobs/" + joinery + "/pricelist"
	for body, want := range map[string]string{
		`{"file": "no base64!", "ask": {}}`:    "wanted the bytes of the list in base64",
		`{"file": "", "ask": {"sheets": "x"}}`: `"nearest":"sheet"`,
	} {
		if w := ask(s, http.MethodPost, at, body); w.Code != http.StatusBadRequest || !strings.Contains(w.Body.String(), want) {
			t.Errorf("%s: %d %s, want %q", body, w.Code, w.Body, want)
		}
	}
	for _, list := range []string{"", "{\"dropleg\": 1}", "\x00\x01\x02", "%PDF-1.7 price list"} {
		in := looked(t, s, list, `{}`)
		if len(in.Problems) == 0 || in.Sure != 0 || len(in.Rows) != 0 {
			t.Errorf("%q: %q, %d rows", list, in.Problems, len(in.Rows))
		}
	}
	if in := looked(t, s, supplied, `{"columns": [{"column": "Q", "field": "price"}]}`); len(in.Problems) == 0 {
		t.Errorf("a column that is not there: %+v", in.Columns)
	}
	if in := looked(t, s, supplied, `{"decimal": "semicolon"}`); len(in.Problems) == 0 || !strings.Contains(in.Problems[0], "wanted point or comma") {
		t.Errorf("a mark that is none: %q", in.Problems)
	}
	if in := looked(t, s, supplied, `{"pairs": [{"row": 99, "article": "copper-l tee 3/4"}]}`); len(in.Problems)+len(in.Notes) == 0 {
		t.Errorf("a row that is not there is not told: %+v", in)
	}
}
