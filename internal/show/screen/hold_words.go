package screen

import (
	"slices"
	"strconv"
	"strings"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/answer/hold"
	"dropleg/internal/shop/job"
)

func (h *held) length(x unit.Length) string { return h.text(unit.KindLength, float64(x)) }

// place words a distance to measure out on a wall: to the centimetre, or the sixteenth of an inch.
func (h *held) place(x unit.Length) string {
	if h.ask.System == unit.US {
		return h.ask.System.Marked(max(0, x))
	}
	return strconv.FormatFloat(max(0, float64(x)), 'f', 2, 64) + " m"
}

// lineNames are the lines of a stretch in words, the first and the last where there are many.
func (h *held) lineNames(runs []job.ID) string {
	switch len(runs) {
	case 0:
		return ""
	case 1:
		return upper(h.named(runs[0]))
	}
	return upper(h.named(runs[0])) + " to " + h.named(runs[len(runs)-1])
}

// sentence says what there is to do and what grows.
func (h *held) sentence() string {
	all, fast := h.toFix()
	text := "No support is to be fixed."
	if all > 0 {
		text = plural(all, "support", "supports") + " to fix: " + plural(fast, "holds", "hold") + " the line fast, the others let it slide."
	}
	if m := h.most(); m != nil {
		text += " " + h.lineNames(runsOf(m)) + " grows most, " + h.length(m.Growth) + "."
	}
	stuck := 0
	for i := range h.a.Held {
		if h.a.Held[i].State != existing {
			stuck++
		}
	}
	if stuck > 0 {
		text += " At " + plural(stuck, "place", "places") + " growth has nowhere to go."
	}
	return text
}

// facts are the figures that the answer rests on.
func (h *held) facts() []Fact {
	all, fast := h.toFix()
	facts := []Fact{
		{Words: "Supports to fix", Figure: strconv.Itoa(all), From: h.supportOrigin()},
		{Words: "Of them hold the line fast", Figure: strconv.Itoa(fast), From: from("One fixed point for each straight stretch", h.ruleWords("fixed-point")).by(h.refOf("fixed-point")...)},
	}
	if m := h.most(); m != nil {
		facts = append(facts, Fact{Words: "The most that a stretch grows, " + lower(h.lineNames(runsOf(m))), Figure: h.length(m.Growth), From: h.growthOrigin(m)})
	}
	var push *hold.Held
	for i := range h.a.Held {
		if x := &h.a.Held[i]; x.Push != nil && (push == nil || *x.Push > *push.Push) {
			push = x
		}
	}
	if push != nil {
		facts = append(facts, Fact{Words: "The most that a held line pushes with, " + lower(h.lineNames(push.Runs)), Figure: h.ask.System.Force(*push.Push), From: h.pushOrigin(push)})
	}
	if r := h.rules["pull"]; r != nil && len(h.job.Outlets) > 0 {
		facts = append(facts, Fact{Words: "An outlet is to stand a pull of", Figure: h.ask.System.Force(r.Value), From: from("Stated", r.Place).by(r.Ref)})
	}
	return facts
}

// supportOrigin tells by which rules supports are placed.
func (h *held) supportOrigin() *Origin {
	o := from("Supports along every line", "beside every turn, part and outlet at the distance of its rule, and between them spread evenly, no farther apart than the stock allows")
	for _, name := range []string{"turn", "part", "outlet", "end"} {
		if r := h.rules[name]; r != nil {
			o.Inputs = append(o.Inputs, map[string]string{
				"turn": "beside a turn", "part": "beside a part", "outlet": "beside an outlet", "end": "at an open end",
			}[name]+" "+h.length(unit.Length(r.Value)))
			o.by(r.Ref)
		}
	}
	return o
}

func (h *held) ruleWords(name string) string {
	if r := h.rules[name]; r != nil {
		return r.Place
	}
	return ""
}

func (h *held) refOf(name string) []cite.Ref {
	if r := h.rules[name]; r != nil {
		return []cite.Ref{r.Ref}
	}
	return nil
}

// growthOrigin tells how a stretch grows.
func (h *held) growthOrigin(x *hold.Stretch) *Origin {
	o := from("Growth by temperature", "growth = α L ΔT, from the coldest to the warmest that the line gets", "length L "+h.length(x.Length))
	seen := map[string]bool{}
	for _, id := range runsOf(x) {
		r := h.index.Run(id)
		told := h.runs[id]
		if told == nil {
			continue
		}
		stock, _ := h.study.Catalog().Stock(r.Stock)
		words := "coldest " + h.text(unit.KindTemperature, float64(told.Climate.Cold)) + ", warmest " + h.text(unit.KindTemperature, float64(told.Climate.Hot)) +
			map[string]string{"air": ", by the air in it", "room": ", by the room"}[told.Climate.HotFrom]
		if told.Climate.Assumed {
			words += " (supposed)"
		}
		if m, ok := h.study.Catalog().Material(stock.Material); ok && !seen[stock.Material+words] {
			seen[stock.Material+words] = true
			if len(seen) <= mostInputs {
				o.Inputs = append(o.Inputs, strings.ReplaceAll(stock.Material, "-", " ")+": α "+h.text(unit.KindExpansion, m.Alpha.Value), words)
			}
			o.by(m.Alpha.Ref)
			if m.Alpha.High > m.Alpha.Low && len(seen) == 1 && m.Alpha.Value > 0 {
				o.Range = h.between(unit.KindLength, float64(x.Growth)*m.Alpha.Low/m.Alpha.Value, float64(x.Growth)*m.Alpha.High/m.Alpha.Value)
			}
		}
	}
	return o
}

// mostInputs kinds of line are told with a stretch.
const mostInputs = 3

// pushOrigin tells with what a held line pushes.
func (h *held) pushOrigin(x *hold.Held) *Origin {
	o := from("Line that cannot grow", "push = growth / (sum of L / (E A)) where both ends are fixed; with a short leg the leg and the line give way one behind the other; as far as all stays elastic",
		"growth "+h.length(x.Growth))
	if x.Needed != nil && x.There != nil {
		o.Inputs = append(o.Inputs, "leg needed "+h.length(*x.Needed), "leg there "+h.length(*x.There))
	}
	if x.Stress != nil {
		o.Inputs = append(o.Inputs, "stress "+h.text(unit.KindStress, float64(*x.Stress)))
	}
	if x.BowsAt != nil {
		o.Inputs = append(o.Inputs, "it bows out between its supports from "+h.ask.System.Force(*x.BowsAt)+" on")
	}
	return o.by(cite.Ref{Source: "b31.9", Place: "table 919.3.1", How: cite.Read}, cite.Ref{Source: "leg-formula", Place: "L = C sqrt(OD growth)", How: cite.Recalled})
}

// runsOf lists the lines of a stretch.
func runsOf(x *hold.Stretch) (ids []job.ID) {
	for _, p := range x.Pieces {
		if !slices.Contains(ids, p.Run) {
			ids = append(ids, p.Run)
		}
	}
	return ids
}

// notes tell what is missing.
func (h *held) notes() []string {
	notes := []string{}
	for i := range h.a.Gaps {
		g := &h.a.Gaps[i]
		words := upper(h.named(g.Run)) + ": from " + h.length(g.From) + " to " + h.length(g.To) + " there is no place for a support, and " + h.length(g.Allowed) + " is the most allowed"
		if g.Bend {
			words += "; hold the bend on its arc"
		}
		notes = append(notes, words+".")
	}
	undrawn, unknown := 0, map[string]int{}
	for i := range h.a.Runs {
		r := &h.a.Runs[i]
		if !h.isLine(r.ID) {
			continue
		}
		if slices.Contains(r.Unknown, "drawing") {
			undrawn++
			continue
		}
		for _, key := range r.Unknown {
			unknown[key]++
		}
	}
	if undrawn > 0 {
		notes = append(notes, plural(undrawn, "line has", "lines have")+" no way on the drawing, so their supports are not placed.")
	}
	for _, key := range []string{"stock", "size", "spacing", "material", "modulus", "leg_constant", "radius"} {
		if n := unknown[key]; n > 0 {
			notes = append(notes, "Of "+plural(n, "line", "lines")+": "+unknownWords[key]+" not known.")
		}
	}
	return notes
}

// unknownWords word the keys of hold.Run.Unknown.
var unknownWords = map[string]string{
	"stock": "their stock is", "size": "their size is", "spacing": "how far apart their supports may stand is",
	"material": "how much they grow is", "modulus": "how hard they push where they are held is",
	"leg_constant": "how long a leg they want is", "radius": "their least bend radius is",
}
