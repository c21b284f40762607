package model

import (
	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Thing says what sort of thing an element is, for lists and for limits of velocity.
type Thing string

// The things air passes through.
const (
	ThingLine      Thing = "line"      // a run
	ThingFitting   Thing = "fitting"   // elbow, tee leg, union, reducer, valve
	ThingTreatment Thing = "treatment" // filter, dryer, regulator, lubricator
	ThingPlant     Thing = "plant"     // what stands between compressor and main
	ThingCoupler   Thing = "coupler"   // socket and plug as a pair
	ThingHose      Thing = "hose"
)

// Element is one link of the network: something a person can point at where
// pressure is lost.
type Element struct {
	Index int    // its place in Model.Elements, Result.Flows and the network's links
	ID    job.ID // line.…, point.…, part.…, hose.…
	// Leg tells apart the elements of one thing: the port of a tee's leg ("run-1",
	// "branch"; "through" or "branch" where only two ports are in use), "plug" and
	// "end" for the couplers that belong to a hose; else "".
	Leg   string
	Words string // "hose 1/4 in, 10 m"
	Thing Thing
	Role  string // role of the run ("main", "drop", …); "" for other things
	// From and To are nodes; flow is positive from From to To.
	From, To int
	// Outlet is the outlet whose own chain this belongs to; "" in the net.
	Outlet job.ID
	// Tool is set where the element serves one tool alone (coupler at its end).
	Tool job.ID
	// Bore is the narrowest bore the air sees, for velocity; 0 where none is known (rated loss).
	Bore   unit.Length
	Length unit.Length // lines and hoses
	Kind   string      // catalogue kind of a part
	Stock  string      // of a line
	Item   string      // catalogue row: coupler, hose, treatment
	Size   string
	Mate   string  // coupler row of the plug that sits in a coupler
	K      float64 // loss coefficient on Bore, as assumed likely; 0 where the law has none
	// Clean and Loaded are the losses at rated flow of what treats the air, in these two
	// states; 0 for other things.
	Clean, Loaded unit.PressureDiff
}

// Node is one place of the network where pressure is known or sought.
type Node struct {
	Key    string // stable across edits: "point.tee-3/branch", "outlet.a#2", "tool.x@outlet.a"
	Point  job.ID // "" inside an outlet's chain
	Port   string
	Outlet job.ID // chain it belongs to
	Tool   job.ID // set at a tool's end
}

// Pair is a tool at one of the outlets where it is used.
type Pair struct {
	Index  int // its place in Model.Pairs and Result.Tools
	Tool   job.ID
	Outlet job.ID
	Node   int // the tool's inlet
	At     int // the outlet's node: what a gauge in place of the hose would read (before the last coupler)
	// FreeAir is the rated flow while running, at Rated pressure.
	FreeAir unit.FreeAir
	Rated   unit.GaugePressure
	Least   unit.GaugePressure // least working pressure at the inlet
	Most    unit.GaugePressure // 0: none stated
	Later   bool               // not here yet
	Words   string
}

// Source is a place where pressure is held: a receiver fed by a compressor
// with no other receiver between, or a compressor that has none.
type Source struct {
	ID          job.ID // the receiver's point, or the compressor's where there is none
	Node        int
	CutIn       unit.GaugePressure // worst of the compressors that feed it and of the sources it is open to
	CutOut      unit.GaugePressure
	Compressors []job.ID     // points
	FreeAir     unit.FreeAir // what they deliver
	Volume      unit.Volume  // of the receiver; 0: unknown or none
}

// Receiver is a place that stores air.
type Receiver struct {
	ID     job.ID
	Node   int
	Volume unit.Volume // 0: unknown
	// Source is the source whose pressure it shares: itself where it is fed by a
	// compressor, or one that it stands open to; -1 where none (behind a regulator
	// or check valve, or shut off).
	Source int
}

// Compressor is what a compressor delivers, as the model reads its plate.
type Compressor struct {
	ID      job.ID
	Node    int
	FreeAir unit.FreeAir
	CutIn   unit.GaugePressure
	CutOut  unit.GaugePressure
	Control string
	Power   unit.Power // of its motor, at the shaft, as plate or class tell; 0: unknown
	// What its motor bears, as plate or class tell; 0: unknown.
	StartsMost float64 // per hour
	DutyMost   unit.Ratio
	Sources    []job.ID // receivers that it feeds; its own point where there is none
	machine    string   // catalogue row
}

// Assumption is a figure that the job does not state.
type Assumption struct {
	ID    job.ID   `json:"id"`
	Words string   `json:"words"` // "hose bore as the catalogue row says"
	Key   string   `json:"key"`   // name of the figure with its unit: "free_air_m3_s"
	Value float64  `json:"value"` // SI
	Low   float64  `json:"low"`
	High  float64  `json:"high"`
	Ref   cite.Ref `json:"ref"`
	// Row is the catalogue row it came from; "" for a default of the class.
	Row string `json:"row,omitempty"`
}
