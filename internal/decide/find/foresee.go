package find

import (
	"context"
	"fmt"
	"slices"

	"dropleg/internal/shop/job"
)

// foresight is what is known of one set of tools and where the receiver
// stands, while readings are planned. It does not change with the readings, and is kept.
type foresight struct {
	sound []prediction        // by place
	takes map[fault][]float64 // what it takes away, by place, Pa; nil: no answer
}

// foreseen predicts the readings of one moment under a trial. Two faults are taken to
// take away what each takes: near enough to choose a reading by.
func (f *Finder) foreseen(ctx context.Context, of []Reading, t *trial) ([]prediction, error) {
	s, err := f.foresightOf(ctx, &of[0])
	if err != nil {
		return nil, err
	}
	out := make([]prediction, len(of))
	for i := range of {
		out[i] = s.sound[slices.Index(f.places, of[i].Place)]
	}
	for k, c := range t.causes {
		if c < 0 || f.gone(c) {
			continue
		}
		takes, err := f.takes(ctx, s, &of[0], t.faults[k])
		if err != nil {
			return nil, err
		}
		for i := range of {
			if takes == nil {
				out[i].known = false
				continue
			}
			out[i].mean -= takes[slices.Index(f.places, of[i].Place)]
		}
	}
	return out, nil
}

func (f *Finder) foresightOf(ctx context.Context, of *Reading) (*foresight, error) {
	key := fmt.Sprintf("%s %.0f", job.KeyOf(of.Running), float64(of.Receiver))
	if s := f.plan[key]; s != nil {
		return s, nil
	}
	r := planned(of)
	sound, err := f.rig.predictAt(ctx, &r, f.sound().faults, f.nodes())
	if err != nil {
		return nil, err
	}
	s := &foresight{sound: sound, takes: map[fault][]float64{}}
	f.plan[key] = s
	return s, nil
}

// takes is what one fault takes away from the reading at each place.
func (f *Finder) takes(ctx context.Context, s *foresight, of *Reading, x fault) ([]float64, error) {
	if takes, had := s.takes[x]; had {
		return takes, nil
	}
	r := planned(of)
	means, err := f.rig.means(ctx, &r, x, f.nodes())
	if err != nil {
		return nil, err
	}
	for i := range means {
		if s.sound[i].known {
			means[i] = s.sound[i].mean - means[i]
		}
	}
	s.takes[x] = means
	return means, nil
}

// planned is a reading that is planned, wherever the gauge sits.
func planned(of *Reading) Reading {
	return Reading{Kind: Pressure, Running: of.Running, Receiver: of.Receiver, Stopped: of.Stopped}
}

// nodes are those of the places.
func (f *Finder) nodes() []int {
	out := make([]int, len(f.places))
	for i, p := range f.places {
		out[i] = nodeOf(f.rig.m, p)
	}
	return out
}

// means is the pressure at nodes with a fault put in, Pa gauge; nil where the network
// has no answer.
func (r *rig) means(ctx context.Context, rd *Reading, x fault, nodes []int) ([]float64, error) {
	mo, err := r.at(ctx, rd.Running, rd.Receiver)
	if err != nil {
		return nil, err
	}
	state, parts := mo.sound, []fault{x}
	if r.acts(mo, parts) {
		state, err = r.solve(ctx, mo, parts)
		defer r.take(mo, parts)
	}
	if state == nil || err != nil {
		return nil, err
	}
	out := make([]float64, len(nodes))
	for i, n := range nodes {
		if n >= 0 {
			out[i] = state.Pressure[n] - r.atm
		}
	}
	return out, nil
}
