package cli

import (
	"fmt"

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
	p.wrapped("", "", fmt.Sprintf("%s: %s running, %s", sentence(p.set.Name)+p.otherwise(), counted(len(p.set.Running), "tool"), condition))
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

// otherwise names the tool that the way below leads to where it is not the one that the
// set was put together against.
func (p *flowPage) otherwise() string {
	worst := p.worst()
	if worst == nil || p.set.Subject == "" || worst.Tool == p.set.Subject {
		return ""
	}
	return "; least to spare has " + nameOf(p.index, worst.Tool)
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
