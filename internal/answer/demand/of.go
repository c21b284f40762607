package demand

import (
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// litre is the grid of the flow's distribution: 1 L/min, in m³/s.
const litre = 1e-3 / 60

// levels are the shares of time whose flow is told.
var levels = [...]float64{0.5, 0.9, 0.99, 0.999}

// Of says who runs together in a job, m being its model.
func Of(j *job.Job, m *model.Model) *Answer {
	a := &Answer{Rare: float64(j.RuleRare().Value), Crew: j.Work.Crew}
	c := newCast(m, a)
	w := c.crowd(a.Crew)
	a.number(c, w)
	flows := FlowsOf(w.parts, litre, a.Crew)
	a.Within = unit.FreeAir(flows.Within)
	a.Mean, a.SD = unit.FreeAir(flows.Mean()), unit.FreeAir(flows.SD())
	for _, s := range levels {
		a.Levels = append(a.Levels, Level{Share: s, Flow: unit.FreeAir(flows.Level(s))})
	}
	for _, o := range c.all {
		a.All += c.tools[o.tool].FreeAir
	}
	for i := range j.Work.Sets {
		a.Sets = append(a.Sets, named(m, &j.Work.Sets[i]))
	}
	a.Sets = append(a.Sets, c.worst(m, a.Together, "")...)
	return a
}

// number fills in how many run at once.
func (a *Answer) number(c *cast, w *crowd) {
	a.Chance = Numbers(w.parts, a.Crew)
	a.Cut = w.cut
	a.Together = Together(a.Chance, a.Rare)
	if len(c.all) > 0 {
		a.Together = max(1, a.Together)
	}
	if a.Crew > 0 {
		a.Together = min(a.Together, a.Crew)
	}
}

// One is the set of a key (Set.Key) by itself, just as Of has it among the others
// but without their cost; ok is false where Of has none of that key.
func One(j *job.Job, m *model.Model, key string) (set Set, ok bool) {
	for i := range j.Work.Sets {
		if string(j.Work.Sets[i].ID) == key {
			return named(m, &j.Work.Sets[i]), true
		}
	}
	for _, t := range m.Tools() {
		if key != keyOf(Worst, t.ID) && key != keyOf(Alone, t.ID) {
			continue
		}
		a := &Answer{Rare: float64(j.RuleRare().Value), Crew: j.Work.Crew}
		c := newCast(m, a)
		a.number(c, c.crowd(a.Crew))
		for _, s := range c.worst(m, a.Together, t.ID) {
			if s.Key() == key {
				return s, true
			}
		}
	}
	return Set{}, false
}

// named is a set of the job as it stands.
func named(m *model.Model, s *job.Set) Set {
	out := Set{ID: s.ID, Name: s.Name, Why: Named, Running: s.Running, Words: "named in the job"}
	for _, use := range s.Running {
		if p, ok := m.PairOf(use); ok {
			out.Rated += p.FreeAir
		}
	}
	return out
}
