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
