package server

import (
	"net/http"

	"dropleg/internal/answer/study"
	"dropleg/internal/decide/extend"
	"dropleg/internal/decide/plan"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/screen"
)

// postProposals works out ways to lay the shop out, and changes nothing. The answer is
// one JSON to the line: how far it is, again and again, and at last what came of it.
// Who hangs up ends the work.
func (s *Server) postProposals(w http.ResponseWriter, r *http.Request) {
	var body ProposeBody
	if !readJSON(w, r, &body) {
		return
	}
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	if !body.Lines && !body.Sizes {
		fail(w, http.StatusBadRequest, "the request cannot be used", "want lines, sizes or both")
		return
	}
	if !(body.Growth >= 0 && body.Growth <= 3) {
		fail(w, http.StatusBadRequest, "the request cannot be used", "growth: want a share from 0 to 3")
		return
	}
	wish := plan.Wish{Lines: body.Lines, Sizes: body.Sizes, Keep: body.Keep, Growth: body.Growth}
	for _, id := range body.Only {
		wish.Only = append(wish.Only, job.ID(id))
	}
	tellProposals(w, on, func(progress plan.Progress) (screen.Proposals, []*study.Study, error) {
		found, list, err := on.shop.Propose(r.Context(), on.ask, wish, progress)
		var after []*study.Study
		for i := range list {
			after = append(after, list[i].After)
		}
		return found, after, err
	})
}

// postExtensions works out what comes with something that is added to lines that stand, and
// changes nothing. The answer is as that of postProposals.
func (s *Server) postExtensions(w http.ResponseWriter, r *http.Request) {
	var wish extend.Wish
	if !readJSON(w, r, &wish) {
		return
	}
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	tellProposals(w, on, func(progress plan.Progress) (screen.Proposals, []*study.Study, error) {
		return on.shop.Extend(r.Context(), on.ask, wish, progress)
	})
}

// tellProposals writes how far it is, line by line, and what came of it, with small drawings.
func tellProposals(w http.ResponseWriter, on shown, propose func(plan.Progress) (screen.Proposals, []*study.Study, error)) {
	say := lines[Proposed](w)
	found, after, err := propose(func(doing string, done, total int) {
		say(Proposed{Stamp: on.stamp, Doing: doing, Done: done, Total: total})
	})
	if err != nil {
		say(Proposed{Stamp: on.stamp, Fault: err.Error()})
		return
	}
	for i := range after {
		found.Rows[i].SVG = string(Thumb(after[i]))
	}
	say(Proposed{Stamp: on.stamp, Found: &found})
}
