package check

import (
	"context"
	"fmt"
	"strings"

	"dropleg/engine/cite"
	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Case is a study laid out for the checks, and what they found.
type Case struct {
	study  *study.Study
	job    *job.Job
	idx    *job.Index
	shelf  *catalog.Catalog
	model  *model.Model
	flow   *flow.Answer
	net    *layout
	bench  *cure.Bench
	system unit.System
	env    unit.Env

	check *Check // the one that runs
	found []job.Finding
	top   []float64 // by node of the model, Pa g; see highest
}

func newCase(ctx context.Context, s *study.Study, system unit.System) (*Case, error) {
	m, err := s.Model(ctx)
	if err != nil {
		return nil, err
	}
	f, err := s.Flow(ctx)
	if err != nil {
		return nil, err
	}
	j, idx := s.Job(), s.Index()
	c := &Case{
		study: s, job: j, idx: idx, shelf: s.Catalog(), model: m, flow: f,
		system: system, env: unit.Env{Atmosphere: m.Atmosphere()},
	}
	c.net = newLayout(idx, c.shelf)
	c.bench = cure.NewBench(s, m, f, float64(j.RuleMargin().Value), system)
	return c, nil
}

// report files a finding of the check that runs: code, reason, law and source
// are the check's unless the finding brings its own, the place that of the
// first thing concerned.
func (c *Case) report(f job.Finding) {
	if f.Code == "" {
		f.Code = c.check.Code
	}
	if f.Why == "" {
		f.Why = c.check.Why
	}
	if f.Law == "" {
		f.Law = c.check.Law
	}
	if f.Source == nil {
		f.Source = c.check.Source
	}
	for _, id := range f.Where {
		if f.Place != nil {
			break
		}
		f.Place = c.place(id)
	}
	c.found = append(c.found, f)
}

// place is where a thing stands on the drawing; nil where that is not known.
func (c *Case) place(id job.ID) *geom.Point {
	if r := c.idx.Run(id); r != nil {
		line := c.idx.Centreline(r)
		if at, _, ok := geom.OnPath(line, geom.Length(line)/2); ok {
			return &at
		}
		return nil
	}
	point := id
	for _, o := range []*job.Outlet{c.idx.Outlet(id), c.idx.OutletOfHose(id), c.idx.OutletOfPart(id)} {
		if o != nil {
			point = o.Point
		}
	}
	if at, ok := c.idx.Where(c.idx.Point(point)); ok {
		return &at
	}
	return nil
}

// named is a thing in words: its own name, or what it is and where.
func (c *Case) named(id job.ID) string {
	if t := c.idx.Tool(id); t != nil && t.Name != "" {
		return t.Name
	}
	if o := c.idx.Outlet(id); o != nil && o.Name != "" {
		return o.Name
	}
	if r := c.idx.Run(id); r != nil {
		if r.Name != "" {
			return r.Name
		}
		return c.lineWords(r)
	}
	if p := c.idx.Point(id); p != nil {
		if p.Name != "" {
			return p.Name
		}
		if k, ok := c.shelf.Kind(p.Part.Kind); ok && !strings.HasPrefix(tail(id), k.Name("en")) {
			return "the " + k.Name("en") + " " + tail(id)
		}
	}
	if o := c.idx.OutletOfHose(id); o != nil {
		return "the hose at " + c.named(o.ID)
	}
	if o := c.idx.OutletOfPart(id); o != nil {
		for i := range o.Hang {
			if o.Hang[i].ID == id {
				return "the " + c.net.hung(&o.Hang[i]).Name("en") + " at " + c.named(o.ID)
			}
		}
	}
	return tail(id)
}

// lineWords is a run without a name, by its part in the system and its id.
func (c *Case) lineWords(r *job.Run) string {
	name := tail(r.ID)
	if strings.HasPrefix(name, r.Role) {
		return name // "main-3" says it already
	}
	return "the " + r.Role + " " + name
}

// tail is an id without the word that says its kind, for things without a name.
func tail(id job.ID) string {
	if _, rest, ok := strings.Cut(string(id), "."); ok {
		return rest
	}
	return string(id)
}

// names lists things in words, the first few where there are many.
func (c *Case) names(ids []job.ID) string {
	words := make([]string, 0, len(ids))
	for _, id := range ids {
		words = append(words, c.named(id))
	}
	return listed(words)
}

// most is how many names a sentence carries.
const most = 4

// listed joins words as people do: "a, b and c", "a, b, c, d and 5 more", and
// names what comes twice once. Names with a comma in them are parted by semicolons.
func listed(words []string) string {
	var once []string
	count := map[string]int{}
	comma := ", "
	for _, w := range words {
		if count[w]++; count[w] == 1 {
			once = append(once, w)
		}
		if strings.Contains(w, ",") {
			comma = "; "
		}
	}
	for i, w := range once {
		if n := count[w]; n > 1 {
			once[i] = fmt.Sprintf("%d × %s", n, w)
		}
	}
	switch n := len(once); {
	case n == 0:
		return "nothing"
	case n == 1:
		return once[0]
	case n > most+1:
		return strings.Join(once[:most], comma) + fmt.Sprintf(" and %d more", n-most)
	default:
		return strings.Join(once[:n-1], comma) + " and " + once[n-1]
	}
}

// plural is "1 outlet", "3 outlets".
func plural(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}

// sentence begins a text with a capital letter.
func sentence(format string, args ...any) string {
	s := fmt.Sprintf(format, args...)
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func (c *Case) gauge(p unit.GaugePressure) string {
	return c.system.Text(unit.KindGauge, float64(p), c.env)
}

func (c *Case) diff(p unit.PressureDiff) string {
	return c.system.Text(unit.KindPressureDiff, float64(p), c.env)
}

func (c *Case) air(q unit.FreeAir) string { return c.system.Text(unit.KindFlow, float64(q), c.env) }

func (c *Case) speed(v unit.Velocity) string {
	return c.system.Text(unit.KindVelocity, float64(v), c.env)
}

func (c *Case) temp(t unit.Temperature) string {
	return c.system.Text(unit.KindTemperature, float64(t), c.env)
}

func (c *Case) time(t unit.Duration) string {
	return c.system.Text(unit.KindDuration, float64(t), c.env)
}

// figure is a number in SI with the key that names it.
func figure(key string, v float64) *job.Figure { return &job.Figure{Key: key, Value: v} }

// custom is the source of a rule that only the trade's custom bears.
func custom(place string) []cite.Ref {
	return []cite.Ref{{Source: "common-practice", Place: place, How: cite.Common}}
}

// supplyPressures are the highest cut-out and the lowest cut-in of the sources;
// ok is false without any.
func (c *Case) supplyPressures() (cutIn, cutOut unit.GaugePressure, ok bool) {
	for i, s := range c.model.Sources() {
		if i == 0 || s.CutIn < cutIn {
			cutIn = s.CutIn
		}
		cutOut = max(cutOut, s.CutOut)
	}
	return cutIn, cutOut, len(c.model.Sources()) > 0
}

// running is the other tools of a set, in words: " while the sander runs".
func (c *Case) running(set *flow.Set, but job.ID) string {
	var others []string
	for _, u := range set.Running {
		if u.Tool != but {
			others = append(others, c.named(u.Tool))
		}
	}
	switch len(others) {
	case 0:
		return " with nothing else running"
	case 1:
		return " while " + others[0] + " runs"
	}
	return " while " + listed(others) + " run"
}
