package screen

import (
	"fmt"
	"strings"

	"dropleg/internal/answer/parts"
)

// Parts is the take-off of what is planned; the note says what it leaves out.
func (s *Shop) Parts(ask Ask) (rows []PartRow, note string) {
	system := s.system(ask)
	rows = []PartRow{}
	standing := 0
	for _, l := range s.takeOff().Lines {
		if l.State != parts.Planned {
			standing++
			continue
		}
		if l.Group == parts.Made {
			continue
		}
		row := PartRow{Words: l.Words, Shelf: string(l.Group), Things: []string{}, From: *counted("the things of the drawing that are planned; lengths along their centre lines")}
		switch {
		case l.Pieces > 0:
			row.Number = fmt.Sprint(l.Pieces)
		case l.Length != nil:
			row.Number = system.Listed(*l.Length)
		}
		if l.Unknown > 0 {
			row.Number += " and " + plural(l.Unknown, "unknown length", "unknown lengths")
		}
		for _, from := range l.From {
			id, _, _ := strings.Cut(from, "/")
			row.Things = addOnce(row.Things, id)
		}
		rows = append(rows, row)
	}
	note = "Counted off the drawing. Spares, cutting waste and packs are not in it yet."
	if standing > 0 {
		note += " What stands already or is left for later is not listed."
	}
	return rows, note
}

func (s *Shop) takeOff() *parts.Answer {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.parts == nil {
		s.parts = parts.Of(s.job, s.study.Catalog())
	}
	return s.parts
}

// toGet counts what is planned: metres of line, pieces, and articles in all.
func (s *Shop) toGet() (metres float64, pieces, articles int) {
	for _, l := range s.takeOff().Lines {
		if l.State != parts.Planned || l.Group == parts.Made {
			continue
		}
		articles++
		if l.Pieces > 0 {
			pieces += l.Pieces
		} else if l.Length != nil {
			metres += float64(*l.Length)
		}
	}
	return metres, pieces, articles
}
