package tree

import (
	"math"
)

// place is the labels of a place and all below it that cost less than the most.
func (r *search) place(v int, done [][]label, most float64) ([]label, error) {
	place := &r.p.Places[v]
	step := &r.steps[v].own
	f := front{carried: &step.carried, slack: r.slack, work: &r.work}
	var out []label
	for o := range place.Options {
		if !r.usable[v][o] || r.set[v] >= 0 && r.set[v] != o {
			continue
		}
		joined, err := r.join(v, o, done, most-r.price[v][o])
		if err != nil {
			return nil, err
		}
		for i := range joined {
			l := label{
				price: joined[i].price + r.price[v][o], need: joined[i].need, asks: joined[i].asks,
				place: int32(v), option: int32(o), below: &joined[i],
			}
			_, l.open = step.take(o, joined[i].open, nil)
			if place.Line {
				l.need = place.Options[o].Bore
			}
			if place.Held {
				l.need = 0
			}
			if l.price < most {
				l.asks = r.served(v, l.asks)
				out = append(out, l)
			}
		}
	}
	out = r.thin(f.prune(out))
	r.labels += len(out)
	return out, r.within()
}

// served takes what is asked for up to what there is in any case: below that all are alike.
func (r *search) served(v int, asks []float64) []float64 {
	for q, low := range r.given[v] {
		asks[q] = max(asks[q], low)
	}
	return asks
}

func (r *search) within() error {
	if r.work > r.effort {
		return errEffort
	}
	return nil
}

// thin keeps as many labels as the quick look takes, the cheapest and those that ask least
// among them.
func (r *search) thin(all []label) []label {
	if r.most == 0 || len(all) <= r.most {
		return all
	}
	out := make([]label, 0, r.most)
	for i := range r.most {
		out = append(out, all[i*(len(all)-1)/(r.most-1)])
	}
	return out
}

// join is what an option and the labels of the places below come to, side by side: what
// each asks for is already put to the upper end of the place.
func (r *search) join(v, o int, done [][]label, most float64) ([]label, error) {
	place := &r.p.Places[v]
	own := label{place: -1, asks: make([]float64, len(r.first[v]))}
	for q, c := range r.first[v] {
		if place.Least[c] > 0 {
			own.asks[q] = r.inlet(v, o, c, 0, place.Least[c])
		}
	}
	acc := []label{own}
	rest := 0.0
	for _, child := range r.children[v] {
		rest += minPrice(done[child])
	}
	for s, child := range r.children[v] {
		raised := r.raise(v, o, s, done[child])
		step := &r.steps[v].join[s]
		rest -= minPrice(done[child])
		next := make([]label, 0, len(acc)*len(raised))
		for i := range acc {
			for k := range raised {
				more, on := step.take(o, acc[i].open, raised[k].open)
				price := acc[i].price + raised[k].price + more
				if price+rest >= most {
					continue
				}
				l := label{place: -1, price: price, open: on, need: max(acc[i].need, raised[k].need), below: &acc[i], beside: &raised[k]}
				l.asks = make([]float64, len(acc[i].asks))
				for q := range l.asks {
					l.asks[q] = max(acc[i].asks[q], raised[k].asks[q])
				}
				next = append(next, l)
			}
		}
		r.work += len(next)
		acc = r.thin(front{carried: &step.carried, slack: r.slack, work: &r.work}.prune(next))
		if err := r.within(); err != nil {
			return nil, err
		}
	}
	return acc, nil
}

func minPrice(list []label) float64 {
	if len(list) == 0 {
		return math.Inf(1)
	}
	return list[0].price
}

// raise puts the labels of child s to the upper end of a place with an option, and leaves
// out what asks for more than there can be or for a wider line than that above.
func (r *search) raise(v, o, s int, labels []label) []label {
	child := r.children[v][s]
	place, below, step := &r.p.Places[v], &r.p.Places[child], &r.steps[v].raise[s]
	out := make([]label, 0, len(labels))
	for i := range labels {
		l := label{place: -1, price: labels[i].price, need: labels[i].need, below: &labels[i], asks: make([]float64, len(r.first[v]))}
		if place.Line && !place.Held && l.need > place.Options[o].Bore {
			continue
		}
		more, on := step.take(o, labels[i].open, nil)
		l.price, l.open = l.price+more, on
		fits := true
		for q, c := range r.first[v] {
			if at := r.pattern[child][c]; at >= 0 && labels[i].asks[at] > 0 {
				l.asks[q] = r.inlet(v, o, c, below.Port, labels[i].asks[at])
			}
			fits = fits && l.asks[q] <= r.limit[v][q]
		}
		if fits {
			out = append(out, l)
		}
	}
	return front{carried: &step.carried, work: &r.work}.prune(out)
}
