package screen

import (
	"context"
	"fmt"

	"dropleg/internal/answer/hold"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
)

// Hold is how the lines of a shop stay put.
type Hold struct {
	Sentence string       `json:"sentence"`
	Supports []SupportRow `json:"supports"` // by stock and size
	Fixings  []FixingRow  `json:"fixings"`  // by what they are fixed to
	Growth   []GrowthRow  `json:"growth"`   // of what grows more than clips give way to, most first
	Bends    []BendRow    `json:"bends"`
	Walls    []WallRow    `json:"walls"` // in walking order
	Notes    []string     `json:"notes"` // what could not be told, where supports are missing
}

// SupportRow is how lines of one stock and size are held.
type SupportRow struct {
	Stock      string    `json:"stock"`
	Words      string    `json:"words"`
	Horizontal string    `json:"horizontal"` // greatest distance; "not known"
	Vertical   string    `json:"vertical"`
	Fixed      int       `json:"fixed"`
	Sliding    int       `json:"sliding"`
	Lines      []HeldRow `json:"lines"`
	From       Origin    `json:"from"`
}

// HeldRow is one line of them.
type HeldRow struct {
	ID       string   `json:"id"`
	Name     string   `json:"name"`
	Words    string   `json:"words"`
	Supports []string `json:"supports"` // ids, as on the drawing
}

// FixingRow is what is fixed to one thing, and how.
type FixingRow struct {
	Onto   string   `json:"onto"`
	Words  string   `json:"words"`
	Screws string   `json:"screws"` // for clips; "" where none are told
	Pull   string   `json:"pull"`   // for what takes the pull of a hose; "" where nothing does
	Things []string `json:"things"` // walls, and what is fixed
	From   Origin   `json:"from"`
}

// GrowthRow is a straight stretch that grows.
type GrowthRow struct {
	ID     string   `json:"id"`
	Name   string   `json:"name"`
	Length string   `json:"length"`
	Growth string   `json:"growth"`
	Words  string   `json:"words"` // where it goes
	State  State    `json:"state"`
	Helps  string   `json:"helps"` // what would let it grow; "" where nothing has to
	Legs   []string `json:"legs"`  // every place that moves, with its leg
	Things []string `json:"things"`
	From   Origin   `json:"from"`
}

// BendRow is the corners of a line that are bent in it.
type BendRow struct {
	ID    string `json:"id"` // of the line
	Name  string `json:"name"`
	Words string `json:"words"`
	State State  `json:"state"`
	From  Origin `json:"from"`
}

// WallRow is a wall with what is to be marked on it, by distance along it.
type WallRow struct {
	ID    string    `json:"id"`
	Name  string    `json:"name"`
	Words string    `json:"words"`
	Marks []MarkRow `json:"marks"`
	From  Origin    `json:"from"`
}

// MarkRow is a place to mark.
type MarkRow struct {
	Thing string `json:"thing"`
	Along string `json:"along"`
	Up    string `json:"up"`
	What  string `json:"what"`
}

// held is an answer about how lines are held while it is worded.
type held struct {
	*Shop
	*view
	a     *hold.Answer
	rules map[string]*hold.Rule
	runs  map[job.ID]*hold.Run
}

func (s *Shop) held(ctx context.Context, ask Ask) (*held, error) {
	a, err := s.study.Hold(ctx)
	if err != nil {
		return nil, fmt.Errorf("holding the lines: %w", err)
	}
	v, err := s.plainView(ctx, ask)
	if err != nil {
		return nil, err
	}
	h := &held{Shop: s, view: v, a: a, rules: map[string]*hold.Rule{}, runs: map[job.ID]*hold.Run{}}
	for i := range a.Rules {
		h.rules[a.Rules[i].Name] = &a.Rules[i]
	}
	for i := range a.Runs {
		h.runs[a.Runs[i].ID] = &a.Runs[i]
	}
	return h, nil
}

// Hold tells how the lines are held, what they grow and where that goes.
func (s *Shop) Hold(ctx context.Context, ask Ask) (Hold, error) {
	h, err := s.held(ctx, ask)
	if err != nil {
		return Hold{}, err
	}
	return Hold{
		Sentence: h.sentence(), Supports: h.supports(), Fixings: h.fixings(), Growth: h.growth(),
		Bends: h.bends(), Walls: h.walls(), Notes: h.notes(),
	}, nil
}

// toFix counts the supports of what is planned, and those of them that hold fast.
func (h *held) toFix() (all, fast int) {
	for i := range h.a.Supports {
		if p := &h.a.Supports[i]; p.State == planned {
			all++
			if p.Kind == holdsFast {
				fast++
			}
		}
	}
	return all, fast
}

// Words of hold.Answer.
const (
	existing  = "existing"
	planned   = "planned"
	holdsFast = "fixed"
)

// most is the stretch that grows most; nil where none is known to grow.
func (h *held) most() *hold.Stretch {
	var most *hold.Stretch
	for i := range h.a.Stretches {
		if x := &h.a.Stretches[i]; x.Growth > 0 && len(x.Unknown) == 0 && (most == nil || x.Growth > most.Growth) {
			most = x
		}
	}
	return most
}

// unheld counts the drawn lines without a spacing: where their supports sit nobody knows.
func (h *held) unheld() int {
	n := 0
	for i := range h.a.Runs {
		if r := &h.a.Runs[i]; r.Drawn > 0 && !r.Horizontal.Known && r.State != existing && h.isLine(r.ID) {
			n++
		}
	}
	return n
}

// isLine says whether a run is line that is to be held: no hose, and not in the ground.
func (h *held) isLine(id job.ID) bool {
	r := h.index.Run(id)
	stock, ok := h.study.Catalog().Stock(r.Stock)
	return r.Support != "buried" && !(ok && stock.Form == "hose")
}

// marked lists the supports as a drawing marks them.
func (s *Shop) marked(ctx context.Context, ask Ask) ([]draw.Support, error) {
	h, err := s.held(ctx, ask)
	if err != nil {
		return nil, err
	}
	out := make([]draw.Support, 0, len(h.a.Supports))
	for i := range h.a.Supports {
		p := &h.a.Supports[i]
		out = append(out, draw.Support{ID: p.ID, Run: p.Run, Along: p.Along, Fixed: p.Kind == holdsFast, Title: h.supportTitle(p)})
	}
	return out, nil
}
