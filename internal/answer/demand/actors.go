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
	Burst unit.Duration
	Bars  []int // actors that never run with it
}

// User is one tool with the outlets where it may be.
type User struct {
	Tool    job.ID
	Outlets []job.ID
}

// Actors lists who can run in a shop, and who keeps whom from it.
func Actors(m *model.Model) []Actor {
	c := newCast(m, &Answer{})
	out := make([]Actor, len(c.members))
	for g, members := range c.members {
		a := Actor{Share: c.share(g)}
		for _, i := range members {
			t := c.tools[c.all[i].tool]
			a.Tools = append(a.Tools, User{t.ID, c.all[i].outlets})
			a.Burst = max(a.Burst, t.Burst)
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
