package draw

import (
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// Frame tells how a part of a drawing lies in the shop, so that a place on the
// drawing is a place in the room. On a plan a place of the scene less Origin is
// x and y in metres; on a wall it is along and up, with along running to the left
// where Flip is set (a wall seen from behind). Units of the scene are metres.
type Frame struct {
	Kind   string      `json:"kind"` // "plan", "wall", or "none": a part of the drawing that is not to scale or has no wall
	Wall   job.ID      `json:"wall,omitempty"`
	Room   job.ID      `json:"room,omitempty"`
	Min    scene.Point `json:"min_m"`
	Max    scene.Point `json:"max_m"`
	Origin scene.Point `json:"origin_m"` // of along 0, up 0 on a wall; of x 0, y 0 on a plan
	Flip   bool        `json:"flip,omitempty"`
}

// The kinds of frames.
const (
	FramePlan = "plan"
	FrameWall = "wall"
	FrameNone = "none"
)

// planFrames is the one frame of a plan: the scene's metres are the shop's.
func planFrames(low, high scene.Point) []Frame {
	return []Frame{{Kind: FramePlan, Min: low, Max: high}}
}
