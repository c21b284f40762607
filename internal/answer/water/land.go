package water

import (
	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Where water ends.
const (
	ByDrain  = "drain"
	LowPoint = "low point"
	AtOutlet = "outlet"
	InDryer  = "dryer"
)

// level is the fall below which a line counts as flat, m.
const level = 1e-3

// ground is the lie of the lines.
type ground struct {
	ix    *job.Index
	shelf *catalog.Catalog
}

// lands follows the water of a run downhill to where it stays.
func (g *ground) lands(r *job.Run, toEnd bool) (job.ID, string) {
	line := g.ix.Centreline(r)
	at := r.From.Point
	if toEnd {
		at = r.To.Point
	}
	if line != nil {
		switch low, end := lowest(line); {
		case low < min(line[0][2], line[len(line)-1][2])-level:
			return r.ID, LowPoint // it sags between its ends
		default:
			if crest := overTop(line); crest != 0 {
				end = crest
			}
			if end < 0 {
				at = r.From.Point
			} else if end > 0 {
				at = r.To.Point
			}
		}
	}
	return g.from(at, r.ID)
}

// overTop is the end to which the longer side of a line's crest falls: -1 from, 1 to; 0
// where it has no crest between its ends.
func overTop(line []geom.Point) int {
	top := 0
	for i, p := range line {
		if p[2] > line[top][2] {
			top = i
		}
	}
	if line[top][2] < max(line[0][2], line[len(line)-1][2])+level {
		return 0
	}
	if geom.Length(line[:top+1]) > geom.Length(line[top:]) {
		return -1
	}
	return 1
}

// lowest is the least height of a line, and which end is lower: -1 from, 1 to, 0 neither.
func lowest(line []geom.Point) (low float64, end int) {
	low = line[0][2]
	for _, p := range line {
		low = min(low, p[2])
	}
	switch d := line[0][2] - line[len(line)-1][2]; {
	case d > level:
		end = 1
	case d < -level:
		end = -1
	}
	return low, end
}

// from follows water that has come to a point.
func (g *ground) from(at job.ID, came job.ID) (job.ID, string) {
	seen := map[job.ID]bool{came: true}
	for {
		pt := g.ix.Point(at)
		if pt == nil {
			return at, LowPoint
		}
		kind, _ := g.shelf.Kind(pt.Part.Kind)
		if kind.Has(catalog.Drains) || kind.Has(catalog.Stores) || kind.Group == catalog.Treatment && kind.Has(catalog.Collects) {
			return at, ByDrain
		}
		next := g.steepest(at, seen)
		if next == nil {
			return at, g.ends(at, kind)
		}
		seen[next.Run.ID] = true
		line := g.ix.Centreline(next.Run)
		if low, _ := lowest(line); low < min(line[0][2], line[len(line)-1][2])-level {
			return next.Run.ID, LowPoint
		}
		at = next.Other()
	}
}

// ends says how water stays at a point from which no line falls.
func (g *ground) ends(at job.ID, kind catalog.Kind) string {
	switch {
	case kind.Has(catalog.Collects):
		return ByDrain
	case len(g.ix.OutletsAt(at)) > 0:
		return AtOutlet
	}
	return LowPoint
}

// steepest is the end of the line that falls most from a point; nil where none falls.
func (g *ground) steepest(at job.ID, seen map[job.ID]bool) *job.RunEnd {
	var best *job.RunEnd
	most := level
	ends := g.ix.Ends(at)
	for i := range ends {
		line := g.ix.Centreline(ends[i].Run)
		if seen[ends[i].Run.ID] || len(line) < 2 {
			continue
		}
		here, next, far := line[0], line[1], line[len(line)-1]
		if ends[i].AtTo {
			here, next, far = line[len(line)-1], line[len(line)-2], line[0]
		}
		if next[2] > here[2]-1e-9 || far[2] > here[2]-1e-9 {
			continue // it rises first, or ends higher
		}
		if fall := (here[2] - next[2]) / geom.Length([]geom.Point{here, next}); fall > most {
			best, most = &ends[i], fall
		}
	}
	return best
}
