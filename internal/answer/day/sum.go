package day

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// sum adds the days up.
func (s *shop) sum(a *Answer, days []done) {
	total := float64(a.Time) * float64(a.Days)
	a.Volume = unit.Volume(s.plant.Volume)
	a.Leak, a.Purge = air.FreeAir(unit.MassFlow(s.leak)), air.FreeAir(unit.MassFlow(s.purge))
	for i, c := range s.m.Compressors() {
		out := Compressor{ID: c.ID, Most: c.StartsMost, DutyMost: c.DutyMost}
		for _, day := range days {
			w := day.course.Machines[i]
			out.Duty += unit.Ratio(w.Loaded / total)
			out.Idle += unit.Ratio(w.Unloaded / total)
			out.Starts += float64(w.Starts) / total * 3600
			out.Air += air.FreeAir(unit.MassFlow(w.Air / total))
		}
		a.Compressors = append(a.Compressors, out)
	}
	lowest, highest := math.Inf(1), 0.0
	s.sumStores(a, days)
	in, out, gained := 0.0, 0.0, 0.0
	for _, d := range days {
		day := d.course
		lowest, highest = min(lowest, day.Lowest), max(highest, day.Highest)
		in, out, gained = in+day.In, out+day.Out, gained+day.Gained
		a.Full = a.Full || day.Full
	}
	a.Lowest, a.Highest = unit.GaugePressure(lowest-s.atm), unit.GaugePressure(highest-s.atm)
	a.Taken = air.FreeAir(unit.MassFlow(out / total))
	if in > 0 {
		a.Balance = (in - out - gained) / in
	}
	if s.apart != nil {
		laws := seen(days)
		a.Looked, a.Off = len(laws), unit.Ratio(s.apart.off(s, laws))
	}
	for i := range s.tools {
		a.Tools = append(a.Tools, s.served(i, days, total))
	}
}

// sumStores tells each store of several.
func (s *shop) sumStores(a *Answer, days []done) {
	for k, v := range s.plant.Vessels {
		r := Receiver{IDs: s.stand[k].ids, node: s.stand[k].nodes[0], Volume: unit.Volume(v.Volume)}
		lowest, highest := math.Inf(1), 0.0
		for _, d := range days {
			lowest, highest = min(lowest, d.course.Vessels[k][0]), max(highest, d.course.Vessels[k][1])
		}
		r.Lowest, r.Highest = unit.GaugePressure(lowest-s.atm), unit.GaugePressure(highest-s.atm)
		a.Receivers = append(a.Receivers, r)
	}
}

// served adds up what one tool got.
func (s *shop) served(i int, days []done, total float64) Tool {
	t := Tool{ID: s.tools[i]}
	ran, short := 0.0, 0.0
	for _, d := range days {
		ran, short = ran+d.course.Tools[i].Ran, short+d.course.Tools[i].Short
	}
	t.Ran = unit.Ratio(ran / total)
	t.Short, t.Within = shareShort(i, days)
	if math.IsInf(float64(t.Within), 1) {
		t.Within = 0
	}
	t.Spoilt = s.spoilt(i, days, short)
	return t
}

// shareShort is the share of its time that a tool went short, and by how much that may
// be off, 95 %: a ratio of two sums over days, its error by how far each day's shortfall
// is from the mean ratio (W. G. Cochran, Sampling Techniques, 1977, section 2.11;
// recalled). Of one day nothing is known.
func shareShort(i int, days []done) (share, within unit.Ratio) {
	short, ran := 0.0, 0.0
	for _, d := range days {
		short, ran = short+d.course.Tools[i].Short, ran+d.course.Tools[i].seen()
	}
	if ran <= 0 {
		return 0, 0
	}
	n := float64(len(days))
	if n < 2 {
		return unit.Ratio(short / ran), unit.Ratio(math.Inf(1))
	}
	squares := 0.0
	for _, d := range days {
		off := d.course.Tools[i].Short - short/ran*d.course.Tools[i].seen()
		squares += off * off
	}
	return unit.Ratio(short / ran), unit.Ratio(1.96 * math.Sqrt(squares*n/(n-1)) / ran)
}

// spoilt finds the sets that a tool went short in longest.
func (s *shop) spoilt(i int, days []done, short float64) []Spoilt {
	by := map[string]float64{}
	for _, d := range days {
		for k, seconds := range d.short {
			if k.tool == i {
				by[k.set] += seconds
			}
		}
	}
	keys := slices.SortedFunc(maps.Keys(by), func(a, b string) int {
		return cmp.Or(cmp.Compare(by[b], by[a]), cmp.Compare(a, b))
	})
	var out []Spoilt
	for _, key := range keys[:min(len(keys), mostSpoilt)] {
		out = append(out, Spoilt{unit.Ratio(by[key] / short), s.tables[key].uses})
	}
	return out
}

// sample tells the course of a day.
func (s *shop) sample(a *Answer, d done) {
	for _, m := range d.course.Trace {
		uses, _ := s.running(d.turns[m.Set])
		at := Sample{At: unit.Duration(m.At), Pressure: unit.GaugePressure(m.Pressure - s.atm), Running: uses, Loaded: []job.ID{}}
		for _, p := range m.Vessels {
			at.Receivers = append(at.Receivers, unit.GaugePressure(p-s.atm))
		}
		for i, on := range m.Loaded {
			if on {
				at.Loaded = append(at.Loaded, s.m.Compressors()[i].ID)
			}
		}
		a.Course = append(a.Course, at)
	}
}
