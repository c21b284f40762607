package server

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"go.uber.org/goleak"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// sample is the shop that the tests of package screen look at too.
const sample = "../../show/screen/testdata/joinery.json"

// served makes a server of the file and closes it after the test.
func served(t *testing.T, path string) *Server {
	t.Helper()
	s, err := New(Options{Source: File(path), Poll: 5 * time.Millisecond})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	return s
}

// get asks the handler as a browser on this computer does.
func get(s *Server, target string, header ...string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodGet, target, nil)
	r.Host = "127.0.0.1:4000"
	for i := 0; i+1 < len(header); i += 2 {
		if header[i] == "Host" {
			r.Host = header[i+1]
		} else {
			r.Header.Set(header[i], header[i+1])
		}
	}
	w := httptest.NewRecorder()
	s.Handler().ServeHTTP(w, r)
	return w
}

func TestResources(t *testing.T) {
	s := served(t, sample)
	for _, target := range []string{
		"/api/job", "/api/job?units=us", "/api/scene?view=plan&w=100&h=140", "/api/scene?set=set.rush&case=cut-out", "/api/outlets?set=set.quiet",
		"/api/outlets/outlet.d/path", "/api/things/line.main-3", "/api/findings?units=mixed", "/api/questions", "/api/parts",
	} {
		w := get(s, target)
		if w.Code != http.StatusOK || w.Header().Get("Content-Type") != "application/json" || w.Header().Get("Cache-Control") != "no-store" {
			t.Errorf("%s: %d, %v\n%s", target, w.Code, w.Header(), clip(w.Body.String()))
			continue
		}
		var stamp Stamp
		if err := json.Unmarshal(w.Body.Bytes(), &stamp); err != nil || stamp.Revision != 1 || stamp.Old {
			t.Errorf("%s: %+v, %v", target, stamp, err)
		}
		if again := get(s, target); !bytes.Equal(again.Body.Bytes(), w.Body.Bytes()) {
			t.Errorf("%s: asked twice, answered differently", target)
		}
	}
}

func TestRefusals(t *testing.T) {
	s := served(t, sample)
	for _, c := range []struct {
		target string
		status int
		says   []string
	}{
		{"/api/nothing", 404, []string{"/api/nothing"}},
		{"/api/outlets/outlet.q/path", 404, []string{"outlet.q"}},
		{"/api/things/line.q", 404, []string{"line.q"}},
		{"/api/outlets?set=set.q", 404, []string{"set.q"}},
		{"/api/scene?case=cut-inn&units=uss&w=x", 400, []string{"nearest is cut-in", "nearest is us", "w: read"}},
		{"/api/scene?view=elevation", 400, []string{"want one of plan"}},
		{"/api/scene?w=NaN", 400, []string{"millimetres"}},
		{"/nothing.html", 404, nil},
		{"/../options.go", 404, nil},
		{"/%2e%2e/%2e%2e/etc/passwd", 404, nil},
		{"//etc/passwd", 404, nil},
	} {
		w := get(s, c.target)
		// The mux sends unclean paths to their clean form, where there is nothing either.
		if w.Code == http.StatusMovedPermanently || w.Code == http.StatusTemporaryRedirect {
			w = get(s, w.Header().Get("Location"))
		}
		var f Fault
		err := json.Unmarshal(w.Body.Bytes(), &f)
		if w.Code != c.status || err != nil || f.Status != c.status || w.Header().Get("Content-Type") != "application/problem+json" {
			t.Errorf("%s: %d %+v, %v; want %d", c.target, w.Code, f, err, c.status)
		}
		for _, says := range c.says {
			if !strings.Contains(f.Detail, says) {
				t.Errorf("%s: %q does not say %q", c.target, f.Detail, says)
			}
		}
	}
}

func TestGuards(t *testing.T) {
	s := served(t, sample)
	for _, c := range []struct {
		name   string
		target string
		status int
		header []string
	}{
		{"own", "/api/job", 200, nil},
		{"by name", "/api/job", 200, []string{"Host", "localhost:4000"}},
		{"over IPv6", "/api/job", 200, []string{"Host", "[::1]:4000"}},
		{"own origin", "/api/job", 200, []string{"Origin", "http://127.0.0.1:4000", "Sec-Fetch-Site", "same-origin"}},
		{"a link followed", "/", 200, []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate"}},
		{"name pointed here", "/api/job", 421, []string{"Host", "shop.example"}},
		{"name that looks alike", "/api/job", 421, []string{"Host", "127.0.0.1.shop.example"}},
		{"address of the network", "/api/job", 421, []string{"Host", "192.168.1.20:4000"}},
		{"no host", "/api/job", 421, []string{"Host", ""}},
		{"other origin", "/api/job", 403, []string{"Origin", "http://shop.example"}},
		{"other port", "/api/job", 403, []string{"Origin", "http://127.0.0.1:5000"}},
		{"no origin to tell", "/api/job", 403, []string{"Origin", "null"}},
		{"other site", "/api/job", 403, []string{"Sec-Fetch-Site", "cross-site"}},
		{"data by a link", "/api/job", 403, []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate"}},
	} {
		w := get(s, c.target, c.header...)
		if w.Code != c.status {
			t.Errorf("%s: %d, want %d", c.name, w.Code, c.status)
		}
		for _, h := range []string{"Content-Security-Policy", "X-Content-Type-Options", "Referrer-Policy"} {
			if w.Header().Get(h) == "" {
				t.Errorf("%s: no %s", c.name, h)
			}
		}
		if p := w.Header().Get("Content-Security-Policy"); strings.Contains(p, "unsafe") {
			t.Errorf("%s: policy %s", c.name, p)
		}
	}
	for _, method := range []string{http.MethodPost, http.MethodPut, http.MethodDelete, http.MethodOptions} {
		r := httptest.NewRequest(method, "/api/job", strings.NewReader(strings.Repeat("x", 1<<20)))
		r.Host = "127.0.0.1:4000"
		w := httptest.NewRecorder()
		s.Handler().ServeHTTP(w, r)
		if w.Code != http.StatusMethodNotAllowed {
			t.Errorf("%s: %d", method, w.Code)
		}
	}
}

func TestListensOnTheLoopbackOnly(t *testing.T) {
	for _, listen := range []string{"0.0.0.0:0", ":0", "192.168.1.20:0", "[::]:0", "shop.example:80"} {
		if s, err := New(Options{Source: Fixed("x", nil), Listen: listen}); err == nil {
			t.Errorf("%s: listens", listen)
			_ = s.Close()
		}
	}
	if _, err := New(Options{}); err == nil {
		t.Error("serves nothing")
	}
}

// The page is whole: everything that it names is there, and nothing elsewhere.
func TestPage(t *testing.T) {
	s := served(t, sample)
	w := get(s, "/")
	if w.Code != http.StatusOK || !strings.HasPrefix(w.Header().Get("Content-Type"), "text/html") {
		t.Fatalf("%d %v", w.Code, w.Header())
	}
	body := w.Body.String()
	for _, name := range []string{"main.js", "main.css", "icon.svg"} {
		if !strings.Contains(body, name) || get(s, "/"+name).Code != http.StatusOK {
			t.Errorf("no %s", name)
		}
	}
	if strings.Contains(body, "//") {
		t.Error("the page names something elsewhere")
	}
	if again := get(s, "/main.js", "If-None-Match", get(s, "/main.js").Header().Get("ETag")); again.Code != http.StatusNotModified {
		t.Errorf("main.js sent again: %d", again.Code)
	}
}

// The file changes, breaks and is mended; the events tell of each, and the last
// good drawing stays, marked old.
func TestReload(t *testing.T) {
	good, err := os.ReadFile(sample)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "job.json")
	write := func(data []byte) {
		t.Helper()
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write(good)
	s, err := New(Options{Source: File(path), Poll: 5 * time.Millisecond})
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- s.Run(ctx) }()

	events := listen(t, s)
	if e := <-events; e != (Event{Stamp{Revision: 1}}) {
		t.Fatalf("first %+v", e)
	}
	write(bytes.Replace(good, []byte("Alder Lane joinery"), []byte("Elder Lane joinery"), 1))
	if e := <-events; e != (Event{Stamp{Revision: 2}}) {
		t.Fatalf("changed %+v", e)
	}
	if j := jobOf(t, s); j.Head.Title != "Elder Lane joinery" || len(j.Problems) != 0 {
		t.Errorf("title %q, problems %v", j.Head.Title, j.Problems)
	}
	write(bytes.Replace(good, []byte(`"ball-valve"`), []byte(`"ball-walve"`), 1))
	if e := <-events; e != (Event{Stamp{Revision: 3, Old: true}}) {
		t.Fatalf("broken %+v", e)
	}
	j := jobOf(t, s)
	if !j.Old || j.Head == nil || j.Head.Title != "Elder Lane joinery" {
		t.Errorf("the last good one does not stay: %+v", j)
	}
	if len(j.Problems) == 0 || !strings.Contains(j.Problems[0].Path, "points") || j.Problems[0].Nearest != "ball-valve" {
		t.Errorf("problems %+v", j.Problems)
	}
	if w := get(s, "/api/scene"); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), `"old":true`) {
		t.Errorf("the old scene: %d", w.Code)
	}
	write(append(good, ' '))
	if e := <-events; e != (Event{Stamp{Revision: 4}}) {
		t.Fatalf("mended %+v", e)
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if e := <-events; e != (Event{Stamp{Revision: 5, Old: true}}) {
		t.Fatalf("removed %+v", e)
	}
	stop()
	if err := <-ended; err != nil {
		t.Errorf("ended with %v", err)
	}
	if _, open := <-events; open {
		t.Error("the events go on after the end")
	}
	http.DefaultClient.CloseIdleConnections()
}

func jobOf(t *testing.T, s *Server) Job {
	t.Helper()
	var j Job
	if err := json.Unmarshal(get(s, "/api/job").Body.Bytes(), &j); err != nil {
		t.Fatal(err)
	}
	return j
}

// listen reads the event stream of a running server.
func listen(t *testing.T, s *Server) <-chan Event {
	t.Helper()
	r, err := http.Get(s.URL() + "api/events")
	if err != nil {
		t.Fatal(err)
	}
	if r.Header.Get("Content-Type") != "text/event-stream" {
		t.Fatalf("%v", r.Header)
	}
	events := make(chan Event)
	go func() {
		defer close(events)
		defer func() { _ = r.Body.Close() }()
		lines := bufio.NewScanner(r.Body)
		for lines.Scan() {
			if data, ok := strings.CutPrefix(lines.Text(), "data: "); ok {
				var e Event
				if json.Unmarshal([]byte(data), &e) == nil {
					events <- e
				}
			}
		}
	}()
	return events
}

// A file that never was readable: the page says why, everything else says so too.
func TestNeverReadable(t *testing.T) {
	for name, data := range map[string]string{"empty": "", "text": "hello", "other": `{"nodes": [], "links": []}`, "keys": `{"dropleg": 1, "titel": "x"}`} {
		s, err := New(Options{Source: Fixed(name, []byte(data))})
		if err != nil {
			t.Fatal(err)
		}
		if j := jobOf(t, s); j.Head != nil || len(j.Problems) == 0 || j.Problems[0].Want == "" {
			t.Errorf("%s: %+v", name, j)
		}
		for _, target := range []string{"/api/scene", "/api/outlets", "/api/findings", "/api/questions", "/api/parts", "/api/things/x", "/api/outlets/x/path"} {
			if w := get(s, target); w.Code != http.StatusConflict {
				t.Errorf("%s %s: %d", name, target, w.Code)
			}
		}
		_ = s.Close()
	}
}

// A source of any length is read to its limit and no further.
func TestFileIsReadToALimit(t *testing.T) {
	path := filepath.Join(t.TempDir(), "long.json")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Truncate(1 << 30); err != nil {
		t.Fatal(err)
	}
	_ = f.Close()
	s := served(t, path)
	if j := jobOf(t, s); j.Head != nil || len(j.Problems) == 0 {
		t.Errorf("%+v", j)
	}
}
