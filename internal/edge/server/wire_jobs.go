package server

import (
	"encoding/json"

	"dropleg/internal/decide/start"
	"dropleg/internal/shop/intake"
	"dropleg/internal/show/screen"
)

// Jobs is GET /api/jobs.
type Jobs struct {
	Jobs []JobRow `json:"jobs"` // newest change first
	Bin  []JobRow `json:"bin"`  // removed, to be restored
	// Trouble says why nothing can be kept at present; "" while all is well.
	Trouble  string       `json:"trouble"`
	Examples []ExampleRow `json:"examples"`
}

// JobRow is one job in the list.
type JobRow struct {
	ID       string `json:"id"`
	Title    string `json:"title"`
	Created  string `json:"created"` // RFC 3339
	Changed  string `json:"changed"`
	Revision int    `json:"revision"`
	Origin   string `json:"origin,omitempty"` // the file that it came from
	Thumb    string `json:"thumb"`            // address of the small picture
}

// ExampleRow is one of the built-in shops.
type ExampleRow struct {
	Name  string `json:"name"`
	Words string `json:"words"`
	Thumb string `json:"thumb"` // address of the small picture
}

// Create is the body of POST /api/jobs.
type Create struct {
	// From: an empty shop (or a room alone), an example, a first plan from the five
	// answers, an installation that stands drawn from them or by a chain of its main
	// parts, or a copy of a job.
	From    string         `json:"from" enum:"empty,example,start,existing,chain,copy"`
	Title   string         `json:"title,omitempty"`
	Units   string         `json:"units,omitempty" enum:"us,metric,mixed"` // empty
	Room    *start.Room    `json:"room,omitempty"`                         // empty: a room to begin with
	Example string         `json:"example,omitempty"`                      // its name
	Copy    string         `json:"copy,omitempty"`                         // the id of the job
	Start   *start.Answers `json:"start,omitempty"`                        // start, existing
	Chain   string         `json:"chain,omitempty"`                        // its table in CSV
}

// Start is GET /api/start: what the five questions offer.
type Start struct {
	start.Offered
}

// Compare is GET …/compare: the job and its alternatives side by side.
type Compare struct {
	Stamp
	screen.Comparison
}

// Created is the answer to POST /api/jobs.
type Created struct {
	ID string `json:"id"`
	// Notes are what could be read only in part (file).
	Notes []string `json:"notes"`
	// Assumed is what was taken for granted, and Facts what the plan comes to (start, existing).
	Assumed []start.Assumption `json:"assumed"`
	Facts   []string           `json:"facts"`
}

// Making is one line of the answer to POST /api/jobs for a shop out of the five answers,
// where that is wanted line by line.
type Making struct {
	Doing string `json:"doing"` // what is being done, Done of Total
	Done  int    `json:"done"`
	Total int    `json:"total"`
	// The last line has one of them.
	Made  *Created `json:"made"`
	Fault *Fault   `json:"fault"`
}

// StepBody is the body of POST …/steps.
type StepBody struct {
	Base int    `json:"base"` // the revision that the step was thought on
	By   string `json:"by,omitempty"`
	// Key is thought up for this one step and stays when it is sent again: it is then
	// made once, and the answer tells how it came out. "": it is made every time. So
	// with the bodies that follow.
	Key string `json:"key,omitempty"`
	// Step is an edit ({"edit": …}) or a gesture ({"do": …}).
	Step json.RawMessage `json:"step"`
}

// PriceListBody is the body of POST …/pricelist: a list to be looked at.
type PriceListBody struct {
	File string     `json:"file"` // its bytes in base64
	Ask  intake.Ask `json:"ask"`
}

// PricesBody is the body of POST …/prices: a list whose sure rows are taken.
type PricesBody struct {
	Base int        `json:"base"`
	By   string     `json:"by,omitempty"`
	Key  string     `json:"key,omitempty"`
	File string     `json:"file"` // its bytes in base64
	Ask  intake.Ask `json:"ask"`
}

// ByBody is the body of POST …/undo and …/redo.
type ByBody struct {
	By   string `json:"by,omitempty"`
	Key  string `json:"key,omitempty"`
	Base int    `json:"base,omitempty"` // taken and not needed: undo is of the newest step
}

// GoToBody is the body of POST …/goto.
type GoToBody struct {
	Revision int    `json:"revision"`
	By       string `json:"by,omitempty"`
	Key      string `json:"key,omitempty"`
	Base     int    `json:"base,omitempty"`
}

// AdoptBody is the body of POST …/adopt: the alternative becomes the job.
type AdoptBody struct {
	Plan string `json:"plan"`
	By   string `json:"by,omitempty"`
	Key  string `json:"key,omitempty"`
	Base int    `json:"base,omitempty"`
}

// History is GET …/history, newest first.
type History struct {
	Stamp
	Steps []HistoryStep `json:"steps"`
	More  bool          `json:"more"` // there are older ones
}

// HistoryStep is one step of a job's history.
type HistoryStep struct {
	Revision int    `json:"revision"`
	When     string `json:"when"` // RFC 3339
	By       string `json:"by"`
	Plan     string `json:"plan"` // the alternative in which it was made, "" for the job itself
	Kind     string `json:"kind" enum:"edit,undo,redo,replace"`
	Of       int    `json:"of"` // undo and redo: the revision concerned
	Words    string `json:"words"`
}

// Conflict says what another did to the same thing since the base.
type Conflict struct {
	By       string `json:"by"`
	Words    string `json:"words"`
	When     string `json:"when"` // RFC 3339
	Revision int    `json:"revision"`
	// Things are what both change.
	Things []string `json:"things"`
}

// Quantity is GET /api/quantity: what was typed, understood.
type Quantity struct {
	SI    float64 `json:"si"`
	Words string  `json:"words"`
	// Reference of a flow, as the job file names it; "" is the job's own.
	Reference string `json:"reference,omitempty"`
	Note      string `json:"note,omitempty"` // what was taken for granted
}

// Share is GET /api/share: how others on the network reach this program.
type Share struct {
	Network bool   `json:"network"` // false: this computer alone; the rest is empty
	Address string `json:"address"` // with the token
	QR      string `json:"qr_svg"`
	// Fingerprint is that of the certificate that phones are to trust; "" where the
	// network is served in the clear.
	Fingerprint string `json:"fingerprint"`
}

// Enter is the body of POST /api/enter: the token for a cookie.
type Enter struct {
	Token string `json:"token"`
}

// Pictures is GET …/pictures.
type Pictures struct {
	Pictures []string `json:"pictures"`
}
