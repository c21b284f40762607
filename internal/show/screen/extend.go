package screen

import (
	"cmp"
	"context"
	"errors"
	"fmt"

	"dropleg/internal/answer/study"
	"dropleg/internal/decide/extend"
	"dropleg/internal/decide/plan"
	"dropleg/internal/shop/job"
)

// GrowRow is one sort of thing that stands: enough as it is, or what of it must change.
type GrowRow struct {
	What    string      `json:"what"`
	Enough  bool        `json:"enough"`
	Changes []ChangeRow `json:"changes"`
}

// Extend says what comes with something that is added to lines that stand. The pictures are
// left to whoever draws stamps.
func (s *Shop) Extend(ctx context.Context, ask Ask, wish extend.Wish, progress plan.Progress) (Proposals, []*study.Study, error) {
	out := Proposals{Rows: []ProposalRow{}, Refused: []ReasonRow{}}
	ask.Set, ask.System = "", s.system(ask)
	wish.System = ask.System
	list, err := extend.Propose(ctx, s.study, wish, progress)
	var refused *plan.Refused
	var refusal *job.Refusal
	switch {
	case errors.As(err, &refused):
		out.Refused = reasons(refused.Findings)
		return out, nil, nil
	case errors.As(err, &refusal):
		out.Refused = reasons(refusal.Findings)
		return out, nil, nil
	case err != nil:
		return out, nil, err
	}
	now, was, err := s.column(ctx, ask)
	if err != nil {
		return out, nil, err
	}
	now.Name = "as it stands"
	out.Now = now
	var studies []*study.Study
	for i := range list {
		p := &list[i]
		row, err := s.proposal(ctx, ask, &plan.Proposal{Name: p.Name, Words: p.Words, Edit: p.Edit, After: p.After, Proof: p.Proof, Notes: p.Notes}, was)
		if err != nil {
			return out, nil, fmt.Errorf("proposal %s: %w", p.Name, err)
		}
		s.extended(&row, p, On(p.After, s.judge))
		out.Rows, studies = append(out.Rows, row), append(studies, p.After)
	}
	return out, studies, nil
}

// extended fills in what a proposal has beside its lines and sizes.
func (s *Shop) extended(row *ProposalRow, p *extend.Proposal, after *Shop) {
	for _, g := range p.Grows {
		r := GrowRow{What: g.What, Enough: len(g.Changes) == 0, Changes: []ChangeRow{}}
		for _, c := range g.Changes {
			r.Changes = append(r.Changes, ChangeRow{ID: string(c.ID), Words: after.named(c.ID), From: cmp.Or(c.From, "not there"), To: c.To})
		}
		row.Grows = append(row.Grows, r)
	}
	for _, c := range p.Taken {
		row.Notes = append(row.Notes, "Taken in: "+c.Words+".")
	}
	row.Open = reasons(p.Open)
	for _, t := range p.Tie {
		row.Cautions = append(row.Cautions, s.tieWords(&t, after))
	}
	if len(p.Tie) > 0 {
		row.Cautions = append(row.Cautions, "Ear and eye protection while venting. What is new is tested before it is used: see Does it hold?")
	}
	for _, g := range row.Grows {
		if g.What == extend.Supply && !g.Enough {
			row.Cautions = append(row.Cautions, "The compressor’s supply and switchgear are an electrician’s work; receiver and relief valve come under pressure-vessel law.")
		}
	}
}

// tieWords says what is shut, and how it is made sure of, before a line is opened.
func (s *Shop) tieWords(t *extend.Tie, after *Shop) string {
	at := "at " + after.named(t.Point)
	if t.Run != "" {
		at = "in " + s.named(t.Run)
	}
	words := "The line is opened " + at + ". Before that: "
	if len(t.Other) > 0 {
		words += "stop the compressor and lock it, shut off and lock at " + s.namesOf(t.Other) + ", "
	} else {
		words += "stop the compressor and lock it, "
	}
	if len(t.Shut) > 0 {
		words += "shut and lock " + s.namesOf(t.Shut) + ", "
	}
	return words + "vent, and see zero on a gauge in the section that is opened."
}

// namesOf joins the names of things.
func (s *Shop) namesOf(ids []job.ID) string {
	var names []string
	for _, id := range ids {
		names = append(names, s.named(id))
	}
	return listed(names)
}

// reasons puts findings into rows.
func reasons(list []job.Finding) []ReasonRow {
	out := []ReasonRow{}
	for _, f := range list {
		r := ReasonRow{Title: f.Title, Why: f.Why, Where: []string{}}
		for _, id := range f.Where {
			r.Where = append(r.Where, string(id))
		}
		out = append(out, r)
	}
	return out
}
