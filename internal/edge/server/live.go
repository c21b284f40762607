package server

import (
	"context"
	"net/http"
	"strconv"

	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/screen"
)

// sheet is the drawing asked for.
type sheet struct {
	view          string
	room          job.ID
	width, height float64
	supports      bool
}

// readSheet reads view, room, w, h and supports.
func readSheet(q *query) sheet {
	sights := draw.Sights()
	words := make([]string, 0, len(sights))
	for _, s := range sights {
		words = append(words, s.Name)
	}
	out := sheet{
		view: q.word("view", words...), room: job.ID(q.values.Get("room")),
		width: q.millimetres("w", sheetWidth), height: q.millimetres("h", sheetHeight),
		supports: q.word("supports", "yes") != "",
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
		s.view, string(s.room), number(s.width), number(s.height), strconv.FormatBool(s.supports),
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
	live, err := s.live(r.Context(), on, sheet, since, early{})
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, live)
}

// early is a page that was begun before its study was anybody's; none where study
// is nil.
type early struct {
	study *study.Study
	page  chan *screen.Page // gives it once; nil where it could not be drawn
}

// begin draws the page of a study in the background, until ctx ends.
func (s *Server) begin(ctx context.Context, on shown, sheet sheet, next *study.Study) early {
	e := early{next, make(chan *screen.Page, 1)}
	shop := s.shops.of(on.work.ID(), on.plan, next)
	go func() {
		// What is wrong is found again, and told, by whoever draws it in the end.
		page, _ := shop.Page(ctx, sheet.window(on))
		e.page <- page
	}()
	return e
}

// window is what of a shop is looked at.
func (s sheet) window(on shown) screen.Window {
	return screen.Window{Ask: on.ask, View: s.view, Room: s.room, Width: s.width, Height: s.height, Supports: s.supports}
}

// live draws the job as it stands and tells it by what changed since, where the
// page of that revision is still at hand, else whole.
func (s *Server) live(ctx context.Context, on shown, sheet sheet, since int, begun early) (Live, error) {
	var now *screen.Page
	if begun.study == on.now.Study {
		now = <-begun.page
	}
	if now == nil {
		var err error
		if now, err = on.shop.Page(ctx, sheet.window(on)); err != nil {
			return Live{}, err
		}
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
	var err error
	if live.Live, err = now.Since(had); err != nil {
		return Live{}, err
	}
	if !live.Whole {
		live.Since = since
	}
	s.drawn.put(key, now)
	return live, nil
}
