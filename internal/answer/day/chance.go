package day

import (
	"math"
	"math/rand/v2"
)

// Actor is a tool, or tools that always run together, as the hand switches it: on for
// bursts, off between them.
type Actor struct {
	Odds  float64 // its time on over its time off, if nobody kept it from running
	Burst float64 // s, mean
	Hands int     // people who hold it
	Bars  []int   // actors that it may not run with
	// Spells are the times from and to, s into the day and in order, in which it runs by
	// timetable, as far as nobody keeps it from it; none: by chance.
	Spells [][2]float64
	// Tools that run together, each with the places where it may; none: it takes no
	// place from anybody.
	Tools [][]int
}

// Rota is who may run when: the actors, and how many hands there are.
//
// Bursts and pauses are exponential; whoever finds somebody who bars him, no hand
// or no place free, lets that burst go and comes again after another pause. So the chance of
// each set in the long run is the product of the odds, cut down to the sets that
// may run (a reversible loss network; F. P. Kelly, Reversibility and Stochastic
// Networks, 1979, section 1.6; recalled), which is what package demand convolves.
type Rota struct {
	Actors []Actor
	Crew   int // 0: as many as it takes
}

// Turn is a moment at which an actor begins or ends.
type Turn struct {
	At    float64
	On    []bool  // by actor, from then on
	Where [][]int // by actor that is on: the places of its tools
}

// Turns draws a working time of so many seconds. The first Turn is at 0, in the state
// that the shop is in at any time of its day. The same source of chance gives
// the same turns.
func (r Rota) Turns(rng *rand.Rand, seconds float64) []Turn {
	s := r.begin(rng)
	out := []Turn{s.turn(0)}
	next, refused := make([]float64, len(r.Actors)), make([]bool, len(r.Actors))
	for i, a := range r.Actors {
		next[i] = a.next(rng, 0, s.on[i])
	}
	for {
		who, at := -1, seconds
		for i, t := range next {
			if t < at {
				who, at = i, t
			}
		}
		if who < 0 {
			return out
		}
		switch {
		case s.on[who]:
			s.end(who)
			out = append(out, s.turn(at))
			// A pause has no memory: who was refused waits anew from here, which is as if he had
			// come again all the while, however short his pauses.
			for i := range refused {
				if refused[i] {
					refused[i], next[i] = false, r.Actors[i].next(rng, at, false)
				}
			}
		case s.start(rng, who):
			out = append(out, s.turn(at))
		default:
			refused[who], next[who] = true, math.Inf(1)
			continue
		}
		next[who] = r.Actors[who].next(rng, at, s.on[who])
	}
}

// next is when an actor that is on or off at a time changes: by its timetable, else by chance.
func (a Actor) next(rng *rand.Rand, at float64, on bool) float64 {
	if len(a.Spells) == 0 {
		return at + a.wait(rng, on)
	}
	for _, s := range a.Spells {
		switch {
		case s[1] <= at:
		case on:
			return s[1]
		default:
			return max(at, s[0])
		}
	}
	if on { // kept over its time by a rounding: it ends
		return at
	}
	return math.Inf(1)
}

// wait is how long an actor stays as it is.
func (a Actor) wait(rng *rand.Rand, on bool) float64 {
	switch {
	case on:
		return rng.ExpFloat64() * a.Burst
	case a.Odds <= 0:
		return math.Inf(1)
	}
	return rng.ExpFloat64() * a.Burst / a.Odds
}

// begins says whether an actor runs as the day begins.
func (a Actor) begins(rng *rand.Rand) bool {
	if len(a.Spells) > 0 {
		return a.Spells[0][0] <= 0
	}
	return rng.Float64() < a.share()
}

// share is the share of its time that an actor runs where nobody keeps it from it.
func (a Actor) share() float64 {
	if math.IsInf(a.Odds, 1) {
		return 1
	}
	return a.Odds / (1 + a.Odds)
}

// begin draws who runs at any time: independent draws, thrown away until one breaks no
// rule. Where hardly any does, the shop begins at rest.
func (r Rota) begin(rng *rand.Rand) *stage {
	const tries = 10_000
	for range tries {
		s := newStage(r)
		fits := true
		for i, a := range r.Actors {
			if a.begins(rng) {
				fits = s.start(rng, i) && fits
			}
		}
		if fits {
			return s
		}
	}
	return newStage(r)
}
