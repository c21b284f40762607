package purchase

import (
	"dropleg/engine/unit"
	"dropleg/internal/answer/buy"
	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
)

// Stage is a stage of the work that a thing is needed for.
type Stage string

// The stages, in the order of the work.
const (
	AtPlant   Stage = "plant"
	InMains   Stage = "mains"
	InDrops   Stage = "drops"
	AtOutlets Stage = "outlets"
)

// Stages lists the stages in the order of the work.
func Stages() []Stage { return []Stage{AtPlant, InMains, InDrops, AtOutlets} }

// Need is one article that has to be there, pieces or metres of it.
type Need struct {
	Article string            `json:"article"`
	Words   string            `json:"words"`
	Group   parts.Group       `json:"group"`
	Amount  float64           `json:"amount"`
	Metres  bool              `json:"metres,omitempty"` // else pieces
	Spare   float64           `json:"spare,omitempty"`  // of the amount, on top of what the drawing takes
	Drawer  float64           `json:"in_the_drawer,omitempty"`
	Stages  map[Stage]float64 `json:"stages"`
	From    []string          `json:"from"`
	Counted string            `json:"counted,omitempty"` // how the amount of a supply was reckoned
	Offered bool              `json:"offered"`           // somebody sells it
	names   []string          // that an offer may know it by
}

// Cut is one piece out of a length.
type Cut struct {
	Piece  string      `json:"piece"` // of the take-off
	Length unit.Length `json:"cut_m"` // with what straightening takes
	Mark   *parts.Mark `json:"mark,omitempty"`
}

// Bar is one length of stock, stick or coil, and what is cut from it, in this order.
type Bar struct {
	Length unit.Length `json:"length_m"`
	From   string      `json:"from"` // bought, kit, drawer, to length
	Cuts   []Cut       `json:"cuts"`
	Open   unit.Length `json:"open_m"`         // what is left of it
	Name   string      `json:"name,omitempty"` // of an open end that is worth keeping
}

// Join is a piece made of two ends with a coupling, in place of one more length.
type Join struct {
	Piece    string         `json:"piece"`
	Ends     [2]unit.Length `json:"ends_m"`
	Coupling string         `json:"coupling"`    // the article
	Saves    buy.Money      `json:"saves_cents"` // its price paid
	Proven   bool           `json:"proven"`
}

// Plan is the cutting of one stock and size.
type Plan struct {
	Article string      `json:"article"`
	Words   string      `json:"words"`
	Kerf    unit.Length `json:"kerf_m"`
	Bars    []Bar       `json:"bars"`
	Cut     unit.Length `json:"cut_m"`    // all pieces
	Bought  unit.Length `json:"bought_m"` // all lengths but those of the drawer
	Proven  bool        `json:"proven"`
	// Priced: the lengths have prices, and the plan is the cheapest; else the shortest.
	Priced bool   `json:"priced"`
	Untold string `json:"untold,omitempty"` // why there is no plan
	Long   []Long `json:"too_long,omitempty"`
	// Join is the piece that it pays most to make of two ends; nil where it pays for none.
	Join *Join `json:"join,omitempty"`
}

// Long is a piece that is longer than any length on offer: joints have to go in.
type Long struct {
	Piece  string      `json:"piece"`
	Length unit.Length `json:"cut_m"`
	Fits   unit.Length `json:"fits_m"`    // the most that can be cut: as far as a joint may be from an end, or from the next
	Joints int         `json:"couplings"` // at least
}

// Names is what a price list may know the article by, folded.
func (n *Need) Names() []string { return n.names }

// Line is one offer that is bought.
type Line struct {
	Offer    string       `json:"offer"` // "" of the own price list
	Supplier string       `json:"supplier"`
	Words    string       `json:"words"`
	Length   unit.Length  `json:"length_m,omitempty"` // of a stick of the own price list
	Times    int          `json:"times"`
	Each     buy.Money    `json:"each_cents"`
	Cost     buy.Money    `json:"cost_cents"`
	Holds    []job.Amount `json:"holds"`
}

// Basket is what to buy, and where.
type Basket struct {
	Lines      []Line             `json:"lines"`
	Deliveries []buy.Delivery     `json:"deliveries"`
	Price      buy.Money          `json:"price_cents"`
	Bound      buy.Money          `json:"bound_cents"`
	Proven     bool               `json:"proven"`
	Left       map[string]float64 `json:"left"`
	plans      []Plan
}

// Alone is the cheapest basket from one supplier.
type Alone struct {
	Supplier string `json:"supplier"`
	Basket
}

// Foreign is an offer or own price in a currency that the job does not reckon in.
type Foreign struct {
	Offer    string `json:"offer"` // "" of the own price list
	Supplier string `json:"supplier"`
	Words    string `json:"words"`
	Currency string `json:"currency"`
}

// Answer is what to buy and what to cut.
type Answer struct {
	Currency string       `json:"currency,omitempty"`
	Needs    []Need       `json:"needs"`
	Plans    []Plan       `json:"plans"`
	Basket   *Basket      `json:"basket,omitempty"` // nil where nobody sells any of it
	Alone    []Alone      `json:"alone"`            // suppliers that have all that is offered, the cheapest first
	Unsold   []string     `json:"unsold"`           // articles that no offer and no price covers
	Uncut    []string     `json:"uncut"`            // lines that are sold, in lengths that their pieces do not come out of
	Foreign  []Foreign    `json:"foreign"`          // offers and prices that are left out: they are in another currency
	Tools    []parts.Tool `json:"tools"`
	Supposed []string     `json:"supposed"`
	// LengthsFirst: a supplier of lines charges for delivery, and the lengths were settled
	// by their own prices before: a dearer length of another supplier might save a delivery.
	LengthsFirst bool `json:"lengths_first,omitempty"`
}
