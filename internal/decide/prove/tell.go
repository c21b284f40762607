package prove

import "fmt"

// tell sums up what was checked and what was not.
func (a *Answer) tell() {
	a.Checked, a.Unchecked = []string{}, []string{}
	put := func(left, of int, yes, no string) {
		switch {
		case of == 0: // nothing of it is drawn, so nothing is left open
		case left == 0:
			a.Checked = append(a.Checked, yes)
		default:
			a.Unchecked = append(a.Unchecked, no)
		}
	}
	p := a.Progress
	put(p.Left(), p.All, fmt.Sprintf("all %d joints were found tight", p.All), fmt.Sprintf("%d of %d joints were not found tight", p.Left(), p.All))
	held, pressed := 0, 0
	for i := range a.Sections {
		decay, pressure := a.Sections[i].stands()
		if decay == Holds {
			held++
		}
		if pressure {
			pressed++
		}
	}
	n := len(a.Sections)
	put(n-pressed, n, "every section was put under its test pressure", fmt.Sprintf("%d of %d sections were not put under test pressure", n-pressed, n))
	put(n-held, n, "every section held by its decay test", fmt.Sprintf("%d of %d sections were not shown to hold by a decay test", n-held, n))
	read := 0
	for i := range a.Outlets {
		if a.Outlets[i].Read != nil {
			read++
		}
	}
	put(len(a.Outlets)-read, len(a.Outlets), "flowing pressure was read at every outlet", fmt.Sprintf("%d of %d outlets have no flowing pressure read with a tool running", len(a.Outlets)-read, len(a.Outlets)))
	if n == 0 {
		a.Unchecked = append(a.Unchecked, "no line is drawn yet: there is nothing to test")
	}
	a.Unchecked = append(a.Unchecked, "strength of supports and building, receivers and relief valves under their own law, and what no record here names")
}

// stands is what the newest tests of a section say.
func (s *Section) stands() (decay string, pressure bool) {
	for _, m := range s.Made {
		if m.Verdict != nil {
			decay = m.Verdict.Verdict
			continue
		}
		pressure = m.Record.Found == Tight
	}
	return decay, pressure
}

// Stands is the verdict of the newest decay test of a section; "" is none.
func (s *Section) Stands() string {
	decay, _ := s.stands()
	return decay
}

// Pressed says whether the newest test under pressure was found tight.
func (s *Section) Pressed() bool {
	_, pressure := s.stands()
	return pressure
}
