package cure

import (
	"fmt"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

const gallon = 3.785411784e-3 // m³

// usualGallons are receivers as they are sold by the gallon: common practice, no source.
var usualGallons = []float64{10, 20, 30, 60, 80, 120, 200, 240, 400, 500, 660, 1060}

// stepLitres is how receivers go on beyond the largest of the catalogue, m³: common practice, no source.
const stepLitres = 0.5

// usual is the next size of receiver that is to be had, m³.
func (b *Bench) usual(least float64) float64 {
	var sizes []float64
	if b.system == unit.US {
		for _, g := range usualGallons {
			sizes = append(sizes, g*gallon)
		}
	} else {
		for _, m := range b.shelf.Machines() {
			sizes = append(sizes, float64(m.Receiver))
		}
		slices.Sort(sizes)
	}
	for _, v := range sizes {
		if v >= least*0.999 {
			return v
		}
	}
	return stepLitres * math.Ceil(least/stepLitres)
}

// mostTimes is how much more store is looked at, at most.
const mostTimes = 20

// receivers proposes a larger receiver in place of the largest that the compressors
// fill: by what the days found to be enough, else by the guess and up to three times that.
func (b *Bench) receivers(d Days) []*proposal {
	var largest *model.Receiver
	all := 0.0
	for i := range b.model.Receivers() {
		r := &b.model.Receivers()[i]
		if r.Source < 0 || b.idx.Point(r.ID) == nil {
			continue
		}
		all += float64(r.Volume)
		if largest == nil || r.Volume > largest.Volume {
			largest = r
		}
	}
	if largest == nil || largest.Volume <= 0 || d.Times <= 1 {
		return nil
	}
	now := float64(largest.Volume)
	var wanted []float64
	for _, more := range []float64{1, 1.8, 3} {
		wanted = append(wanted, all*d.Times*more-(all-now))
	}
	if r := remedy(d.Answer, day.MoreStore); r != nil {
		wanted = []float64{float64(r.Volume-d.Answer.Volume) + now}
		if !r.Does {
			return nil // as much as there can be of it was tried
		}
	}
	var out []*proposal
	for _, least := range wanted {
		to := b.usual(least)
		if to <= now*1.01 || to > mostTimes*all || len(out) > 0 && to == out[len(out)-1].guess {
			continue
		}
		out = append(out, &proposal{
			words: fmt.Sprintf("a receiver of %s instead of %s", b.text(unit.KindVolume, to), b.text(unit.KindVolume, now)),
			edits: []job.Edit{Set(largest.ID, "part.volume_L", litres(to))}, place: "receiver", guess: to,
		})
	}
	return out
}

// remedy is what the days found of a lever; nil where they did not look.
func remedy(a *day.Answer, what day.Lever) *day.Remedy {
	i := slices.IndexFunc(a.Remedies, func(r day.Remedy) bool { return r.What == what })
	if i < 0 {
		return nil
	}
	return &a.Remedies[i]
}

// litres is a volume as the file has it, to a tenth.
func litres(v float64) float64 { return math.Round(v*1e4) / 10 }
