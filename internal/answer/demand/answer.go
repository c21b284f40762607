package demand

import (
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Why says how a set came about.
type Why string

// The ways.
const (
	Named Why = "named" // stands in the job
	Worst Why = "worst" // worst plausible for its subject
	Alone Why = "alone" // one tool by itself: it may share its outlets with nobody
	Then  Why = "then"  // ran at a moment of a working day
)

// Set is a number of tools that run together, each at an outlet.
type Set struct {
	ID      job.ID      `json:"id,omitempty"` // of a named set
	Name    string      `json:"name"`
	Why     Why         `json:"why"`
	Subject job.ID      `json:"subject,omitempty"` // tool for which it is the worst
	At      job.ID      `json:"at,omitempty"`      // outlet of the subject
	Running []job.InUse `json:"running"`
	// Rated is the sum of rated flows.
	Rated unit.FreeAir `json:"rated_free_air_m3_s"`
	Words string       `json:"words"` // how it was chosen, one sentence
}

// Key names a set in addresses and across revisions: its own id, or how it came
// about and for whom.
func (s Set) Key() string {
	if s.ID != "" {
		return string(s.ID)
	}
	return keyOf(s.Why, s.Subject)
}

func keyOf(why Why, subject job.ID) string { return string(why) + "-" + string(subject) }

// Level is one percentile of the flow taken.
type Level struct {
	Share float64      `json:"share"` // of the working time
	Flow  unit.FreeAir `json:"flow_free_air_m3_s"`
}

// Answer is who runs together.
type Answer struct {
	// Together is how many run at once at most, but for a share Rare of the time,
	// capped by the crew where that is stated.
	Together int     `json:"together"`
	Rare     float64 `json:"rare"`
	Crew     int     `json:"crew,omitempty"`
	// Cut is what every share was multiplied by because the crew has not the hands
	// for all that is said to run; 1 where it has.
	Cut float64 `json:"cut"`
	// Chance[n] is the chance that exactly n tools run.
	Chance []float64    `json:"chance"`
	Mean   unit.FreeAir `json:"mean_free_air_m3_s"`
	SD     unit.FreeAir `json:"sd_free_air_m3_s"`
	// Levels are the flows not exceeded for 50, 90, 99 and 99.9 % of the time, each
	// known to Within: the grid of the convolution, half a step for each tool at once.
	Levels   []Level      `json:"levels"`
	Within   unit.FreeAir `json:"within_free_air_m3_s"`
	All      unit.FreeAir `json:"all_free_air_m3_s"`
	Sets     []Set        `json:"sets"`               // named first, then by tool in the job's order
	Unplaced []job.ID     `json:"unplaced,omitempty"` // tools used at no outlet
	Later    []job.ID     `json:"later,omitempty"`    // left out: not here yet
}
