package size

import (
	"cmp"
	"math"
	"slices"

	"dropleg/internal/shop/job"
)

// meet is a point of the drawing at which choices come together: what the take-off makes
// there, a tee, a reducer, an adapter, hangs on all of them.
type meet struct {
	point   job.ID
	choices []int
	prices  map[int]priced // by the options, as number says
}

// mostTogether bounds the ways to take the options of what meets at one point of which all
// are priced beforehand. Beyond it the point counts in what is told and not in picking.
const mostTogether = 4096

// meetings finds the points where the size of a line matters.
func (w *work) meetings() {
	for i := range w.job.Net.Points {
		id := w.job.Net.Points[i].ID
		var met []int
		for _, e := range w.idx.Ends(id) {
			if c, ok := w.choiceWith[e.Run.ID]; ok {
				met = append(met, c)
			}
		}
		if len(met) == 0 {
			continue
		}
		for e, c := range w.choiceOf {
			if x := &w.model.Elements()[e]; c >= 0 && w.choices[c].treats() && (x.ID == id || w.outletAt(x.Outlet, id)) {
				met = append(met, c)
			}
		}
		slices.Sort(met)
		w.meets = append(w.meets, &meet{point: id, choices: slices.Compact(met), prices: map[int]priced{}})
	}
}

// treats: a choice is of a part of the treatment.
func (c *choice) treats() bool { return !c.line && !c.hose && c.options[0].flow > 0 }

func (w *work) outletAt(outlet, point job.ID) bool {
	o := w.idx.Outlet(outlet)
	return o != nil && o.Point == point
}

// ways is in how many ways the choices of a meet can be taken.
func (w *work) ways(m *meet) int {
	n := 1
	for _, c := range m.choices {
		if n *= len(w.choices[c].options); n > mostTogether {
			return n
		}
	}
	return n
}

// number tells the options of a meet in a pick apart.
func (w *work) number(m *meet, picks []int) int {
	n := 0
	for _, c := range m.choices {
		n = n*len(w.choices[c].options) + picks[c]
	}
	return n
}

// meetPrice is what a meet comes to in a pick.
func (w *work) meetPrice(m *meet, picks []int) priced {
	at := w.number(m, picks)
	p, ok := m.prices[at]
	if !ok {
		if w.prices == nil {
			p = priced{price: w.stepByBore(m, picks)}
		} else {
			p = w.star(m, picks)
		}
		p.price = math.Round(p.price*100) / 100
		m.prices[at] = p
	}
	return p
}

// stepByBore counts a step between two lines that carry on from one to the other as half a
// metre of the larger, where nothing has a price: a proportion of common practice, no source.
func (w *work) stepByBore(m *meet, picks []int) float64 {
	const step = 0.5
	least, most := math.Inf(1), 0.0
	for _, e := range w.idx.Ends(m.point) {
		c, ok := w.choiceWith[e.Run.ID]
		if !ok || len(w.idx.Ends(m.point)) > 2 && (e.Run.Role == "branch" || e.Run.Role == "drop") {
			continue
		}
		bore := w.choices[c].options[picks[c]].bore
		least, most = min(least, bore), max(most, bore)
	}
	if !(most > least) {
		return 0
	}
	return step * most * 1e3
}

// total is what a pick comes to: its choices, and what they meet in.
func (w *work) total(picks []int) float64 {
	sum := 0.0
	for i, k := range picks {
		sum += w.choices[i].options[k].price
	}
	for _, m := range w.meets {
		sum += w.meetPrice(m, picks).price
	}
	return sum
}

// moved is what each choice of a pick costs more than as it stands. What several meet in
// goes to the greatest line of those that change.
func (w *work) moved(picks []int) []float64 {
	now := w.standing()
	out := make([]float64, len(picks))
	for i, c := range w.choices {
		out[i] = c.options[picks[i]].price - c.options[c.now].price
	}
	for _, m := range w.meets {
		diff := w.meetPrice(m, picks).price - w.meetPrice(m, now).price
		changed := slices.DeleteFunc(slices.Clone(m.choices), func(c int) bool { return picks[c] == now[c] })
		if len(changed) == 0 {
			continue
		}
		out[slices.MinFunc(changed, func(a, b int) int { return cmp.Compare(rank(w.choices[a].role), rank(w.choices[b].role)) })] += diff
	}
	return out
}

// standing is the pick that is drawn.
func (w *work) standing() []int {
	out := make([]int, len(w.choices))
	for i, c := range w.choices {
		out[i] = c.now
	}
	return out
}

// rank orders roles, the greatest line first.
func rank(role string) int {
	order := []string{"ring", "main", "link", "branch", "drop", "stub", "drip"}
	if i := slices.Index(order, role); i >= 0 {
		return i
	}
	return len(order)
}
