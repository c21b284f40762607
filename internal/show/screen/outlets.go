package screen

import (
	"cmp"
	"context"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
)

// reading is what stands at one outlet in the set shown.
type reading struct {
	outlet  *job.Outlet
	mark    string
	flowing *unit.GaugePressure // at the tool while one runs, else at the outlet
	least   unit.GaugePressure
	inUse   bool
	tool    *flow.Tool // the running tool with the least to spare
	state   State
}

// readings gives every outlet in the job's order.
func (s *Shop) readings(v *view) []reading {
	out := make([]reading, 0, len(s.job.Outlets))
	for i := range s.job.Outlets {
		o := &s.job.Outlets[i]
		r := reading{outlet: o, mark: markOf(*o, i), state: NotSeen}
		if v.state != nil {
			s.fillReading(&r, v)
		}
		out = append(out, r)
	}
	return out
}

func (s *Shop) fillReading(r *reading, v *view) {
	for i := range v.state.Tools {
		t := &v.state.Tools[i]
		if t.Outlet != r.outlet.ID {
			continue
		}
		r.inUse = true
		if r.tool == nil || !t.Known || t.Known && r.tool.Known && t.Margin < r.tool.Margin {
			r.tool = t
		}
	}
	if r.tool != nil {
		r.least = r.tool.Least
		if !r.tool.Known {
			r.state = Short
			return
		}
		p := r.tool.Pressure
		r.flowing, r.state = &p, Enough
		if r.tool.Margin < 0 {
			r.state = Short
		}
		return
	}
	for _, p := range v.model.Pairs() {
		if p.Outlet == r.outlet.ID && !p.Later {
			r.least = max(r.least, p.Least)
		}
	}
	for _, o := range v.state.Outlets {
		if o.Outlet == r.outlet.ID && o.Known {
			p := o.Pressure
			r.flowing, r.state = &p, Unused
		}
	}
}

// readingWords says a reading in a few words.
func (s *Shop) readingWords(v *view, r reading) string {
	switch {
	case r.tool != nil && !r.tool.Known:
		return "no air reaches the " + s.toolName(r.tool.Tool)
	case r.tool != nil && r.state == Short:
		return v.text(unit.KindGauge, float64(r.tool.Pressure)) + " at the " + s.toolName(r.tool.Tool) + ", " +
			v.plain(unit.KindPressureDiff, -float64(r.tool.Margin)) + " short of " + v.plain(unit.KindGauge, float64(r.least))
	case r.tool != nil:
		return v.text(unit.KindGauge, float64(r.tool.Pressure)) + " at the " + s.toolName(r.tool.Tool) + ", " +
			v.plain(unit.KindPressureDiff, float64(r.tool.Margin)) + " to spare"
	case r.flowing != nil:
		return "nothing runs here; " + v.text(unit.KindGauge, float64(*r.flowing)) + " stands at it"
	}
	return "no pressure is known here"
}

// Outlets lists the outlets: the shortest first, those in use before the rest.
func (s *Shop) Outlets(ctx context.Context, ask Ask) ([]OutletRow, error) {
	v, _, err := s.glance(ctx, ask, true)
	if err != nil {
		return nil, err
	}
	return s.outletRows(v, v.flow), nil
}

// outletRows are the rows of the moment shown. Of the whole answer, where it stands
// already (else nil), they tell what an outlet has in a worse moment of its own.
func (s *Shop) outletRows(v *view, whole *flow.Answer) []OutletRow {
	all := s.readings(v)
	worst := worstOf(whole)
	slices.SortStableFunc(all, func(a, b reading) int { return cmp.Compare(urgency(a), urgency(b)) })
	rows := make([]OutletRow, 0, len(all))
	for _, r := range all {
		row := OutletRow{ID: string(r.outlet.ID), Mark: r.mark, Name: r.outlet.Name, State: r.state, Figure: "–", Words: s.rowWords(v, r) + v.worseWords(r, worst[r.outlet.ID])}
		if r.flowing != nil {
			row.Figure = v.plain(unit.KindGauge, float64(*r.flowing))
		}
		if r.least > 0 {
			row.Needs = v.plain(unit.KindGauge, float64(r.least))
		}
		var tools []string
		for _, id := range r.outlet.Tools {
			tools = append(tools, s.toolName(id))
		}
		row.Tools = listed(tools)
		rows = append(rows, row)
	}
	return rows
}

// urgency orders outlets: what has least to spare comes first, what stands idle last.
func urgency(r reading) float64 {
	switch {
	case r.tool != nil && !r.tool.Known:
		return -1e12
	case r.tool != nil:
		return float64(r.tool.Margin)
	}
	return 1e12
}

// worstOf is what the tools of each outlet get at least, over every set and at cut-in.
func worstOf(a *flow.Answer) map[job.ID]*flow.Tool {
	out := map[job.ID]*flow.Tool{}
	if a == nil {
		return out
	}
	for i := range a.Sets {
		for k := range a.Sets[i].CutIn.Tools {
			t := &a.Sets[i].CutIn.Tools[k]
			was := out[t.Outlet]
			if was == nil || was.Known && (!t.Known || t.Margin < was.Margin) {
				out[t.Outlet] = t
			}
		}
	}
	return out
}

// worseWords says what an outlet has in its own worst moment, where that is another
// than the one shown.
func (v *view) worseWords(r reading, worst *flow.Tool) string {
	switch {
	case worst == nil || r.tool != nil && (!r.tool.Known || worst.Known && worst.Margin >= r.tool.Margin):
		return ""
	case !worst.Known:
		return "; no air at its worst"
	case worst.Margin < 0:
		return "; " + v.plain(unit.KindGauge, float64(worst.Pressure)) + " at its worst, " + v.plain(unit.KindPressureDiff, -float64(worst.Margin)) + " short"
	}
	return "; " + v.plain(unit.KindGauge, float64(worst.Pressure)) + " at its worst"
}

// rowWords is the second line of a row; the figure stands beside it already.
func (s *Shop) rowWords(v *view, r reading) string {
	switch {
	case r.tool != nil && !r.tool.Known:
		return "no air reaches the " + s.toolName(r.tool.Tool)
	case r.tool != nil && r.state == Short:
		return s.toolName(r.tool.Tool) + ", " + v.plain(unit.KindPressureDiff, -float64(r.tool.Margin)) + " short"
	case r.tool != nil:
		return s.toolName(r.tool.Tool) + ", " + v.plain(unit.KindPressureDiff, float64(r.tool.Margin)) + " to spare"
	case len(r.outlet.Tools) == 0:
		return "no tool is used here"
	case r.flowing != nil:
		return "rests in this moment"
	}
	return "no pressure is known here"
}
