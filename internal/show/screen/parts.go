package screen

import (
	"context"

	"dropleg/internal/answer/parts"
)

// takeOff is the study's take-off. It takes no time worth ending and does not fail: an
// error cannot come.
func (s *Shop) takeOff() *parts.Answer {
	take, _ := s.study.Parts(context.Background())
	return take
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
