package server

import (
	"encoding/json"

	"dropleg/internal/show/screen"
)

// Build is GET /api/jobs/{job}/build.
type Build struct {
	Stamp
	screen.Build
}

// Prove is GET /api/jobs/{job}/prove.
type Prove struct {
	Stamp
	screen.Prove
}

// Keep is GET /api/jobs/{job}/keep.
type Keep struct {
	Stamp
	screen.Keep
}

// Decay is the answer to POST /api/jobs/{job}/decay, whose body is a test as in the file.
type Decay struct {
	Stamp
	screen.DecayRow
}

// RecordsBody is POST /api/jobs/{job}/records.
type RecordsBody struct {
	By string `json:"by,omitempty"`
	// Records as in the file, each under an id that its writer made.
	Records []json.RawMessage `json:"records"`
}

// Recorded tells what became of each record, by its id.
type Recorded struct {
	Stamp
	Taken   []string        `json:"taken"`
	Had     []string        `json:"had"` // they were there already
	Refused []RecordRefused `json:"refused"`
}

// RecordRefused is a record that the job does not take, and why.
type RecordRefused struct {
	ID  string `json:"id"`
	Why string `json:"why"`
}
