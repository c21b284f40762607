package route

import (
	"context"
	"math"

	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/study"
)

// gained is by how much the tool that is worst off gains by the ring.
func gained(ctx context.Context, s *study.Study, tree, ring Proposal) (float64, bool, error) {
	var worst [2]float64
	for i, p := range []Proposal{tree, ring} {
		after, err := s.After(p.Edit)
		if err != nil {
			return 0, false, err
		}
		f, err := after.Flow(ctx)
		if err != nil {
			return 0, false, err
		}
		least, ok := worstOf(f)
		if !ok {
			return 0, false, nil
		}
		worst[i] = least
	}
	return worst[1] - worst[0], true, nil
}

// worstOf is the pressure over its need of the tool that is worst off at cut-in.
func worstOf(f *flow.Answer) (float64, bool) {
	least, ok := math.Inf(1), false
	for i := range f.Sets {
		for _, t := range f.Sets[i].CutIn.Tools {
			if t.Known {
				least, ok = math.Min(least, float64(t.Margin)), true
			}
		}
	}
	return least, ok
}
