package server

import "net/http"

// getShare tells how others on the network come in. Who asks is in already.
func (s *Server) getShare(w http.ResponseWriter, r *http.Request) {
	if s.network == nil {
		send(w, r, Share{})
		return
	}
	code, err := newQR(s.network.address())
	if err != nil {
		failWith(w, r, err)
		return
	}
	share := Share{Network: true, Address: s.network.address(), QR: code.svg()}
	if s.network.root != nil {
		share.Fingerprint = s.network.root.Fingerprint()
	}
	send(w, r, share)
}

// postEnter takes the token and gives the cookie that stands for it, until the
// program makes a new token. The page of whoever brings no token loads, and shows nothing.
func (s *Server) postEnter(w http.ResponseWriter, r *http.Request) {
	var body Enter
	if !readJSON(w, r, &body) {
		return
	}
	if s.network == nil {
		w.WriteHeader(http.StatusNoContent)
		return
	}
	if !s.network.is(body.Token) {
		fail(w, http.StatusForbidden, "this token does not open the program", "scan the code again: a new token was made since")
		return
	}
	http.SetCookie(w, &http.Cookie{
		Name: s.network.cookie(), Value: s.network.token, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode, Secure: r.TLS != nil,
		MaxAge: 400 * 24 * 3600, // as long as browsers keep one (RFC 6265bis, 5.5)
	})
	w.WriteHeader(http.StatusNoContent)
}
