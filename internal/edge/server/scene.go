package server

import "net/http"

// The sheet where the request names none, in mm.
const (
	sheetWidth  = 260
	sheetHeight = 170
)

func (s *Server) getScene(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok {
		return
	}
	on.query.word("view", "plan")
	width, height := on.query.millimetres("w", sheetWidth), on.query.millimetres("h", sheetHeight)
	if on.query.refused(w) {
		return
	}
	plan, err := on.shop.Plan(r.Context(), on.ask, width, height)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Plan{on.stamp, plan})
}
