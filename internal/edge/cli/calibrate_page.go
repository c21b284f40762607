package cli

import (
	"fmt"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/calibrate"
	weak "dropleg/internal/decide/find"
	"dropleg/internal/shop/job"
)

// calibratePage is a calibration as a page of text.
type calibratePage struct {
	*paper
	study  *study.Study
	system unit.System
	answer *calibrate.Answer
}

func (p *calibratePage) write() {
	a := p.answer
	p.heading(p.study.Job().Title)
	p.wrapped("", "", p.verdict())
	t := table{{"what", "before", "now", "19 times in 20"}}
	for i := range a.Figures {
		if f := &a.Figures[i]; f.Told {
			t = append(t, []string{p.name(f), p.figure(f, f.Before), p.figure(f, f.Value), p.figure(f, f.Low) + " to " + p.figure(f, f.High)})
		}
	}
	listTable(p.paper, t)
	for i := range a.Figures {
		if f := &a.Figures[i]; !f.Told {
			p.wrapped("Not told: ", "  ", p.untold(f))
		} else if f.Odd {
			p.wrapped("Far off: ", "  ", sentence(p.name(f)+" is far from what such a thing is. Before this is taken over, let dropleg find look for a fault."))
		}
	}
	p.blank()
	p.looks()
	for _, w := range a.Unused {
		p.wrapped("Not used: ", "  ", w)
	}
}

// verdict is what it comes to.
func (p *calibratePage) verdict() string {
	a := p.answer
	s := fmt.Sprintf("%s weighed; the squares of their deviations come to %.3g before and %.3g now, where about %d are to be expected. ", sentence(counted(a.Used, "reading")), a.Before, a.After, a.Used)
	switch {
	case !a.Fits:
		return s + "They do not fit: no roughness, leak or state of the filters shows what was read. Something else is not as drawn; dropleg find looks for it."
	case a.Change() == nil:
		return s + "They fit, and tell none of the figures closer than it was known before."
	}
	return s + "They fit. Apply with -o."
}

func (p *calibratePage) name(f *calibrate.Figure) string {
	switch f.What {
	case calibrate.Roughness:
		words := "roughness of " + f.Stock
		if f.Worn != "" {
			words += ", " + f.Worn
		}
		return words + " (" + counted(len(f.IDs), "line") + ")"
	case calibrate.Filter:
		return "what " + p.thing(f.IDs[0]) + " takes at rated flow"
	}
	return "share of the supply that leaks"
}

func (p *calibratePage) thing(id job.ID) string {
	return described(p.study.Index(), p.study.Catalog(), id)
}

func (p *calibratePage) figure(f *calibrate.Figure, x float64) string {
	switch f.What {
	case calibrate.Roughness:
		return unit.Metric.Text(unit.KindLength, x, unit.Env{}) // tables of roughness have mm
	case calibrate.Filter:
		return p.system.Text(unit.KindPressureDiff, x, unit.Env{})
	}
	return share(x)
}

// untold says why a figure stays as it was, and where it may lie.
func (p *calibratePage) untold(f *calibrate.Figure) string {
	why := "no reading moves with it by more than gauges and plates are off"
	if f.Why == calibrate.Alike {
		why = "the readings move with it as with what is not known of couplers, tools and fittings"
		if f.Like >= 0 {
			why = "the readings move with it as with another, and tell the two only together: " + p.name(&p.answer.Figures[f.Like])
		}
	}
	return sentence(fmt.Sprintf("%s: %s. It stays as it was, between %s and %s.", p.name(f), why, p.figure(f, f.Low), p.figure(f, f.High)))
}

// looks lists the readings, and by how much what is computed for them was and is off.
func (p *calibratePage) looks() {
	t := table{{"reading", "read", "off before", "off now"}}
	for i := range p.answer.Looks {
		l := &p.answer.Looks[i]
		name, show, off := "turns of the compressor: share that leaks", share, share
		if l.Reading != nil {
			name, show, off = p.reading(l.Reading)
		}
		row := []string{name, show(l.Read), signed(l.Read-l.Before, off), signed(l.Read-l.After, off)}
		if !l.Known {
			row[2], row[3] = "no answer", ""
		}
		t = append(t, row)
	}
	t.write(p.paper)
}

func share(x float64) string { return fmt.Sprintf("%.3g %%", 100*x) }

// signed is a difference with its sign.
func signed(x float64, show func(float64) string) string {
	if x < 0 {
		return "-" + show(-x)
	}
	return "+" + show(x)
}

// reading is the name of one, and how its figures and their differences are shown.
func (p *calibratePage) reading(r *weak.Reading) (name string, show, off func(float64) string) {
	text := func(k unit.Kind) func(float64) string {
		return func(x float64) string { return p.system.Text(k, x, unit.Env{}) }
	}
	switch r.Kind {
	case weak.PumpUp:
		return "time to pump up", text(unit.KindDuration), text(unit.KindDuration)
	case weak.Fall:
		return "time to fall", text(unit.KindDuration), text(unit.KindDuration)
	}
	name = p.thing(r.Place.At)
	if r.Place.Tool != "" {
		name = "before " + p.thing(r.Place.Tool) + " at " + name
	}
	var running []string
	for _, u := range r.Running {
		running = append(running, p.thing(u.Tool))
	}
	ran := "nothing running"
	if len(running) > 0 {
		ran = "with " + listed(running)
	}
	return name + ", " + ran, text(unit.KindGauge), text(unit.KindPressureDiff)
}
