package day

import (
	"sort"

	"dropleg/engine/unit"
)

// At is how the shop stands at a time of the first day; between two samples the pressure
// is all but straight. ok is false without a course, or beyond its end.
func (a *Answer) At(t unit.Duration) (s Sample, ok bool) {
	n := len(a.Course)
	if n == 0 || t < a.Course[0].At || t > a.Course[n-1].At {
		return Sample{}, false
	}
	i := max(1, sort.Search(n, func(i int) bool { return a.Course[i].At > t }))
	s = a.Course[i-1]
	if i < n && a.Course[i].At > s.At {
		share := float64((t - s.At) / (a.Course[i].At - s.At))
		s.Pressure += unit.GaugePressure(share) * (a.Course[i].Pressure - s.Pressure)
	}
	s.At = t
	return s, true
}

// Known says whether the share of its time that each tool goes short is known so well, 95 %.
func (a *Answer) Known(within unit.Ratio) bool {
	for _, t := range a.Tools {
		if t.Within > within {
			return false
		}
	}
	return a.Days > 1
}
