package server

import "dropleg/internal/show/screen"

// Live is GET …/live and the answer to every step: what changed on the page since a
// revision that the browser has. Its lists of words and outlets are always whole.
type Live struct {
	Stamp
	// Since is the revision that patch, pieces and gone follow on; 0: they are whole.
	Since int `json:"since"`
	// Words tell the step that was made; "" where none was.
	Words string `json:"words"`
	// Undo and Redo tell what would be undone and done again; "" for nothing.
	Undo string `json:"undo"`
	Redo string `json:"redo"`
	// Made are the ids that the step made, the leading one first.
	Made []string `json:"made"`
	// Merged: others had made steps since the base, none of which touched this one.
	Merged  bool   `json:"merged"`
	Saved   bool   `json:"saved"`
	Trouble string `json:"trouble"` // why it is not saved; "" while all is well
	screen.Live
}

// Sheets is GET …/sheets: what can be printed.
type Sheets struct {
	Stamp
	Sheets []SheetRow      `json:"sheets"` // in the order of the job book
	Papers []screen.Choice `json:"papers"`
	Paper  string          `json:"paper"` // the usual one
}

// SheetRow is one sheet.
type SheetRow struct {
	ID       string `json:"id"`
	Title    string `json:"title"`
	Audience string `json:"audience"` // who works from it
}

// SheetLeaf is GET …/sheets/{sheet}?leaf=1&paper=a4&by=…&mark=…&revision=…: one leaf as it is
// printed. The same choices give the files of GET …/book/{file}?only=plan,walls.
type SheetLeaf struct {
	Stamp
	Title   string `json:"title"`
	Missing string `json:"missing"` // what the job lacks for it; then there is no leaf
	Leaf    int    `json:"leaf"`    // from 1
	Leaves  int    `json:"leaves"`
	SVG     string `json:"svg"`
}
