package server

import (
	"bytes"
	"context"
	"net/http"
	"strings"
	"time"

	"dropleg/engine/unit"
	lists "dropleg/internal/show/page"
	"dropleg/internal/show/scene"
	"dropleg/internal/show/screen"
	paper "dropleg/internal/show/sheet"
)

// getSheets lists the sheets that can be printed, and the sizes of paper.
func (s *Server) getSheets(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	out := Sheets{Stamp: on.stamp, Sheets: []SheetRow{}, Papers: []screen.Choice{}, Paper: paperFor(on)}
	for _, one := range paper.All() {
		out.Sheets = append(out.Sheets, SheetRow{one.Name, one.Title, one.Audience})
	}
	for _, p := range lists.Papers() {
		out.Papers = append(out.Papers, screen.Choice{ID: p.Name, Words: p.Words})
	}
	send(w, r, out)
}

// paperFor is the size of paper usual where a job's units are.
func paperFor(on shown) string {
	if on.ask.System == unit.US || on.ask.System == "" && on.now.Study.Job().Site.Units == string(unit.US) {
		return "letter"
	}
	return lists.Papers()[0].Name
}

// mostStamped is how long a name in a title block may be.
const mostStamped = 120

// maker reads what was chosen for the sheets; it answers itself where that cannot be used.
func (s *Server) maker(w http.ResponseWriter, r *http.Request) (m *paper.Maker, on shown, ok bool) {
	on, ok = s.open(w, r)
	if !ok {
		return nil, on, false
	}
	var names []string
	for _, p := range lists.Papers() {
		names = append(names, p.Name)
	}
	size := on.query.word("paper", names...)
	if size == "" {
		size = paperFor(on)
	}
	typed := func(key string) string {
		text := on.query.values.Get(key)
		if len(text) > mostStamped {
			on.query.wrong = append(on.query.wrong, key+": too long for a title block")
		}
		return text
	}
	now := time.Now()
	o := paper.Options{
		By: typed("by"), Mark: typed("mark"), Revision: typed("revision"), System: on.ask.System,
		Date: time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC),
	}
	if s.network != nil {
		o.Page = s.network.base() + "/job/" + on.work.ID()
	}
	o.Paper, _ = lists.PaperOf(size)
	against := on.query.whole("against", noRevision)
	if on.query.refused(w) {
		return nil, on, false
	}
	var err error
	if o.Before, err = s.earlier(r.Context(), on, against); err != nil {
		failWith(w, r, err)
		return nil, on, false
	}
	m, err = paper.On(r.Context(), on.shop, o)
	if err != nil {
		failWith(w, r, err)
		return nil, on, false
	}
	return m, on, true
}

// earlier is the state that the variation order is told from; nil for none.
func (s *Server) earlier(ctx context.Context, on shown, revision int) (*paper.Earlier, error) {
	before, err := s.pasts.before(ctx, on, revision)
	if before == nil || err != nil {
		return nil, err
	}
	words, err := stateWords(ctx, on, revision)
	return &paper.Earlier{Study: before, Words: words}, err
}

// getLeaf shows one leaf of a sheet.
func (s *Server) getLeaf(w http.ResponseWriter, r *http.Request) {
	m, on, ok := s.maker(w, r)
	if !ok {
		return
	}
	at := on.query.whole("leaf", 1)
	if on.query.refused(w) {
		return
	}
	made, err := m.Make(r.Context(), []string{r.PathValue("sheet")})
	if err != nil {
		failWith(w, r, err)
		return
	}
	out := SheetLeaf{Stamp: on.stamp, Title: made[0].Sheet.Title, Missing: made[0].Missing}
	if out.Missing == "" {
		leaves := m.Leaves(made[0])
		out.Leaves, out.Leaf = len(leaves), min(max(at, 1), len(leaves))
		var b bytes.Buffer
		if err := scene.WriteLeafSVG(&b, leaves[out.Leaf-1], scene.Print()); err != nil {
			failWith(w, r, err)
			return
		}
		out.SVG = b.String()
	}
	send(w, r, out)
}

// getBook gives the job book, one sheet, or all files in an archive: job-book.pdf, plan.pdf,
// job-book.zip; only names some sheets, show=yes lets the browser open it.
func (s *Server) getBook(w http.ResponseWriter, r *http.Request) {
	m, on, ok := s.maker(w, r)
	if !ok {
		return
	}
	var only []string
	if text := on.query.values.Get("only"); text != "" {
		only = strings.Split(text, ",")
	}
	file := r.PathValue("file")
	name, form, _ := strings.Cut(file, ".")
	if name != "job-book" {
		only = []string{name}
	}
	handed := "attachment"
	if on.query.word("show", "yes") != "" {
		handed = "inline"
	}
	if on.query.refused(w) {
		return
	}
	data, kind, err := bookFile(r, m, form, only)
	if err != nil {
		failWith(w, r, err)
		return
	}
	if kind == "" {
		failWith(w, r, &screen.NotThere{ID: file})
		return
	}
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Disposition", handed+`; filename="`+file+`"`)
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(data) // the reader has gone: nobody to tell
}

// bookFile makes a file in a form; kind is "" where the form is unknown, or nothing stands on
// the sheets.
func bookFile(r *http.Request, m *paper.Maker, form string, only []string) (data []byte, kind string, err error) {
	switch form {
	case "pdf":
		made, err := m.Make(r.Context(), only)
		if err != nil {
			return nil, "", err
		}
		if len(made) == 1 && made[0].Missing != "" {
			return nil, "", nil
		}
		data, err = m.PDF(made)
		return data, "application/pdf", err
	case "zip":
		book, err := m.Write(r.Context(), only)
		if err != nil {
			return nil, "", err
		}
		data, err = m.Zip(book.Files)
		return data, "application/zip", err
	}
	return nil, "", nil
}
