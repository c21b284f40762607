package study

import (
	"context"
	"sync"

	"dropleg/internal/answer/day"
)

// How well the days that are kept are known.
const (
	// HalfPoint is how well each tool's share of time short of pressure is to be known, 95 %.
	HalfPoint = 0.005
	// MostDays ends the days where that is not reached.
	MostDays = 200
	// FewDays tell how things stand, at a glance: a coarse answer while the other is worked out.
	FewDays = 4
)

// firstSeed is the number by which days are drawn where nobody gives one: the same job has
// the same days.
const firstSeed = 1

// Day is working days of the shop, as asked. It is not kept: what is asked differs
// from one time to the next.
func (s *Study) Day(ctx context.Context, ask day.Ask) (*day.Answer, error) {
	m, err := s.Model(ctx)
	if err != nil {
		return nil, err
	}
	return day.Of(ctx, s.job, m, ask)
}

// Steady is as many working days as tell each tool's share of time short of pressure to
// HalfPoint, with what would do where that is not enough, and the course of the first day.
func (s *Study) Steady(ctx context.Context) (*day.Answer, error) {
	return s.steady.get(ctx, func(ctx context.Context) (*day.Answer, error) {
		return s.Day(ctx, day.Ask{Seed: firstSeed, Days: MostDays, Within: HalfPoint, Trace: true, Remedies: true})
	})
}

// Few is FewDays alone, with the course of the first, all receivers as one store.
func (s *Study) Few(ctx context.Context) (*day.Answer, error) {
	return s.few.get(ctx, func(ctx context.Context) (*day.Answer, error) {
		return s.Day(ctx, day.Ask{Seed: firstSeed, Days: FewDays, Trace: true, AsOne: true})
	})
}

// Rough is how things stand at once: Steady where that stands already, else Few.
func (s *Study) Rough(ctx context.Context) (*day.Answer, error) {
	if a, ok := s.steady.peek(); ok {
		return a, nil
	}
	return s.Few(ctx)
}

// Ahead begins what Rough gives while other answers are asked for, which leaves fewer cores
// idle; wait ends when it is there, or ctx is done. What fails is told to who asks for it.
func (s *Study) Ahead(ctx context.Context) (wait func()) {
	var wg sync.WaitGroup
	wg.Go(func() { _, _ = s.Rough(ctx) })
	return wg.Wait
}

// Work is about how much there is to working Few days through: tools at outlets times elements
// of the network, some 40 µs each.
func (s *Study) Work(ctx context.Context) (int, error) {
	m, err := s.Model(ctx)
	if err != nil {
		return 0, err
	}
	return len(m.Pairs()) * len(m.Elements()), nil
}
