package draw

import (
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Given is what a plan is drawn from. Pressures that are not known are left
// out of their maps; a plan without any is the bare geometry.
type Given struct {
	Index *job.Index
	Shelf *catalog.Catalog
	// Ends are the pressures at the first and second end of each run.
	Ends map[job.ID][2]unit.GaugePressure
	// Dials are the outlets' readings.
	Dials map[job.ID]Dial
	// Source is the highest pressure that is supplied, for the dials' scale; 0: unknown.
	Source unit.GaugePressure
	// Tips are words for hovering on things, by id.
	Tips map[job.ID]string
	// Supports are marked on their lines; none where nobody asks for them.
	Supports []Support
	// Work is what a drawing to build from shows besides; nil on one to look at.
	Work *Work
}

// Dial is what stands at one outlet.
type Dial struct {
	Flowing *unit.GaugePressure // nil: not worked out
	Least   unit.GaugePressure  // the least that its tools need; 0: none stated
	Short   bool                // one of its tools does not get its pressure
	InUse   bool                // a tool runs here in the set shown
}
