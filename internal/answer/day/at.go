package day

import (
	"slices"
	"sort"

	"dropleg/engine/unit"
	"dropleg/internal/shop/model"
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
		s.Receivers = slices.Clone(s.Receivers)
		for k := range s.Receivers {
			s.Receivers[k] += unit.GaugePressure(share) * (a.Course[i].Receivers[k] - s.Receivers[k])
		}
	}
	s.At = t
	return s, true
}

// Case is the network at a moment, with the receivers held as they stand.
func (a *Answer) Case(m *model.Model, s Sample) model.Case {
	c := model.Case{Running: s.Running, Supply: model.CutIn, Held: m.HeldAt(s.Pressure), Idle: len(s.Loaded) == 0}
	for k, p := range s.Receivers {
		c.Stores = append(c.Stores, model.Store{Node: a.Receivers[k].node, Back: p.Abs(m.Atmosphere()), Held: true})
	}
	return c
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
