package hold

import (
	"cmp"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
)

// clip is a support while its place is sought, in metres along its chain.
type clip struct {
	at    float64
	rule  string
	fast  bool
	moved bool
	id    string
}

// want is a piece of a chain in which a node asks for a support.
type want struct {
	lo, hi float64
	best   float64 // where it stands if it stands alone
	rule   string
	fast   bool
}

// lay puts supports on a chain: where its nodes ask for them, as few as serve all,
// and evenly between.
func (s *shop) lay(c *chain) {
	if c.long < ruleShort.Value {
		return
	}
	var wants []want
	for i, n := range c.nodes {
		for _, side := range []int{-1, 1} {
			if w, ok := s.wanted(c, n, i, side); ok {
				wants = append(wants, w)
			}
		}
	}
	c.clips = stab(wants)
	s.spread(c)
	if at, ok := s.free(c, c.long/2); ok && len(c.clips) == 0 {
		c.clips = []*clip{{at: at, rule: ruleSpread.Name}}
	}
}

// wanted is where the node i of a chain asks for a support on one side of it. A section
// shorter than two clip distances gets none, nor one that its fittings fill.
func (s *shop) wanted(c *chain, n *node, i, side int) (w want, ok bool) {
	j := i + side
	if j < 0 || j >= len(c.nodes) || math.Abs(c.at[j]-c.at[i]) < ruleShort.Value {
		return w, false
	}
	rule, ok := s.asks(c, n, i)
	if !ok {
		return w, false
	}
	near, clear := rule.Value, s.clearOf(c, i, side)
	room := math.Abs(c.at[j]-c.at[i]) - s.clearOf(c, j, -side)
	if room < clear {
		return w, false
	}
	// From a bend the distance counts from where it ends: before, there is no straight line.
	if n.bent > 0 {
		near += clear
	}
	if rule.Name == ruleTurn.Name { // so that two of them keep the spacing round the turn
		for _, e := range n.ends {
			near = min(near, e.bar.allowed()/2)
		}
	}
	far := min(max(near, clear), room)
	w = want{rule: rule.Name, fast: n.outlet && n.kind.FixesTo == "", best: c.at[i] + float64(side)*far}
	w.lo, w.hi = c.at[i]+float64(side)*clear, w.best
	if side < 0 {
		w.lo, w.hi = w.hi, w.lo
	}
	return w, true
}

// asks is the rule by which a node asks for supports beside it: the closest of those
// that speak of it.
func (s *shop) asks(c *chain, n *node, i int) (rule Rule, ok bool) {
	take := func(r Rule) {
		if !ok || r.Value < rule.Value {
			rule, ok = r, true
		}
	}
	end := i == 0 || i == len(c.nodes)-1
	if end && (n.corner > 0 || len(n.ends) > 1) && !n.flexes {
		take(ruleTurn)
	}
	switch {
	case n.outlet:
		take(ruleOutlet)
	case n.fixed, n.flexes, n.kind.Group == catalog.Valve, n.kind.Group == catalog.Treatment, n.kind.Group == catalog.Plant:
		take(rulePart)
	case end && n.corner == 0 && len(n.ends) == 1:
		take(ruleEnd)
	}
	return rule, ok
}

// clearOf is how far off a node of a chain a support has to stay on one side: off the
// body of a fitting, or off the bend.
func (s *shop) clearOf(c *chain, i, side int) float64 {
	n := c.nodes[i]
	k := i
	if side < 0 {
		k = i - 1
	}
	if k < 0 || k >= len(c.links) {
		return 0
	}
	if n.bent > 0 {
		return n.tangent + halfClip
	}
	return s.bodyOf(n, c.links[k].bar.line.tube) + halfClip
}

// bodyOf is half the length of what sits at a node, from its middle.
func (s *shop) bodyOf(n *node, t *tube) float64 {
	kind := n.kind
	if n.corner > 0 {
		kind = s.elbow(n.corner)
	}
	switch {
	case kind.Law.Name == "none":
		return 0
	case kind.Group == catalog.Treatment, kind.Group == catalog.Plant:
		return bodyPart
	}
	if out, ok := s.shelf.TakeOutOf(t.stock, t.size, kind.Kind); ok && t.known {
		return float64(out.CentreEnd)
	}
	return body * float64(t.od)
}

// elbow is the fitting that turns most nearly by an angle.
func (s *shop) elbow(turn float64) (best catalog.Kind) {
	off := math.Inf(1)
	for _, k := range s.elbows {
		if miss := math.Abs(math.Pi - geom.Angle(k.Ports[0].Toward, k.Ports[1].Toward) - turn); miss < off {
			best, off = k, miss
		}
	}
	return best
}

// stab finds the fewest places that serve all wants: by their far ends, each place
// serving all that it can.
func stab(wants []want) (clips []*clip) {
	slices.SortStableFunc(wants, func(a, b want) int { return cmp.Compare(a.hi, b.hi) })
	for len(wants) > 0 {
		group := want{lo: math.Inf(-1), hi: math.Inf(1)}
		n := 0
		var rest []want
		first := wants[0].hi
		for _, w := range wants {
			if w.lo > first+1e-9 {
				rest = append(rest, w)
				continue
			}
			n++
			group.lo, group.hi = max(group.lo, w.lo), min(group.hi, w.hi)
			if group.rule == "" || w.hi-w.lo < group.best {
				group.rule, group.best = w.rule, w.hi-w.lo
			}
			group.fast = group.fast || w.fast
		}
		at := (group.lo + group.hi) / 2
		if n == 1 {
			at = wants[0].best
		}
		clips = append(clips, &clip{at: at, rule: group.rule, fast: group.fast})
		wants = rest
	}
	return clips
}

// spacing is the strictest distance allowed between two places of a chain; +Inf where
// none is known.
func (c *chain) spacing(from, to float64) float64 {
	least := math.Inf(1)
	for i := range c.links {
		if c.at[i+1] <= from+1e-9 || c.at[i] >= to-1e-9 {
			continue
		}
		least = min(least, c.links[i].bar.allowed())
	}
	return least
}

// allowed is the distance between supports of a bar.
func (b *bar) allowed() float64 {
	s := b.line.tube.level
	if b.steep {
		s = b.line.tube.upright
	}
	if !s.Known {
		return math.Inf(1)
	}
	return float64(s.Distance)
}

// hangs is how far a bar may hang between supports. Where no distance is stated for upright
// line that of level line stands for it, which is the closer of the two wherever both are.
func (b *bar) hangs() float64 {
	if s := b.line.tube.level; s.Known {
		return min(b.allowed(), float64(s.Distance))
	}
	return b.allowed()
}

// spread puts supports evenly between those that nodes asked for.
func (s *shop) spread(c *chain) {
	marks := []float64{0}
	for _, k := range c.clips {
		marks = append(marks, k.at)
	}
	marks = append(marks, c.long)
	for i := 1; i < len(marks); i++ {
		for _, at := range s.between(c, marks[i-1], marks[i]) {
			c.clips = append(c.clips, &clip{at: at, rule: ruleSpread.Name})
		}
	}
	slices.SortFunc(c.clips, func(a, b *clip) int { return cmp.Compare(a.at, b.at) })
}

// between is the places that keep the spacing between two supports: evenly spread,
// and off the fittings. Where a fitting pushes one aside too far, one more is tried.
func (s *shop) between(c *chain, p, q float64) (best []float64) {
	allowed := c.spacing(p, q)
	if math.IsInf(allowed, 1) || !(allowed > 0) {
		return nil
	}
	// No line of a shop wants more between two fittings; a drawing of kilometres is cut.
	least := min(math.Ceil((q-p)/allowed-1e-9), 10000)
	for n := least; n <= least+3; n++ {
		var list []float64
		last, fits := p, true
		for k := 1.0; k < n; k++ {
			at, ok := s.free(c, p+k*(q-p)/n)
			if !ok || at-last < halfClip {
				continue
			}
			list = append(list, at)
			fits = fits && at-last <= allowed+1e-9
			last = at
		}
		if n == least || fits {
			best = list
		}
		if fits && q-last <= allowed+1e-9 {
			return list
		}
	}
	return best
}

// free is the place nearest to one along a chain that is off fittings and bends; ok is
// false where there is none in the section or the one beside it.
func (s *shop) free(c *chain, x float64) (at float64, ok bool) {
	best := math.Inf(1)
	for i := range c.links {
		if c.at[i] > x+1 || c.at[i+1] < x-1 {
			continue
		}
		lo, hi := c.at[i]+s.clearOf(c, i, 1), c.at[i+1]-s.clearOf(c, i+1, -1)
		if lo > hi {
			continue
		}
		y := min(max(x, lo), hi)
		if d := math.Abs(y - x); d < best {
			best, at, ok = d, y, true
		}
	}
	return at, ok
}
