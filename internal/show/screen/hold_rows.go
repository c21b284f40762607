package screen

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/answer/hold"
	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
)

// supports words how the lines of each stock and size are held, in the order of the job.
func (h *held) supports() []SupportRow {
	rows := []SupportRow{}
	at := map[string]int{}
	byRun := map[job.ID][]*hold.Support{}
	for i := range h.a.Supports {
		p := &h.a.Supports[i]
		byRun[p.Run] = append(byRun[p.Run], p)
	}
	for i := range h.a.Runs {
		told := &h.a.Runs[i]
		r := h.index.Run(told.ID)
		if told.Drawn == 0 || !h.isLine(told.ID) {
			continue
		}
		key := r.Stock + " " + r.Size
		n, seen := at[key]
		if !seen {
			n = len(rows)
			at[key] = n
			rows = append(rows, h.spaced(r, told))
		}
		row := &rows[n]
		line := HeldRow{ID: string(r.ID), Name: h.named(r.ID), Supports: []string{}}
		fast := 0
		for _, p := range byRun[r.ID] {
			line.Supports = append(line.Supports, p.ID)
			if p.Kind == holdsFast {
				fast++
			}
		}
		row.Fixed += fast
		row.Sliding += len(line.Supports) - fast
		line.Words = supportWords(len(line.Supports), fast) + " on " + h.length(told.Drawn)
		switch told.State {
		case existing:
			line.Words += ", as it stands"
		case "stub":
			line.Words += ", for later"
		}
		row.Lines = append(row.Lines, line)
	}
	return rows
}

func supportWords(all, fast int) string {
	switch {
	case all == 0:
		return "none"
	case fast == 0:
		return fmt.Sprintf("%d", all)
	}
	return fmt.Sprintf("%d, %d of them fixed", all, fast)
}

// spaced is the row of a stock and size, without its lines.
func (h *held) spaced(r *job.Run, told *hold.Run) SupportRow {
	row := SupportRow{Stock: r.Stock, Words: r.Stock, Horizontal: notKnown, Vertical: notKnown, Lines: []HeldRow{}}
	if stock, ok := h.study.Catalog().Stock(r.Stock); ok {
		row.Words = stock.Words
	}
	row.Words += ", " + parts.SizeWords(r.Size)
	o := from("Greatest distance between supports", "as the stock's row of the catalogue has it for this size; nearer to turns, parts and outlets by their own rules")
	for _, s := range []struct {
		words string
		of    *hold.Spacing
		put   *string
	}{{"level", &told.Horizontal, &row.Horizontal}, {"upright", &told.Vertical, &row.Vertical}} {
		if !s.of.Known {
			continue
		}
		*s.put = h.length(s.of.Distance)
		words := s.words + " " + *s.put
		if s.of.Own {
			words += ", a row of the job's own"
		}
		o.Inputs = append(o.Inputs, words)
		if p := s.of.Practice; p != nil {
			o.Inputs = append(o.Inputs, "common practice "+h.length(unit.Length(p.Value))+"; the stricter governs")
		}
		o.by(s.of.Ref)
	}
	for _, name := range []string{"turn", "part", "outlet"} {
		o.by(h.refOf(name)...)
	}
	row.From = *o
	return row
}

// growth words the stretches that grow more than clips give way to, most first.
func (h *held) growth() []GrowthRow {
	play := 0.0
	if r := h.rules["play"]; r != nil {
		play = r.Value
	}
	var grown []*hold.Stretch
	for i := range h.a.Stretches {
		if x := &h.a.Stretches[i]; float64(x.Growth) > play {
			grown = append(grown, x)
		}
	}
	slices.SortStableFunc(grown, func(a, b *hold.Stretch) int { return cmp.Compare(b.Growth, a.Growth) })
	rows := []GrowthRow{}
	for _, x := range grown {
		rows = append(rows, h.stretch(x))
	}
	return rows
}

// stretch words one.
func (h *held) stretch(x *hold.Stretch) GrowthRow {
	row := GrowthRow{
		ID: x.ID, Name: h.lineNames(runsOf(x)), Length: h.length(x.Length), Growth: h.length(x.Growth),
		Legs: []string{}, Things: []string{}, State: Enough, From: *h.growthOrigin(x),
	}
	for _, id := range runsOf(x) {
		row.Things = append(row.Things, string(id))
	}
	switch {
	case x.From.What == holdsFast && x.To.What == holdsFast:
		row.State, row.Words = Short, "held at both ends: it cannot grow"
	case x.Still != nil:
		row.Words = "free to grow from " + h.stillWords(x)
	case len(x.Unknown) == 0:
		row.Words = "no support holds it: all its growth may go to either end"
	default:
		row.State, row.Words = NotSeen, "where it stays still is not known"
	}
	if x.Fast != "" {
		row.Things = append(row.Things, x.Fast)
	}
	for i := range h.a.Loops {
		if l := &h.a.Loops[i]; l.Stretch == x.ID {
			row.Helps = h.loop(l)
		}
	}
	for i := range h.a.Legs {
		l := &h.a.Legs[i]
		if l.Stretch != x.ID {
			continue
		}
		row.Legs = append(row.Legs, h.leg(l))
		if l.Short {
			row.State, row.Words = Short, "at "+h.nodeName(l.At)+" it has too little room: "+h.legWords(l)
		}
		row.From.by(l.Ref)
	}
	return row
}

// stillWords say from where a stretch grows.
func (h *held) stillWords(x *hold.Stretch) string {
	switch {
	case x.Fast != "":
		return "the support that holds it fast, " + h.length(*x.Still) + " along it"
	case x.From.What == holdsFast:
		return h.nodeName(x.From.ID)
	case x.To.What == holdsFast:
		return h.nodeName(x.To.ID)
	}
	return "its middle to both sides"
}

// nodeName is a point, or a corner of a line, in words.
func (h *held) nodeName(id string) string {
	if run, corner, ok := strings.Cut(id, "/corner-"); ok {
		return "turn " + corner + " of " + h.named(job.ID(run))
	}
	for i := range h.job.Outlets {
		if o := &h.job.Outlets[i]; string(o.Point) == id {
			return h.named(o.ID)
		}
	}
	return h.named(job.ID(id))
}

// leg words the line that gives way where a stretch moves.
func (h *held) leg(l *hold.Leg) string {
	text := h.nodeName(l.At) + " moves " + h.length(l.Moves) + ": " + h.legWords(l)
	if l.Moved {
		text += ", by a support set farther off"
	}
	return text
}

func (h *held) legWords(l *hold.Leg) string {
	if l.Needed == nil {
		return "leg wanted not known, " + h.length(l.There) + " there"
	}
	return "leg of " + h.length(*l.Needed) + " wanted, " + h.length(l.There) + " there"
}

// loop words what would let a held stretch grow.
func (h *held) loop(l *hold.Loop) string {
	return plural(l.Count, "square loop", "square loops") + " with legs of " + h.length(l.Leg) + " would let it grow, or an offset of " + h.length(l.Offset)
}

// bends words the corners that are bent in the line, by line.
func (h *held) bends() []BendRow {
	rows := []BendRow{}
	at := map[job.ID]int{}
	count, tight, room := map[job.ID]int{}, map[job.ID]int{}, map[job.ID]float64{}
	for i := range h.a.Bends {
		b := &h.a.Bends[i]
		n, seen := at[b.Run]
		if !seen {
			n = len(rows)
			at[b.Run] = n
			room[b.Run] = math.Inf(1)
			o := from("Bend in the line", "least radius of the stock; a bend takes r tan(turn / 2) off the straight piece on each side", "least radius "+h.radius(b.Least)).by(b.Ref)
			rows = append(rows, BendRow{ID: string(b.Run), Name: upper(h.named(b.Run)), State: Enough, From: *o})
		}
		count[b.Run]++
		room[b.Run] = min(room[b.Run], float64(b.Room))
		row := &rows[n]
		row.Words = plural(count[b.Run], "corner", "corners") + ", each bent to a radius of " + h.radius(b.Least)
		switch {
		case b.Least == 0:
			row.State = NotSeen
		case !b.Fits:
			tight[b.Run]++
			row.State = Short
		}
		if tight[b.Run] > 0 {
			row.Words = fmt.Sprintf("%d of %s too tight: room for a radius of %s, wanted %s", tight[b.Run], plural(count[b.Run], "corner", "corners"), h.radius(unit.Length(room[b.Run])), h.radius(b.Least))
		}
	}
	return rows
}

func (h *held) radius(x unit.Length) string {
	if x <= 0 {
		return notKnown
	}
	return h.length(x)
}

// common is the source of what only the trade's custom bears.
func common(place string) cite.Ref {
	return cite.Ref{Source: "common-practice", Place: place, How: cite.Common}
}
