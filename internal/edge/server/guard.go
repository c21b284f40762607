package server

import (
	"net"
	"net/http"
	"net/url"
	"strings"
)

// policy is what the page may load: itself and nothing else. A worker draws the
// pages of a PDF; blob and data are pictures that the page has made itself.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; connect-src 'self'; " +
	"worker-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// guarded keeps strangers out. A page of another site can make a browser send
// requests here, and can make its own name point at this computer; both show in
// the headers Host and Origin, which a page cannot choose.
func (s *Server) guarded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		switch {
		case !loopback(r.Host) && !s.network.own(r.Host):
			fail(w, http.StatusMisdirectedRequest, "this program does not answer to that name", "the request names the host "+clip(r.Host))
		case !ownOrigin(r):
			fail(w, http.StatusForbidden, "requests of other sites are not answered", "the request comes from "+clip(r.Header.Get("Origin")))
		case !safe(r.Method) && !unsafe(r.Method):
			h.Set("Allow", "GET, HEAD, POST, PUT, DELETE")
			fail(w, http.StatusMethodNotAllowed, "there is no such method here", "the request is a "+clip(r.Method))
		case unsafe(r.Method) && !tellsOrigin(r):
			fail(w, http.StatusForbidden, "what changes something must say where it comes from", "the request has no header Origin")
		case isData(r) && !s.network.admits(r):
			fail(w, http.StatusUnauthorized, "the token is wanted", "open the address that the program shows, or scan its code")
		default:
			if safe(r.Method) {
				r.Body = http.MaxBytesReader(w, r.Body, 1<<10) // nothing that reads has a body
			}
			next.ServeHTTP(w, r)
		}
	})
}

func safe(method string) bool { return method == http.MethodGet || method == http.MethodHead }

func unsafe(method string) bool {
	return method == http.MethodPost || method == http.MethodPut || method == http.MethodDelete
}

// isData says whether a request is for more than the page's own files, which hold
// nothing of anybody's. Entering is how the token comes.
func isData(r *http.Request) bool {
	return strings.HasPrefix(r.URL.Path, "/api/") && r.URL.Path != "/api/enter"
}

// loopback says whether a Host header names this computer to itself.
func loopback(host string) bool {
	name := host
	if h, _, err := net.SplitHostPort(host); err == nil {
		name = h
	}
	name = strings.TrimSuffix(strings.TrimPrefix(name, "["), "]")
	if strings.EqualFold(name, "localhost") {
		return true
	}
	ip := net.ParseIP(name)
	return ip != nil && ip.IsLoopback()
}

// ownOrigin holds that a request that tells its origin comes from this very server.
func ownOrigin(r *http.Request) bool {
	if site := r.Header.Get("Sec-Fetch-Site"); site == "cross-site" || site == "same-site" {
		// A link followed from elsewhere may open the page, never its data.
		return safe(r.Method) && isPage(r.URL.Path) && r.Header.Get("Sec-Fetch-Mode") == "navigate"
	}
	origin := r.Header.Get("Origin")
	if origin == "" {
		return true
	}
	scheme := "http"
	if r.TLS != nil {
		scheme = "https"
	}
	u, err := url.Parse(origin)
	return err == nil && u.Scheme == scheme && strings.EqualFold(u.Host, r.Host)
}

// tellsOrigin says whether a browser has put its name to the request. That the
// name is ours is ownOrigin's to hold.
func tellsOrigin(r *http.Request) bool {
	return r.Header.Get("Origin") != "" || r.Header.Get("Sec-Fetch-Site") == "same-origin"
}

// clip keeps a header's text short in a message.
func clip(s string) string {
	const most = 80
	if len(s) > most {
		return s[:most] + "…"
	}
	return s
}
