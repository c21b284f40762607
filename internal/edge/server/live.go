package server

import (
	"context"
	"net/http"
	"strconv"

	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/screen"
)

// sheet is the drawing asked for.
type sheet struct {
	view          string
	room          job.ID
	width, height float64
}

// readSheet reads view, room, w and h.
func readSheet(q *query) sheet {
	sights := draw.Sights()
	words := make([]string, 0, len(sights))
	for _, s := range sights {
		words = append(words, s.Name)
	}
	out := sheet{
		view: q.word("view", words...), room: job.ID(q.values.Get("room")),
		width: q.millimetres("w", sheetWidth), height: q.millimetres("h", sheetHeight),
	}
	if out.view == "" {
		out.view = words[0]
	}
	return out
}

// key names the question that a drawing answers.
func (s sheet) key(on shown) string {
	number := func(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
	key := ""
	for _, part := range []string{
		s.view, string(s.room), number(s.width), number(s.height),
		on.ask.Set, string(on.ask.Case), string(on.ask.System), string(on.plan),
	} {
		key += strconv.Quote(part)
	}
	return key
}

// getLive gives what changed on the drawing since a revision that the browser has.
func (s *Server) getLive(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok {
		return
	}
	sheet, since := readSheet(on.query), on.query.whole("since", 0)
	if on.query.refused(w) {
		return
	}
	live, err := s.live(r.Context(), on, sheet, since)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, live)
}

// live draws the job as it stands and tells it by what changed since, where the
// page of that revision is still at hand, else whole.
func (s *Server) live(ctx context.Context, on shown, sheet sheet, since int) (Live, error) {
	now, err := on.shop.Page(ctx, screen.Window{Ask: on.ask, View: sheet.view, Room: sheet.room, Width: sheet.width, Height: sheet.height})
	if err != nil {
		return Live{}, err
	}
	key := drawnKey{job: on.work.ID(), ask: sheet.key(on), revision: on.now.Revision}
	var had *screen.Page
	// Below the floor numbers were given anew: what a browser has of them may be another's.
	if since > 0 && since >= on.now.Floor {
		had = s.drawn.get(drawnKey{key.job, key.ask, since})
	}
	live := Live{
		Stamp: on.stamp, Undo: on.now.Undo, Redo: on.now.Redo, Made: []string{}, Saved: on.now.Saved, Trouble: s.troubled(on.now.Trouble),
	}
	if live.Live, err = now.Since(had); err != nil {
		return Live{}, err
	}
	if !live.Whole {
		live.Since = since
	}
	s.drawn.put(key, now)
	return live, nil
}
