package server

import (
	"bytes"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"go.uber.org/goleak"

	"dropleg/internal/edge/desk"
	"dropleg/internal/shop/catalog"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// sample is the shop that the tests of package screen look at too, joinery its id
// on a new desk.
const (
	sample  = "../../show/screen/testdata/joinery.json"
	joinery = "alder-lane-joinery"
)

// home is where the sample is served in tests.
const home = "127.0.0.1:4000"

// newDesk is a desk without a store.
func newDesk(t *testing.T) *desk.Desk {
	t.Helper()
	moment := time.Date(2026, 3, 14, 9, 30, 0, 0, time.UTC)
	d := desk.New(desk.Options{Shelf: catalog.Builtin(), Now: func() time.Time { return moment }})
	t.Cleanup(func() { _ = d.Close() })
	return d
}

// served makes a server with the sample on its desk, and closes it after the test.
func served(t *testing.T) *Server {
	t.Helper()
	return servedBy(t, Options{Desk: newDesk(t)})
}

func servedBy(t *testing.T, o Options) *Server {
	t.Helper()
	data, err := os.ReadFile(sample)
	if err != nil {
		t.Fatal(err)
	}
	if id, err := Import(t.Context(), o.Desk, data, "", ""); err != nil || id != joinery {
		t.Fatalf("%s, %v", id, err)
	}
	s, err := New(o)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	return s
}

// ask sends a request as a browser on this computer does.
func ask(s *Server, method, target, body string, header ...string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, target, strings.NewReader(body))
	r.Host, r.RemoteAddr = home, "127.0.0.1:51000"
	if unsafe(method) {
		r.Header.Set("Origin", "http://"+home)
		r.Header.Set("Sec-Fetch-Site", "same-origin")
	}
	if body != "" {
		r.Header.Set("Content-Type", "application/json")
	}
	for i := 0; i+1 < len(header); i += 2 {
		switch header[i] {
		case "Host":
			r.Host = header[i+1]
		case "from":
			r.RemoteAddr = header[i+1]
		default:
			r.Header.Set(header[i], header[i+1])
		}
		if header[i+1] == "" {
			r.Header.Del(header[i])
		}
	}
	w := httptest.NewRecorder()
	s.Handler().ServeHTTP(w, r)
	return w
}

func get(s *Server, target string, header ...string) *httptest.ResponseRecorder {
	return ask(s, http.MethodGet, target, "", header...)
}

// read is the body of an answer, which must have the status.
func read200[T any](t *testing.T, w *httptest.ResponseRecorder) T {
	t.Helper()
	var v T
	if w.Code != http.StatusOK {
		t.Fatalf("%d: %.300s", w.Code, w.Body)
	}
	if err := json.Unmarshal(w.Body.Bytes(), &v); err != nil {
		t.Fatalf("%v: %.300s", err, w.Body)
	}
	return v
}

// of is the path of a resource of the sample.
func of(rest string) string { return "/api/jobs/" + joinery + rest }

func TestResources(t *testing.T) {
	s := served(t)
	for _, target := range []string{
		"", "?units=us", "/scene?view=plan&w=100&h=140", "/scene?set=set.rush&case=cut-out", "/outlets?set=set.quiet",
		"/scene?view=elevation", "/scene?view=isometric", "/scene?view=diagram", "/live", "/history", "/compare",
		"/outlets/outlet.d/path", "/things/line.main-3", "/findings?units=mixed", "/questions", "/purchase",
	} {
		w := get(s, of(target))
		if w.Code != http.StatusOK || w.Header().Get("Content-Type") != "application/json" || w.Header().Get("Cache-Control") != "no-store" {
			t.Errorf("%s: %d, %v\n%s", target, w.Code, w.Header(), clip(w.Body.String()))
			continue
		}
		var stamp Stamp
		if err := json.Unmarshal(w.Body.Bytes(), &stamp); err != nil || stamp != (Stamp{}) {
			t.Errorf("%s: %+v, %v", target, stamp, err)
		}
		if again := get(s, of(target)); !bytes.Equal(again.Body.Bytes(), w.Body.Bytes()) {
			t.Errorf("%s: asked twice, answered differently", target)
		}
	}
}

func TestRefusals(t *testing.T) {
	s := served(t)
	for _, c := range []struct {
		target string
		status int
		says   []string
	}{
		{"/api/nothing", 404, []string{"/api/nothing"}},
		{"/api/jobs/nowhere", 404, []string{"nowhere"}},
		{"/api/jobs/nowhere/live", 404, []string{"nowhere"}},
		{of("/nothing"), 404, nil},
		{of("/live?plan=plan.q"), 404, []string{"plan.q"}},
		{of("/outlets/outlet.q/path"), 404, []string{"outlet.q"}},
		{of("/things/line.q"), 404, []string{"line.q"}},
		{of("/outlets?set=set.q"), 404, []string{"set.q"}},
		{of("/scene?case=cut-inn&units=uss&w=x"), 400, []string{"nearest is cut-in", "nearest is us", "w: read"}},
		{of("/scene?view=elevatio"), 400, []string{"nearest is elevation"}},
		{of("/scene?view=elevation&room=room.q"), 404, []string{"room.q"}},
		{of("/scene?w=NaN"), 400, []string{"millimetres"}},
		{of("/live?since=-1"), 400, []string{"since"}},
		{of("/pictures/none.png"), 404, []string{"none.png"}},
		{"/nothing.html", 404, nil},
		{"/job/", 404, nil},
		{"/job/a/b", 404, nil},
		{"/../options.go", 404, nil},
		{"/job/../../options.go", 404, nil},
		{"/%2e%2e/%2e%2e/etc/passwd", 404, nil},
		{of("/pictures/..%2f..%2fetc%2fpasswd"), 404, nil},
		{"//etc/passwd", 404, nil},
	} {
		w := get(s, c.target)
		// The mux sends unclean paths to their clean form, where there is nothing either.
		if w.Code == http.StatusMovedPermanently || w.Code == http.StatusTemporaryRedirect {
			w = get(s, w.Header().Get("Location"))
		}
		wantFault(t, c.target, w, c.status, c.says...)
	}
}

// wantFault holds that an answer is a fault of a status that says certain words.
func wantFault(t *testing.T, name string, w *httptest.ResponseRecorder, status int, says ...string) Fault {
	t.Helper()
	var f Fault
	err := json.Unmarshal(w.Body.Bytes(), &f)
	if w.Code != status || err != nil || f.Status != status || w.Header().Get("Content-Type") != "application/problem+json" {
		t.Errorf("%s: %d %+v, %v; want %d", name, w.Code, f, err, status)
	}
	for _, word := range says {
		if !strings.Contains(f.Title+" "+f.Detail, word) {
			t.Errorf("%s: %q does not say %q", name, f.Detail, word)
		}
	}
	return f
}

// The page is whole: everything that it names is there, and nothing elsewhere, from
// whichever of its addresses it was opened.
func TestPage(t *testing.T) {
	s := served(t)
	for _, at := range []string{"/", "/job/" + joinery, "/job/none"} {
		w := get(s, at)
		if w.Code != http.StatusOK || !strings.HasPrefix(w.Header().Get("Content-Type"), "text/html") {
			t.Fatalf("%d %v", w.Code, w.Header())
		}
		body := w.Body.String()
		named := regexp.MustCompile(`(?:src|href)="([^"]*)"`).FindAllStringSubmatch(body, -1)
		if len(named) < 3 {
			t.Errorf("the page names %v", named)
		}
		for _, n := range named {
			if !strings.HasPrefix(n[1], "/") || get(s, n[1]).Code != http.StatusOK {
				t.Errorf("no %s, or not from the root", n[1])
			}
		}
		if strings.Contains(body, "//") {
			t.Error("the page names something elsewhere")
		}
	}
	// What is packed in the program comes to every browser as it was before.
	packed := get(s, "/pdf.js", "Accept-Encoding", "gzip, br")
	plain := get(s, "/pdf.js")
	if packed.Header().Get("Content-Encoding") != "gzip" || plain.Header().Get("Content-Encoding") != "" {
		t.Errorf("packed as %q, plain as %q", packed.Header().Get("Content-Encoding"), plain.Header().Get("Content-Encoding"))
	}
	if got, err := unpacked(packed.Body.Bytes()); err != nil || !bytes.Equal(got, plain.Body.Bytes()) || len(got) < 100_000 {
		t.Errorf("%v: %d bytes packed, %d plain", err, len(got), plain.Body.Len())
	}
	if again := get(s, "/main.js", "If-None-Match", get(s, "/main.js").Header().Get("ETag")); again.Code != http.StatusNotModified {
		t.Errorf("main.js sent again: %d", again.Code)
	}
}
