package find

import (
	"context"
	"slices"
	"strings"

	"dropleg/internal/shop/job"
)

// foresight is what is known of one set of tools while readings are planned, the
// receiver at mid band. It does not change with the readings, and is kept.
type foresight struct {
	sound []prediction      // by place
	takes map[int][]float64 // by single trial: what it takes away, by place, Pa; nil: no answer
}

// foreseen predicts the readings of one moment under a trial. Two faults are taken to
// take away what each takes: near enough to choose a reading by.
func (f *Finder) foreseen(ctx context.Context, of []Reading, t *trial) ([]prediction, error) {
	s, err := f.foresightOf(ctx, of[0].Running)
	if err != nil {
		return nil, err
	}
	out := make([]prediction, len(of))
	for i := range of {
		out[i] = s.sound[slices.Index(f.places, of[i].Place)]
	}
	for k, c := range t.causes {
		if c < 0 {
			continue
		}
		takes, err := f.takes(ctx, s, of[0].Running, c, t.faults[k])
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

func (f *Finder) foresightOf(ctx context.Context, running []job.InUse) (*foresight, error) {
	var key strings.Builder
	for _, u := range running {
		key.WriteString(string(u.Tool) + "@" + string(u.Outlet) + " ")
	}
	if s := f.plan[key.String()]; s != nil {
		return s, nil
	}
	r := f.atRest(running)
	sound, err := f.rig.predictAt(ctx, &r, f.sound().faults, f.nodes())
	if err != nil {
		return nil, err
	}
	s := &foresight{sound: sound, takes: map[int][]float64{}}
	f.plan[key.String()] = s
	return s, nil
}

// takes is what one fault takes away from the reading at each place.
func (f *Finder) takes(ctx context.Context, s *foresight, running []job.InUse, cause int, x fault) ([]float64, error) {
	c := &f.causes[cause]
	single := f.ladder[c.group] + slices.Index(c.rungs, x.size)
	if takes, had := s.takes[single]; had {
		return takes, nil
	}
	r := f.atRest(running)
	means, err := f.rig.means(ctx, &r, x, f.nodes())
	if err != nil {
		return nil, err
	}
	for i := range means {
		if s.sound[i].known {
			means[i] = s.sound[i].mean - means[i]
		}
	}
	s.takes[single] = means
	return means, nil
}

// atRest is a reading that is planned, the receiver at mid band.
func (f *Finder) atRest(running []job.InUse) Reading {
	return Reading{Kind: Pressure, Running: running, Receiver: f.rig.middle()}
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
