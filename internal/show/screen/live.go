package screen

import (
	"context"
	"fmt"

	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/scene"
)

// Window is what a page shows of a shop.
type Window struct {
	Ask
	View          string // as in Head.Views
	Room          job.ID
	Width, Height float64 // of the sheet in mm
	Supports      bool    // mark what holds the lines
}

// Page is what a window shows of one revision. It does not change and may be kept
// to tell the next one by what changed.
type Page struct {
	Plan
	Outlets []OutletRow
	// Supposed: see Live.
	Supposed bool
	things   []thing
}

// Live is what changed on a page. Its lists of words and outlets are always whole.
type Live struct {
	Patch    *scene.Patch `json:"patch"` // null: the drawing did not change
	Legend   []draw.Band  `json:"legend"`
	Notes    []string     `json:"notes"`
	Frames   []draw.Frame `json:"frames"`
	Set      string       `json:"set"`
	Case     string       `json:"case"`
	Sentence string       `json:"sentence"`
	// Supposed: the set shown was the shop's worst before the last steps, and whether it
	// still is has not been worked out; its figures are of this revision. Once the
	// questions were asked, the page of the same revision tells the worst set.
	Supposed bool        `json:"supposed"`
	Pieces   []Piece     `json:"pieces"` // changed or new
	Gone     []string    `json:"gone"`   // ids
	Outlets  []OutletRow `json:"outlets"`
	// Whole: patch and pieces are not what changed but everything.
	Whole bool `json:"-"`
}

// Study is what the shop is shown from.
func (s *Shop) Study() *study.Study { return s.study }

// Page works out what a window shows: the set and the case shown, and no other
// (see Live.Supposed). Errors are those of View.
func (s *Shop) Page(ctx context.Context, w Window) (*Page, error) {
	sight, ok := draw.SightOf(w.View)
	if !ok {
		return nil, &NotThere{w.View}
	}
	if w.Room != "" && s.index.Room(w.Room) == nil {
		return nil, &NotThere{string(w.Room)}
	}
	v, supposed, err := s.glance(ctx, w.Ask, false)
	if err != nil {
		return nil, err
	}
	var whole *flow.Answer
	if w.Set == "" && !supposed { // then the shop's worst set was taken from it
		if whole, err = s.study.Flow(ctx); err != nil {
			return nil, fmt.Errorf("working out pressures: %w", err)
		}
	}
	given := s.given(v)
	if w.Supports {
		if given.Supports, err = s.marked(ctx, w.Ask); err != nil {
			return nil, err
		}
	}
	p := &Page{Plan: s.drawn(v, given, sight, w.Room, w.Width, w.Height), Outlets: s.outletRows(v, whole), Supposed: supposed, things: s.things()}
	if supposed {
		p.Sentence += " This was the shop’s worst moment before the last steps; whether it still is will be worked out."
	}
	return p, nil
}

// Since is what makes this page of an earlier one of the same window; nil, and a
// page that shows something else altogether, give the whole. The error is that of a
// thing that cannot be written.
func (p *Page) Since(old *Page) (Live, error) {
	l := Live{
		Legend: p.Legend, Notes: p.Notes, Frames: p.Frames, Set: p.Set, Case: p.Case, Sentence: p.Sentence,
		Supposed: p.Supposed, Outlets: p.Outlets,
	}
	var was scene.Scene
	var had []thing
	if old != nil {
		was = old.Scene
	}
	patch := scene.Diff(was, p.Scene)
	if l.Whole = patch.Whole(); !l.Whole {
		had = old.things
	}
	if !patch.None() {
		l.Patch = &patch
	}
	var err error
	l.Pieces, l.Gone, err = changed(had, p.things)
	return l, err
}
