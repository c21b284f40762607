package cure

import (
	"slices"
	"strings"

	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Stretch is runs of one stock, size and role that hang together: what a person
// would lay anew as one.
type Stretch struct {
	Runs  []*job.Run
	Parts []*job.Point // between and at the ends of its runs
}

// StretchOf is the stretch that a run belongs to, in the order of the walk.
func StretchOf(idx *job.Index, run *job.Run) Stretch {
	s := Stretch{}
	seen := map[job.ID]bool{run.ID: true}
	met := map[job.ID]bool{}
	queue := []*job.Run{run}
	for n := 0; n < len(queue); n++ {
		r := queue[n]
		s.Runs = append(s.Runs, r)
		for _, point := range []job.ID{r.From.Point, r.To.Point} {
			if met[point] {
				continue
			}
			met[point] = true
			if p := idx.Point(point); p != nil {
				s.Parts = append(s.Parts, p)
			}
			for _, e := range idx.Ends(point) {
				if !seen[e.Run.ID] && e.Run.Stock == run.Stock && e.Run.Size == run.Size && e.Run.Role == run.Role {
					seen[e.Run.ID] = true
					queue = append(queue, e.Run)
				}
			}
		}
	}
	return s
}

// Resize is the edits that make a stretch another size: its runs, and those of
// its parts that state the old size themselves. A part at its end that serves
// other lines too keeps its size, but takes the new one as the size of its
// branch where the stretch is what leaves there.
func (s Stretch) Resize(idx *job.Index, size string) []job.Edit {
	var edits []job.Edit
	old := s.Runs[0].Size
	mine := map[job.ID]bool{}
	for _, r := range s.Runs {
		mine[r.ID] = true
		edits = append(edits, Set(r.ID, "size", size))
	}
	for _, p := range s.Parts {
		own, branch := 0, 0
		ends := idx.Ends(p.ID)
		for _, e := range ends {
			switch {
			case mine[e.Run.ID] && strings.HasPrefix(e.Port, "branch"):
				branch++
			case mine[e.Run.ID]:
				own++
			}
		}
		if p.Part.Size == old && own > 0 {
			edits = append(edits, Set(p.ID, "part.size", size))
		}
		if p.Part.Size2 == old && branch > 0 {
			edits = append(edits, Set(p.ID, "part.branch_size", size))
		}
	}
	return edits
}

// Length is the stretch's length in metres, as far as it is known.
func (s Stretch) Length(idx *job.Index) float64 {
	sum := 0.0
	for _, r := range s.Runs {
		if l, ok := idx.LengthOf(r); ok {
			sum += float64(l)
		}
	}
	return sum
}

// Wider lists the sizes of a stock with more bore than one, by bore.
func Wider(stock catalog.Stock, size string) []catalog.Size {
	now, ok := stock.Size(size)
	if !ok {
		return nil
	}
	out := slices.DeleteFunc(slices.Clone(stock.Sizes), func(z catalog.Size) bool { return z.Bore <= now.Bore })
	slices.SortStableFunc(out, func(x, y catalog.Size) int {
		switch {
		case x.Bore < y.Bore:
			return -1
		case x.Bore > y.Bore:
			return 1
		}
		return 0
	})
	return out
}

// lines proposes the next sizes of the whole stretch that an element is in,
// once for each stretch.
func (b *Bench) lines(e *model.Element, got *flow.Tool, seen map[string]bool, lack float64) []*proposal {
	run := b.idx.Run(e.ID)
	if run == nil || seen[string(run.ID)] {
		return nil
	}
	stock, ok := b.shelf.Stock(run.Stock)
	if !ok {
		return nil
	}
	stretch := StretchOf(b.idx, run)
	mine := map[job.ID]bool{}
	for _, r := range stretch.Runs {
		seen[string(r.ID)] = true
		mine[r.ID] = true
	}
	// Parts count only where they are of the stretch on both sides.
	for _, p := range stretch.Parts {
		inner := 0
		for _, end := range b.idx.Ends(p.ID) {
			if mine[end.Run.ID] {
				inner++
			}
		}
		if inner > 1 {
			mine[p.ID] = true
		}
	}
	loss := 0.0
	for i := range got.Path {
		if mine[got.Path[i].ID] {
			loss += float64(got.Path[i].Loss)
		}
	}
	var touches []int
	for i := range b.model.Elements() {
		if mine[b.model.Elements()[i].ID] {
			touches = append(touches, i)
		}
	}
	long := stretch.Length(b.idx)
	var steps []*proposal
	for _, z := range Wider(stock, run.Size)[:min(3, len(Wider(stock, run.Size)))] {
		steps = append(steps, &proposal{
			words: sized(z.Size) + " " + role(run) + " instead of " + sized(run.Size) + ", " + b.long(long),
			edits: stretch.Resize(b.idx, z.Size), place: string(stretch.Runs[0].ID), guess: loss * (1 - fifth(e.Bore, z.Bore)),
			price: b.priceOf(amount{stock.Stock + " " + z.Size, long, 0}), touches: touches,
		})
	}
	return enough(steps, lack)
}

func role(r *job.Run) string {
	switch r.Role {
	case "", "link":
		return "line"
	case "drop":
		return "drop leg"
	}
	return r.Role
}
