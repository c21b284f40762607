package screen

import (
	"context"
	"errors"
	"fmt"

	"dropleg/internal/decide/plan"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// Proposals are ways to lay a shop out, beside what is drawn.
type Proposals struct {
	Now  Column        `json:"now"`
	Rows []ProposalRow `json:"rows"`
	// Refused says why there are none, each with what else must change.
	Refused []ReasonRow `json:"refused"`
}

// ProposalRow is one way.
type ProposalRow struct {
	Column
	Words   string      `json:"words"`
	Proof   string      `json:"proof"`
	Changes []ChangeRow `json:"changes"`
	Notes   []string    `json:"notes"`
	// Of what is added to lines that stand: what of these must change, what then stays open,
	// and what comes before a line is opened.
	Grows    []GrowRow   `json:"grows"`
	Open     []ReasonRow `json:"open"`
	Cautions []string    `json:"cautions"`
	// Step is what makes it the job; null where it is what stands.
	Step *job.EditForm `json:"step"`
	SVG  string        `json:"svg"` // a small drawing
	// Lines are those of the plan after it, to be laid over the plan that stands.
	Lines []scene.Item `json:"lines"`
}

// ChangeRow is one thing that comes out otherwise.
type ChangeRow struct {
	ID    string `json:"id"`
	Words string `json:"words"`
	From  string `json:"from"` // "" for what is new
	To    string `json:"to"`   // "" for what goes
}

// ReasonRow is one thing in the way.
type ReasonRow struct {
	Title string   `json:"title"`
	Why   string   `json:"why"`
	Where []string `json:"where"`
}

// Propose asks for proposals. The pictures are left to whoever draws stamps.
func (s *Shop) Propose(ctx context.Context, ask Ask, wish plan.Wish, progress func(doing string, done, total int)) (Proposals, []plan.Proposal, error) {
	out := Proposals{Rows: []ProposalRow{}, Refused: []ReasonRow{}}
	ask.Set, ask.System = "", s.system(ask)
	wish.System = ask.System
	list, err := plan.Propose(ctx, s.study, wish, progress)
	var refused *plan.Refused
	if errors.As(err, &refused) {
		out.Refused = reasons(refused.Findings)
		return out, nil, nil
	}
	if err != nil {
		return out, nil, err
	}
	now, was, err := s.column(ctx, ask)
	if err != nil {
		return out, nil, err
	}
	now.Name = "as drawn"
	out.Now = now
	for i := range list {
		row, err := s.proposal(ctx, ask, &list[i], was)
		if err != nil {
			return out, nil, fmt.Errorf("proposal %s: %w", list[i].Name, err)
		}
		out.Rows = append(out.Rows, row)
	}
	return out, list, nil
}

// proposal words one, against what is drawn.
func (s *Shop) proposal(ctx context.Context, ask Ask, p *plan.Proposal, was figures) (ProposalRow, error) {
	after := On(p.After, s.judge)
	col, is, err := after.column(ctx, ask)
	if err != nil {
		return ProposalRow{}, err
	}
	col.Name, col.Against = p.Name, s.against(ask, was, is)
	row := ProposalRow{
		Column: col, Words: s.namesIn(p.Words), Proof: p.Proof, Changes: []ChangeRow{}, Notes: []string{}, Lines: []scene.Item{},
		Grows: []GrowRow{}, Open: []ReasonRow{}, Cautions: []string{},
	}
	for _, n := range p.Notes {
		row.Notes = append(row.Notes, s.namesIn(n))
	}
	for _, c := range p.Changes {
		change := ChangeRow{Words: c.Words, From: c.From, To: c.To}
		if len(c.IDs) > 0 {
			change.ID = string(c.IDs[0])
		}
		row.Changes = append(row.Changes, change)
	}
	if p.After == s.study {
		return row, nil
	}
	form := p.Edit.Form()
	row.Step = &form
	row.Lines, err = after.linesOfPlan(ctx, ask)
	return row, err
}

// linesOfPlan are the lines of the plan as the page paints them.
func (s *Shop) linesOfPlan(ctx context.Context, ask Ask) ([]scene.Item, error) {
	const wide, high = 360, 225 // mm, as a page has it
	drawn, err := s.Plan(ctx, ask, wide, high)
	if err != nil {
		return nil, err
	}
	for _, l := range drawn.Scene.Layers {
		if l.ID == "lines" {
			return l.Items, nil
		}
	}
	return []scene.Item{}, nil
}
