package keep

import (
	"cmp"
	"slices"

	"dropleg/engine/vessel"
	"dropleg/internal/shop/job"
)

// log is what was done, newest first, with its cost by year.
func (w *work) log() {
	for _, s := range w.done {
		w.a.Log = append(w.a.Log, s.All...)
	}
	slices.SortStableFunc(w.a.Log, func(a, b *job.Record) int {
		return cmp.Or(taken(b).Compare(taken(a)), cmp.Compare(a.ID, b.ID))
	})
	for _, r := range w.a.Log {
		year := taken(r).Year()
		at := slices.IndexFunc(w.a.Years, func(y Year) bool { return y.Year == year })
		if at < 0 {
			w.a.Years, at = append(w.a.Years, Year{Year: year}), len(w.a.Years)
		}
		w.a.Years[at].Done++
		if r.Cost != nil {
			w.a.Years[at].Cost += *r.Cost
		}
	}
}

// leaks are the timings of the compressor, and the line through them.
func (w *work) leaks() {
	back := map[job.ID]bool{}
	for i := range w.job.Records {
		back[w.job.Records[i].Back] = true
	}
	for i := range w.job.Records {
		r := &w.job.Records[i]
		if r.Test == nil || back[r.ID] || len(r.Test.Loads) == 0 || len(r.Test.Loads) > len(r.Test.Rests) {
			continue
		}
		t := *r.Test
		load, rest := t.Loads[0], t.Rests[0]
		for n := range t.Loads[1:] {
			load, rest = load+t.Loads[n+1], rest+t.Rests[n+1]
		}
		if share, err := vessel.LeakShare(load, rest); err == nil {
			w.a.Leaks = append(w.a.Leaks, LeakAt{taken(r), float64(share), r.ID})
		}
	}
	slices.SortStableFunc(w.a.Leaks, func(a, b LeakAt) int { return a.When.Compare(b.When) })
	w.a.Slope = slope(w.a.Leaks)
}

// slope is that of the straight line of least squares, a year; nil where no time passed.
func slope(all []LeakAt) *float64 {
	if len(all) < 2 {
		return nil
	}
	n, t, y := float64(len(all)), 0.0, 0.0
	at := func(k LeakAt) float64 { return k.When.Sub(all[0].When).Hours() / 24 / daysAYear }
	for _, k := range all {
		t, y = t+at(k)/n, y+k.Share/n
	}
	up, across := 0.0, 0.0
	for _, k := range all {
		up, across = up+(at(k)-t)*(k.Share-y), across+(at(k)-t)*(at(k)-t)
	}
	if across <= 0 {
		return nil
	}
	return new(up / across)
}
