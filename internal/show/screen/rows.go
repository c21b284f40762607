package screen

import (
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/scene"
)

// Choice is one word to choose from.
type Choice struct {
	ID    string `json:"id"`
	Words string `json:"words"`
	Note  string `json:"note,omitempty"`
}

// Head is what stands over the page, and what there is to choose from.
type Head struct {
	Title   string   `json:"title"`
	Plan    string   `json:"plan"`  // name of the alternative shown
	Facts   []string `json:"facts"` // "7 outlets", "58.2 m of line"
	Systems []Choice `json:"systems"`
	Sets    []Choice `json:"sets"` // the first is the shop's worst
	Cases   []Choice `json:"cases"`
	Views   []Choice `json:"views"`
	// Units, Set and Case are what is shown where nothing else is asked for.
	Units string `json:"units"`
	Set   string `json:"set"`
	Case  string `json:"case"`
	// Opens is when the working day begins, since midnight.
	Opens float64 `json:"opens_s"`
}

// Mark is the verdict on a question.
type Mark string

// The marks.
const (
	Yes     Mark = "yes"
	NotYet  Mark = "not-yet"
	Unknown Mark = "unknown" // cannot tell
	Told    Mark = "told"    // a question of what, not of whether: its answer is no verdict
)

// Question is one of the plain questions with its answer in one sentence.
type Question struct {
	ID       string `json:"id"`
	Question string `json:"question"`
	Mark     Mark   `json:"mark"`
	Verdict  string `json:"verdict"` // the mark in words: "Yes", "Not yet", "Cannot tell", "" of what is told
	Answer   string `json:"answer"`  // one sentence
	// List is what stands beside the drawing: "outlets", "days", "water", "hold", "cost", "purchase", "build", "prove", "keep" or "" for the findings alone.
	List string `json:"list"`
	// Facts are the figures the answer rests on.
	Facts []Fact `json:"facts"`
	// Codes are the findings that bear on it.
	Codes    []string `json:"codes"`
	Cautions []string `json:"cautions"`
}

// Fact is a figure with its words and where it comes from.
type Fact struct {
	Words  string  `json:"words"`
	Figure string  `json:"figure"`
	From   *Origin `json:"from,omitempty"`
}

// Origin says where a figure comes from.
type Origin struct {
	Name    string   `json:"name,omitempty"`  // what the law is called
	Law     string   `json:"law,omitempty"`   // its equation, or what was done, as text
	Holds   string   `json:"holds,omitempty"` // where it holds and what happens outside
	Inputs  []string `json:"inputs"`          // with their values in the units asked for
	Sources []string `json:"sources"`         // with edition, and whether read or recalled
	Range   string   `json:"range"`           // plausible range of the figure; "not known"
}

// Plan is the drawing from above.
type Plan struct {
	draw.View
	Set  string `json:"set"`
	Case string `json:"case"`
	// Sentence says in words what the drawing shows.
	Sentence string `json:"sentence"`
}

// OutletRow is one outlet in the list.
type OutletRow struct {
	ID     string `json:"id"`
	Mark   string `json:"mark"`
	Name   string `json:"name"`
	Figure string `json:"figure"` // "5.4 bar", "–" where nothing is known
	Needs  string `json:"needs"`  // "6.2 bar", "" where no tool states a need
	State  State  `json:"state"`
	Words  string `json:"words"` // "0.8 bar short", "0.4 bar to spare", "rests in this moment; 6.9 bar at its worst"
	Tools  string `json:"tools"`
}

// State is how an outlet or a tool does.
type State string

// The states.
const (
	Enough  State = "enough"
	Short   State = "short"
	Unused  State = "unused"
	NotSeen State = "unknown"
)

// Way is the pressure from the receiver to a tool.
type Way struct {
	Outlet   string   `json:"outlet"`
	Title    string   `json:"title"`
	Number   string   `json:"number"` // the large figure
	Unit     string   `json:"unit"`
	Beside   string   `json:"beside"` // after the figure: "at the sander while it runs with B and E"
	From     *Origin  `json:"from,omitempty"`
	State    State    `json:"state"`
	Sentence string   `json:"sentence"`
	Tools    []Choice `json:"tools"` // tools used here; the first is the one shown
	// Rests says for which set the figures stand, where it is not the one asked for.
	Rests string      `json:"rests,omitempty"`
	Steps []WayStep   `json:"steps"`
	Scene scene.Scene `json:"scene"`
	Facts []Fact      `json:"facts"`
}

// WayStep is one element on the way, in the order of the air.
type WayStep struct {
	ID    string `json:"id"`
	Words string `json:"words"`
	Part  string `json:"part"`
	In    string `json:"in"`
	Out   string `json:"out"`
	Loss  string `json:"loss"`
	Share int    `json:"share_pct"`
	Tall  bool   `json:"tall"`
	From  Origin `json:"from"` // of Loss
}

// Thing is what is known of one thing, and what of it can be stated.
type Thing struct {
	ID    string `json:"id"`
	Title string `json:"title"`
	Facts []Fact `json:"facts"`
	// Cautions stand before the fields of what can hurt.
	Cautions []string     `json:"cautions"`
	Groups   []FieldGroup `json:"groups"`
}

// Finding is one finding as the page shows it.
type Finding struct {
	Key      string   `json:"key"` // names it on the page; not kept
	Code     string   `json:"code"`
	Severity string   `json:"severity"`
	Words    string   `json:"severity_words"`
	Title    string   `json:"title"`
	Why      string   `json:"why"`
	Where    []Choice `json:"where"` // the things concerned
	Origin   Origin   `json:"origin"`
	Shares   []Fact   `json:"shares"`
	Cures    []Cure   `json:"cures"`
}

// Cure is a change that helps.
type Cure struct {
	Words    string `json:"words"`
	Gain     string `json:"gain,omitempty"`
	Price    string `json:"price,omitempty"`
	Cures    bool   `json:"cures"`
	Verified bool   `json:"verified"`
	// Edit makes the change; it is posted as a step.
	Edit *job.EditForm `json:"edit,omitempty"`
}
