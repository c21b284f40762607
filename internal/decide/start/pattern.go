package start

import "dropleg/engine/unit"

// The pattern of a first plan, in metres: the custom of the trade, with no source
// of its own beside common practice.
const (
	lineOff   = 0.08 // centre of lines from the wall's face
	underTop  = 0.20 // main below the ceiling: a leg leaves it from the top
	mainMost  = 3.50 // main above the floor, at most: within reach of a ladder
	outletUp  = 1.10 // outlets above the floor, between 0.9 and 1.2
	linkOff   = 0.30 // by which the line from the compressor steps aside, so that it bends where it grows
	drainUp   = 0.90 // drains below their outlets
	endUp     = 1.00 // the drain at the end of the main
	beyond    = 0.50 // the main goes on past its last take-off
	plantLong = 1.90 // stretch of wall that the plant takes
	plantOff  = 0.55 // compressor and receiver from the wall, to the middle
	apart     = 0.50 // outlets from each other, least
	besideIt  = 0.15 // outlets from a door
	fromCorn  = 0.30 // outlets from a corner
	fall      = 0.01 // of the main, 1 in 100
	hoseLong  = 7.5  // hoses, unless in feet
	hoseFeet  = 7.62 // 25 ft
	lowest    = 2.20 // height of a room under which no main hangs over heads
	clearOver = 0.03 // line over a door's top
)

// Doors where nothing else is said, in metres.
const (
	doorWide, doorHigh = 0.90, 2.05
	gateWide, gateHigh = 2.50, 2.20
)

// usual is the thickness of a wall by what it is made of, in metres, where none is
// stated: it only draws the wall.
func usual(madeOf string) unit.Length {
	switch madeOf {
	case "brick", "block":
		return 0.24
	case "concrete":
		return 0.20
	case "timber-frame":
		return 0.15
	case "steel-frame", "plasterboard":
		return 0.10
	case "sheet":
		return 0.05
	}
	return 0.20
}

// grade is a hose with the couplers at its ends.
type grade struct{ hose, coupler string }

// grades are tried in turn for the whole shop's profile and each outlet's hose:
// one profile in the shop, its body by the largest tool.
func grades(units string) []grade {
	if units == "us" {
		return []grade{{"rubber-3/8", "high-flow-1/4"}, {"rubber-1/2", "industrial-1/2"}, {"rubber-3/4", "industrial-1/2"}}
	}
	return []grade{{"rubber-3/8", "euro-7.2"}, {"rubber-1/2", "industrial-1/2"}, {"rubber-3/4", "industrial-1/2"}}
}

// usualStock is what lines are made of where nobody says: straight lengths, which
// hold the fall of a main between their clips.
func usualStock(units string) string {
	if units == "us" {
		return "copper-l"
	}
	return "aluminium-metric"
}

// bentStock is what lines are made of where the corners of a room fit no elbow.
func bentStock(units string) string {
	if units == "us" {
		return "pe-al-pe"
	}
	return "pe-al-pe-metric"
}

// letters marks outlets A, B, …, Z, AA, AB, ….
func letters(n int) string {
	out := ""
	for n++; n > 0; n = (n - 1) / 26 {
		out = string(rune('A'+(n-1)%26)) + out
	}
	return out
}
