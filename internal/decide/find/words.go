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
	if r := ix.Run(id); r != nil {
		if r.Name != "" {
			return cure.Within(r.Name)
		}
		return "the line " + tail
	}
	if p := ix.Point(id); p != nil {
		if p.Name != "" {
			return cure.Within(p.Name)
		}
		if k, ok := f.study.Catalog().Kind(p.Part.Kind); ok && !strings.HasPrefix(tail, k.Name("en")) {
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
		return "Nothing is wrong with the line, the tools' plates or the compressor's."
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
	s += "."
	if n := len(c.Members); n > 1 {
		var others []string
		for _, m := range c.Members[1:min(n, 5)] {
			others = append(others, m.Words)
		}
		s += " No reading that can be taken tells it apart from " + strings.Join(others, ", ")
		if n > 5 {
			s += fmt.Sprintf(" and %d more", n-5)
		}
		if c.Sort == Restricted {
			s += ": they stand in line with no place for a gauge between."
		} else {
			s += "."
		}
	}
	return capital(s)
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

// place is a gauge's place in words.
func (f *Finder) place(p Place) string {
	switch {
	case p.Tool != "":
		return "a gauge between the hose and " + f.named(p.Tool) + " at " + f.named(p.At)
	case f.study.Index().Outlet(p.At) != nil:
		return "a gauge at " + f.named(p.At) + ", before its last coupler"
	}
	return f.named(p.At)
}

// ran is a set of tools in words.
func (f *Finder) ran(set []job.InUse) string {
	var words []string
	for _, u := range set {
		words = append(words, f.named(u.Tool)+" at "+f.named(u.Outlet))
	}
	return listed(words)
}

// shut is valves in words.
func (f *Finder) shut(valves []job.ID) string {
	var words []string
	for _, v := range valves {
		words = append(words, f.named(v))
	}
	return listed(words)
}

// howTo is how to take a reading, in words.
func (f *Finder) howTo(r *Reading) string {
	switch r.Kind {
	case PumpUp:
		return fmt.Sprintf("With every tool off, take the time that the compressor needs to bring the receiver from %s to %s.", f.gauge(r.From), f.gauge(r.To))
	case Fall:
		if len(r.Shut) > 0 {
			return fmt.Sprintf("With every tool off, shut %s, stop the compressor and take the time in which the receiver falls from %s to %s: it tells on which side of the valve the air goes.", f.shut(r.Shut), f.gauge(r.From), f.gauge(r.To))
		}
		return fmt.Sprintf("With every tool off, stop the compressor and take the time in which the receiver falls from %s to %s.", f.gauge(r.From), f.gauge(r.To))
	}
	if r.Kind == Starts {
		return "Count how often the compressor starts in an hour."
	}
	if len(r.Running) == 0 {
		return "With nothing running, read " + f.place(r.Place) + " and the receiver's gauge at the same moment."
	}
	return "Let " + f.ran(r.Running) + " run, nothing else, and read " + f.place(r.Place) + " and the receiver's gauge at the same moment."
}

// tell words what the answer comes to.
func (f *Finder) tell(a *Answer, trials []trial) {
	top := &a.Causes[0]
	switch {
	case len(f.read) == 0:
		a.Verdict = "Nothing has been read yet."
	case f.misfit(trials) > float64(len(f.read))*3+10:
		a.Verdict = "No cause, nor two together, explains these readings well. Look for a reading in another unit, a gauge that is off, or three things at once."
	case top.Sort == None && top.Chance >= StandsOut:
		a.Verdict = top.Words + f.design(a)
	case top.Sort == None:
		a.Verdict = "So far the readings fit a sound line; they do not settle it."
	case a.Found && len(a.Causes) > 1 && a.Causes[1].Chance >= StandsOut && a.Causes[1].Sort != None:
		a.Verdict = top.Words + " And: " + a.Causes[1].Words
	case a.Found:
		a.Verdict = top.Words
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

// readWords is a reading that was taken, in words.
func (f *Finder) readWords(r *Reading) string {
	switch r.Kind {
	case Starts:
		return fmt.Sprintf("The compressor starts %.3g times an hour", r.Starts)
	case PumpUp, Fall:
		what := "Filling"
		if r.Kind == Fall {
			what = "Falling"
		}
		if len(r.Shut) > 0 {
			what += " with " + f.shut(r.Shut) + " shut"
		}
		return fmt.Sprintf("%s from %s to %s took %s", what, f.gauge(r.From), f.gauge(r.To), f.text(unit.KindDuration, float64(r.Time)))
	}
	ran := "nothing running"
	if len(r.Running) > 0 {
		ran = f.ran(r.Running) + " running"
	}
	return fmt.Sprintf("%s: %s, the receiver at %s, %s", capital(f.place(r.Place)), f.gauge(r.Pressure), f.gauge(r.Receiver), ran)
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
