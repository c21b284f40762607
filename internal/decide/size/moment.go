package size

import (
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// moment is a set of tools that run together: a case of the problem.
type moment struct {
	name    string
	running []int           // pairs
	takes   map[int]float64 // kg/s by pair, as tightening found it; else by the pressure wanted
}

// findMoments lists the sets of the flows; for each tool that is to come the shop's worst
// set with it; and for each outlet where a tool is used and no set has it, the tool's own
// worst set with it there. What is part of a greater set asks for no more than that.
func (w *work) findMoments() {
	for i := range w.flow.Sets {
		w.take(&w.flow.Sets[i])
	}
	in := map[int]bool{}
	for _, x := range w.moments {
		for _, p := range x.running {
			in[p] = true
		}
	}
	for i, p := range w.model.Pairs() {
		if in[i] {
			continue
		}
		name := "worst for " + w.toolName(p.Tool) + w.at(p.Outlet)
		if p.Later {
			name = "the worst set with " + w.toolName(p.Tool) + ", which is to come"
		}
		with := []int{i}
		for _, k := range w.worstOf(p.Tool) {
			if q := w.model.Pairs()[k]; q.Tool != p.Tool && q.Outlet != p.Outlet {
				with = append(with, k)
			}
		}
		w.addMoment(name, with)
	}
	w.moments = slices.DeleteFunc(w.moments, func(x moment) bool {
		return slices.ContainsFunc(w.moments, func(y moment) bool { return len(y.running) > len(x.running) && within(x.running, y.running) })
	})
}

func within(part, whole []int) bool {
	return !slices.ContainsFunc(part, func(p int) bool { return !slices.Contains(whole, p) })
}

// worstOf is the set that is a tool's worst, else the shop's.
func (w *work) worstOf(tool job.ID) []int {
	for i := range w.flow.Tools {
		if t := &w.flow.Tools[i]; t.Tool == tool && t.Set >= 0 {
			return w.pairsOf(w.flow.Sets[t.Set].Running)
		}
	}
	if w.flow.Worst >= 0 {
		return w.pairsOf(w.flow.Sets[w.flow.Worst].Running)
	}
	return nil
}

func (w *work) pairsOf(running []job.InUse) []int {
	var out []int
	for _, u := range running {
		if p, ok := w.model.PairOf(u); ok {
			out = append(out, p.Index)
		}
	}
	return out
}

// take takes in a set of the flows; it says whether it was new.
func (w *work) take(s *flow.Set) bool { return w.addMoment(s.Name, w.pairsOf(s.Running)) }

// addMoment takes in a set that is part of none yet.
func (w *work) addMoment(name string, running []int) bool {
	slices.Sort(running)
	running = slices.Compact(running)
	if len(running) == 0 || slices.ContainsFunc(w.moments, func(x moment) bool { return within(running, x.running) }) {
		return false
	}
	w.moments = append(w.moments, moment{name: name, running: running, takes: map[int]float64{}})
	return true
}

func (w *work) toolName(id job.ID) string {
	if t := w.idx.Tool(id); t != nil && t.Name != "" {
		return cure.Within(t.Name)
	}
	return tail(id)
}

// wants is the pressure that a pair wants at the tool's inlet, Pa absolute.
func (w *work) wants(pair int) float64 {
	p := &w.model.Pairs()[pair]
	return w.need(p) + w.extra[pair]
}

// need is what a pair needs by the job and the wish, Pa absolute.
func (w *work) need(p *model.Pair) float64 {
	return float64(p.Least.Abs(w.model.Atmosphere())) + float64(w.job.RuleMargin().Value) + float64(w.wish.Reserve) - w.less[p.Index]
}

// takes is what a pair takes in a moment, kg/s, with what is wished to grow: at first at the
// pressure that it needs. Whatever does gives it that at least, so that it takes no less.
func (w *work) takes(m *moment, pair int) float64 {
	if found, ok := m.takes[pair]; ok {
		return found
	}
	p := &w.model.Pairs()[pair]
	return float64(w.model.Takes(pair, unit.AbsPressure(w.need(p)))) * (1 + w.wish.Growth)
}
