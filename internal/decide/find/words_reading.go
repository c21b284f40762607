package find

import (
	"fmt"
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

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
	case Fall: // what is off but not locked starts by itself below its cut-in
		if len(r.Shut) > 0 {
			return fmt.Sprintf("With every tool off, shut %s, switch the compressor off and lock it, and take the time in which the receiver falls from %s to %s, half an hour at most.", f.shut(r.Shut), f.gauge(r.From), f.gauge(r.To))
		}
		return fmt.Sprintf("With every tool off, switch the compressor off and lock it, and take the time in which the receiver falls from %s to %s, half an hour at most.", f.gauge(r.From), f.gauge(r.To))
	}
	if r.Kind == Starts {
		return "Count how often the compressor starts in an hour."
	}
	if r.Stopped {
		return fmt.Sprintf("Switch the compressor off and lock it: it would start by itself. Let %s run, nothing else, until the receiver has come down to %s, and then read %s and the receiver's gauge at the same moment. Nothing may hang or be clamped by this air meanwhile.", f.ran(r.Running), f.gauge(r.Receiver), f.place(r.Place))
	}
	if len(r.Running) == 0 {
		return "With nothing running, read " + f.place(r.Place) + " and the receiver's gauge at the same moment."
	}
	return "Let " + f.ran(r.Running) + " run, nothing else, and read " + f.place(r.Place) + " and the receiver's gauge at the same moment."
}

// readWords is a reading that was taken, in words.
func (f *Finder) readWords(r *Reading) string {
	switch r.Kind {
	case Look:
		return f.lookWords(r)
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
	if r.Stopped {
		ran += ", the compressor stopped"
	}
	return fmt.Sprintf("%s: %s, the receiver at %s, %s", capital(f.place(r.Place)), f.gauge(r.Pressure), f.gauge(r.Receiver), ran)
}

// why tells a reading's use: what it would show by the likeliest suspect, and by the
// next one that it parts from that.
func (f *Finder) why(r *Reading, top []suspect, shows []view) string {
	first, second := -1, -1
	for i := range top {
		if shows[i].known && (first < 0 || top[i].weight > top[first].weight) {
			first = i
		}
	}
	for i := range top {
		if first < 0 || !shows[i].known || top[i].what == top[first].what {
			continue
		}
		apart := math.Abs(shows[i].mean-shows[first].mean) > 2*max(shows[i].sd, shows[first].sd)
		if apart && (second < 0 || top[i].weight > top[second].weight) {
			second = i
		}
	}
	if second < 0 {
		return ""
	}
	return fmt.Sprintf("With %s it would show about %s, with %s about %s.",
		f.suspected(&top[first]), f.would(r, shows[first].mean), f.suspected(&top[second]), f.would(r, shows[second].mean))
}

// would is what a gauge or a clock would show.
func (f *Finder) would(r *Reading, x float64) string {
	switch r.Kind {
	case Pressure:
		return f.gauge(min(max(unit.GaugePressure(x), 0), r.Receiver))
	case Starts:
		return fmt.Sprintf("%.2g an hour", math.Exp(x)*3600)
	}
	time := f.rig.volume(r) * math.Abs(float64(r.To-r.From)) / (f.rig.m.Gas().RT() * math.Exp(x))
	return f.text(unit.KindDuration, math.Round(time))
}

// suspected is what is wrong by a suspect, within a sentence.
func (f *Finder) suspected(s *suspect) string {
	var words []string
	for _, i := range s.causes {
		if i < 0 || f.gone(i) || f.causes[i].sort == None {
			continue
		}
		c := &f.causes[i]
		switch c.sort {
		case Restricted:
			words = append(words, "a restriction in "+f.name(c))
		case Leaking:
			words = append(words, "a leak near "+f.name(c))
		case MisSet:
			words = append(words, f.name(c)+" set otherwise")
		case Greedy:
			words = append(words, f.name(c)+" asking for more")
		case Weak:
			words = append(words, f.name(c)+" giving less")
		}
	}
	if len(words) == 0 && f.mended() {
		return "nothing else wrong"
	}
	if len(words) == 0 {
		return "nothing wrong"
	}
	return listed(words)
}

// rangeWords is the range of a size, 19 times in 20.
func (f *Finder) rangeWords(c *Cause) string {
	between := func(low, high string) string {
		if low == high {
			return ""
		}
		return low + " to " + high
	}
	switch c.Sort {
	case Restricted, Weak:
		return between(percent(c.Low), percent(c.High))
	case Leaking:
		return between(f.text(unit.KindLength, c.Low), f.text(unit.KindLength, c.High))
	case MisSet:
		return between(f.text(unit.KindPressureDiff, c.Low), f.text(unit.KindPressureDiff, c.High))
	case Greedy:
		return between(fmt.Sprintf("%.2g times", c.Low), fmt.Sprintf("%.2g times", c.High))
	}
	return ""
}

func percent(x float64) string { return fmt.Sprintf("%.2g %%", 100*x) }
