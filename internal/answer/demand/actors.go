package demand

import (
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Actor is a tool, or tools that always run together, as it comes and goes.
type Actor struct {
	Tools []User
	Share float64 // of the time, 0..1; the greatest of its tools'
	// Odds are its time running over its time not, while neither others nor the crew
	// keep it: with them each actor of the shop has its share of the time (Answer.Cut
	// apart).
	Odds  float64
	Burst unit.Duration
	// Spells are when it runs by timetable, since the day began; none: by chance.
	Spells []job.Spell
	Bars   []int // actors that never run with it
}

// User is one tool with the outlets where it may be.
type User struct {
	Tool    job.ID
	Outlets []job.ID
}

// Actors lists who can run in a shop with a crew of so many (0: any number), and who
// keeps whom from it.
func Actors(m *model.Model, crew int) []Actor {
	c := newCast(m, &Answer{})
	w := c.crowd(crew)
	out := make([]Actor, len(c.members))
	for g, members := range c.members {
		a := Actor{Share: c.share(g), Odds: w.odds[g]}
		for _, i := range members {
			t := c.tools[c.all[i].tool]
			a.Tools = append(a.Tools, User{t.ID, c.all[i].outlets})
			a.Burst = max(a.Burst, t.Burst)
			if len(a.Spells) == 0 {
				a.Spells = t.Spells
			}
		}
		for k, barred := range c.bars[g] {
			if barred {
				a.Bars = append(a.Bars, k)
			}
		}
		out[g] = a
	}
	return out
}
