package parts

import (
	"fmt"
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
)

// Ways of joining with filler, and what goes into them.
const (
	solderJoint = "solder"
	brazeJoint  = "braze"
	solder      = "95-5 solder"
	rod         = "brazing rod"
	flux        = "flux"
)

// supplies counts what is used up in the joints that are not made yet: of tape the metres,
// so many wraps round the gauge diameter of each thread, and of paste the litres; of filler
// and flux the mass by the tube's diameter.
func (c *counter) supplies() {
	for _, j := range c.joints {
		if j.State == Existing {
			continue
		}
		for _, word := range j.Needs.Tools {
			if !usedUp(word) {
				continue
			}
			c.implied.pieces(Line{Article: word, Group: Supplies, Words: word}, j.State, 1, j.ID, j.Room)
			t := c.implied.tally(Line{Article: word, Group: Supplies}, j.State, 0)
			switch {
			case j.Kind == threadJoint:
				c.tape(t, j)
			case word == solder || word == rod || word == flux:
				c.filler(t, j, word)
			}
		}
	}
}

// tape adds what seals a taper thread.
func (c *counter) tape(t *tally, j *Joint) {
	row, ok := c.shelf.Thread(c.threads, j.Size)
	if !ok {
		t.line.Unknown++
		return
	}
	around := math.Pi * float64(row.GaugeDia)
	t.metres += tapeWraps * around
	t.addMetres(j.Room, tapeWraps*around)
	const litres = 1000 // in a cubic metre
	t.litres += around * float64(row.Effective) * pasteFilm * litres
}

// filler adds solder, rod or flux.
func (c *counter) filler(t *tally, j *Joint, word string) {
	f, ok := catalog.FillerOf(c.outside(j))
	if !ok {
		t.line.Unknown++
		return
	}
	switch word {
	case solder:
		t.mass += float64(f.Solder)
	case rod:
		t.mass += rodWaste * float64(f.Braze)
	case flux:
		t.mass += catalog.FluxPerSolder * float64(f.Solder)
	}
}

// outside is the diameter of the tube in a joint: that of the run on one of its sides, else
// of the first stock of the job that is joined so and has the joint's size; 0 for none.
func (c *counter) outside(j *Joint) unit.Length {
	for _, side := range j.Sides {
		if r := c.index.Run(ThingOf(side.Thing)); r != nil {
			if size, ok := c.shelf.Size(r.Stock, r.Size); ok {
				return size.Outside
			}
		}
	}
	for i := range c.job.Net.Runs {
		s, ok := c.shelf.Stock(c.job.Net.Runs[i].Stock)
		if !ok || usual(s) != j.Kind {
			continue
		}
		if size, ok := s.Size(j.Size); ok {
			return size.Outside
		}
	}
	return 0
}

// counted says how a supply was counted.
func (c *counter) counted(l *Line) string {
	text := fmt.Sprintf("for %d joints", l.Joints)
	if l.Joints == 1 {
		text = "for 1 joint"
	}
	switch {
	case l.Length != nil:
		text += fmt.Sprintf(", as tape: %d wraps round each thread", tapeWraps)
		if l.Paste > 0 {
			text += fmt.Sprintf("; as paste about %.0f mL", math.Ceil(float64(l.Paste)*1e6))
		}
	case l.Mass > 0:
		text += ": about " + c.system.Text(unit.KindMass, float64(l.Mass), unit.Env{}) + ", by the diameter of each tube, with what is lost"
	case l.Unknown == 0:
		text += "; how much each takes is not known"
	}
	if l.Unknown > 0 {
		text += fmt.Sprintf("; without %d whose size is not known", l.Unknown)
	}
	return text
}
