package server

import "dropleg/internal/show/screen"

// ProposeBody is the body of POST …/proposals.
type ProposeBody struct {
	Lines  bool     `json:"lines"`
	Sizes  bool     `json:"sizes"`
	Keep   bool     `json:"keep"`   // what is installed stays as it is
	Only   []string `json:"only"`   // what may change; none: everything
	Growth float64  `json:"growth"` // a share more of all flows
}

// Proposed is one line of the answer.
type Proposed struct {
	Stamp
	Doing string `json:"doing"` // what is being done, Done of Total
	Done  int    `json:"done"`
	Total int    `json:"total"`
	Fault string `json:"fault"` // why it failed
	// Found is there on the last line, where it did not.
	Found *screen.Proposals `json:"found"`
}

// CalibrateBody is the body of POST …/calibration.
type CalibrateBody struct {
	Gauge float64 `json:"gauge_Pa,omitempty"` // what gauges are good to, plus or minus; left out, usual ones
	Since string  `json:"since,omitempty"`    // records of that day and later, 2026-11-26
}

// Calibrated is one line of the answer.
type Calibrated struct {
	Stamp
	Doing string `json:"doing"`
	Done  int    `json:"done"`
	Total int    `json:"total"`
	Fault string `json:"fault"`
	// Found is there on the last line, where it did not fail.
	Found *screen.Calibration `json:"found"`
}
