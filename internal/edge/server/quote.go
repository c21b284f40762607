package server

import (
	"context"
	"net/http"
	"sync"

	"dropleg/internal/answer/study"
	"dropleg/internal/edge/desk"
)

// getQuote tells what it costs to have the job done; against is an earlier revision of the
// job itself, to tell the variation from.
func (s *Server) getQuote(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok {
		return
	}
	const none = -1
	against := on.query.whole("against", none)
	if on.query.refused(w) {
		return
	}
	var before *study.Study
	var err error
	if against != none {
		before, err = s.pasts.at(r.Context(), on.work, against, on.now.Floor)
	}
	if err != nil {
		failWith(w, r, err)
		return
	}
	quotation, err := on.shop.Quotation(r.Context(), on.ask, before)
	if err != nil {
		failWith(w, r, err)
		return
	}
	answer := Quote{Stamp: on.stamp, Quotation: quotation}
	if against != none {
		if answer.Against, err = stateOf(r.Context(), on.work, against); err != nil {
			failWith(w, r, err)
			return
		}
	}
	send(w, r, answer)
}

// stateOf tells when a revision came to be.
func stateOf(ctx context.Context, work *desk.Work, revision int) (*Against, error) {
	out := &Against{Revision: revision}
	if revision == 0 {
		return out, nil
	}
	steps, err := work.History(ctx, revision+1, 1)
	if err != nil {
		return nil, err
	}
	if len(steps) > 0 {
		out.When = moment(steps[0].When)
	}
	return out, nil
}

// mostPasts is how many earlier revisions are kept as studies: one that a variation is told
// from is asked for again after every edit.
const mostPasts = 4

// pasts keeps the earlier revisions that were last asked for.
type pasts struct {
	mu   sync.Mutex
	list []past // newest last
}

type past struct {
	job             string
	revision, floor int
	study           *study.Study
}

// at is a job as it stood after a revision; floor is that of the numbers, see desk.Now.
func (p *pasts) at(ctx context.Context, work *desk.Work, revision, floor int) (*study.Study, error) {
	p.mu.Lock()
	for _, have := range p.list {
		if have.job == work.ID() && have.revision == revision && have.floor == floor {
			p.mu.Unlock()
			return have.study, nil
		}
	}
	p.mu.Unlock()
	then, err := work.At(ctx, revision)
	if err != nil {
		return nil, err
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.list = append(p.list[max(0, len(p.list)-mostPasts+1):], past{work.ID(), revision, floor, then})
	return then, nil
}
