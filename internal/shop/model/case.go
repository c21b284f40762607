package model

import (
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Supply says where between cut-in and cut-out the receivers stand.
type Supply string

// The two ends of the band.
const (
	CutIn  Supply = "cut-in"  // the compressor has just started: it delivers, filters count as loaded
	CutOut Supply = "cut-out" // it has just stopped: it delivers nothing, filters count as clean
)

// Bias picks where in their plausible range the uncertain figures stand:
// roughness, conductance of couplers, bore left by insert fittings, flow of tools.
type Bias string

// The biases; "" counts as Likely.
const (
	Likely Bias = "likely"
	Best   Bias = "best"  // everything as gives the highest pressures
	Worst  Bias = "worst" // everything as gives the lowest
)

// Case is one question put to the network.
type Case struct {
	Running []job.InUse // tools in use; a pair that the job does not know is a finding
	Supply  Supply      // "" counts as CutIn
	Bias    Bias
	// Held overrides the pressure of sources by id (the receiver's point), for
	// readings and simulated days. Sources not named follow Supply.
	Held map[job.ID]unit.GaugePressure
	// Idle stops the compressors though Supply is CutIn.
	Idle bool
	// Stores are vessels that give and take by what they hold. With any, no other source
	// holds a pressure.
	Stores []Store
	// Ends says that only tools, sources and stores are wanted: what passes each element is not
	// told. Days ask for thousands of results.
	Ends bool
}

// LinkFlow is what passes one element.
type LinkFlow struct {
	Known bool          // false: no pressure is determined here (shut off)
	Mass  unit.MassFlow // positive from From to To
	// Loss is p at the upstream end less p at the downstream end, never negative
	// but by rounding; with no flow it is what stands across (a shut check valve).
	Loss unit.PressureDiff
	// In and Out are velocities at the upstream and downstream end on Element.Bore; 0 where no bore is known.
	In, Out unit.Velocity
	Mach    unit.Ratio // at the downstream end
	Choked  bool       // more suction would draw no more
}

// FreeAir is the flow as m³/s of ISO 1217 free air, positive from From to To.
func (f LinkFlow) FreeAir() unit.FreeAir { return freeAir(f.Mass) }

// ToolState is what one pair gets.
type ToolState struct {
	Known    bool
	Running  bool
	Pressure unit.GaugePressure // at the tool's inlet
	Outlet   unit.GaugePressure // at the outlet, before the last coupler
	Flow     unit.FreeAir       // what it takes
}

// SourceState is what one source gives.
type SourceState struct {
	Pressure unit.GaugePressure
	Out      unit.FreeAir // leaves towards the shop
	In       unit.FreeAir // arrives from its compressors
}

// Result is the answer to one case. Slices run by Node, Element, Pair and Source index.
type Result struct {
	Case       Case
	Pressure   []unit.AbsPressure // by node; 0 where not Known
	Known      []bool             // by node
	Flows      []LinkFlow
	Tools      []ToolState
	Sources    []SourceState
	Stores     []StoreState  // by Case.Stores; empty where there is no answer at all
	Findings   []job.Finding // no-answer, shut-off, pair unknown
	Solved     bool          // false: the network has no answer; Findings say why
	Iterations int
}

// Step is one element on the way from a source to a tool.
type Step struct {
	Element int
	From    int // node upstream
	To      int // node downstream
	In      unit.AbsPressure
	Out     unit.AbsPressure
	Loss    unit.PressureDiff
	Flow    unit.FreeAir
}
