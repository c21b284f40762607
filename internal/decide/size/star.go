package size

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"

	"dropleg/internal/answer/parts"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// star is what a point of the drawing comes to where its choices are as picked: the take-off
// of a job that has this point alone, the lines at it and what hangs there. What differs in
// nothing that matters is taken off once. Where its edits do not apply no pick has a price, and
// proposing says why.
func (w *work) star(m *meet, picks []int) priced {
	j, mine := w.around(m.point)
	var edits []job.Edit
	for _, c := range m.choices {
		for _, e := range w.choices[c].options[picks[c]].edits {
			if set, ok := e.(*job.Change); ok && mine[set.ID] {
				edits = append(edits, e)
			}
		}
	}
	if e := w.step(m, picks); e != nil {
		edits = append(edits, e)
	}
	if len(edits) > 0 {
		after, _, err := job.AllOf("", edits...).Apply(j)
		if err != nil { // a price of nothing would make it the cheapest
			if w.unpriced == nil {
				w.unpriced = fmt.Errorf("pricing what meets at %s: %w", m.point, err)
			}
			return priced{price: math.Inf(1)}
		}
		j = after
	}
	key := w.like(j, m.point)
	if p, ok := w.starred[key]; ok {
		return p
	}
	var ids []job.ID
	for id := range mine {
		if w.idx.Run(id) == nil {
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	p := w.things(parts.Of(j, w.shelf), ids, func(x *parts.Joint) bool {
		return slices.Contains(ids, parts.ThingOf(x.Sides[0].Thing)) || slices.Contains(ids, parts.ThingOf(x.Sides[1].Thing))
	})
	w.starred[key] = p
	return p
}

// around is a job of a point, the lines that end there and what hangs there, and what of it
// an edit may change.
func (w *work) around(point job.ID) (*job.Job, map[job.ID]bool) {
	j := *w.job
	j.Building, j.Tools, j.Prices = job.Building{}, nil, job.Prices{}
	j.Net.Points, j.Net.Runs, j.Outlets = []job.Point{w.placed(point)}, nil, nil
	mine := map[job.ID]bool{point: true}
	for _, e := range w.idx.Ends(point) {
		if mine[e.Run.ID] {
			continue // both its ends are here
		}
		mine[e.Run.ID] = true
		j.Net.Runs = append(j.Net.Runs, *e.Run)
		for _, far := range []job.ID{e.Run.From.Point, e.Run.To.Point} {
			if far != point && !slices.ContainsFunc(j.Net.Points, func(p job.Point) bool { return p.ID == far }) {
				p := w.placed(far)
				p.Part = job.Part{}
				j.Net.Points = append(j.Net.Points, p)
			}
		}
	}
	for _, o := range w.idx.OutletsAt(point) {
		at := *o
		at.Tools = nil
		j.Outlets = append(j.Outlets, at)
		mine[o.ID] = true
		for i := range o.Hang {
			if o.Hang[i].ID != "" {
				mine[o.Hang[i].ID] = true
			}
		}
		if o.Hose != nil {
			mine[o.Hose.ID] = true
		}
	}
	return &j, mine
}

// placed is a point in space, for its wall is not there.
func (w *work) placed(id job.ID) job.Point {
	p := *w.idx.Point(id)
	if at, ok := w.idx.Where(&p); ok {
		p.On, p.At = nil, &at
	}
	return p
}

// like tells all that the take-off of a point hangs on.
func (w *work) like(j *job.Job, point job.ID) string {
	var b strings.Builder
	p := &j.Net.Points[0]
	put := func(x any) {
		raw, err := json.Marshal(x)
		if err != nil { // what is no number is like nothing else
			raw = []byte(point)
		}
		b.Write(raw)
	}
	put(p.Part)
	b.WriteString(p.State)
	for i := range j.Net.Runs {
		r := &j.Net.Runs[i]
		for _, e := range []struct {
			end  job.End
			word string
		}{{r.From, "from"}, {r.To, "to"}} {
			if e.end.Point == point {
				fmt.Fprintf(&b, " %s %s %s %s %s", r.Stock, r.Size, r.State, e.word, e.end.Port)
			}
		}
	}
	if kind, _ := w.shelf.Kind(p.Part.Kind); kind.Law.Name == "none" {
		fmt.Fprintf(&b, " %.1f", w.turnAt(point))
	}
	for i := range j.Outlets {
		o := j.Outlets[i]
		o.ID, o.Name, o.Mark, o.Point = "", "", "", ""
		o.Hang = slices.Clone(o.Hang)
		for k := range o.Hang {
			o.Hang[k].ID = ""
		}
		if o.Hose != nil {
			hose := *o.Hose
			hose.ID, o.Hose = "", &hose
		}
		put(o)
	}
	return b.String()
}

// turnAt is by how many degrees the way turns at a point of two lines.
func (w *work) turnAt(point job.ID) float64 {
	ends := w.idx.Ends(point)
	if len(ends) != 2 {
		return 0
	}
	turn, _ := w.idx.TurnBetween(ends[0], ends[1])
	return turn * 180 / math.Pi
}

// step is the edit that sets a reducer where a line comes to have two sizes at a plain
// place, and takes it away where it comes to have one; nil for none.
func (w *work) step(m *meet, picks []int) job.Edit {
	p := w.idx.Point(m.point)
	ends := w.idx.Ends(m.point)
	if len(ends) != 2 || len(w.idx.OutletsAt(m.point)) > 0 || p.Part.Size != "" || p.Part.Size2 != "" || ends[0].Run.Stock != ends[1].Run.Stock {
		return nil
	}
	var sizes []string
	for _, e := range ends {
		size := e.Run.Size
		if c, ok := w.choiceWith[e.Run.ID]; ok {
			size = w.choices[c].options[picks[c]].size
		}
		sizes = append(sizes, size)
	}
	reducer, ok := w.reducer()
	kind, _ := w.shelf.Kind(p.Part.Kind)
	plain, _ := w.shelf.Kind("")
	switch {
	case !ok:
	case kind.Kind == plain.Kind && sizes[0] != sizes[1] && w.turnAt(m.point) < catalog.StraightOn:
		return cure.Set(p.ID, "part.kind", reducer.Kind)
	case kind.Kind == reducer.Kind && sizes[0] == sizes[1]:
		return cure.Set(p.ID, "part.kind", plain.Kind)
	}
	return nil
}

// reducer joins two sizes in line.
func (w *work) reducer() (catalog.Kind, bool) {
	for _, k := range w.shelf.Kinds() {
		if k.InLine() && len(k.Roles) == 0 && k.Ports[1].Size != "" {
			return k, true
		}
	}
	return catalog.Kind{}, false
}
