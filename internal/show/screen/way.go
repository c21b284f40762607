package screen

import (
	"cmp"
	"context"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
	"dropleg/internal/show/draw"
)

// The sheet of the staircase in mm: the width of the page's side.
const (
	stairsWidth  = 90
	stairsHeight = 66
)

// Way gives the pressure from the receiver to the tool at an outlet. Where no
// tool runs there in the set asked for, it shows the tool's worst moment there.
func (s *Shop) Way(ctx context.Context, ask Ask, id job.ID) (Way, error) {
	v, err := s.look(ctx, ask)
	if err != nil {
		return Way{}, err
	}
	o := s.index.Outlet(id)
	if o == nil {
		return Way{}, &NotThere{string(id)}
	}
	mark := s.outletMark(id)
	out := Way{Outlet: string(id), Title: "Outlet " + mark + ", " + o.Name, Number: "–", State: NotSeen, Tools: []Choice{}, Steps: []WayStep{}, Facts: []Fact{}}
	for _, t := range o.Tools {
		out.Tools = append(out.Tools, Choice{ID: string(t), Words: s.toolName(t)})
	}
	tool, set := s.toolAt(v, id)
	out.Scene = draw.Stairs(draw.Descent{Title: "Pressure from the receiver to outlet " + mark}, draw.Sheet{Width: stairsWidth, Height: stairsHeight})
	if tool == nil {
		s.idleWay(v, &out, id)
		return out, nil
	}
	if set != v.set {
		out.Rests = "Nothing runs here in the set shown. These figures are for: " + s.setWords(set) + "."
	}
	s.fillWay(v, &out, tool, set)
	return out, nil
}

// toolAt finds the tool to show at an outlet: the one that runs there now with
// the least to spare, else the worst moment of any tool there over all sets.
func (s *Shop) toolAt(v *view, outlet job.ID) (*flow.Tool, *flow.Set) {
	worse := func(a, b *flow.Tool) bool {
		return b == nil || a.Known != b.Known && !a.Known || a.Known == b.Known && a.Margin < b.Margin
	}
	in := func(set *flow.Set) *flow.Tool {
		var pick *flow.Tool
		state := stateOf(set, v.ask.Case)
		for i := range state.Tools {
			if t := &state.Tools[i]; t.Outlet == outlet && worse(t, pick) {
				pick = t
			}
		}
		return pick
	}
	if v.set == nil {
		return nil, nil
	}
	if t := in(v.set); t != nil {
		return t, v.set
	}
	var pick *flow.Tool
	var from *flow.Set
	for i := range v.flow.Sets {
		if t := in(&v.flow.Sets[i]); t != nil && worse(t, pick) {
			pick, from = t, &v.flow.Sets[i]
		}
	}
	return pick, from
}

// idleWay is an outlet at which no tool ever runs.
func (s *Shop) idleWay(v *view, out *Way, id job.ID) {
	out.Sentence = "No tool is used here, so there is no way of the air to show."
	if v.state == nil {
		return
	}
	for _, o := range v.state.Outlets {
		if o.Outlet == id && o.Known {
			out.Number, out.Unit = v.ask.System.Split(unit.KindGauge, float64(o.Pressure), v.env)
			out.Beside, out.State, out.From = "stands at the outlet", Unused, s.networkOrigin(v, 0, 0)
		}
	}
}

// fillWay words the figures of a running tool and draws its staircase.
func (s *Shop) fillWay(v *view, out *Way, tool *flow.Tool, set *flow.Set) {
	name := s.toolName(tool.Tool)
	out.Beside = "at the " + name
	if others := s.runningWords(set.Running, tool.Tool); others != "" {
		out.Beside += " while it runs with " + others
	}
	if !tool.Known {
		out.State, out.Sentence = Short, "No air reaches it: something on the way is shut, or the outlet hangs on nothing."
		return
	}
	out.Number, out.Unit = v.ask.System.Split(unit.KindGauge, float64(tool.Pressure), v.env)
	out.State = Enough
	if tool.Margin < 0 {
		out.State = Short
	}
	out.Sentence = s.marginSentence(v, tool)
	falls, steps := s.steps(v, tool)
	out.Steps = steps
	way := draw.Descent{
		Title: "Pressure from the receiver to the " + name + " at outlet " + s.outletMark(tool.Outlet),
		Tool:  name, Least: tool.Least, Steps: falls,
	}
	out.Scene = draw.Stairs(way, draw.Sheet{Width: stairsWidth, Height: stairsHeight, Units: v.ask.System, Env: v.env})
	out.Facts, out.From = s.wayFacts(v, tool), s.origin(v, tool)
}

func (s *Shop) marginSentence(v *view, t *flow.Tool) string {
	if t.Least <= 0 {
		return "The least pressure that it needs is not known."
	}
	if t.Margin < 0 {
		return upper(v.plain(unit.KindPressureDiff, -float64(t.Margin))) + " short: it needs " + v.text(unit.KindGauge, float64(t.Least)) + "."
	}
	return upper(v.plain(unit.KindPressureDiff, float64(t.Margin))) + " to spare over the " + v.text(unit.KindGauge, float64(t.Least)) + " that it needs."
}

// A step is tall, and named on the staircase, if it takes at least this share of
// the whole loss; no more than four are.
const (
	tallShare = 0.09
	tallMost  = 4
)

// steps words the elements on the way.
func (s *Shop) steps(v *view, tool *flow.Tool) ([]draw.Fall, []WayStep) {
	total := 0.0
	for _, p := range tool.Path {
		total += max(float64(p.Loss), 0)
	}
	order := make([]int, len(tool.Path))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(tool.Path[b].Loss, tool.Path[a].Loss) })
	tall := map[int]bool{}
	for _, i := range order[:min(tallMost, len(order))] {
		tall[i] = float64(tool.Path[i].Loss) >= tallShare*total && total > 0
	}
	falls, rows := make([]draw.Fall, 0, len(order)), make([]WayStep, 0, len(order))
	plant := s.lastPlant(v, tool.Path)
	for i, p := range tool.Path {
		share := 0
		if total > 0 {
			share = int(math.Round(100 * max(float64(p.Loss), 0) / total))
		}
		id, part := string(s.onDrawing(p.ID)), s.stretch(v, p)
		if i <= plant {
			part = "plant"
		}
		falls = append(falls, draw.Fall{ID: id, Words: p.Words, Part: part, In: p.In, Out: p.Out, Tall: tall[i]})
		rows = append(rows, WayStep{
			ID: id, Words: p.Words, Part: part, Share: share, Tall: tall[i],
			In: v.plain(unit.KindGauge, float64(p.In)), Out: v.plain(unit.KindGauge, float64(p.Out)),
			Loss: v.plain(unit.KindPressureDiff, float64(p.Loss)),
			From: *s.lossOrigin(v, v.model.Elements()[p.Element], passing{p.In, p.Out, p.Flow}),
		})
	}
	return falls, rows
}

// stretch says which part of the way an element behind the plant belongs to.
func (s *Shop) stretch(v *view, p flow.Step) string {
	e := v.model.Elements()[p.Element]
	switch {
	case p.Thing == model.ThingHose || e.Tool != "":
		return "hose"
	case e.Outlet != "":
		return "outlet"
	}
	return "line"
}

// lastPlant is the last step of a way that is plant or treatment in the net;
// all before it counts as plant. -1: none.
func (s *Shop) lastPlant(v *view, way []flow.Step) int {
	last := -1
	for i, p := range way {
		if (p.Thing == model.ThingPlant || p.Thing == model.ThingTreatment) && v.model.Elements()[p.Element].Outlet == "" {
			last = i
		}
	}
	return last
}

// wayFacts are the figures beside the large one, with what they rest on.
func (s *Shop) wayFacts(v *view, t *flow.Tool) []Fact {
	facts := []Fact{}
	if len(t.Path) > 0 {
		facts = append(facts, Fact{Words: "At the receiver", Figure: v.text(unit.KindGauge, float64(t.Path[0].In)), From: s.heldOrigin(v)})
	}
	facts = append(facts,
		Fact{Words: "At the outlet, before the last coupler", Figure: v.text(unit.KindGauge, float64(t.At)), From: s.networkOrigin(v, 0, 0)},
		Fact{Words: "Air taken", Figure: v.plain(unit.KindFlow, float64(t.Flow)), From: s.takenOrigin(v, t.Tool)})
	if t.Least > 0 {
		facts = append(facts, Fact{Words: "Least that it needs", Figure: v.text(unit.KindGauge, float64(t.Least)), From: s.toolFigure(v, t.Tool, "least")})
	}
	if t.Range != nil {
		facts = append(facts, Fact{
			Words: "Plausible range at the tool", Figure: v.between(unit.KindGauge, float64(t.Range.Low), float64(t.Range.High)),
			From: from("Both ends", "the whole network solved again with every uncertain figure at its worst, then at its best",
				"roughness, conductance of couplers, bores left by fittings, flow of the tools"),
		})
	}
	return facts
}

// addOnce keeps a list free of repeats.
func addOnce(list []string, text string) []string {
	if slices.Contains(list, text) {
		return list
	}
	return append(list, text)
}

// nonNil makes an empty list of none: the page reads lists without asking.
func nonNil[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}
