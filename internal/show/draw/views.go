package draw

import "dropleg/internal/shop/job"

// Sight is one way of looking at a shop.
type Sight struct {
	Name  string // in addresses
	Words string // on the page
	// Draw makes the drawing; room is asked for by drawings of one room alone.
	Draw func(given Given, sheet Sheet, room job.ID) View
}

// Sights lists all of them, the one shown first at the head.
func Sights() []Sight {
	return []Sight{
		{"plan", "Plan", func(g Given, s Sheet, _ job.ID) View { return Plan(g, s) }},
		{"elevation", "Walls", Elevation},
		{"isometric", "Isometric", func(g Given, s Sheet, _ job.ID) View { return Isometric(g, s) }},
		{"diagram", "Flow diagram", func(g Given, s Sheet, _ job.ID) View { return Diagram(g, s) }},
	}
}

// SightOf is the sight of a name; ok is false where there is none.
func SightOf(name string) (s Sight, ok bool) {
	for _, s := range Sights() {
		if s.Name == name {
			return s, true
		}
	}
	return Sight{}, false
}
