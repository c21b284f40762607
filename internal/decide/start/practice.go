package start

import "dropleg/engine/unit"

// Where plant and outlets stand in a first plan, in metres: the custom of the trade, with
// no source of its own beside common practice. How lines run to them is for package route.
const (
	lineOff   = 0.08 // centre of lines from the wall's face
	mainUnder = 0.20 // a main below the ceiling, about: package route settles it
	mainMost  = 3.50 // a main above the floor, at most, about
	linkOff   = 0.45 // by which the line from the compressor steps back to the wall, so that it bends where it grows
	plantLong = 1.90 // stretch of wall that the plant takes
	plantOff  = 0.55 // compressor and receiver from the wall, to the middle
	apart     = 0.50 // outlets from each other, least
	besideIt  = 0.15 // outlets from a door
	fromCorn  = 0.30 // outlets from a corner
	lowest    = 2.20 // height of a room under which no main hangs over heads
	clearOver = 0.30 // line over a door's top, with its fall, about
)

// What holds of outlets where nothing else is said, in metres.
const (
	outletUp = 1.10 // above the floor, between 0.9 and 1.2
	hoseLong = 7.5  // hoses, unless in feet
	hoseFeet = 7.62 // 25 ft
)

// coldC is the coldest night where an unheated shop stands and nobody said, in °C: common
// practice of a temperate country, without a source.
const coldC = -10

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

// grades are tried in turn: one profile in the shop; sizes within it are picked later.
func grades(units string) []grade {
	if units == string(unit.US) {
		return []grade{{"rubber-3/8", "high-flow-1/4"}, {"rubber-1/2", "industrial-1/2"}}
	}
	return []grade{{"rubber-3/8", "euro-7.2"}, {"rubber-1/2", "industrial-1/2"}}
}

// bentStock is what lines are made of where the corners of a room fit no elbow.
func bentStock(units string) string {
	if units == string(unit.US) {
		return "pe-al-pe"
	}
	return "pe-al-pe-metric"
}
