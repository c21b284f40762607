package screen

import "dropleg/internal/answer/parts"

// takeOff is the take-off, kept.
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
