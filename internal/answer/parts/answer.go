package parts

import (
	"slices"

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
	Supplies  Group = "supplies"      // what is used up in making joints
	Label     Group = "label"
)

// Groups lists the groups in the order of the list.
func Groups() []Group {
	return []Group{Stock, Fitting, Valve, Drainage, Treatment, Plant, Outlet, Coupler, Hose, Made, Supplies, Label}
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
	// Of a line of stock also the pieces that it is cut into and their length with what
	// straightening takes; without those whose length is not known.
	Cuts int          `json:"cuts,omitempty"`
	Cut  *unit.Length `json:"cut_m,omitempty"`
	// Of supplies the joints that they are for, and how their amount was counted.
	// The pieces in their rooms are then these joints.
	Joints  int         `json:"for_joints,omitempty"`
	Counted string      `json:"counted,omitempty"`
	Mass    unit.Mass   `json:"mass_kg,omitempty"` // of solder, rod and flux
	Paste   unit.Volume `json:"paste_L,omitempty"` // in place of the metres of tape
	// From names what was counted: "line.main-2", "point.tee-1", and for things
	// within things "line.main-2/corner-1", "outlet.a/hang-3", "hose.a/plug",
	// "line.main-2/coupling-1", "point.receiver/out-adapter". Of supplies it is the joints.
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
	Lines []Line `json:"lines"` // what is drawn, by state, group and article
	// Implied is what nobody draws and making the joints asks for, in the same order:
	// couplings in lines longer than the stock is sold, adapters and nipples where two
	// ends do not meet, supplies, labels.
	Implied  []Line  `json:"implied"`
	Pieces   []Piece `json:"pieces"` // by run in the order of the job, and along it
	Joints   []Joint `json:"joints"` // by number
	Tools    []Tool  `json:"tools"`  // for the joints that are still to be made
	Totals   []Total `json:"totals"` // by state and room
	Rules    []Rule  `json:"rules"`  // customs that the figures rest on
	Currency string  `json:"currency,omitempty"`
	// Cost is the sum over the planned ones of Lines that have a price; Unpriced counts
	// those that have none, but for what is made in place. ImpliedCost and
	// ImpliedUnpriced are the same of Implied.
	Cost            float64 `json:"cost"`
	Unpriced        int     `json:"unpriced"`
	ImpliedCost     float64 `json:"implied_cost"`
	ImpliedUnpriced int     `json:"implied_unpriced"`
	// ByThing finds what was counted from a thing of the drawing, by its id
	// ("line.main-2") and by that of a thing within it ("line.main-2/corner-1").
	ByThing map[string]Uses `json:"-"`
}

// Total is what is in one room and of one state.
type Total struct {
	Room   job.ID      `json:"room"` // "" outside all rooms
	State  State       `json:"state"`
	Length unit.Length `json:"length_m"` // of lines along their centre-lines
	Pieces int         `json:"pieces"`   // of pipe
	Parts  int         `json:"parts"`    // drawn and implied, without supplies, labels and what is made in place
	Joints int         `json:"joints"`
}

// Uses is all that was counted from one thing.
type Uses struct {
	Lines  []*Line // drawn ones and implied ones
	Pieces []*Piece
	Joints []*Joint
}

// All lists the drawn lines and the implied ones in one list, in its order.
func (a *Answer) All() []Line {
	all := slices.Concat(a.Lines, a.Implied)
	slices.SortStableFunc(all, compareLines)
	return all
}
