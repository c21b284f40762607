package server

import "net/http"

// The sheet where the request names none, in mm.
const (
	sheetWidth  = 260
	sheetHeight = 170
)

// getScene gives a drawing whole, such as for printing.
func (s *Server) getScene(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok {
		return
	}
	sheet := readSheet(on.query)
	if on.query.refused(w) {
		return
	}
	plan, err := on.shop.View(r.Context(), on.ask, sheet.view, sheet.room, sheet.width, sheet.height)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Plan{on.stamp, plan})
}
