package size

import (
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// endKey is the end of a main in a moment: an element of the study as it stands.
type endKey struct{ element, moment int }

// endWish is a pressure, Pa absolute, that is wanted at the end of a main.
type endWish struct {
	endKey
	pressure float64
}

// marks tells the cases of a place apart by what is wanted at the ends of its mains; nil
// where nothing is.
func (f *frame) marks(p *place) []float64 {
	var out []float64
	mark := func(link int) {
		for c := range f.moments {
			if end := f.ends[endKey{link, c}]; end > 0 {
				if out == nil {
					out = make([]float64, len(f.moments))
				}
				out[c] += end
			}
		}
	}
	for _, h := range p.links {
		mark(h.link)
	}
	if p.ring != nil {
		for _, l := range p.ring.links {
			mark(l)
		}
	}
	return out
}

// judgeMains holds what the mains lose on the way to each tool of a moment to the rule of
// the job, as check does: lines that are mains or rings and the fittings up to the last of
// them, treatment left out. Where it is more, the end of the last is to have so much more.
func (w *work) judgeMains(v *verdict, moment int, m *model.Model, r *model.Result) {
	limit := float64(w.job.RuleMainLoss().Value)
	if w.slackMains || limit <= 0 || !r.Solved {
		return
	}
	for _, pair := range w.moments[moment].running {
		base := &w.model.Pairs()[pair]
		p, ok := m.PairOf(job.InUse{Tool: base.Tool, Outlet: base.Outlet})
		if !ok || !r.Tools[p.Index].Known {
			continue
		}
		path := m.Path(r, p.Index)
		last, lost := lossInMains(m, path)
		if last < 0 || lost <= limit+unseen {
			continue
		}
		at, ok := namesOf(w.model)[nameOf(&m.Elements()[path[last].Element])]
		if !ok || w.choiceOf[at] < 0 {
			continue
		}
		out := float64(path[last].Out)
		v.mains = append(v.mains, endWish{endKey{at, moment}, out + lost - limit + lackMore})
	}
}

// lossInMains is the last step of a way that is a main, and what all mains and fittings up
// to it lose, Pa; -1 for no main.
func lossInMains(m *model.Model, path []model.Step) (last int, lost float64) {
	last = -1
	sum := 0.0
	for i := range path {
		e := &m.Elements()[path[i].Element]
		main := e.Thing == model.ThingLine && (e.Role == "main" || e.Role == "ring")
		if loss := float64(path[i].Loss); loss > 0 && (main || e.Thing == model.ThingFitting) {
			sum += loss
		}
		if main {
			last, lost = i, sum
		}
	}
	return last, lost
}
