package server

import (
	"context"
	"fmt"
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
	against := on.query.whole("against", noRevision)
	if on.query.refused(w) {
		return
	}
	before, err := s.pasts.before(r.Context(), on, against)
	if err != nil {
		failWith(w, r, err)
		return
	}
	quotation, err := on.shop.Quotation(r.Context(), on.ask, before)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Quote{Stamp: on.stamp, Quotation: quotation})
}

// noRevision is where none is asked for.
const noRevision = -1

// before is the state that a variation is told from: the job itself, without what an
// alternative changes; nil where no revision is asked for.
func (p *pasts) before(ctx context.Context, on shown, revision int) (*study.Study, error) {
	if revision == noRevision {
		return nil, nil
	}
	return p.at(ctx, on.work, revision, on.now.Floor)
}

// stateWords say which revision it is, on paper.
func stateWords(ctx context.Context, on shown, revision int) (string, error) {
	switch {
	case revision == 0:
		return "the beginning", nil
	case revision == on.now.Revision && on.plan != "":
		return "the job without this alternative", nil
	}
	steps, err := on.work.History(ctx, revision+1, 1)
	if err != nil || len(steps) == 0 {
		return fmt.Sprintf("state %d", revision), err
	}
	return fmt.Sprintf("state %d of %s", revision, steps[0].When.Local().Format("2 January 2006")), nil
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
