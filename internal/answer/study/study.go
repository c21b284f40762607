package study

import (
	"context"

	"dropleg/internal/answer/day"
	"dropleg/internal/answer/demand"
	"dropleg/internal/answer/energy"
	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/hold"
	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/purchase"
	"dropleg/internal/answer/water"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Study is one revision of a job and all that is computed from it.
type Study struct {
	job   *job.Job
	base  *catalog.Catalog // as given
	shelf *catalog.Catalog // with the job's own rows on top

	index    once[*job.Index]
	model    once[*model.Model]
	demand   once[*demand.Answer]
	flow     once[*flow.Answer]
	parts    once[*parts.Answer]
	steady   once[*day.Answer]
	few      once[*day.Answer]
	wet      once[*water.Answer]
	hold     once[*hold.Answer]
	purchase once[*purchase.Answer]
	year     once[*energy.Answer]
	states   states
	start    model.Start // where the solver may begin to look
	starts   []began     // the same for State
	worst    string      // key of the set that was the shop's worst; "": not known
	before   *day.Answer // days of an earlier revision; nil: not known
}

// Of is the study of a job; nothing is computed before it is asked for. The
// job should be valid (job.Validate). Its own catalogue rows go on top of the
// shelf; those that cannot be used are left out, as Validate tells.
func Of(j *job.Job, shelf *catalog.Catalog) *Study {
	own, _ := shelf.With(j.Catalogue)
	return &Study{job: j, base: shelf, shelf: own}
}

// Job is the revision studied.
func (s *Study) Job() *job.Job { return s.job }

// Catalog is what the job is read by, its own rows on top.
func (s *Study) Catalog() *catalog.Catalog { return s.shelf }

// Index finds the things of the job by id.
func (s *Study) Index() *job.Index {
	// Indexing cannot fail and takes no time worth cancelling.
	ix, _ := s.index.get(context.Background(), func(context.Context) (*job.Index, error) { return job.NewIndex(s.job), nil })
	return ix
}

// Model is the job as a network, with what it found and assumed.
func (s *Study) Model(ctx context.Context) (*model.Model, error) {
	return s.model.get(ctx, func(context.Context) (*model.Model, error) {
		m, _ := model.Build(s.job, s.shelf)
		return m, nil
	})
}

// Demand is who runs together.
func (s *Study) Demand(ctx context.Context) (*demand.Answer, error) {
	return s.demand.get(ctx, func(ctx context.Context) (*demand.Answer, error) {
		m, err := s.Model(ctx)
		if err != nil {
			return nil, err
		}
		return demand.Of(s.job, m), nil
	})
}

// Flow is pressures and flows of every set.
func (s *Study) Flow(ctx context.Context) (*flow.Answer, error) {
	return s.flow.get(ctx, func(ctx context.Context) (*flow.Answer, error) {
		m, err := s.Model(ctx)
		if err != nil {
			return nil, err
		}
		d, err := s.Demand(ctx)
		if err != nil {
			return nil, err
		}
		return flow.Of(ctx, s.job, m, d, s.start)
	})
}
