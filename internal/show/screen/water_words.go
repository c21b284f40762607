package screen

import (
	"fmt"

	"dropleg/engine/unit"
	"dropleg/internal/answer/water"
	"dropleg/internal/shop/job"
)

// sentence says how the shop does in a few short ones: the outlets against what their
// tools want, where water gathers, where it freezes.
func (d *damp) sentence() string {
	return d.needSentence() + " " + d.gatherSentence() + " " + d.freezeSentence()
}

// tooWet words a need that is not met: stated by the job, or what such tools usually want.
func tooWet(stated bool) string {
	if stated {
		return "too wet"
	}
	return "wetter than such tools usually want"
}

// needSentence weighs the outlets of both seasons against what their tools want.
func (d *damp) needSentence() string {
	type place struct {
		season *water.Season
		outlet *water.Outlet
	}
	var worst, lacking place
	short, asked, stated := map[job.ID]bool{}, false, false
	for i := range d.a.Seasons {
		s := &d.a.Seasons[i]
		w := wettest(s)
		if w == nil {
			continue
		}
		if worst.outlet == nil || wetter(w, worst.outlet) {
			worst = place{s, w}
		}
		for k := range s.Outlets {
			o := &s.Outlets[k]
			for _, n := range o.Needs {
				asked = true
				if n.Met {
					continue
				}
				short[o.ID], stated = true, stated || !n.Supposed
				if lacking.outlet == nil || wetter(o, lacking.outlet) {
					lacking = place{s, o}
				}
			}
		}
	}
	if worst.outlet == nil {
		return "No air reaches an outlet."
	}
	at := func(p place) string {
		return fmt.Sprintf("%s, with a pressure dew point of %s in the %s season (water class %s)", d.named(p.outlet.ID), d.dew(p.outlet.Dew), p.season.Name, p.outlet.Class)
	}
	dew, same := d.sameDew()
	switch n := len(d.job.Outlets); {
	case !asked:
		return "No tool is used at an outlet; the wettest is " + at(worst) + "."
	case lacking.outlet == nil && same:
		return "The air is dry enough at every outlet for its tools: its pressure dew point is " + dew + " all the year."
	case lacking.outlet == nil:
		return "The air is dry enough at every outlet for its tools; the wettest is " + at(worst) + "."
	case len(short) == 1:
		return fmt.Sprintf("The air is %s at 1 of %s: %s; %s.", tooWet(stated), plural(n, "outlet", "outlets"), at(lacking), d.wants(lacking.outlet))
	default:
		return fmt.Sprintf("The air is %s at %d of %d outlets, the worst %s; %s.", tooWet(stated), len(short), n, at(lacking), d.wants(lacking.outlet))
	}
}

// sameDew is the dew point as it is told, where it is the same at all outlets all the year.
func (d *damp) sameDew() (dew string, same bool) {
	for _, s := range d.a.Seasons {
		for _, o := range s.Outlets {
			if dew != "" && d.dew(o.Dew) != dew {
				return "", false
			}
			dew = d.dew(o.Dew)
		}
	}
	return dew, dew != ""
}

// wants says what the tools want that do not get it.
func (d *damp) wants(o *water.Outlet) string {
	var tools, classes []string
	for _, n := range o.Needs {
		if !n.Met {
			tools, classes = addOnce(tools, "the "+d.toolName(n.Tool)), addOnce(classes, n.Class)
		}
	}
	verb := " want"
	if len(tools) == 1 {
		verb += "s"
	}
	return listed(tools) + verb + " class " + listed(classes)
}

// gatherSentence tells where most water comes together, and where it cannot leave.
func (d *damp) gatherSentence() string {
	var most water.Gather
	season, low := "", map[job.ID]bool{}
	for _, s := range d.a.Seasons {
		for _, g := range s.Gathered {
			if g.Likely > most.Likely*(1+alike) {
				most, season = g, s.Name
			}
			if g.How == water.LowPoint && g.Likely > 0 {
				low[g.ID] = true
			}
		}
	}
	if season == "" {
		return "No water falls out."
	}
	text := fmt.Sprintf("Most water gathers at one place, %s: %s a day in the %s season", d.named(most.ID), d.litres(most.Likely), season)
	if len(low) > 0 {
		text += "; at " + plural(len(low), "low point", "low points") + " without a drain it stays"
	}
	return text + "."
}

// within is a thing's name as it stands within a sentence.
func (d *damp) within(id job.ID) string { return lower(d.named(id)) }

// linesNamed is how many of several lines a sentence names.
const linesNamed = 3

// freezeSentence tells where water freezes.
func (d *damp) freezeSentence() string {
	for _, s := range d.a.Seasons {
		var names []string
		for _, l := range s.Lines {
			if l.Freezes && wetLine(&l) {
				names = append(names, d.within(l.ID))
			}
		}
		places := 0
		for _, g := range s.Gathered {
			if g.Freezes {
				places++
			}
		}
		if len(names) == 0 && places == 0 {
			continue
		}
		text := "In the " + s.Name + " season water freezes"
		if n := len(names); n > 0 {
			if more := n - linesNamed; more > 1 {
				names = append(names[:linesNamed:linesNamed], fmt.Sprintf("%d more", more))
			}
			text += " in " + plural(n, "line", "lines") + " (" + listed(names) + ")"
			if places > 0 {
				text += " and"
			}
		}
		if places > 0 {
			text += " at " + plural(places, "place", "places") + " where it gathers"
		}
		return text + "."
	}
	return "None of it freezes."
}

// seasonSentence is the balance of a season and how dry the outlets are.
func (d *damp) seasonSentence(s *water.Season) string {
	mass := func(kg float64) string { return d.plain(unit.KindMass, kg) }
	text := fmt.Sprintf("In the %s season %s of water a day come in with the air", s.Name, mass(s.In))
	if s.Drained > 0 {
		text += fmt.Sprintf("; %s fall out, %s leave with it.", mass(s.Drained), mass(s.Carried))
	} else {
		text += " and leave with it."
	}
	wet := wettest(s)
	if wet == nil {
		return text + " No air reaches an outlet."
	}
	dry := wet
	for i := range s.Outlets {
		if o := &s.Outlets[i]; wetter(dry, o) {
			dry = o
		}
	}
	if d.dew(dry.Dew) == d.dew(wet.Dew) {
		return text + " The pressure dew point is " + d.dew(wet.Dew) + " at every outlet."
	}
	return fmt.Sprintf("%s The pressure dew point goes from %s at %s to %s at %s.", text, d.dew(dry.Dew), d.named(dry.ID), d.dew(wet.Dew), d.named(wet.ID))
}
