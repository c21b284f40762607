package server

import "dropleg/internal/show/screen"

// Stamp says which revision of the file an answer stands on.
type Stamp struct {
	Revision int `json:"revision"`
	// Old is set where the file has changed but cannot be read: the answer is of
	// the last revision that could.
	Old bool `json:"old"`
}

// Job is GET /api/job.
type Job struct {
	Stamp
	File     string       `json:"file"`
	Head     *screen.Head `json:"head"` // null: no revision of the file could be read
	Problems []Problem    `json:"problems"`
}

// Problem is one thing that keeps the file from being read.
type Problem struct {
	Path    string `json:"path"`
	Read    string `json:"read"`
	Want    string `json:"want"`
	Nearest string `json:"nearest,omitempty"`
}

// Plan is GET /api/scene.
type Plan struct {
	Stamp
	screen.Plan
}

// Outlets is GET /api/outlets.
type Outlets struct {
	Stamp
	Outlets []screen.OutletRow `json:"outlets"`
}

// Way is GET /api/outlets/{id}/path.
type Way struct {
	Stamp
	screen.Way
}

// Thing is GET /api/things/{id}.
type Thing struct {
	Stamp
	screen.Thing
}

// Questions is GET /api/questions.
type Questions struct {
	Stamp
	Questions []screen.Question `json:"questions"`
}

// Findings is GET /api/findings.
type Findings struct {
	Stamp
	Findings []screen.Finding `json:"findings"`
}

// Parts is GET /api/parts.
type Parts struct {
	Stamp
	Parts []screen.PartRow `json:"parts"`
	Note  string           `json:"note"`
}

// Event is what /api/events sends: the file was read again, with or without success.
type Event struct {
	Stamp
}

// Fault is the body of every answer that is not 2xx (RFC 9457).
type Fault struct {
	Title  string `json:"title"`
	Status int    `json:"status"`
	Detail string `json:"detail"`
}
