package find

import (
	"cmp"
	"slices"

	"dropleg/engine/element"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// couldRead lists the readings that a person could still take, those of one
// moment together.
func (f *Finder) couldRead() [][]Reading {
	var out [][]Reading
	add := func(all ...Reading) {
		all = slices.DeleteFunc(all, func(r Reading) bool {
			return slices.ContainsFunc(f.read[f.since:], func(o Reading) bool {
				return o.Kind == r.Kind && o.Stopped == r.Stopped && o.Place == r.Place && slices.Equal(o.Running, r.Running) && slices.Equal(o.Shut, r.Shut)
			})
		})
		if len(all) > 0 {
			out = append(out, all)
		}
	}
	for i := -1; i < len(f.sets); i++ { // first nothing running
		var one []Reading
		for _, place := range f.places {
			r := Reading{Kind: Pressure, Place: place, Receiver: f.rig.middle()}
			if i >= 0 {
				r.Running = f.sets[i]
			}
			if fits(place, r.Running) {
				one = append(one, r)
			}
		}
		add(one...)
	}
	for _, r := range f.letDown() {
		var one []Reading
		for _, place := range f.places {
			if r.Place = place; fits(place, r.Running) {
				one = append(one, r)
			}
		}
		add(one...)
	}
	if f.rig.stock.volume > 0 && f.rig.stock.supply > 0 {
		low, high := f.rig.middle()-5e4, f.rig.middle()+5e4
		add(Reading{Kind: PumpUp, From: low, To: high})
		add(Reading{Kind: Fall, From: high, To: low})
		for _, valve := range f.valves {
			add(Reading{Kind: Fall, From: high, To: low, Shut: []job.ID{valve}})
		}
	}
	return out
}

// letDown are the readings, but for their places, with the compressor off and the receiver
// let down to what a regulator is set to: above that it takes off whatever is lost before it.
func (f *Finder) letDown() []Reading {
	if f.rig.stock.volume <= 0 {
		return nil
	}
	var out []Reading
	for _, set := range f.sets {
		mo := f.rig.live[job.KeyOf(set)]
		if mo == nil || mo.sound == nil {
			continue
		}
		lowest := 0.0
		for i, law := range f.rig.links {
			reg, regulates := law.(*element.Regulator)
			if !regulates || mo.sound.Flow[i] < 2*leakShare*f.rig.stock.supply {
				continue
			}
			if p := reg.Set() - f.rig.atm; p > leastLetDown && p < f.rig.stock.cutIn-bias && (lowest == 0 || p < lowest) {
				lowest = p
			}
		}
		if lowest > 0 {
			out = append(out, Reading{Kind: Pressure, Running: set, Stopped: true, Receiver: unit.GaugePressure(lowest)})
		}
	}
	return out
}

// leastLetDown is how low a receiver is let down for a reading, Pa g: below that tools
// hardly run. Common practice, no source.
const leastLetDown = 150e3

// suspect is a trial that stands for what may be wrong, by the groups concerned.
type suspect struct {
	trial
	what int // the same for the same groups
}

// likeliest are trials that carry nearly all weight, weights made one: of each pair
// of groups the best, of those that weigh much the next sizes too.
func (f *Finder) likeliest(trials []trial) []suspect {
	// Before anything is read, rungs of one cause would fill the list.
	if len(f.read) == 0 {
		trials = f.middles(trials)
	}
	top := f.merged(trials)
	slices.SortFunc(top, func(a, b suspect) int {
		return cmp.Or(cmp.Compare(b.weight, a.weight), cmp.Compare(a.causes[0], b.causes[0]), cmp.Compare(a.causes[1], b.causes[1]))
	})
	top = renumbered(top[:min(len(top), mostWeighed)])
	sum := 0.0
	for i := range top {
		sum += top[i].weight
	}
	for i := range top {
		top[i].weight /= sum
	}
	// Rungs of one cause follow each other, as the solver likes it.
	slices.SortStableFunc(top, func(a, b suspect) int {
		return cmp.Or(cmp.Compare(a.causes[0], b.causes[0]), cmp.Compare(a.causes[1], b.causes[1]))
	})
	return top
}

// middles is the middle rung of the first cause of each group, with the group's weight.
func (f *Finder) middles(trials []trial) []trial {
	weights := f.byGroup(trials)
	var out []trial
	for i := range trials {
		t := trials[i]
		c := &f.causes[t.causes[0]]
		if f.groups[c.group][0] == t.causes[0] && t.faults[0].size == c.rungs[len(c.rungs)/2] && t.causes[1] < 0 {
			t.weight = weights[c.group]
			out = append(out, t)
		}
	}
	return out
}

// renumbered counts what may be wrong from nought on.
func renumbered(top []suspect) []suspect {
	number := map[int]int{}
	for i := range top {
		n, had := number[top[i].what]
		if !had {
			n = len(number)
			number[top[i].what] = n
		}
		top[i].what = n
	}
	return top
}

// merged is a suspect for each pair of groups: its best trial, of those that weigh
// much the next sizes too, with the weight of all.
func (f *Finder) merged(trials []trial) []suspect {
	by := map[[2]int][]int{}
	for i := range trials {
		key := f.leftGroups(&trials[i])
		by[key] = append(by[key], i)
	}
	var top []suspect
	what := 0
	for _, of := range by {
		slices.SortStableFunc(of, func(a, b int) int { return cmp.Compare(trials[b].weight, trials[a].weight) })
		all, used := 0.0, 0.0
		for _, i := range of {
			all += trials[i].weight
		}
		keep := of[:1]
		if all > 0.05 {
			keep = of[:min(len(of), 3)]
		}
		for _, i := range keep {
			used += trials[i].weight
		}
		for _, i := range keep {
			s := suspect{trials[i], what}
			s.weight *= all / max(used, 1e-300)
			top = append(top, s)
		}
		what++
	}
	return top
}
