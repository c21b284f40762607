package server

import (
	"net"
	"net/http"
	"net/url"
	"strings"
)

// policy is what the page may load: itself and nothing else.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; " +
	"base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// guarded keeps strangers out. A page of another site can make a browser send
// requests here, and can make its own name point at this computer; both show in
// the headers Host and Origin, which a page cannot choose.
func guarded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		switch {
		case !loopback(r.Host):
			fail(w, http.StatusMisdirectedRequest, "this program answers on the loopback only", "the request names the host "+clip(r.Host))
		case !ownOrigin(r):
			fail(w, http.StatusForbidden, "requests of other sites are not answered", "the request comes from "+clip(r.Header.Get("Origin")))
		case r.Method != http.MethodGet && r.Method != http.MethodHead:
			h.Set("Allow", "GET, HEAD")
			fail(w, http.StatusMethodNotAllowed, "nothing can be changed here yet", "the request is a "+clip(r.Method))
		default:
			r.Body = http.MaxBytesReader(w, r.Body, 1<<10) // nothing here reads a body
			next.ServeHTTP(w, r)
		}
	})
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
		return r.URL.Path == "/" && r.Header.Get("Sec-Fetch-Mode") == "navigate"
	}
	origin := r.Header.Get("Origin")
	if origin == "" {
		return true
	}
	u, err := url.Parse(origin)
	return err == nil && u.Scheme == "http" && strings.EqualFold(u.Host, r.Host)
}

// clip keeps a header's text short in a message.
func clip(s string) string {
	const most = 80
	if len(s) > most {
		return s[:most] + "…"
	}
	return s
}
