package server

import (
	"dropleg/internal/decide/find"
	"dropleg/internal/show/screen"
)

// Stamp says which revision of the job an answer stands on.
type Stamp struct {
	Revision int `json:"revision"`
	// Old is set where the file that the job follows has changed but cannot be read:
	// the answer is of the last revision that could.
	Old bool `json:"old"`
}

// Job is GET /api/jobs/{job}.
type Job struct {
	Stamp
	ID      string       `json:"id"`
	File    string       `json:"file"`    // that the job follows or came from; "" for none
	Follows bool         `json:"follows"` // what changes in the file changes the job
	Head    *screen.Head `json:"head"`
	// Problems keep the file that the job follows from being read.
	Problems []Problem `json:"problems"`
	// Plans are the alternatives to choose from.
	Plans   []screen.Choice `json:"plans"`
	Saved   bool            `json:"saved"`
	Trouble string          `json:"trouble"` // why nothing is kept; "" while all is well
	Undo    string          `json:"undo"`
	Redo    string          `json:"redo"`
	// Left are steps of the alternative shown that no longer fit and are left out.
	Left []Problem `json:"left"`
	// Note is what the job says of itself; of a first plan, what was assumed.
	Note string `json:"note"`
}

// Problem is one thing that cannot be used: in a file, or in a step.
type Problem struct {
	Path    string `json:"path"`
	Read    string `json:"read"`
	Want    string `json:"want"`
	Nearest string `json:"nearest,omitempty"`
	// Where are the things concerned, the first leading.
	Where []string `json:"where"`
}

// Plan is GET /api/jobs/{job}/scene.
type Plan struct {
	Stamp
	screen.Plan
}

// Outlets is GET /api/jobs/{job}/outlets.
type Outlets struct {
	Stamp
	Outlets []screen.OutletRow `json:"outlets"`
}

// Way is GET /api/jobs/{job}/outlets/{id}/path.
type Way struct {
	Stamp
	screen.Way
}

// Thing is GET /api/jobs/{job}/things/{id}.
type Thing struct {
	Stamp
	screen.Thing
}

// Typed is GET /api/jobs/{job}/things/{id}/typed?key=…&text=….
type Typed struct {
	Stamp
	screen.Typed
}

// Questions is GET /api/jobs/{job}/questions.
type Questions struct {
	Stamp
	Questions []screen.Question `json:"questions"`
}

// Findings is GET /api/jobs/{job}/findings.
type Findings struct {
	Stamp
	Findings []screen.Finding `json:"findings"`
}

// Purchase is GET /api/jobs/{job}/purchase.
type Purchase struct {
	Stamp
	screen.Purchase
}

// Quote is GET /api/jobs/{job}/quote?against=REVISION.
type Quote struct {
	Stamp
	screen.Quotation
}

// PriceList is what POST /api/jobs/{job}/pricelist answers.
type PriceList struct {
	Stamp
	screen.PriceList
}

// Days is GET /api/jobs/{job}/days?rough=yes.
type Days struct {
	Stamp
	screen.Steady
}

// Hour is GET /api/jobs/{job}/days/first/{hour}: an hour of the first working day, from 0.
type Hour struct {
	Stamp
	screen.Stretch
}

// Water is GET /api/jobs/{job}/water.
type Water struct {
	Stamp
	screen.Water
}

// Hold is GET /api/jobs/{job}/hold.
type Hold struct {
	Stamp
	screen.Hold
}

// Weak is GET /api/jobs/{job}/weak.
type Weak struct {
	Stamp
	find.Told
}

// Cost is GET /api/jobs/{job}/cost.
type Cost struct {
	Stamp
	screen.Cost
}

// Event is what …/events sends at every new revision, whoever made it, and when the
// file that the job follows can no longer be read, or can again.
type Event struct {
	Stamp
	By      string `json:"by"`
	Words   string `json:"words"`
	Saved   bool   `json:"saved"`
	Trouble string `json:"trouble"`
}

// Fault is the body of every answer that is not 2xx (RFC 9457).
type Fault struct {
	Title  string `json:"title"`
	Status int    `json:"status"`
	Detail string `json:"detail"`
	// Problems of a step or of a file that cannot be used, all at once.
	Problems []Problem `json:"problems,omitempty"`
	// Conflict is set where another changed the same thing since the base.
	Conflict *Conflict `json:"conflict,omitempty"`
}
