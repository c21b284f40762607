package build

import (
	"dropleg/internal/answer/hold"
	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
)

// Stage is a part of the work.
type Stage string

// The stages, in the order of the work.
const (
	Supports Stage = "supports"
	Mains    Stage = "mains"
	Drops    Stage = "drops"
	Plant    Stage = "plant"
)

// Stages lists the stages in the order of the work.
func Stages() []Stage { return []Stage{Supports, Mains, Drops, Plant} }

// What a step is.
const (
	Fix  = "fix"  // the supports of a line
	Cut  = "cut"  // a piece
	Join = "join" // a joint
	Hide = "hide" // a line that nobody gets at any more: its joints are tested before
)

// Step is one thing to do.
type Step struct {
	Task  string `json:"task"` // that a record names: "cut line.main-2/piece-1"
	What  string `json:"what"`
	Stage Stage  `json:"stage"`
	Run   job.ID `json:"run,omitempty"`
	// Of a step what it is about; the others are nil.
	Piece    *parts.Piece    `json:"piece,omitempty"`
	Joint    *parts.Joint    `json:"joint,omitempty"`
	Supports []*hold.Support `json:"supports,omitempty"`
	// Hidden is how a line is hidden (void, buried, boarded, tiled), and Open are the
	// joints on it that were not found tight: with any of them it may not be hidden.
	Hidden string        `json:"hidden,omitempty"`
	Open   []string      `json:"open_joints,omitempty"`
	Done   bool          `json:"done"`
	Last   *job.Record   `json:"last,omitempty"`
	Clash  []*job.Record `json:"clash,omitempty"`
	Seen   []job.ID      `json:"seen"`
}

// Count is how far a stage has come.
type Count struct {
	Stage Stage `json:"stage"`
	Done  int   `json:"done"`
	All   int   `json:"all"`
}

// Answer is the order of work.
type Answer struct {
	Steps    []Step  `json:"steps"`
	Progress []Count `json:"progress"` // by stage, those without a step left out
	Done     int     `json:"done"`
	All      int     `json:"all"`
	// Next are the indices of the first steps that are not done: any, a cut, a joint; -1
	// for none.
	Next      int `json:"next"`
	NextCut   int `json:"next_cut"`
	NextJoint int `json:"next_joint"`
}
