package hold

import (
	"dropleg/engine/cite"
	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Temps is how warm a line gets by the air in it, for the runs whose air is known;
// the others get as warm as their room in summer.
type Temps map[job.ID]unit.Temperature

// Answer is how the lines of a job are held.
type Answer struct {
	Runs      []Run     `json:"runs"`     // in the order of the job
	Supports  []Support `json:"supports"` // by run, along it
	Gaps      []Gap     `json:"gaps"`     // where supports stand farther apart than allowed
	Fixings   []Fixing  `json:"fixings"`
	Anchors   []Anchor  `json:"anchors"` // how to fix to the walls of the job
	Stretches []Stretch `json:"stretches"`
	Legs      []Leg     `json:"legs"`
	Held      []Held    `json:"held"`
	Loops     []Loop    `json:"loops"`
	Links     []Link    `json:"links"` // one for each compressor
	Bends     []Bend    `json:"bends"`
	Walls     []Wall    `json:"walls"` // in walking order
	Rules     []Rule    `json:"rules"`
}

// Run is a line with what holds for all of it. A run without a drawing has Drawn 0
// and no supports.
type Run struct {
	ID         job.ID      `json:"id"`
	State      string      `json:"state"` // existing, planned, stub
	Drawn      unit.Length `json:"drawn_m"`
	Swept      unit.Length `json:"swept_m"` // with its corners bent; Drawn where it has elbows
	Horizontal Spacing     `json:"horizontal"`
	Vertical   Spacing     `json:"vertical"`
	Climate    Range       `json:"temperature"`
	// Unknown are the figures that are missing, by key: drawing, stock, spacing,
	// material, modulus, leg_constant, radius.
	Unknown []string `json:"unknown,omitempty"`
}

// Spacing is the greatest distance between supports; Known is false for none.
type Spacing struct {
	Known    bool        `json:"known"`
	Distance unit.Length `json:"distance_m,omitempty"`
	Own      bool        `json:"own,omitempty"` // a row of the person's own, as a maker states it
	cite.Ref
	// Practice is the figure of common practice beside a sourced one that governs.
	Practice *Rule `json:"practice,omitempty"`
}

// Range is how cold and how warm a line gets.
type Range struct {
	Cold    unit.Temperature `json:"cold_K"`
	Hot     unit.Temperature `json:"hot_K"`
	HotFrom string           `json:"hot_from"` // air, room
	Assumed bool             `json:"assumed,omitempty"`
}

// Support is a clip or hanger.
type Support struct {
	ID        string      `json:"id"` // "line.main-2/clip-3", counted from the run's From
	Run       job.ID      `json:"run"`
	Along     unit.Length `json:"along_m"` // of the run, from its From
	At        geom.Point  `json:"at_m"`
	On        On          `json:"on"`
	Kind      string      `json:"kind"` // sliding, fixed
	Rule      string      `json:"rule"` // that asked for it: a name of Rules
	Direction string      `json:"direction"`
	State     string      `json:"state"`           // of its run; of existing ones nothing is to buy
	Moved     bool        `json:"moved,omitempty"` // farther from its corner than its rule asks, to leave a leg
}

// On is what a support is fixed to.
type On struct {
	What string `json:"what"` // wall, ceiling, free, void, ground
	How  string `json:"how"`  // clip, bracket, hanger, sleeve (within the wall), stands; "" where nothing is to fix it to
	*Place
	Opening job.ID      `json:"opening,omitempty"` // the wall is open there
	Room    job.ID      `json:"room,omitempty"`
	Drop    unit.Length `json:"drop_m,omitempty"` // beneath the ceiling
}

// Place is a mark on a wall.
type Place struct {
	Wall  job.ID      `json:"wall"`
	Along unit.Length `json:"wall_along_m"`
	Up    unit.Length `json:"up_m"`
	Off   unit.Length `json:"off_m"`
}

// Gap is a length of line without a support that is more than allowed.
type Gap struct {
	Run     job.ID      `json:"run"`
	From    unit.Length `json:"from_m"` // along the run
	To      unit.Length `json:"to_m"`
	Allowed unit.Length `json:"allowed_m"`
	// Bend: a bend lies between that has to be held on its arc, by hand.
	Bend bool `json:"bend,omitempty"`
}

// Fixing is something that is fixed to the building, and what pulls at it.
type Fixing struct {
	For    string      `json:"for"`             // supports, outlet, reel, part
	ID     job.ID      `json:"id,omitempty"`    // of the outlet, hose or point
	Count  int         `json:"count,omitempty"` // of supports, without existing ones
	At     *geom.Point `json:"at_m,omitempty"`
	Onto   On          `json:"onto"`
	Wall   job.ID      `json:"wall,omitempty"`
	MadeOf string      `json:"made_of,omitempty"` // of the wall; "" is not stated
	Load   *float64    `json:"load_N,omitempty"`  // nil: not known
	Rule   string      `json:"rule,omitempty"`    // that the load comes of
	// Loose: the part at the outlet is fixed to nothing, so that the line takes the pull.
	Loose bool   `json:"loose,omitempty"`
	State string `json:"state"`
}

// Anchor is how to fix to a wall of one material.
type Anchor struct {
	MadeOf string `json:"made_of"` // "" is not stated
	Clip   string `json:"clip"`    // fixing of a clip
	Pull   string `json:"pull"`    // of what takes the pull of a hose
	cite.Ref
}

// Piece is a share of a run.
type Piece struct {
	Run  job.ID      `json:"run"`
	From unit.Length `json:"from_m"` // along the run; greater than To where it is passed backwards
	To   unit.Length `json:"to_m"`
}

// Stretch is straight line between two fixed points, turns or open ends.
type Stretch struct {
	ID     string      `json:"id"` // "line.main-2/stretch-1"
	Pieces []Piece     `json:"pieces"`
	Length unit.Length `json:"length_m"`
	Growth unit.Length `json:"growth_m"` // over its range of temperature
	From   StretchEnd  `json:"from"`
	To     StretchEnd  `json:"to"`
	// Still is the place that does not move, in metres from From; Fast is the support
	// that holds it there, "" where an end does or nothing has to. Nil where both ends
	// are held, the growth is not known, or no support holds it: each end then moves by all.
	Still   *unit.Length `json:"still_m,omitempty"`
	Fast    string       `json:"fast,omitempty"`
	Unknown []string     `json:"unknown,omitempty"`
}

// StretchEnd is an end of a stretch.
type StretchEnd struct {
	What  string      `json:"what"` // fixed, turn, branch, link, free
	ID    string      `json:"id"`   // of the point, or of the corner of a run
	At    geom.Point  `json:"at_m"`
	Moves unit.Length `json:"moves_m"` // by growth, over the whole range
}

// Leg is line that bends where a place on a stretch moves. One that ends at a tee leaves
// a share to the line there, which is then a leg that begins at the tee.
type Leg struct {
	At      string       `json:"at"`                 // place that moves, or tee
	Stretch string       `json:"stretch"`            // that moves it
	Run     job.ID       `json:"run"`                // in which the leg begins
	Moves   unit.Length  `json:"moves_m"`            // that it has to take up
	Needed  *unit.Length `json:"needed_m,omitempty"` // nil: no leg constant is known
	Alone   *unit.Length `json:"alone_m,omitempty"`  // needed where it ends at a tee and the line there gave way no more
	There   unit.Length  `json:"there_m"`
	Until   string       `json:"until,omitempty"` // support or point that ends it
	Moved   bool         `json:"moved,omitempty"` // the support was moved for it
	Short   bool         `json:"short,omitempty"`
	Takes   *unit.Length `json:"takes_m,omitempty"` // growth that it takes up
	cite.Ref
}

// Held is a place where growth has nowhere to go.
type Held struct {
	Where   string       `json:"where"` // stretch or place
	Why     string       `json:"why"`   // both-ends-fixed, leg-short
	At      geom.Point   `json:"at_m"`
	Runs    []job.ID     `json:"runs"`
	Growth  unit.Length  `json:"growth_m"`
	Needed  *unit.Length `json:"leg_needed_m,omitempty"`
	There   *unit.Length `json:"leg_there_m,omitempty"`
	Stress  *unit.Stress `json:"stress_Pa,omitempty"` // nil: no modulus is known
	Push    *float64     `json:"push_N,omitempty"`    // on the fixed points
	BowsAt  *float64     `json:"bows_at_N,omitempty"` // push under which it bows between its supports
	Unknown []string     `json:"unknown,omitempty"`
	State   string       `json:"state"` // existing where all of it stands
}

// Loop is what would let a held stretch grow.
type Loop struct {
	Stretch string      `json:"stretch"`
	Count   int         `json:"count"`
	Growth  unit.Length `json:"growth_m"` // of each
	Leg     unit.Length `json:"leg_m"`    // of each of the two legs of a square loop
	Radius  unit.Length `json:"radius_m"` // of a coil loop in its place
	Offset  unit.Length `json:"offset_m"` // or of one offset
	// Places are the middles of the loops, between anchors, in metres from the stretch's From.
	Places []unit.Length `json:"places_m"`
	cite.Ref
}

// Link says whether a flexible link stands between a compressor and the rigid line.
type Link struct {
	Compressor job.ID `json:"compressor"`
	There      bool   `json:"there"`
	Part       job.ID `json:"part,omitempty"` // the point or run that it is
}

// Bend is a corner that is swept in the line itself.
type Bend struct {
	ID      string      `json:"id"` // "line.main-2/corner-1"
	Run     job.ID      `json:"run"`
	At      geom.Point  `json:"at_m"`
	Turn    float64     `json:"turn_deg"`
	Least   unit.Length `json:"least_radius_m"` // 0: not known
	Room    unit.Length `json:"room_radius_m"`  // largest radius for which the two legs are long enough
	Fits    bool        `json:"fits"`
	Radius  unit.Length `json:"radius_m"`  // the least, or what there is room for
	Tangent unit.Length `json:"tangent_m"` // from the corner to where the bend begins
	Saved   unit.Length `json:"saved_m"`   // by which the bend is shorter than the corner
	cite.Ref
}

// Wall is the marks on one wall, by their distance along it.
type Wall struct {
	ID     job.ID      `json:"id"`
	MadeOf string      `json:"made_of,omitempty"`
	Length unit.Length `json:"length_m"`
	Marks  []Mark      `json:"marks"`
}

// Mark is a place to mark on a wall.
type Mark struct {
	What string `json:"what"` // support, outlet, turn, part
	ID   string `json:"id"`
	Place
}

// Rule is a figure that places rest on.
type Rule struct {
	Name  string  `json:"name"`
	Key   string  `json:"key"` // quantity and unit: distance_m, load_N, share
	Value float64 `json:"value"`
	cite.Ref
}
