package parts

import (
	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Joint is one connection that has to hold air. It is known by the thing and the
// port that it is at: "point.tee-1/branch", "line.main-2/corner-1/in",
// "line.main-2/coupling-1/out", "outlet.a/hang-2/in".
type Joint struct {
	ID string `json:"id"`
	// Number is its place on a walk from the plant outwards: at each part first the ways
	// that soon end (drips, stubs, drops, branches), then on along the main.
	Number int    `json:"number"`
	Kind   string `json:"kind,omitempty"` // way of joining, a row of the catalogue; "" not known
	Words  string `json:"words"`
	Size   string `json:"size,omitempty"`
	// Sides are the two things that it belongs to: the part and the piece of pipe, or of
	// two parts the one nearer to the plant first. The face of a union has both halves.
	Sides [2]Side     `json:"sides"`
	State State       `json:"state"` // the later one of its sides
	Room  job.ID      `json:"room,omitempty"`
	At    *geom.Point `json:"at_m,omitempty"`
	Needs Needs       `json:"needs"`
	// Mixed: two systems of joining meet here with no part between them.
	Mixed   bool   `json:"mixed,omitempty"`
	Problem string `json:"problem,omitempty"`
}

// Side is one of the two things that a joint belongs to.
type Side struct {
	Thing string `json:"thing"`
	Port  string `json:"port,omitempty"`
}

// Needs is what making a joint takes, by its row of the catalogue and its thread's.
type Needs struct {
	Thread string  `json:"thread,omitempty"`                // "npt 1/2"
	Seal   string  `json:"seal,omitempty"`                  // the step that speaks of tape or paste
	Turns  float64 `json:"turns_past_hand_tight,omitempty"` // 0 not known
	// Engagement is how far a thread goes in; Mark is from a pipe's end to the mark
	// that tells that it is home. 0 not known.
	Engagement unit.Length `json:"engagement_m,omitempty"`
	Mark       unit.Length `json:"insertion_mark_m,omitempty"`
	Tools      []string    `json:"tools,omitempty"`
}

// Tool is something that joints are made with and that is not used up.
type Tool struct {
	Words  string   `json:"words"`
	Kinds  []string `json:"kinds"`  // ways of joining that ask for it
	Joints int      `json:"joints"` // how many are still to be made with it
}
