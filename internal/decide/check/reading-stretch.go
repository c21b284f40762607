package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// segment is the way between two readings under the same tools, or from the
// sources to the first of them.
type segment struct {
	from, to *readAt // from is nil for the sources
	parts    map[int]float64
	// What is missing between them, Pa: likely, and by the plausible range less
	// or plus what the gauges are good for.
	missing, least, most float64
	clears               map[int]bool // elements whose loss the reading would show
}

// segments pairs each reading that lies on a way with air passing with the last
// one before it under the same tools.
func (c *Case) segments(all []*readAt) []segment {
	var out []segment
	for _, to := range all {
		if len(to.way.all) == 0 {
			continue
		}
		s := segment{to: to, parts: map[int]float64{}, clears: to.way.free}
		for _, from := range all {
			if from.key == to.key && before(from, to) && (s.from == nil || len(from.way.all) > len(s.from.way.all)) {
				s.from = from
			}
		}
		var missing [ends]float64
		good := to.gauge
		for end := range missing {
			missing[end] = to.design[end] - to.read
			if s.from != nil {
				missing[end] -= s.from.design[end] - s.from.read
			}
		}
		if s.from != nil {
			good += s.from.gauge
		}
		s.missing, s.least, s.most = missing[likely], slices.Min(missing[:])-good, slices.Max(missing[:])+good
		for l, flow := range to.way.all {
			if s.from == nil || s.from.way.all[l] == 0 {
				s.parts[l] = flow
			}
		}
		out = append(out, s)
	}
	return out
}

// before: all of one reading's way is a part of the other's.
func before(a, b *readAt) bool {
	if len(a.way.all) == 0 || len(a.way.all) >= len(b.way.all) {
		return false
	}
	for l := range a.way.all {
		if _, ok := b.way.all[l]; !ok {
			return false
		}
	}
	return true
}

// stretch is a part of the net in which more is lost than drawn.
type stretch struct {
	from, to job.ID // places of the readings round it
	parts    []int  // elements, as the air passes them
	ids      []job.ID
	missing  float64 // Pa, under the tools of lead
	lead     *readAt // at its lower end
}

// stretchesOf narrows down where readings lose what the design does not.
//
// Of each segment that misses more than its range and gauges explain, those
// parts stay in question whose fault the other segments would not have shown: a
// restriction that costs x here costs there x (flow there / flow here)², with
// the first power where the flow there is the larger (laws of elements lie
// between), and a quarter is allowed for the difference in density. What of it
// exceeds the most that may be missing there clears the part. Segments are then
// taken from the narrowest: one that holds a stretch already found is explained
// by it, one that overlaps narrows it, any other is a stretch of its own. That
// one part bears all that is missing in a stretch is taken for granted.
func (c *Case) stretchesOf(all []*readAt) []stretch {
	segments := c.segments(all)
	var found []stretch
	for i := range segments {
		s := &segments[i]
		if s.least <= 0 {
			continue
		}
		parts := c.uncleared(s, segments)
		from := c.model.Sources()[0].ID // a way with air begins at one
		if s.from != nil {
			from = s.from.place
		}
		found = append(found, stretch{from: from, to: s.to.place, parts: parts, missing: s.missing, lead: s.to})
	}
	slices.SortStableFunc(found, func(a, b stretch) int {
		return cmp.Or(cmp.Compare(len(a.parts), len(b.parts)), cmp.Compare(b.missing, a.missing))
	})
	var out []stretch
	for _, s := range found {
		taken := false
		for k := range out {
			both := slices.DeleteFunc(slices.Clone(out[k].parts), func(l int) bool { return !slices.Contains(s.parts, l) })
			if len(both) == 0 {
				continue
			}
			taken = true
			out[k].parts = both
			if s.missing > out[k].missing && len(both) == len(s.parts) {
				out[k].missing, out[k].lead = s.missing, s.lead // the same stretch, shown more clearly
			}
		}
		if !taken {
			out = append(out, s)
		}
	}
	for k := range out {
		c.bound(&out[k], all)
	}
	slices.SortStableFunc(out, func(a, b stretch) int { return cmp.Compare(b.missing, a.missing) })
	return out
}

// bound names the places of readings that stand closest before and behind a
// stretch, and lists its parts by their ids.
func (c *Case) bound(s *stretch, all []*readAt) {
	has := func(r *readAt) int {
		n := 0
		for _, l := range s.parts {
			if _, on := r.way.all[l]; on {
				n++
			}
		}
		return n
	}
	above, below := 0, len(s.lead.way.all)
	for _, r := range all {
		n := len(r.way.all)
		switch has(r) {
		case 0:
			if before(r, s.lead) && n > above {
				s.from, above = r.place, n
			}
		case len(s.parts):
			if n < below {
				s.to, below = r.place, n
			}
		}
	}
	for _, l := range s.parts {
		s.ids = append(s.ids, c.model.Elements()[l].ID)
	}
	s.ids = unique(s.ids)
}

// uncleared lists the parts of a segment that stay in question, as the air
// passes them; all of them where the others would clear every one.
func (c *Case) uncleared(s *segment, all []segment) []int {
	var parts, left []int
	for l := range s.parts {
		parts = append(parts, l)
	}
	state := s.to.state
	upper := func(l int) unit.AbsPressure {
		e := &c.model.Elements()[l]
		return max(state.Pressure[e.From], state.Pressure[e.To])
	}
	slices.SortFunc(parts, func(a, b int) int {
		return cmp.Or(cmp.Compare(upper(b), upper(a)), cmp.Compare(a, b))
	})
	const density = 1.25
	for _, l := range parts {
		clear := false
		for k := range all {
			o := &all[k]
			flow, on := o.parts[l]
			if !on || !o.clears[l] {
				continue
			}
			ratio := flow / s.parts[l]
			if ratio < 1 {
				ratio *= ratio
			}
			clear = clear || s.least*ratio > density*math.Max(o.most, 0)
		}
		if !clear {
			left = append(left, l)
		}
	}
	if len(left) == 0 {
		return parts
	}
	return left
}

// stretchWords says what is missing where, and which reading would halve it.
func (c *Case) stretchWords(s *stretch) string {
	between := fmt.Sprintf("%s goes missing between %s and %s", c.diff(unit.PressureDiff(s.missing)), c.named(s.from), c.named(s.to))
	if len(s.ids) == 1 {
		return sentence("%s, at %s.", between, c.named(s.ids[0]))
	}
	return sentence("%s, in one of %d parts: %s.%s", between, len(s.ids), c.names(s.ids), c.nextReading(s))
}

// nextReading says which reading would halve a stretch: at an outlet that leaves
// the way in its middle half, else beside the part nearest its middle.
func (c *Case) nextReading(s *stretch) string {
	n := len(s.parts)
	best, off := "", math.Inf(1)
	score := func(where string, cut int, bonus float64) {
		if d := math.Abs(float64(cut)-float64(n)/2) - bonus; d < off {
			best, off = where, d
		}
	}
	for cut := 1; cut < n; cut++ {
		up, down := &c.model.Elements()[s.parts[cut-1]], &c.model.Elements()[s.parts[cut]]
		if up.ID == down.ID {
			continue
		}
		switch {
		case c.idx.Point(down.ID) != nil:
			score("before "+c.named(down.ID), cut, 0)
		case c.idx.Point(up.ID) != nil:
			score("behind "+c.named(up.ID), cut, 0)
		}
		if o := c.outletBetween(s, up, down); o != "" {
			score("at "+c.named(o), cut, float64(n)/4)
		}
	}
	if best == "" {
		return ""
	}
	return " A reading " + best + ", with the same tools running, would halve them."
}

// outletBetween finds an outlet not read there yet whose idle spur leaves the
// way between two elements; "" for none.
func (c *Case) outletBetween(s *stretch, up, down *model.Element) job.ID {
	for _, o := range c.model.Outlets() {
		if o.Node < 0 || o.ID == s.from || o.ID == s.to || !s.lead.state.Known[o.Node] {
			continue
		}
		for _, end := range s.lead.air.to(o.Node).ends {
			if (end == up.From || end == up.To) && (end == down.From || end == down.To) {
				return o.ID
			}
		}
	}
	return ""
}
