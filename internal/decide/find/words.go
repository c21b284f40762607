package find

import (
	"fmt"
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"dropleg/engine/unit"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
)

// sureness is a chance in words.
func sureness(p float64) string {
	switch {
	case p >= 0.95:
		return "all but certain"
	case p >= StandsOut:
		return "very likely"
	case p >= 0.5:
		return "likely"
	case p >= 0.2:
		return "possible"
	}
	return "unlikely"
}

// named is a thing of the job within a sentence.
func (f *Finder) named(id job.ID) string {
	ix := f.study.Index()
	if t := ix.Tool(id); t != nil && t.Name != "" {
		return cure.Within(t.Name)
	}
	if o := ix.Outlet(id); o != nil && o.Name != "" {
		return cure.Within(o.Name)
	}
	_, tail, _ := strings.Cut(string(id), ".")
	tail = strings.ReplaceAll(tail, "-", " ")
	if r := ix.Run(id); r != nil {
		if r.Name != "" {
			return cure.Within(r.Name)
		}
		return "the line " + tail
	}
	if p := ix.Point(id); p != nil {
		k, known := f.study.Catalog().Kind(p.Part.Kind)
		switch {
		case p.Name != "" && known && f.hangsAt(id, p.Name):
			return "the " + k.Name("en") + " at " + cure.Within(p.Name)
		case p.Name != "":
			return cure.Within(p.Name)
		case known && !strings.Contains(tail, k.Name("en")):
			return "the " + k.Name("en") + " " + tail
		}
		return "the " + tail
	}
	if o := ix.OutletOfHose(id); o != nil {
		return "the hose at " + f.named(o.ID)
	}
	if o := ix.OutletOfPart(id); o != nil {
		for i := range o.Hang {
			if k, ok := f.study.Catalog().Kind(o.Hang[i].Kind); ok && o.Hang[i].ID == id {
				return "the " + k.Name("en") + " at " + f.named(o.ID)
			}
		}
	}
	return tail
}

// hangsAt says whether a point has the name of the outlet that hangs at it: then the name
// alone would be the bench, and not what is fixed to the wall there.
func (f *Finder) hangsAt(point job.ID, name string) bool {
	for i := range f.study.Job().Outlets {
		if o := &f.study.Job().Outlets[i]; o.Point == point && o.Name == name {
			return true
		}
	}
	return false
}

// name is the thing of a cause: of one id, which of its elements.
func (f *Finder) name(c *cause) string {
	name := f.named(c.id)
	if c.sort != Restricted {
		return name
	}
	e := f.rig.m.Elements()[c.at]
	switch {
	case e.Outlet == "" && c.leg != "":
		return name + " (" + strings.ReplaceAll(c.leg, "-", " ") + ")"
	case c.leg != "" && e.Tool != "":
		return "the coupler at the end of " + name
	case c.leg != "":
		return "the coupler before " + name
	case e.ID == e.Outlet:
		return "the " + e.Words + " at " + name
	}
	return name
}

// words is a cause as a sentence.
func (f *Finder) words(c *Cause) string {
	if c.Sort == None {
		what := "Nothing is wrong"
		if f.mended() {
			what = "Nothing else is wrong"
		}
		return what + " with the line, the tools' plates or the compressor's."
	}
	name := c.Members[0].Words
	s := ""
	switch c.Sort {
	case Restricted:
		s = fmt.Sprintf("%s passes %s of what it should", name, shareWords(c.Size))
	case Leaking:
		s = fmt.Sprintf("Air leaks near %s, as through a hole of %s", name, f.text(unit.KindLength, c.Size))
	case MisSet:
		way := "lower"
		if c.Size > 0 {
			way = "higher"
		}
		s = fmt.Sprintf("%s is set about %s %s than drawn", name, f.text(unit.KindPressureDiff, math.Abs(c.Size)), way)
	case Greedy:
		s = fmt.Sprintf("%s asks for %.2g times what its plate says", name, c.Size)
	case Weak:
		s = fmt.Sprintf("%s delivers %s of what its plate says", name, shareWords(c.Size))
	}
	return capital(s) + "."
}

// beside names what no reading tells apart from the first of a cause.
func beside(c *Cause) string {
	n := len(c.Members)
	if n < 2 {
		return ""
	}
	var others []string
	for _, m := range c.Members[1:min(n, 5)] {
		others = append(others, m.Words)
	}
	s := "No reading that can be taken tells it apart from " + strings.Join(others, ", ")
	if n > 5 {
		s += fmt.Sprintf(" and %d more", n-5)
	}
	if c.Sort == Restricted {
		return s + ": they stand in line with no place for a gauge between."
	}
	return s + "."
}

func (f *Finder) text(k unit.Kind, x float64) string {
	return f.system.Text(k, x, unit.Env{Atmosphere: f.rig.m.Atmosphere()})
}

func (f *Finder) gauge(p unit.GaugePressure) string { return f.text(unit.KindGauge, float64(p)) }

// shareWords is a share as people say it.
func shareWords(x float64) string {
	named := []struct {
		of    float64
		words string
	}{{0.75, "three quarters"}, {0.667, "two thirds"}, {0.5, "half"}, {0.333, "a third"}, {0.25, "a quarter"}, {0.2, "a fifth"}, {0.1, "a tenth"}}
	for _, n := range named {
		if math.Abs(x-n.of) < 0.06*n.of {
			return "about " + n.words
		}
	}
	if x < 0.095 {
		return "less than a tenth"
	}
	return fmt.Sprintf("about %.0f %%", 100*x)
}

func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// listed joins names as people do.
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// tell words what the answer comes to.
func (f *Finder) tell(a *Answer, trials []trial) {
	top := &a.Causes[0]
	switch {
	case len(f.read) == 0:
		a.Verdict = "Nothing has been read yet."
	case f.misfit(trials) > float64(len(f.read))*3+10:
		a.Verdict = "No cause, nor two together, explains these readings well. Look for a reading in another unit, a gauge that is off, or three things at once."
	case top.Sort == None && f.since > 0 && len(f.read) == f.since:
		a.Verdict = "What was mended may have been all. Read again, to see."
	case top.Sort == None && top.Chance >= StandsOut:
		a.Verdict = top.Words + f.design(a)
	case top.Sort == None && f.since > 0:
		a.Verdict = "So far the readings fit what was mended; they do not settle whether that was all."
	case top.Sort == None:
		a.Verdict = "So far the readings fit a sound line; they do not settle it."
	case a.Found && len(a.Causes) > 1 && a.Causes[1].Chance >= StandsOut && a.Causes[1].Sort != None:
		a.Verdict = top.Words + " And: " + a.Causes[1].Words
	case a.Found:
		a.Verdict = top.Words
		if b := top.Beside; b != "" {
			a.Verdict += " Or something in the same stretch."
		}
		if a.Together > 0.5 {
			a.Verdict += " Something else is wrong as well."
		}
	default:
		a.Verdict = "Not settled. Likeliest so far: " + top.Words
	}
}

// misfit is that of the likeliest trial.
func (f *Finder) misfit(trials []trial) float64 {
	best := 0
	for i := range trials {
		if trials[i].weight > trials[best].weight {
			best = i
		}
	}
	return trials[best].misfit
}

// onDrawing is the thing on the drawing that an id stands on.
func (f *Finder) onDrawing(id job.ID) job.ID {
	ix := f.study.Index()
	if o := ix.OutletOfHose(id); o != nil {
		return o.ID
	}
	if o := ix.OutletOfPart(id); o != nil {
		return o.ID
	}
	return id
}
