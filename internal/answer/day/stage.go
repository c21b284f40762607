package day

import (
	"math/rand/v2"
	"slices"
)

// stage is who runs, and where.
type stage struct {
	rota  Rota
	on    []bool
	where [][]int
	taken map[int]bool // places
	hands int
}

func newStage(r Rota) *stage {
	return &stage{rota: r, on: make([]bool, len(r.Actors)), where: make([][]int, len(r.Actors)), taken: map[int]bool{}}
}

// start lets an actor begin if it may: nobody who runs bars it, enough hands are free,
// and each of its tools finds a free place, any of them alike.
func (s *stage) start(rng *rand.Rand, who int) bool {
	a := s.rota.Actors[who]
	for _, k := range a.Bars {
		if s.on[k] {
			return false
		}
	}
	if s.rota.Crew > 0 && s.hands+a.Hands > s.rota.Crew {
		return false
	}
	places := make([]int, 0, len(a.Tools))
	for _, choice := range a.Tools {
		var free []int
		for _, place := range choice {
			if !s.taken[place] && !slices.Contains(places, place) {
				free = append(free, place)
			}
		}
		if len(free) == 0 {
			return false
		}
		places = append(places, free[rng.IntN(len(free))])
	}
	for _, place := range places {
		s.taken[place] = true
	}
	s.on[who], s.where[who] = true, places
	s.hands += a.Hands
	return true
}

func (s *stage) end(who int) {
	for _, place := range s.where[who] {
		delete(s.taken, place)
	}
	s.on[who], s.where[who] = false, nil
	s.hands -= s.rota.Actors[who].Hands
}

// turn is what runs from a moment on.
func (s *stage) turn(at float64) Turn {
	return Turn{At: at, On: slices.Clone(s.on), Where: slices.Clone(s.where)}
}
