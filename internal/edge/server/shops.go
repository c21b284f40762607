package server

import (
	"context"
	"sync"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/check"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/screen"
)

// mostShops is how many revisions of jobs are kept as screen.Shop, which knows what
// was asked of it already.
const mostShops = 12

// shops keeps the shop of each job and alternative that was last asked for.
type shops struct {
	mu   sync.Mutex
	list []shopAt // newest last
}

type shopAt struct {
	job  string
	plan job.ID
	on   *study.Study
	shop *screen.Shop
}

// of is the shop of a study.
func (s *shops) of(id string, plan job.ID, on *study.Study) *screen.Shop {
	s.mu.Lock()
	defer s.mu.Unlock()
	for i, have := range s.list {
		if have.on == on {
			s.list = append(append(s.list[:i:i], s.list[i+1:]...), have)
			return have.shop
		}
	}
	kept := s.list[:0:0]
	for _, have := range s.list {
		// An earlier revision is not asked for again.
		if have.job != id || have.plan != plan {
			kept = append(kept, have)
		}
	}
	if n := len(kept) - mostShops + 1; n > 0 {
		kept = kept[n:]
	}
	shop := screen.On(on, judge)
	s.list = append(kept, shopAt{id, plan, on, shop})
	return shop
}

// judge finds what falls short, and after it what is strange in the document but
// can be used.
func judge(ctx context.Context, s *study.Study, system unit.System) ([]job.Finding, error) {
	found, err := check.Run(ctx, s, system)
	if err != nil {
		return nil, err
	}
	return append(found, job.Validate(s.Job(), catalog.Builtin())...), nil
}
