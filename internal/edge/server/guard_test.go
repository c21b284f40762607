package server

import (
	"net"
	"net/http"
	"strings"
	"testing"

	"dropleg/internal/edge/desk"
)

func TestGuards(t *testing.T) {
	s := served(t)
	for _, c := range []struct {
		name   string
		target string
		status int
		header []string
	}{
		{"own", of(""), 200, nil},
		{"by name", of(""), 200, []string{"Host", "localhost:4000"}},
		{"over IPv6", of(""), 200, []string{"Host", "[::1]:4000"}},
		{"a certificate where nothing is encrypted", "/certificate.crt", 404, nil},
		{"own origin", of(""), 200, []string{"Origin", "http://" + home, "Sec-Fetch-Site", "same-origin"}},
		{"a link followed", "/", 200, []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate"}},
		{"a link to a job followed", "/job/" + joinery, 200, []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate"}},
		{"name pointed here", of(""), 421, []string{"Host", "shop.example"}},
		{"name that looks alike", of(""), 421, []string{"Host", "127.0.0.1.shop.example"}},
		{"address of the network", of(""), 421, []string{"Host", "192.168.1.20:4000"}},
		{"no host", of(""), 421, []string{"Host", ""}},
		{"other origin", of(""), 403, []string{"Origin", "http://shop.example"}},
		{"other port", of(""), 403, []string{"Origin", "http://127.0.0.1:5000"}},
		{"no origin to tell", of(""), 403, []string{"Origin", "null"}},
		{"other site", of(""), 403, []string{"Sec-Fetch-Site", "cross-site"}},
		{"data by a link", of("/file"), 403, []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate"}},
		{"a script included", "/main.js", 403, []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "no-cors"}},
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
		if p := w.Header().Get("Content-Security-Policy"); strings.Contains(p, "unsafe") || !strings.Contains(p, "worker-src 'self'") {
			t.Errorf("%s: policy %s", c.name, p)
		}
	}
}

// What changes something comes from the page itself, as JSON, and is not too long.
func TestGuardsWrites(t *testing.T) {
	s := served(t)
	const undo = `{"by":"Ann"}`
	for _, c := range []struct {
		name, method, body string
		status             int
		header             []string
	}{
		{"no origin", "POST", undo, 403, []string{"Origin", "", "Sec-Fetch-Site", ""}},
		{"other origin", "POST", undo, 403, []string{"Origin", "http://shop.example", "Sec-Fetch-Site", ""}},
		{"other site", "POST", undo, 403, []string{"Sec-Fetch-Site", "cross-site"}},
		{"other site, by a link", "POST", undo, 403, []string{"Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate"}},
		{"a form", "POST", "by=Ann", 415, []string{"Content-Type", "application/x-www-form-urlencoded"}},
		{"plain text", "POST", undo, 415, []string{"Content-Type", "text/plain"}},
		{"no type", "POST", undo, 415, []string{"Content-Type", ""}},
		{"no JSON", "POST", "by=Ann", 400, nil},
		{"an unknown key", "POST", `{"bye":"Ann"}`, 400, nil},
		{"twice a key", "POST", `{"by":"Ann","by":"Bea"}`, 400, nil},
		{"too deep", "POST", `{"by":` + strings.Repeat("[", 5000) + `}`, 400, nil},
		{"too long", "POST", `{"by":"` + strings.Repeat("x", mostAsked) + `"}`, 413, nil},
		{"other method", "PATCH", undo, 405, nil},
		{"options", "OPTIONS", "", 405, nil},
		{"method of another route", "PUT", undo, 404, nil},
		{"nothing to undo", "POST", undo, 422, nil},
	} {
		if w := ask(s, c.method, of("/undo"), c.body, c.header...); w.Code != c.status {
			t.Errorf("%s: %d, want %d: %.200s", c.name, w.Code, c.status, w.Body)
		}
	}
}

func TestListensOnTheLoopbackOnly(t *testing.T) {
	d := newDesk(t)
	for _, listen := range []string{"0.0.0.0:0", ":0", "192.168.1.20:0", "[::]:0", "shop.example:80"} {
		if s, err := New(Options{Desk: d, Listen: listen}); err == nil {
			t.Errorf("%s: listens", listen)
			_ = s.Close()
		}
	}
	if _, err := New(Options{}); err == nil {
		t.Error("serves nothing")
	}
}

// networked is a server on the network, with an address of its own there.
func networked(t *testing.T, d *desk.Desk) (s *Server, host string) {
	t.Helper()
	s = servedBy(t, Options{Desk: d, Network: true})
	s.network.hosts["192.168.1.20"] = true
	s.network.first = "192.168.1.20"
	return s, net.JoinHostPort("192.168.1.20", s.network.port)
}

// Others on the network see the page, which holds nothing, and data by the token alone.
func TestNetwork(t *testing.T) {
	s, host := networked(t, newDesk(t))
	there := []string{"Host", host, "from", "192.168.1.55:51000"}
	cookie := func(value string) []string {
		return append([]string{"Cookie", s.network.cookie() + "=" + value}, there...)
	}
	for _, c := range []struct {
		name, target string
		status       int
		header       []string
	}{
		{"this computer", of(""), 200, nil},
		{"the page", "/", 200, there},
		{"its files", "/main.js", 200, there},
		{"data without a token", of(""), 401, there},
		{"the list without a token", "/api/jobs", 401, there},
		{"the share without a token", "/api/share", 401, there},
		{"a wrong token", of(""), 401, cookie(strings.Repeat("0", 32))},
		{"half a token", of(""), 401, cookie(s.network.token[:16])},
		{"the token", of(""), 200, cookie(s.network.token)},
		{"the name of this computer from outside", of(""), 401, []string{"from", "192.168.1.55:51000"}},
		{"a name pointed here", of(""), 421, append([]string{"from", "192.168.1.55:1"}, "Host", "shop.example:"+s.network.port)},
		{"another port", of(""), 421, []string{"from", "192.168.1.55:1", "Host", "192.168.1.20:1"}},
		{"another address", of(""), 421, []string{"from", "192.168.1.55:1", "Host", "192.168.1.21:" + s.network.port}},
	} {
		if w := get(s, c.target, c.header...); w.Code != c.status {
			t.Errorf("%s: %d, want %d: %.200s", c.name, w.Code, c.status, w.Body)
		}
	}
	if len(s.network.token) != 32 {
		t.Errorf("a token of %d digits", len(s.network.token))
	}
}

// The token becomes a cookie that scripts cannot read and other sites cannot use.
func TestEnter(t *testing.T) {
	s, host := networked(t, newDesk(t))
	there := []string{"Host", host, "from", "192.168.1.55:51000", "Origin", "http://" + host}
	wantFault(t, "wrong", ask(s, "POST", "/api/enter", `{"token":"x"}`, there...), http.StatusForbidden)
	w := ask(s, "POST", "/api/enter", `{"token":"`+s.network.token+`"}`, there...)
	cookies := w.Result().Cookies()
	if w.Code != http.StatusNoContent || len(cookies) != 1 {
		t.Fatalf("%d, %v", w.Code, cookies)
	}
	if c := cookies[0]; !c.HttpOnly || c.SameSite != http.SameSiteStrictMode || c.Value != s.network.token {
		t.Errorf("%+v", c)
	}
	share := read200[Share](t, get(s, "/api/share", append([]string{"Cookie", cookies[0].Name + "=" + cookies[0].Value}, there...)...))
	if want := "http://" + host + "/#token=" + s.network.token; !share.Network || share.Address != want || !strings.HasPrefix(share.QR, "<svg ") {
		t.Errorf("%.300v", share)
	}
	alone := served(t)
	if got := read200[Share](t, get(alone, "/api/share")); got != (Share{}) {
		t.Errorf("not on the network, and shares %v", got)
	}
	if w := ask(alone, "POST", "/api/enter", `{"token":"x"}`); w.Code != http.StatusNoContent || len(w.Result().Cookies()) != 0 {
		t.Errorf("not on the network: %d", w.Code)
	}
}

// The code in the terminal and the one on the page are the same squares.
func TestQR(t *testing.T) {
	c, err := newQR("http://192.168.1.20:4000/#token=0123456789abcdef0123456789abcdef")
	if err != nil {
		t.Fatal(err)
	}
	dark := 0
	for y, row := range c {
		for x, is := range row {
			if is {
				dark++
			}
			if edge := min(x, y, len(c)-1-x, len(c)-1-y) < 4; edge && is {
				t.Fatalf("dark in the margin at %d, %d", x, y)
			}
		}
	}
	if n := strings.Count(c.svg(), "h1v1h-1z"); n != dark || dark == 0 {
		t.Errorf("%d squares in the picture, %d in the code", n, dark)
	}
	const quiet = 4 // modules of margin, ISO/IEC 18004
	// Finder pattern (ISO/IEC 18004): a dark ring of 7 squares in each of three corners.
	for i := range 7 {
		for _, at := range [][2]int{{quiet + i, quiet}, {quiet, quiet + i}, {len(c) - quiet - 1 - i, quiet}, {quiet + i, len(c) - quiet - 1}} {
			if !c[at[1]][at[0]] {
				t.Errorf("no finder at %v", at)
			}
		}
	}
	lines := strings.Split(strings.TrimSuffix(c.blocks(), "\n"), "\n")
	if len(lines) != (len(c)+1)/2 {
		t.Errorf("%d lines for %d rows", len(lines), len(c))
	}
	light := 0
	for y, line := range lines {
		for _, r := range line {
			both := y*2+1 < len(c)
			switch {
			case r == '█' && both:
				light += 2
			case r == '▀', r == '▄' && both, r == '█':
				light++
			}
		}
	}
	if light != len(c)*len(c)-dark {
		t.Errorf("%d light squares in the terminal, %d in the code", light, len(c)*len(c)-dark)
	}
}
