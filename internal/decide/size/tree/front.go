package tree

import (
	"cmp"
	"slices"
)

// label is a way to fill all places from one down: what it costs and what it asks for.
type label struct {
	price float64
	need  float64   // the widest bore of the topmost lines in it, m
	asks  []float64 // by pattern of the place, at its upper end; of a join at the lower end of the one above
	open  []int8    // the options that are carried, by the places of what it is of
	// How it came about: an option on top of what is below, or two side by side.
	place, option int32 // place -1: a join
	below, beside *label
}

// front keeps labels that none other beats.
type front struct {
	*carried         // what the labels carry
	slack    float64 // a label is beaten too by one that costs so much more
	work     *int
}

// prune leaves the labels that none other beats, by rising price.
func (f front) prune(all []label) []label {
	slices.SortFunc(all, func(x, y label) int {
		return cmp.Or(cmp.Compare(x.price, y.price), cmp.Compare(x.need, y.need), slices.Compare(x.asks, y.asks))
	})
	kept := all[:0]
	if f.slack > 0 {
		return f.loosely(all)
	}
	for i := range all {
		if !f.beaten(kept, &all[i]) {
			kept = append(kept, all[i])
		}
	}
	return kept
}

// loosely goes from the dear to the cheap end of each stretch of prices that slack lets
// be one, so that of the labels of a stretch the one that asks least stays.
func (f front) loosely(all []label) []label {
	var kept []label
	for from := 0; from < len(all); {
		to := from
		for to < len(all) && all[to].price <= all[from].price+f.slack {
			to++
		}
		stretch := slices.Clone(all[from:to])
		slices.SortFunc(stretch, func(x, y label) int {
			return cmp.Or(cmp.Compare(sum(x.asks), sum(y.asks)), cmp.Compare(x.need, y.need), cmp.Compare(x.price, y.price))
		})
		for i := range stretch {
			if !f.beaten(kept, &stretch[i]) {
				kept = append(kept, stretch[i])
			}
		}
		from = to
	}
	return kept
}

func sum(list []float64) float64 {
	s := 0.0
	for _, x := range list {
		s += x
	}
	return s
}

// beaten: one of the kept costs no more (but for the slack) and asks for no more.
func (f front) beaten(kept []label, l *label) bool {
	work := 0
	defer func() { *f.work += work }()
	for k := len(kept) - 1; k >= 0; k-- {
		o := &kept[k]
		if o.need > l.need || len(f.dearer) > 0 && o.price+max(0, f.more(o.open, l.open)) > l.price+f.slack {
			continue
		}
		i := 0
		for i < len(o.asks) && o.asks[i] <= l.asks[i] {
			i++
		}
		work += i + 1
		if i == len(o.asks) {
			return true
		}
	}
	return false
}
