package check

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// readingDiffers sets each reading of the log beside what the design says of
// its moment: the same tools running, every source held at the receiver's
// pressure that was read with it. The plausible range runs from all assumed
// figures at their worst with loaded filters to all at their best with clean
// ones, and is widened by what a gauge can be read to. Where readings of one
// running set lack pressure, [Case.stretchesOf] says between which places it
// goes; that narrows the search and names no cause. The readings count as
// those of the net as drawn; of two at one place under the same tools the
// later counts, and none counts that was taken before something was mended or
// replaced.
var readingDiffers = Check{
	Code:  "reading-differs",
	Title: "what gauges showed against what the design says",
	Why:   "The shop is not as drawn: something takes pressure that the design does not know of.",
	Limit: "the plausible range of the design at the receiver's pressure of that moment, and 1 psi or the last digit for the gauges",
	Law:   "steady flow through the net from the receiver to the gauge",
	Source: []cite.Ref{
		{Source: "isothermal-pipe", Place: "lines and hoses", How: cite.Computed},
		{Source: "iso6358", Place: "couplers, valves", How: cite.Computed},
	},
	Run: runReadingDiffers,
}

// The ends of the plausible range and the likely figure between them.
const (
	atWorst = iota
	likely
	atBest
	ends
)

// readAt is a reading beside the design's answer to it.
type readAt struct {
	record  *job.Record
	place   job.ID
	key     string // names what ran
	node    int
	read    float64       // Pa g
	design  [ends]float64 // Pa g
	gauge   float64       // Pa, what the gauges are good for together
	running []job.InUse
	state   *model.Result // likely
	air     *airways      // of that
	way     way
}

func (r *readAt) lacks() float64 { return r.design[likely] - r.read }

func (r *readAt) low() bool { return r.read < slices.Min(r.design[:])-r.gauge }

func (r *readAt) high() bool { return r.read > slices.Max(r.design[:])+r.gauge }

func runReadingDiffers(ctx context.Context, c *Case) error {
	all, lost, err := c.readings(ctx)
	if err != nil {
		return err
	}
	var low, high []*readAt
	for _, r := range all {
		switch {
		case !r.low() && !r.high():
		case len(r.way.all) == 0:
			c.reportStatic(r)
		case r.low():
			low = append(low, r)
		default:
			high = append(high, r)
		}
	}
	if len(low) > 0 {
		c.reportLow(low, c.stretchesOf(all))
	}
	if len(high) > 0 {
		c.reportHigh(high)
	}
	if len(lost) > 0 {
		c.report(job.Finding{
			Severity: job.Note, Where: lost,
			Title: sentence("readings at %s cannot be set beside the design: the place, or a tool that ran, is no longer there as it was.", c.names(lost)),
		})
	}
	return nil
}

// readings solves the design for every pressure read with the receiver's; lost
// are the places of those that the design has no answer for.
func (c *Case) readings(ctx context.Context) (all []*readAt, lost []job.ID, err error) {
	solver := c.model.NewSolver()
	for _, rec := range c.gauged() {
		at := slices.IndexFunc(rec.About, func(id job.ID) bool { return c.idx.Outlet(id) != nil || c.idx.Point(id) != nil })
		if at < 0 || c.idx.Tool(rec.About[0]) != nil { // a tool first: read between hose and tool
			continue
		}
		r, err := c.readAt(ctx, solver, rec, rec.About[at])
		if err != nil {
			return nil, nil, err
		}
		if r == nil {
			lost = append(lost, rec.About[at])
			continue
		}
		same := slices.IndexFunc(all, func(o *readAt) bool { return o.place == r.place && o.key == r.key })
		switch {
		case same < 0:
			all = append(all, r)
		case !taken(rec).Before(taken(all[same].record)):
			all[same] = r
		}
	}
	return all, unique(lost), nil
}

// readAt solves the design for one reading; nil where it has no answer.
func (c *Case) readAt(ctx context.Context, solver *model.Solver, rec *job.Record, place job.ID) (*readAt, error) {
	r := &readAt{
		record: rec, place: place, key: runningKey(rec.Reading.Running), running: rec.Reading.Running,
		read: float64(*rec.Reading.Pressure), gauge: math.Max(lastDigit(*rec.Reading.Pressure), lastDigit(*rec.Reading.Receiver)),
	}
	held := map[job.ID]unit.GaugePressure{}
	for _, s := range c.model.Sources() {
		held[s.ID] = *rec.Reading.Receiver
	}
	for _, use := range r.running {
		if _, ok := c.model.PairOf(use); !ok {
			return nil, nil
		}
	}
	for end, q := range [ends]model.Case{
		atWorst: {Supply: model.CutIn, Bias: model.Worst}, likely: {Supply: model.CutIn}, atBest: {Supply: model.CutOut, Bias: model.Best},
	} {
		q.Running, q.Held = r.running, held
		res, err := solver.Solve(ctx, q)
		if err != nil {
			return nil, err
		}
		node, ok := c.nodeOf(res, place)
		if !ok || !res.Solved {
			return nil, nil
		}
		r.design[end] = float64(res.Pressure[node].Gauge(c.model.Atmosphere()))
		if end == likely {
			r.state, r.node = res, node
		}
	}
	r.air = c.airways(r.state)
	r.way = r.air.to(r.node)
	return r, nil
}

// lastDigit is what a pressure was read to: a round tenth of a bar to that, any
// other to 1 psi, the mark of a common gauge. Two gauges read to the nearest
// mark are together good for one mark.
func lastDigit(p unit.GaugePressure) float64 {
	const tenth, psi = 1e4, 6894.757
	if r := math.Mod(math.Abs(float64(p)), tenth); r < 1 || r > tenth-1 {
		return tenth
	}
	return psi
}

// moment is what was read, when, and what ran.
func (c *Case) moment(r *readAt) string {
	when := ""
	if day, _, ok := strings.Cut(r.record.When, "T"); ok {
		when = " on " + day
	}
	return fmt.Sprintf("the gauge at %s read %s%s with the receiver at %s", c.named(r.place), c.gauge(unit.GaugePressure(r.read)), when, c.gauge(*r.record.Reading.Receiver))
}

// ran is the tools of a reading in words.
func (c *Case) ran(r *readAt) string {
	var tools []string
	for _, u := range r.running {
		tools = append(tools, c.named(u.Tool))
	}
	if len(tools) == 0 {
		return " and nothing running"
	}
	return " and " + listed(tools) + " running"
}

// byDesign is what the design says of a reading, in words.
func (c *Case) byDesign(r *readAt) string {
	low, high := c.gauge(unit.GaugePressure(slices.Min(r.design[:]))), c.gauge(unit.GaugePressure(slices.Max(r.design[:])))
	if low == high {
		return "the design says " + low
	}
	return fmt.Sprintf("the design says %s (%s to %s)", c.gauge(unit.GaugePressure(r.design[likely])), low, high)
}

// about fills a finding with a reading's figures.
func about(f job.Finding, r *readAt) job.Finding {
	f.Figure, f.Limit = figure("pressure_Pa_g", r.read), figure("pressure_Pa_g", r.design[likely])
	f.Range = &[2]float64{slices.Min(r.design[:]), slices.Max(r.design[:])}
	return f
}

// reportStatic tells of a gauge that differs though no air passes on its way:
// then no line takes anything, and what sets the pressure there or the gauges
// themselves are off.
func (c *Case) reportStatic(r *readAt) {
	f := about(job.Finding{Severity: job.Caution, Where: []job.ID{r.place}}, r)
	f.Title = sentence("%s, and no air was drawn there; %s.", c.moment(r), c.byDesign(r))
	f.Why = "Without flow nothing is lost on the way: one of the two gauges is off, or the place was shut off."
	if r.way.regulator != "" {
		f.Where = append(f.Where, r.way.regulator)
		f.Why = sentence("Without flow nothing is lost on the way: %s is not set as drawn or does not hold, or a gauge is off.", c.named(r.way.regulator))
	}
	c.report(f)
}

// reportHigh tells of readings above all that the design allows, which no
// restriction explains.
func (c *Case) reportHigh(all []*readAt) {
	slices.SortStableFunc(all, func(a, b *readAt) int { return cmp.Compare(a.lacks(), b.lacks()) })
	f := about(job.Finding{Severity: job.Caution, Where: placesOf(all)}, all[0])
	f.Title = sentence("%s%s, more than the design can have; %s.", c.moment(all[0]), c.ran(all[0]), c.byDesign(all[0]))
	f.Why = "More pressure than drawn means that the tools drew less than stated, or that a gauge is off." + c.soDo(all)
	c.report(f)
}

// reportLow tells of readings that lack pressure, and how far they narrow it down.
func (c *Case) reportLow(all []*readAt, found []stretch) {
	slices.SortStableFunc(all, func(a, b *readAt) int { return cmp.Compare(b.lacks(), a.lacks()) })
	worst := all[0]
	f := about(job.Finding{Severity: job.Caution, Where: []job.ID{worst.place}}, worst)
	short := ""
	for _, r := range slices.Backward(all) {
		if tool, got, ok := c.starved(r); ok {
			f.Severity = job.Fault
			leaves := " That"
			if r != worst {
				leaves = " The one at " + c.named(r.place)
			}
			short = fmt.Sprintf("%s leaves %s about %s, and it needs %s.", leaves, c.named(tool.Tool), c.gauge(got), c.gauge(tool.Least))
		}
	}
	f.Title = sentence("%s%s; %s, so %s is missing.", c.moment(worst), c.ran(worst), c.byDesign(worst), c.diff(unit.PressureDiff(worst.lacks())))
	f.Why = c.check.Why + short
	for i := range found {
		s := &found[i]
		f.Why += " " + c.stretchWords(s)
		f.Shares = append(f.Shares, job.Share{ID: s.ids[0], Words: "between " + c.named(s.from) + " and " + c.named(s.to), LossPa: s.missing})
		f.Where = append(f.Where, s.ids...)
	}
	f.Why += c.soDo(all)
	f.Where = unique(f.Where)
	c.report(f)
}

// starved says which tool that ran at the place of a reading got less than its
// least: the gauge stood before the last coupler, and what the design loses
// from there to the tool is taken off.
func (c *Case) starved(r *readAt) (p model.Pair, got unit.GaugePressure, ok bool) {
	for _, u := range r.running {
		p, ok := c.model.PairOf(u)
		if !ok || u.Outlet != r.place {
			continue
		}
		t := r.state.Tools[p.Index]
		if got = unit.GaugePressure(r.read) - (t.Outlet - t.Pressure); got < p.Least {
			return p, got, true
		}
	}
	return p, 0, false
}
