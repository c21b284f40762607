// CONTRACT: the job document. One struct tree; its JSON keys carry units, read
// and written by package document (typed quantities are scaled by key suffix).
// A pointer is a figure that may be unknown: unknown is a value, not zero.

package job

import "dropleg/internal/shop/catalog"

// Version is the version of the document that this program writes.
const Version = 1

// ID names one thing of a job for ever: "line.main-3", "outlet.bench".
// The word before the first dot tells what it is.
type ID string

// Job is one shop's whole file. A Job is treated as immutable: edits return a
// new Job that shares what did not change.
type Job struct {
	Version   int       `json:"dropleg"`
	Title     string    `json:"title"`
	Note      string    `json:"note,omitempty"`
	Site      Site      `json:"site,omitzero"`
	Building  Building  `json:"building,omitzero"`
	Net       Net       `json:"net"`
	Outlets   []Outlet  `json:"outlets,omitempty"`
	Tools     []Tool    `json:"tools,omitempty"`
	Work      Work      `json:"work,omitzero"`
	Rules     Rules     `json:"rules,omitzero"`
	Prices    Prices    `json:"prices,omitzero"`
	Catalogue *OwnShelf `json:"catalogue,omitempty" doc:"the user's own rows on top of the built-in ones"`
	Plans     []Plan    `json:"plans,omitempty" doc:"alternatives: lists of edits on this job"`
	Records   []Record  `json:"records,omitempty" doc:"append-only; untouched by undo"`
	// Retired keeps the ids of removed things, sorted: records may hang on them,
	// and nothing new may take their names.
	Retired []ID `json:"retired,omitempty" doc:"ids of things that were removed; never used again"`
}

// OwnShelf is the job's own catalogue rows, in the form of the built-in ones.
type OwnShelf = catalog.Shelf
