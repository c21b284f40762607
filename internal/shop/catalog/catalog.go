// CONTRACT: the catalogue, its shelves and the form of a person's own rows.

package catalog

// Shelf is a set of rows, built in or a person's own; all lists may be empty.
type Shelf struct {
	Kinds     []Kind            `json:"kinds,omitempty"`
	Joints    []Joint           `json:"joints,omitempty"`
	Stocks    []Stock           `json:"stocks,omitempty"`
	Couplers  []Coupler         `json:"couplers,omitempty"`
	Mates     []Mate            `json:"mates,omitempty"`
	Hoses     []Hose            `json:"hoses,omitempty"`
	Tools     []Tool            `json:"tools,omitempty"`
	Machines  []Machine         `json:"machines,omitempty"`
	Treatment []Treat           `json:"treatment,omitempty"`
	Threads   []Thread          `json:"threads,omitempty"`
	TakeOuts  []TakeOut         `json:"take_outs,omitempty"`
	Materials []Material        `json:"materials,omitempty"`
	Turbulent []TurbulentFactor `json:"turbulent,omitempty"`
}

// The shelves by name, for Nearest, Ids and Origin.
const (
	Kinds      = "kinds"
	Joints     = "joints"
	Stocks     = "stocks"
	Couplers   = "couplers"
	Hoses      = "hoses"
	Tools      = "tools"
	Machines   = "machines"
	Treatments = "treatment"
	Threads    = "threads"
	TakeOuts   = "take_outs"
	Materials  = "materials"
)

// Origin says whose row it is.
type Origin string

// The origins.
const (
	BuiltIn  Origin = "built in"
	Own      Origin = "own"
	Replaces Origin = "own, in place of a built-in row"
)

// Catalog is a set of shelves that can be asked. It is immutable and safe for
// use by several goroutines; rows given out share their lists with it and must
// not be written to.
type Catalog struct {
	shelf  Shelf
	index  map[string]map[string]int    // shelf → id → place in the sorted list
	origin map[string]map[string]Origin // what is not built in
	alias  map[string]map[string]string // shelf → other name → id, of couplers and stocks
}
