package cli

import (
	"dropleg/internal/show/screen"
)

// calibrationPage is a calibration as a page of text.
func calibrationPage(p *paper, title string, c *screen.Calibration) {
	p.heading(title)
	apply := ""
	switch c.State {
	case screen.Fits:
		apply = " Apply with -o."
	case screen.Unfit:
		apply = " That is dropleg find."
	}
	p.wrapped("", "", c.Sentence+apply)
	t := table{{"what", "before", "now", "19 times in 20"}}
	for i := range c.Figures {
		if f := &c.Figures[i]; f.Told {
			t = append(t, []string{f.Name, f.Before, f.Now, f.Low + " to " + f.High})
		}
	}
	listTable(p, t)
	for i := range c.Figures {
		switch f := &c.Figures[i]; {
		case !f.Told:
			p.wrapped("Not told: ", "  ", f.Name+". "+f.Words+" It stays as it was, between "+f.Low+" and "+f.High+".")
		case f.Words != "":
			p.wrapped("Far off: ", "  ", f.Name+". "+f.Words)
		}
	}
	p.blank()
	looks := table{{"reading", "read", "off before", "off now"}}
	for _, l := range c.Looks {
		row := []string{l.Name, l.Read, l.Before, l.Now}
		if l.Before == "" {
			row[2] = "no answer"
		}
		looks = append(looks, row)
	}
	looks.write(p)
	if len(c.Against) > 0 {
		p.wrapped("Taken over: ", "  ", listed(c.Against)+".")
	}
	for _, w := range c.Unused {
		p.wrapped("Not used: ", "  ", w)
	}
}
