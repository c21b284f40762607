package job

import (
	"fmt"
	"math"
	"time"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
)

// issue is one thing wrong within a thing of the job.
type issue struct {
	code     string
	severity Severity
	key      string // path within the thing
	read     string
	want     string
	nearest  string
	also     ID // another thing concerned
}

// finder gives the thing of an id, nil for none.
type finder interface{ thing(id ID) any }

func (ix *Index) thing(id ID) any { return ix.things[id] }

// inspect checks one thing by itself and against those that it names: what needs
// no catalogue. Edits refuse what it finds to be a fault.
func inspect(t any, f finder) []issue {
	switch t := t.(type) {
	case *Room:
		return inspectRoom(t)
	case *Wall:
		if t.From.Distance(t.To) <= geom.Tiny {
			return []issue{fault("no-length", "to_m", fmt.Sprint(t.To), "another place than from_m")}
		}
	case *Opening:
		return inspectOpening(t, f)
	case *Obstacle:
		out := inspectOutline(t.Outline)
		if t.Top <= t.Bottom {
			out = append(out, fault("upside-down", "top_m", number(float64(t.Top)), "more than bottom_m, "+number(float64(t.Bottom))))
		}
		return out
	case *Point:
		return append(inspectPoint(t, f), inspectPart(&t.Part, "part.")...)
	case *Run:
		return inspectRun(t, f)
	case *Outlet:
		return inspectOutlet(t)
	case *Tool:
		return inspectTool(t)
	case *Offer:
		return inspectPriced(t.Currency, t.Date)
	case *Record:
		if _, err := time.Parse(time.RFC3339, t.When); err != nil {
			return []issue{fault("no-date", "when", fmt.Sprintf("%q", brief(t.When)), `date and time as in "2026-03-14T09:30:00Z" (RFC 3339)`)}
		}
	}
	return nil
}

func fault(code, key, read, want string) issue {
	return issue{code: code, severity: Fault, key: key, read: read, want: want}
}

func number(x float64) string { return fmt.Sprintf("%.6g", x) }

func inspectRoom(r *Room) []issue {
	out := inspectOutline(r.Outline)
	if r.Ceiling <= r.Floor {
		out = append(out, fault("upside-down", "ceiling_m", number(float64(r.Ceiling)), "more than floor_m, "+number(float64(r.Floor))))
	}
	return out
}

// inspectOutline checks a closed outline.
func inspectOutline(o []geom.Flat) []issue {
	if len(o) < 3 {
		return []issue{fault("open-outline", "outline_m", fmt.Sprintf("%d corners", len(o)), "at least 3 corners, in order round the outline")}
	}
	if o[0].Distance(o[len(o)-1]) <= geom.Tiny {
		return []issue{fault("repeated-corner", fmt.Sprintf("outline_m[%d]", len(o)-1), fmt.Sprint(o[len(o)-1]), "corners without the first one again at the end")}
	}
	const many = 2000 // crossings are sought pair by pair
	if len(o) > many {
		return []issue{fault("outline-too-fine", "outline_m", fmt.Sprintf("%d corners", len(o)), fmt.Sprintf("at most %d corners", many))}
	}
	if i, k, crosses := geom.CrossesItself(o); crosses {
		return []issue{fault("outline-crosses", fmt.Sprintf("outline_m[%d]", i),
			fmt.Sprintf("the edge from corner %d crosses that from corner %d", i, k), "an outline that does not cross itself")}
	}
	if math.Abs(geom.Area(o)) < geom.Tiny {
		return []issue{fault("outline-flat", "outline_m", "corners on one line", "an outline with an area")}
	}
	return nil
}

func inspectOpening(o *Opening, f finder) []issue {
	w, ok := f.thing(o.Wall).(*Wall)
	if !ok {
		return nil // the name that leads nowhere is told with the others
	}
	var out []issue
	l := w.Frame().Length()
	if end := float64(o.Along + o.Width); end > l+geom.Tiny {
		out = append(out, issue{
			code: "off-wall", severity: Fault, key: "width_m", read: "the opening ends at " + number(end) + " m",
			want: "an opening within the wall's " + number(l) + " m", nearest: number(math.Max(0, l-float64(o.Along))), also: w.ID,
		})
	}
	if top := float64(o.Sill + o.Height); top > float64(w.Height)+geom.Tiny {
		out = append(out, issue{
			code: "off-wall", severity: Fault, key: "height_m", read: "the opening ends at " + number(top) + " m",
			want: "an opening within the wall's height of " + number(float64(w.Height)) + " m", also: w.ID,
		})
	}
	return out
}

func inspectPoint(p *Point, f finder) []issue {
	switch {
	case p.At != nil && p.On != nil:
		return []issue{fault("two-places", "on", "a place on a wall", "one of at_m and on, not both")}
	case p.On == nil:
		return nil
	}
	w, ok := f.thing(p.On.Wall).(*Wall)
	if !ok {
		return nil
	}
	l := w.Frame().Length()
	if s := float64(p.On.Along); s < -geom.Tiny || s > l+geom.Tiny {
		return []issue{{
			code: "off-wall", severity: Fault, key: "on.along_m", read: number(s), want: "a place on the wall, 0 to " + number(l) + " m",
			nearest: number(math.Min(l, math.Max(0, s))), also: w.ID,
		}}
	}
	return nil
}

// usualBand is between cut-in and cut-out of a workshop's compressor, Pa (common practice, no source).
const usualBand = 150e3

// inspectPart checks a part's own figures; prefix is its path within the thing.
func inspectPart(p *Part, prefix string) []issue {
	var out []issue
	if p.Clean != nil && p.Loaded != nil && *p.Loaded < *p.Clean {
		out = append(out, fault("loaded-below-clean", prefix+"loaded_kPa", number(float64(*p.Loaded)/1000), "at least the loss when clean, "+number(float64(*p.Clean)/1000)))
	}
	c := p.Compressor
	if c == nil {
		return out
	}
	if c.CutIn != nil && c.CutOut != nil && *c.CutIn >= *c.CutOut {
		i := fault("cut-in-above-cut-out", prefix+"compressor.cut_in_kPa_g", number(float64(*c.CutIn)/1000), "less than cut_out_kPa_g, "+number(float64(*c.CutOut)/1000))
		i.nearest = number(max(float64(*c.CutOut)-usualBand, float64(*c.CutOut)/2) / 1000)
		out = append(out, i)
	}
	if u := c.PumpUp; u != nil && u.From >= u.To {
		out = append(out, fault("pump-up-falls", prefix+"compressor.pump_up.from_kPa_g", number(float64(u.From)/1000), "less than to_kPa_g, "+number(float64(u.To)/1000)))
	}
	return out
}

func inspectRun(r *Run, f finder) []issue {
	var out []issue
	if r.From.Point != "" && r.From.Point == r.To.Point {
		out = append(out, fault("run-in-itself", "to.point", fmt.Sprintf("%q", r.To.Point), "another point than the run begins at"))
	}
	for _, e := range []struct{ key, id string }{{"from.point", string(r.From.Point)}, {"to.point", string(r.To.Point)}} {
		if e.id == "" {
			out = append(out, fault("end-missing", e.key, "nothing", "the id of a point"))
		}
	}
	if r.Length != nil {
		if len(r.Path) > 0 {
			out = append(out, fault("length-and-drawing", "length_m", number(float64(*r.Length)), "either a length or a drawing: the drawing tells the length"))
		}
	}
	from, ok1 := f.thing(r.From.Point).(*Point)
	to, ok2 := f.thing(r.To.Point).(*Point)
	if r.Length != nil {
		return append(out, inspectStated(r, from, to, f)...)
	}
	if !ok1 || !ok2 {
		return out
	}
	for _, p := range []*Point{from, to} {
		if p.At == nil && p.On == nil {
			out = append(out, issue{
				code: "no-place", severity: Fault, key: "length_m", read: "neither a length nor a place of " + string(p.ID),
				want: "length_m of the run, or at_m or on of " + string(p.ID), also: p.ID,
			})
		}
	}
	if l, ok := drawnLength(r, from, to, f); ok && l <= geom.Tiny && len(out) == 0 {
		out = append(out, issue{code: "no-length", severity: Fault, key: "path_m", read: "a run of no length", want: "ends at two places", also: to.ID})
	}
	return out
}

// inspectStated compares a stated length with the places of the ends, where both
// have one: the stated one counts, and should be no shorter than the straight line.
func inspectStated(r *Run, from, to *Point, f finder) []issue {
	l, ok := drawnLength(r, from, to, f)
	if !ok || len(r.Path) > 0 {
		return nil
	}
	return []issue{{
		code: "length-and-drawing", severity: Caution, key: "length_m", read: number(float64(*r.Length)),
		want: "no stated length where both ends have their place, " + number(l) + " m apart; the stated one counts", nearest: number(l),
	}}
}

// drawnLength is a run's length by its drawing.
func drawnLength(r *Run, from, to *Point, f finder) (float64, bool) {
	a, ok1 := placeOf(from, f)
	b, ok2 := placeOf(to, f)
	if !ok1 || !ok2 {
		return 0, false
	}
	l, last := 0.0, a
	for _, p := range r.Path {
		l, last = l+p.Distance(last), p
	}
	return l + b.Distance(last), true
}

func inspectOutlet(o *Outlet) []issue {
	var out []issue
	if o.Point == "" {
		out = append(out, fault("end-missing", "point", "nothing", "the id of a point"))
	}
	for i := range o.Hang {
		out = append(out, inspectPart(&o.Hang[i], fmt.Sprintf("hang[%d].", i))...)
	}
	seen := map[ID]bool{}
	for i, t := range o.Tools {
		if seen[t] {
			out = append(out, fault("named-twice", fmt.Sprintf("tools[%d]", i), fmt.Sprintf("%q again", t), "each tool once"))
		}
		seen[t] = true
	}
	return out
}

// longestDay is what no working day is longer than.
const longestDay unit.Duration = 24 * 3600

func inspectTool(t *Tool) []issue {
	var out []issue
	if t.Least != nil && t.Most != nil && *t.Least > *t.Most {
		out = append(out, fault("least-above-most", "least_kPa_g", number(float64(*t.Least)/1000), "at most most_kPa_g, "+number(float64(*t.Most)/1000)))
	}
	if t.Burst != nil && *t.Burst > longestDay {
		out = append(out, issue{
			code: "burst-longer-than-day", severity: Caution, key: "burst_s", read: number(float64(*t.Burst)),
			want: "at most a day, " + number(float64(longestDay)) + ": how long it runs at a time; how much of the day is its share", nearest: number(float64(longestDay)),
		})
	}
	out = append(out, inspectTimetable(t)...)
	with := map[ID]bool{}
	for i, id := range t.With {
		if with[id] = true; id == t.ID {
			out = append(out, fault("names-itself", fmt.Sprintf("with[%d]", i), fmt.Sprintf("%q", id), "another tool"))
		}
	}
	for i, id := range t.NotWith {
		if id == t.ID || with[id] {
			out = append(out, fault("with-and-not-with", fmt.Sprintf("not_with[%d]", i), fmt.Sprintf("%q", id), "another tool, and none that it always runs with"))
		}
	}
	return out
}
