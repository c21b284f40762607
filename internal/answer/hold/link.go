package hold

import (
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// links tells for each compressor whether a flexible link stands between it and the
// rigid line: whether from it, through plant and its connections and never through a
// link or a hose, one comes to a main, ring, branch or drop.
func (s *shop) links() {
	for i := range s.j.Net.Points {
		p := &s.j.Net.Points[i]
		if s.kindOf(&p.Part).Has(catalog.Supplies) {
			s.a.Links = append(s.a.Links, s.link(p.ID))
		}
	}
}

func (s *shop) link(compressor job.ID) Link {
	l := Link{Compressor: compressor}
	rigid := false
	seen := map[job.ID]bool{compressor: true}
	queue := []job.ID{compressor}
	for len(queue) > 0 {
		id := queue[0]
		queue = queue[1:]
		for _, e := range s.ix.Ends(id) {
			other := e.Other()
			if seen[other] {
				continue
			}
			if stock, ok := s.shelf.Stock(e.Run.Stock); ok && stock.Form == "hose" {
				l.note(e.Run.ID)
				continue
			}
			if p := s.ix.Point(other); p != nil && s.kindOf(&p.Part).Has(catalog.Flexes) {
				l.note(other)
				continue
			}
			if e.Run.Role != "link" && e.Run.Role != "drip" {
				rigid = true
				continue
			}
			seen[other] = true
			queue = append(queue, other)
		}
	}
	l.There = l.Part != "" && !rigid
	if !l.There {
		l.Part = ""
	}
	return l
}

// note keeps the first flexible link come to.
func (l *Link) note(id job.ID) {
	if l.Part == "" {
		l.Part = id
	}
}
