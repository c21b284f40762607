package size

import (
	"math"
	"slices"

	"dropleg/internal/decide/size/tree"
)

// join gives the problem the prices of what its places meet in.
func (f *frame) join() {
	at := map[int]int{}
	for i := len(f.places) - 1; i >= 0; i-- {
		if c := f.places[i].choice; c >= 0 {
			at[c] = i
		}
		if r := f.places[i].ring; r != nil {
			for _, c := range r.choices {
				at[c] = i
			}
		}
	}
	for _, m := range f.meets {
		f.joinAt(m, at)
	}
}

// joinAt puts the price of one meet to the only place that it hangs on, or to several
// together. What can be had in too many ways, or lies in two trees, counts as the least
// that may come of it: nothing.
func (f *frame) joinAt(m *meet, at map[int]int) {
	if f.ways(m) > mostTogether {
		return
	}
	var places []int
	for _, c := range m.choices {
		i, ok := at[c]
		if f.mixed && ok && f.places[i].ring != nil {
			f.fixed += f.leastAt(m)
			return
		}
		if ok && !slices.Contains(places, i) {
			places = append(places, i)
		}
	}
	n := 1
	for _, i := range places {
		if f.root(i) != f.root(places[0]) {
			return
		}
		n *= len(f.problem.Places[i].Options)
	}
	price := make([]float64, n)
	picks, chosen := f.standing(), make([]int, len(places))
	for k := range price {
		rest := k
		for x := len(places) - 1; x >= 0; x-- {
			chosen[x] = rest % len(f.problem.Places[places[x]].Options)
			rest /= len(f.problem.Places[places[x]].Options)
			f.pick(picks, places[x], chosen[x])
		}
		price[k] = f.meetPrice(m, picks).price
	}
	switch len(places) {
	case 0:
		f.fixed += price[0]
	case 1:
		for o := range price {
			f.problem.Places[places[0]].Options[o].Price += price[o]
		}
	default:
		f.problem.Meets = append(f.problem.Meets, tree.Meet{Places: places, Price: price})
	}
}

func (f *frame) root(i int) int {
	for f.problem.Places[i].Parent >= 0 {
		i = f.problem.Places[i].Parent
	}
	return i
}

// leastAt is the least of a meet over all its options.
func (w *work) leastAt(m *meet) float64 {
	least := math.Inf(1)
	w.each(m, func(_ []int, p priced) { least = min(least, p.price) })
	return least
}

// each goes through all that may be picked where choices meet; the rest is as it stands.
func (w *work) each(m *meet, do func(picks []int, p priced)) {
	picks := w.standing()
	for k := range w.ways(m) {
		rest := k
		for _, c := range slices.Backward(m.choices) {
			picks[c] = rest % len(w.choices[c].options)
			rest /= len(w.choices[c].options)
		}
		do(picks, w.meetPrice(m, picks))
	}
}

// pick puts an option of a place to a pick.
func (f *frame) pick(picks []int, place, option int) {
	p := &f.places[place]
	if p.choice >= 0 {
		picks[p.choice] = option + f.choices[p.choice].barred
	}
	if p.ring != nil {
		for k, c := range p.ring.choices {
			picks[c] = p.ring.rungs[option][k]
		}
	}
}
