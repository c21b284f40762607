package server

import (
	"bytes"
	"net/http"
	"strings"

	lists "dropleg/internal/show/page"
	"dropleg/internal/show/screen"
)

// getPurchase tells what to buy and what to cut.
func (s *Server) getPurchase(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	purchase, err := on.shop.Purchase(r.Context(), on.ask)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Purchase{on.stamp, purchase})
}

// getList gives a list as a file to keep: buy.csv (RFC 4180), or buy.xlsx with the lists
// that belong to it.
func (s *Server) getList(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	file := r.PathValue("list")
	name, form, _ := strings.Cut(file, ".")
	var b bytes.Buffer
	media := ""
	var err error
	switch form {
	case "csv":
		media = "text/csv; charset=utf-8"
		var sheet lists.Sheet
		if sheet, err = on.shop.List(r.Context(), name); err == nil {
			err = lists.WriteCSV(&b, sheet)
		}
	case "xlsx":
		media = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
		var sheets []lists.Sheet
		if sheets, err = on.shop.Book(r.Context(), name); err == nil {
			err = lists.WriteXLSX(&b, on.now.Study.Job().Title, sheets...)
		}
	default:
		err = &screen.NotThere{ID: file}
	}
	if err != nil {
		failWith(w, r, err)
		return
	}
	w.Header().Set("Content-Type", media)
	w.Header().Set("Content-Disposition", `attachment; filename="`+file+`"`)
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(b.Bytes()) // the reader has gone: nobody to tell
}
