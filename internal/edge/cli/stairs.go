package cli

import (
	"fmt"
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
)

// stair is one row of the staircase: an element, or small ones taken together.
type stair struct {
	words   string
	in, out unit.GaugePressure
	small   int // elements taken together
}

// worthARow is the share of the whole loss from which an element has a row.
const worthARow = 0.03

// stairs is the path with what loses little taken together; what loses little
// even together has no row, and is told as others and their loss.
func stairs(t *flow.Tool) (rows []stair, others int, lost unit.PressureDiff) {
	path := t.Path
	least := worthARow * float64(path[0].In-path[len(path)-1].Out)
	var all []stair
	for i := range path {
		s := &path[i]
		small := float64(s.Loss) < least
		if n := len(all) - 1; small && n >= 0 && all[n].small > 0 {
			all[n].out, all[n].small = s.Out, all[n].small+1
			continue
		}
		row := stair{words: s.Words, in: s.In, out: s.Out}
		if small {
			row.small = 1
		}
		all = append(all, row)
	}
	for _, r := range all {
		if r.small > 0 && float64(r.in-r.out) < least {
			others, lost = others+r.small, lost+unit.PressureDiff(r.in-r.out)
			continue
		}
		rows = append(rows, r)
	}
	return rows, others, lost
}

// staircase draws the pressure from the source to a tool: one row an element, its
// bar as long as the pressure behind it, the part lost lighter, the need marked.
func (p *flowPage) staircase(t *flow.Tool) {
	rows, others, lost := stairs(t)
	if len(rows) == 0 {
		return // nothing flows: there is nothing to draw
	}
	p.heading(fmt.Sprintf("from %s to %s at %s", p.start(), nameOf(p.index, t.Tool), nameOf(p.index, t.Outlet)))
	top, end := t.Path[0].In, t.Path[len(t.Path)-1].Out
	low := min(end, t.Least)
	base := max(0, float64(low)-0.15*float64(top-low))
	if float64(top-low) < 1 {
		base = 0
	}
	gauges, losses := width(p.gauge(top)), 0
	for _, r := range rows {
		gauges = max(gauges, width(p.gauge(r.out)))
		losses = max(losses, width(p.loss(r)))
	}
	// Beside words and stairs: a blank, three and the pressure, two and the loss, its mark.
	both := p.width - (1 + 3 + gauges + 2 + losses + width(mostMark))
	label := labelWidth(rows, both)
	room := max(leastStairs, both-label)
	column := func(x unit.GaugePressure) int {
		return int(math.Round((float64(x) - base) / (float64(top) - base) * float64(room)))
	}
	need := -1
	if t.Least > 0 && t.Least <= top {
		need = min(column(t.Least), room-1)
	}
	most := tallest(rows)
	figure := func(x unit.GaugePressure, rest string) string {
		return "   " + left(p.gauge(x), gauges) + "  " + rest
	}
	p.line(pad("", label+1) + p.bar(room, room, room, need, false) + figure(top, ""))
	for i, r := range rows {
		loss := p.loss(r)
		if i == most {
			loss += mostMark
		}
		words := wrap(r.name(), label)
		last := len(words) - 1
		for _, l := range words[:last] {
			p.line(l)
		}
		p.line(pad(words[last], label) + " " + p.bar(room, column(r.out), column(r.in), need, i == most) + figure(r.out, loss))
	}
	if need >= 0 {
		p.need(t, label+1+need)
	}
	p.beneath(t, others, lost)
}

// mostMark stands behind the greatest loss.
const mostMark = " ◂"

func (p *flowPage) loss(r stair) string { return "−" + p.diff(unit.PressureDiff(r.in-r.out)) }

// need tells the least pressure beneath its mark, on the side where there is room.
func (p *flowPage) need(t *flow.Tool, at int) {
	words, margin, ink := "needs "+p.gauge(t.Least)+", ", p.diff(t.Margin)+" to spare", ""
	if t.Margin < 0 {
		margin, ink = p.diff(-t.Margin)+" short", red
	}
	long := width(words + margin)
	if ink != "" {
		margin = p.ink(ink, margin)
	}
	if at+2+long <= p.width {
		p.line(pad("", at) + "┊ " + words + margin)
		return
	}
	p.line(pad("", at-1-long) + words + margin + " ┊")
}

// beneath tells what the staircase leaves out.
func (p *flowPage) beneath(t *flow.Tool, others int, lost unit.PressureDiff) {
	if others > 0 {
		p.wrapped("", "", fmt.Sprintf("The other %s lose %s together.", counted(others, "part"), p.diff(lost)))
	}
	if t.Range != nil && p.gauge(t.Range.Low) != p.gauge(t.Range.High) {
		p.wrapped("", "", fmt.Sprintf("Between %s and %s, as the uncertain figures fall.", p.gauge(t.Range.Low), p.gauge(t.Range.High)))
	}
}

// leastStairs is the least width of the staircase: a narrower one tells nothing.
const leastStairs = 12

// labelWidth is the width of the words beside a staircase, of the room for both:
// as wide as they need while the stairs keep their least.
func labelWidth(rows []stair, both int) int {
	longest := 0
	for _, r := range rows {
		longest = max(longest, width(r.name()))
	}
	return max(8, min(longest, both-leastStairs))
}

// start names where the path begins.
func (p *flowPage) start() string {
	if len(p.state.Sources) == 1 {
		return nameOf(p.index, p.state.Sources[0].ID)
	}
	return "the source"
}

func (s stair) name() string {
	if s.small > 1 {
		return fmt.Sprintf("%s that lose little", counted(s.small, "part"))
	}
	return s.words
}

// tallest is the row that loses most.
func tallest(rows []stair) int {
	most := 0
	for i := range rows {
		if rows[i].in-rows[i].out > rows[most].in-rows[most].out {
			most = i
		}
	}
	return most
}

// bar is full up to one column, lighter up to the next, as wide as the drawing,
// and marks the need where it is not full.
func (p *flowPage) bar(room, full, lost, need int, tall bool) string {
	cells := make([]rune, room)
	for i := range cells {
		switch {
		case i < full:
			cells[i] = '█'
		case i < lost:
			cells[i] = '░'
		default:
			cells[i] = ' '
		}
	}
	if need >= full {
		cells[need] = '┊'
	}
	if !tall || full >= lost {
		return string(cells)
	}
	return string(cells[:full]) + p.ink(yellow, string(cells[full:lost])) + string(cells[lost:])
}
