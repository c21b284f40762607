package day

import (
	"context"
	"math"
	"sync"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/answer/demand"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// shop is what all days of a job have in common.
type shop struct {
	m      *model.Model
	plant  Plant
	stand  []place // by Plant.Vessels; one where there is only one store
	rota   Rota
	places []job.ID       // outlets by place
	at     map[job.ID]int // place of an outlet
	tools  []job.ID       // of Course.Tools
	number map[job.ID]int // of a tool
	users  [][]int        // tool number by actor and member
	leak   float64        // kg/s at cut-in
	purge  float64        // kg/s that dryers behind the receivers blow off, all day
	low    float64        // lowest cut-in, Pa abs
	high   float64        // highest cut-out, Pa abs
	atm    float64
	mu     *sync.Mutex
	tables map[string]*entry
	apart  *apart // nil: every set is solved
}

func newShop(ctx context.Context, j *job.Job, m *model.Model) (*shop, string) {
	s := &shop{m: m, atm: float64(m.Atmosphere()), at: map[job.ID]int{}, number: map[job.ID]int{}, mu: new(sync.Mutex), tables: map[string]*entry{}}
	s.low, s.high = math.Inf(1), 0
	if len(m.Sources()) == 0 {
		return nil, "no compressor feeds the net"
	}
	delivered := 0.0
	for _, c := range m.Compressors() {
		k := Machine{
			Name: string(c.ID), Flow: float64(air.Mass(c.FreeAir)), CutIn: float64(c.CutIn) + s.atm, CutOut: float64(c.CutOut) + s.atm,
			Control: Control(c.Control), Least: slowest, RunOn: runOn,
		}
		delivered += k.Flow
		s.low, s.high = min(s.low, k.CutIn), max(s.high, k.CutOut)
		s.plant.Machines = append(s.plant.Machines, k)
	}
	if delivered <= 0 {
		return nil, "what the compressor delivers is not known"
	}
	s.leak = delivered * float64(j.RuleLeak().Value)
	s.purges(delivered)
	if why := s.stores(ctx); why != "" {
		return nil, why
	}
	if err := s.plant.check(); err != nil {
		return nil, err.Error()
	}
	s.cast(j.Work.Crew)
	return s, ""
}

// purges takes off what dryers blow off to dry themselves: before the receivers from what
// the compressors deliver, each by its share, while they do; behind them all day.
func (s *shop) purges(delivered float64) {
	for _, d := range s.m.Dryers() {
		if !d.Regenerates {
			continue
		}
		kg := model.PurgeShare * float64(air.Mass(d.Rated))
		if !d.Delivery {
			s.purge += kg
			continue
		}
		for i := range s.plant.Machines {
			s.plant.Machines[i].Flow *= max(0, 1-kg/delivered)
		}
	}
}

// held is the case of tools that run while the store stands at p, Pa abs.
func (s *shop) held(running []job.InUse, p float64) model.Case {
	return model.Case{Running: running, Supply: model.CutIn, Held: s.m.HeldAt(unit.GaugePressure(p - s.atm)), Idle: true, Ends: true}
}

// leastBurst is the shortest use of a tool, s, the pull of a nailer's trigger: common
// practice, no source.
const leastBurst = 0.1

// cast reads who comes and goes.
func (s *shop) cast(crew int) {
	s.rota.Crew = crew
	for _, a := range demand.Actors(s.m, crew) {
		actor := Actor{Odds: a.Odds, Burst: max(float64(a.Burst), leastBurst), Hands: len(a.Tools), Bars: a.Bars}
		for _, spell := range a.Spells {
			actor.Spells = append(actor.Spells, [2]float64{float64(spell.From), float64(spell.To)})
		}
		var users []int
		for _, u := range a.Tools {
			n, ok := s.number[u.Tool]
			if !ok {
				n = len(s.tools)
				s.number[u.Tool] = n
				s.tools = append(s.tools, u.Tool)
			}
			users = append(users, n)
			choice := make([]int, len(u.Outlets))
			for i, outlet := range u.Outlets {
				choice[i] = s.place(outlet)
			}
			actor.Tools = append(actor.Tools, choice)
		}
		s.rota.Actors = append(s.rota.Actors, actor)
		s.users = append(s.users, users)
	}
}

func (s *shop) place(outlet job.ID) int {
	i, ok := s.at[outlet]
	if !ok {
		i = len(s.places)
		s.at[outlet] = i
		s.places = append(s.places, outlet)
	}
	return i
}
