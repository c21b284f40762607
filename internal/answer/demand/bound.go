package demand

import (
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// one is one tool of which there may be several alike.
type one struct {
	tool    int // index into Model.Tools
	outlets []job.ID
}

// cast is who can run, and who keeps whom from it.
type cast struct {
	tools   []model.Tool
	all     []one
	group   []int    // of each one: those with the same number always run together
	members [][]int  // of each group
	bars    [][]bool // between groups
}

// newCast gathers the tools that are here and placed.
func newCast(m *model.Model, a *Answer) *cast {
	c := &cast{tools: m.Tools()}
	outlets := map[job.ID][]job.ID{}
	for _, p := range m.Pairs() {
		outlets[p.Tool] = append(outlets[p.Tool], p.Outlet)
	}
	for i, t := range c.tools {
		switch {
		case t.Later:
			a.Later = append(a.Later, t.ID)
		case len(outlets[t.ID]) == 0:
			a.Unplaced = append(a.Unplaced, t.ID)
		default:
			// More copies than outlets cannot run at once, but each has its share.
			for range t.Count {
				c.all = append(c.all, one{tool: i, outlets: outlets[t.ID]})
			}
		}
	}
	c.bind()
	c.bar()
	return c
}

// named finds the ones of a tool by id.
func (c *cast) named(id job.ID) []int {
	var out []int
	for i, o := range c.all {
		if c.tools[o.tool].ID == id {
			out = append(out, i)
		}
	}
	return out
}

// bind forms the groups that always run together. Of tools that come in
// numbers the first goes with the first, the second with the second.
func (c *cast) bind() {
	c.group = make([]int, len(c.all))
	for i := range c.group {
		c.group[i] = i
	}
	copies := map[int]int{}
	for i, o := range c.all {
		nth := copies[o.tool]
		copies[o.tool]++
		for _, id := range c.tools[o.tool].With {
			if mates := c.named(id); nth < len(mates) {
				c.join(i, mates[nth])
			}
		}
	}
	number := map[int]int{}
	for i, g := range c.group {
		n, ok := number[g]
		if !ok {
			n = len(c.members)
			number[g] = n
			c.members = append(c.members, nil)
		}
		c.group[i] = n
		c.members[n] = append(c.members[n], i)
	}
}

// join makes two groups one.
func (c *cast) join(a, b int) {
	from, to := c.group[b], c.group[a]
	for i := range c.group {
		if c.group[i] == from {
			c.group[i] = to
		}
	}
}

// bar marks groups that never run together: by not_with, either way round, and
// where two tools have but one outlet each, and it is the same.
func (c *cast) bar() {
	c.bars = make([][]bool, len(c.members))
	for i := range c.bars {
		c.bars[i] = make([]bool, len(c.members))
	}
	for i, o := range c.all {
		for k, other := range c.all {
			if c.group[i] != c.group[k] && c.excludes(o, other) {
				c.bars[c.group[i]][c.group[k]] = true
				c.bars[c.group[k]][c.group[i]] = true
			}
		}
	}
}

// excludes says whether two may not run together.
func (c *cast) excludes(a, b one) bool {
	for _, id := range c.tools[a.tool].NotWith {
		if id == c.tools[b.tool].ID {
			return true
		}
	}
	return len(a.outlets) == 1 && len(b.outlets) == 1 && a.outlets[0] == b.outlets[0]
}

// share is a group's share of the time: they run together, so the greatest of theirs.
func (c *cast) share(g int) float64 {
	s := 0.0
	for _, i := range c.members[g] {
		s = max(s, c.tools[c.all[i].tool].Share)
	}
	return s
}

// flow is what a group takes while it runs.
func (c *cast) flow(g int) float64 {
	f := 0.0
	for _, i := range c.members[g] {
		f += float64(c.tools[c.all[i].tool].FreeAir)
	}
	return f
}
