package parts

import (
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Group is the heading that a line stands under.
type Group string

// The groups, in the order of the list.
const (
	Stock     Group = "line"
	Fitting         = Group(catalog.Fitting)
	Valve           = Group(catalog.Valve)
	Drainage        = Group(catalog.Drainage)
	Treatment       = Group(catalog.Treatment)
	Plant           = Group(catalog.Plant)
	Outlet          = Group(catalog.Outlet)
	Coupler   Group = "quick coupler"
	Hose      Group = "hose"
	Made      Group = "made in place" // bends of coil stock, plain places: nothing to buy
)

// Groups lists the groups in the order of the list.
func Groups() []Group {
	return []Group{Stock, Fitting, Valve, Drainage, Treatment, Plant, Outlet, Coupler, Hose, Made}
}

// State says whether a thing stands, is to be built or is left for later.
type State string

// The states.
const (
	Planned  State = "planned"
	Existing State = "existing"
	Stub     State = "stub"
)

// Line is one article of the take-off.
type Line struct {
	Article string `json:"article"` // what the price list knows it by: "copper-l 3/4", "copper-l tee 3/4 x 1/2"
	Group   Group  `json:"group"`
	State   State  `json:"state"`
	Words   string `json:"words"`
	Kind    string `json:"kind,omitempty"` // catalogue rows that it is of
	Stock   string `json:"stock,omitempty"`
	Item    string `json:"item,omitempty"`
	Size    string `json:"size,omitempty"` // several joined by " x "
	// Pieces or, for lines, metres; the other is absent. A hose has both: Length is that of one.
	Pieces int          `json:"pieces,omitempty"`
	Length *unit.Length `json:"length_m,omitempty"`
	// Unknown counts runs with neither a drawing nor a length: the metres are short by these.
	Unknown int `json:"unknown_lengths,omitempty"`
	// From names what was counted: "line.main-2", "point.tee-1", and for things
	// within things "line.main-2/corner-1", "outlet.a/hang-3", "hose.a/plug".
	From   []string `json:"from"`
	Rooms  []Room   `json:"rooms,omitempty"`
	Drawer float64  `json:"in_the_drawer,omitempty"` // of this article already there; pieces or metres
	Each   *float64 `json:"price_each,omitempty"`    // of the own list, per piece or metre
	Cost   *float64 `json:"cost,omitempty"`          // of what the drawer does not hold
	Note   string   `json:"note,omitempty"`
}

// Room is the share of a line that is in one room; "" is outside all rooms.
type Room struct {
	Room   job.ID       `json:"room"`
	Pieces int          `json:"pieces,omitempty"`
	Length *unit.Length `json:"length_m,omitempty"`
}

// Answer is the take-off.
type Answer struct {
	Lines    []Line `json:"lines"` // by state, group and article
	Currency string `json:"currency,omitempty"`
	// Cost is the sum over planned lines that have a price; Unpriced counts those
	// that have none, but for what is made in place.
	Cost     float64 `json:"cost"`
	Unpriced int     `json:"unpriced"`
}
