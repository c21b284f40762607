package cli

import (
	"fmt"
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
)

// flowPage is a set of running tools as a page of text.
type flowPage struct {
	*paper
	job    *job.Job
	index  *job.Index
	system unit.System
	env    unit.Env
	set    *flow.Set
	state  *flow.State
	at     string
}

func (p *flowPage) gauge(x unit.GaugePressure) string {
	return p.system.Text(unit.KindGauge, float64(x), p.env)
}

func (p *flowPage) diff(x unit.PressureDiff) string {
	return p.system.Text(unit.KindPressureDiff, float64(x), p.env)
}

func (p *flowPage) air(x unit.FreeAir) string {
	return p.system.Text(unit.KindFlow, float64(x), p.env)
}

func (p *flowPage) write(a *flow.Answer) {
	p.heading(p.job.Title)
	condition := "at cut-in, filters loaded"
	if p.at == "cut-out" {
		condition = "at cut-out, filters clean"
	}
	p.wrapped("", "", fmt.Sprintf("%s: %s running, %s", sentence(p.set.Name), counted(len(p.set.Running), "tool"), condition))
	if p.set.Words != "" && p.set.Words != p.set.Name && p.set.ID != askedID {
		p.wrapped("", "", sentence(p.set.Words)+".")
	}
	p.blank()
	if !p.state.Solved {
		p.line(p.ink(red, "no answer: ") + "no pressure in the shop can carry this set")
		for _, f := range a.Findings {
			p.wrapped("  ", "  ", f.Title)
		}
		return
	}
	p.tools()
	p.blank()
	p.supply()
	if worst := p.worst(); worst != nil && len(worst.Path) > 0 {
		p.blank()
		p.staircase(worst)
	}
	if n := len(a.Assumptions); n > 0 {
		p.blank()
		p.wrapped("", "", sentence(fmt.Sprintf("%s assumed, because the job does not state them; --json lists them.", counted(n, "figure"))))
	}
}

// tools is a table of what each running tool gets.
func (p *flowPage) tools() {
	t := table{{"tool", "at", "gets", "needs", "to spare", "draws"}}
	for i := range p.state.Tools {
		tool := &p.state.Tools[i]
		row := []string{nameOf(p.index, tool.Tool), nameOf(p.index, tool.Outlet), "shut off", "", "", ""}
		if tool.Known {
			row[2], row[5] = p.gauge(tool.Pressure), p.air(tool.Flow)
			if tool.Least > 0 {
				row[3], row[4] = p.gauge(tool.Least), p.verdict(tool)
			}
		}
		t = append(t, row)
	}
	t.write(p.paper)
}

// verdict says in words whether the pressure will do.
func (p *flowPage) verdict(t *flow.Tool) string {
	if t.Margin < 0 {
		return p.diff(-t.Margin) + " short"
	}
	return p.diff(t.Margin)
}

// supply sets what the compressors deliver against what the set takes.
func (p *flowPage) supply() {
	s := &p.set.Supply
	text := fmt.Sprintf("The set takes %s", p.air(s.Taken))
	if s.Leak > 0 {
		text += fmt.Sprintf(" and %s is allowed for leaks", p.air(s.Leak))
	}
	text += fmt.Sprintf("; the supply delivers %s", p.air(s.Delivered))
	switch {
	case s.Short <= 0:
		text += ", which is enough."
	case s.Rides == nil || *s.Rides <= 0:
		text += fmt.Sprintf(", %s too little.", p.air(s.Short))
	default:
		text += fmt.Sprintf(", %s too little: from full, the receiver covers that for %s.",
			p.air(s.Short), p.system.Text(unit.KindDuration, float64(*s.Rides), p.env))
	}
	p.wrapped("", "", text)
}

// worst is the running tool with the least to spare.
func (p *flowPage) worst() *flow.Tool {
	var worst *flow.Tool
	for i := range p.state.Tools {
		t := &p.state.Tools[i]
		if t.Known && (worst == nil || t.Margin < worst.Margin) {
			worst = t
		}
	}
	return worst
}

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
	figures := max(width(p.gauge(top)), width(p.gauge(end))) + 2 + width(p.diff(unit.PressureDiff(top-end))) + 3
	label := labelWidth(rows, p.width-figures-3)
	room := max(leastStairs, p.width-label-figures-3)
	column := func(x unit.GaugePressure) int {
		return int(math.Round((float64(x) - base) / (float64(top) - base) * float64(room)))
	}
	need := -1
	if t.Least > 0 && t.Least <= top {
		need = min(column(t.Least), room-1)
	}
	most := tallest(rows)
	figure := func(x unit.GaugePressure, rest string) string {
		return " " + left(p.gauge(x), figures-3-width(p.diff(unit.PressureDiff(top-end)))) + "  " + rest
	}
	p.line(pad("", label+1) + p.bar(room, room, room, need, false) + figure(top, ""))
	for i, r := range rows {
		loss := "−" + p.diff(unit.PressureDiff(r.in-r.out))
		if i == most {
			loss += " ◂"
		}
		words := wrap(r.name(), label)
		last := len(words) - 1
		for _, l := range words[:last] {
			p.line(l)
		}
		p.line(pad(words[last], label) + " " + p.bar(room, column(r.out), column(r.in), need, i == most) + figure(r.out, loss))
	}
	if need >= 0 {
		text := "┊ needs " + p.gauge(t.Least)
		if t.Margin < 0 {
			text += ", " + p.ink(red, p.diff(-t.Margin)+" short")
		} else {
			text += ", " + p.diff(t.Margin) + " to spare"
		}
		p.line(pad("", label+1+min(need, room-8)) + text)
	}
	p.beneath(t, others, lost)
}

// beneath tells what the staircase leaves out.
func (p *flowPage) beneath(t *flow.Tool, others int, lost unit.PressureDiff) {
	if others > 0 {
		p.line(fmt.Sprintf("The other %s lose %s together.", counted(others, "part"), p.diff(lost)))
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
