package screen

import (
	"fmt"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/water"
	"dropleg/internal/shop/job"
)

// claim words what makers claim of the air, and whose parts they are: "particles 1, oil 1
// (Paint filter)".
func (d *damp) claim(k *water.Claim) string {
	var words []string
	by := map[job.ID]bool{}
	add := func(of, class string, part job.ID) {
		if class == "" {
			words = append(words, of+" no claim")
			return
		}
		words = append(words, of+" "+class)
		by[part] = true
	}
	add("particles", k.Particles, k.ParticlesBy)
	if k.Oiled != "" {
		words = append(words, "oiled by "+d.within(k.Oiled))
	} else {
		add("oil", k.Oil, k.OilBy)
	}
	var names []string
	for _, id := range []job.ID{k.ParticlesBy, k.OilBy} {
		if by[id] {
			names = append(names, d.within(id))
			by[id] = false
		}
	}
	if k.Particles == "" && k.Oil == "" && k.Oiled == "" {
		return "nothing"
	}
	text := strings.Join(words, ", ")
	if len(names) > 0 {
		text += " (" + strings.Join(names, ", ") + ")"
	}
	return text
}

// unclaimed words what the tools want of particles and oil that no maker claims, by what
// is wanted: filters are the same in both seasons.
func (d *damp) unclaimed() string {
	var wants []string
	at := map[string][]string{}
	if len(d.a.Seasons) == 0 {
		return ""
	}
	for i := range d.a.Seasons[0].Outlets {
		o := &d.a.Seasons[0].Outlets[i]
		for _, n := range o.Needs {
			want := wanted(&n)
			if n.Claimed || want == "" {
				continue
			}
			if at[want] == nil {
				wants = append(wants, want)
			}
			at[want] = addOnce(at[want], d.outletMark(o.ID))
		}
	}
	if len(wants) == 0 {
		return ""
	}
	for i, w := range wants {
		wants[i] = w + " at " + listed(at[w])
	}
	return "No maker of what is fitted claims what tools want of clean air: " + strings.Join(wants, "; ") + "."
}

// wanted is what a tool wants of particles and oil.
func wanted(n *water.Need) string {
	var of []string
	if n.Particles != "" {
		of = append(of, "particle class "+n.Particles)
	}
	if n.Oil != "" {
		of = append(of, "oil class "+n.Oil)
	}
	return listed(of)
}

// lasts words for how long a filling of desiccant takes water, in the sentence of a dryer.
func (d *damp) lasts(k *water.Dryer, row *DryerRow) string {
	filling := "its " + d.plain(unit.KindMass, float64(k.Filling)) + " of desiccant"
	if k.Lasts == nil {
		return filling + " has nothing to take"
	}
	row.Lasts = days(k.Lasts.Likely)
	return fmt.Sprintf("%s last about %s (%s to %s) before they are spent", filling, row.Lasts, tidy(k.Lasts.Low), days(k.Lasts.High))
}

// days words a number of working days: "12 working days".
func days(n float64) string {
	if tidy(n) == "1" {
		return "1 working day"
	}
	return tidy(n) + " working days"
}

// tidy is a number of days as one says it: whole to a hundred, then by tens; under a day "less than 1".
func tidy(n float64) string {
	switch {
	case n < 1:
		return "less than 1"
	case n < 100:
		return fmt.Sprintf("%.0f", n)
	case n < 2000:
		return fmt.Sprintf("%.0f", 10*float64(int(n/10+0.5)))
	}
	return "over 2000"
}
