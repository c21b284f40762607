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
