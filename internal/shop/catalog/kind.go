// CONTRACT: kinds of parts and their laws.

package catalog

import "dropleg/engine/cite"

// Kind is one kind of part that can sit at a point, hang at an outlet or stand
// as plant. Everything the program must know of a kind is in its data file;
// code asks for roles and ports and never compares a kind's name.
type Kind struct {
	Kind    string            `json:"kind"`
	Words   map[string]string `json:"words"`              // language → name, "en" always there
	Plural  map[string]string `json:"plural,omitempty"`   // where adding s is wrong
	Group   Group             `json:"group"`              // shelf it stands on
	Roles   []Role            `json:"roles,omitempty"`    // what it does in the system
	FixesTo string            `json:"fixes_to,omitempty"` // "wall", "structure", "floor"
	Symbol  string            `json:"symbol"`             // plan symbol, path in mm of paper about the point
	Ports   []Port            `json:"ports"`
	Law     LawRow            `json:"law"`
	Needs   []string          `json:"needs,omitempty"` // job keys a part of this kind must state, e.g. "compressor"
	cite.Ref
	Note string `json:"note,omitempty"`
}

// Group is the shelf a kind stands on in lists.
type Group string

// The groups.
const (
	Fitting   Group = "fitting"
	Valve     Group = "valve"
	Drainage  Group = "drainage"
	Treatment Group = "treatment"
	Plant     Group = "plant"
	Outlet    Group = "outlet"
)

// Role is what a part does in the system: what checks and answers ask for.
type Role string

// The roles.
const (
	Supplies   Role = "supplies"   // makes compressed air (compressor)
	Stores     Role = "stores"     // holds pressure (receiver)
	Isolates   Role = "isolates"   // can be shut
	Vents      Role = "vents"      // lets the section behind it down when shut
	Locks      Role = "locks"      // can be locked shut
	Drains     Role = "drains"     // lets water out
	Collects   Role = "collects"   // a pocket where water gathers (drip leg, drained outlet block)
	Unions     Role = "unions"     // comes apart without cutting
	Flexes     Role = "flexes"     // takes vibration and movement
	Regulates  Role = "regulates"  // holds a set pressure behind it
	Relieves   Role = "relieves"   // relief valve
	Checks     Role = "checks"     // no reverse flow
	Filters    Role = "filters"    // takes out particles, water or oil; loads up
	Dries      Role = "dries"      // lowers the dew point
	Separates  Role = "separates"  // takes out liquid water
	Cools      Role = "cools"      // aftercooler
	Lubricates Role = "lubricates" // adds oil
	Couples    Role = "couples"    // quick coupler
	Ends       Role = "ends"       // cap or plug
	Branches   Role = "branches"   // tee
	Turns      Role = "turns"      // elbow
	Outlets    Role = "outlet"     // where an outlet hangs (drop elbow, wall block, manifold)
	Gauges     Role = "gauges"     // pressure gauge
	Automatic  Role = "automatic"  // works without a hand (automatic drain)
	DeOils     Role = "de-oils"    // takes out oil mist
)

// Port is one opening of a part.
type Port struct {
	ID     string     `json:"id"`             // "in", "out", "run-1", "run-2", "branch", "drain"
	Toward [3]float64 `json:"toward"`         // unit direction the port faces, z up, before turning
	Joint  string     `json:"joint"`          // "stock" (the stock's own way of joining), "thread-female", "thread-male", "socket", "plug", "none"
	Size   string     `json:"size,omitempty"` // "" the part's size; "branch" the second size of the part
}

// LawRow names the law that gives a part its loss, with the figures it takes.
// Package model looks the law up by name.
type LawRow struct {
	// Name: "none" (no loss), "minor" (Le_over_D or K), "tee" (through and branch
	// Le_over_D or K; ports whose id begins with "branch" are branches), "coupler" (C and b of the coupler profile), "rated-loss",
	// "regulator", "check", "source", "storage", "conductance" (C, b), "end" (no flow).
	Name       string   `json:"name"`
	LeOverD    *float64 `json:"Le_over_D,omitempty"`        // in pipe diameters × fT of the size
	K          *float64 `json:"K,omitempty"`                // fixed loss coefficient
	BranchLe   *float64 `json:"branch_Le_over_D,omitempty"` // tee: leaving or entering by the branch
	BranchK    *float64 `json:"branch_K,omitempty"`
	B          *float64 `json:"b,omitempty"`           // ISO 6358 critical ratio
	CPerArea   *float64 `json:"C_per_area,omitempty"`  // C = this × bore area, m³/(s·Pa·m²), where no figure is stated
	CrackingPa *float64 `json:"cracking_Pa,omitempty"` // check valve
	// ByJoining holds read K by size where a way of joining loses more than Le_over_D says.
	ByJoining []JoinedLoss `json:"by_joining,omitempty"`
	cite.Ref
}

// JoinedLoss is K by nominal size for one way of joining; it holds to a little
// above its largest size, and the law's own Le_over_D beyond.
type JoinedLoss struct {
	Joining string    `json:"joining"`
	Sizes   []string  `json:"sizes"` // nominal sizes of the table of turbulent factors, rising
	K       []float64 `json:"K"`
	BranchK []float64 `json:"branch_K,omitempty"`
	cite.Ref
}
