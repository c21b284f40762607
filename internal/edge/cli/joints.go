package cli

import (
	"fmt"
	"strconv"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
)

// jointsPage is the joints by number.
func jointsPage(p *paper, title string, a *parts.Answer, system unit.System) {
	p.heading(title)
	t := table{{"joint", "what", "size", "between", "needs"}}
	for i := range a.Joints {
		k := &a.Joints[i]
		words := k.Words
		if k.State != parts.Planned {
			words += ", " + string(k.State)
		}
		var needs []string
		if k.Needs.Thread != "" {
			needs = append(needs, k.Needs.Thread)
		}
		if k.Needs.Turns > 0 {
			needs = append(needs, fmt.Sprintf("%.3g turns past hand tight", k.Needs.Turns))
		}
		if k.Needs.Mark > 0 {
			needs = append(needs, "mark at "+system.Marked(k.Needs.Mark))
		}
		if k.Problem != "" {
			needs = append(needs, k.Problem)
		}
		t = append(t, []string{strconv.Itoa(k.Number), words, k.Size, bare(k.Sides[0].Thing) + ", " + bare(k.Sides[1].Thing), strings.Join(needs, "; ")})
	}
	t.write(p)
}

// bare is an id without the word that says its kind.
func bare(id string) string {
	_, rest, ok := strings.Cut(id, ".")
	if !ok {
		return id
	}
	return rest
}

// piecesPage is the pieces of line with what their fittings take off.
func piecesPage(p *paper, title string, a *parts.Answer, system unit.System) {
	p.heading(title)
	t := table{{"piece", "line", "centre to centre", "off", "off", "cut", ""}}
	for i := range a.Pieces {
		x := &a.Pieces[i]
		if x.State == parts.Existing {
			continue
		}
		length := func(l *unit.Length) string {
			if l == nil {
				return "not known"
			}
			return system.Marked(*l)
		}
		var notes []string
		if x.TooShort {
			notes = append(notes, "fittings closer than their bodies allow")
		}
		if x.From.Unknown != "" || x.To.Unknown != "" {
			notes = append(notes, "a take-out is not known, and taken as none")
		}
		if len(x.Bends) > 0 {
			notes = append(notes, counted(len(x.Bends), "bend"))
		}
		t = append(t, []string{
			bare(x.ID), x.Stock + " " + x.Size, length(x.CentreToCentre), system.Marked(x.From.TakeOut), system.Marked(x.To.TakeOut),
			length(x.Cut), strings.Join(notes, "; "),
		})
	}
	t.write(p)
}
