package cure

import (
	"math"
	"slices"

	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// least is the loss from which an element is worth a proposal, Pa.
const least = 300

// proposals lists what could be changed on a tool's way.
func (b *Bench) proposals(got *flow.Tool, lack float64, supplyUnder bool) []*proposal {
	all := b.cutIn(got, lack)
	if supplyUnder {
		return all // nothing on the way helps
	}
	stretches := map[string]bool{}
	for i := range got.Path {
		s := &got.Path[i]
		e := &b.model.Elements()[s.Element]
		if float64(s.Loss) < least {
			continue
		}
		switch e.Thing {
		case model.ThingHose:
			all = append(all, b.hoses(e, float64(s.Loss), lack)...)
		case model.ThingLine:
			all = append(all, b.lines(e, got, stretches, lack)...)
		case model.ThingTreatment:
			all = append(all, b.treatment(e, s, lack)...)
		case model.ThingFitting:
			all = append(all, b.valve(e, float64(s.Loss))...)
		}
	}
	return append(all, b.couplers(got)...)
}

// enough trims larger and larger steps of one place to the first that may do,
// and one more for what the guess is worth.
func enough(steps []*proposal, lack float64) []*proposal {
	for i, p := range steps {
		if p.guess >= lack {
			return steps[i:min(len(steps), i+2)]
		}
	}
	return steps[max(0, len(steps)-1):]
}

// hoses proposes the next bores of the same make of hose.
func (b *Bench) hoses(e *model.Element, loss, lack float64) []*proposal {
	row, ok := b.shelf.Hose(e.Item)
	if !ok {
		return nil
	}
	rows := slices.DeleteFunc(b.sameMake(row), func(h catalog.Hose) bool { return h.Bore <= row.Bore })
	var steps []*proposal
	for _, h := range rows[:min(len(rows), 2)] {
		steps = append(steps, &proposal{
			words: h.Words + " instead of " + sized(row.Size) + at(b.idx, e.Outlet), place: string(e.ID),
			edits: []job.Edit{Set(e.ID, "item", h.Hose)}, guess: loss * (1 - fifth(row.Bore, h.Bore)),
			price: b.priceOf(amount{h.Hose, 1, float64(e.Length)}), touches: []int{e.Index},
		})
	}
	return enough(steps, lack)
}

// fifth is the ratio of losses when a bore grows: they go with its fifth power.
func fifth[T ~float64](was, is T) float64 { return math.Pow(float64(was)/float64(is), 5) }

// valve proposes a valve that lets more through in place of a tight one: the
// kind with all roles of the present one that loses least.
func (b *Bench) valve(e *model.Element, loss float64) []*proposal {
	kind, ok := b.shelf.Kind(e.Kind)
	part, key := b.part(e)
	if !ok || part == nil || !kind.Has(catalog.Isolates) || kind.Law.LeOverD == nil {
		return nil
	}
	best := kind
	for _, k := range b.shelf.Kinds() {
		if k.Group == kind.Group && len(k.Ports) == len(kind.Ports) && k.Law.LeOverD != nil && *k.Law.LeOverD < *best.Law.LeOverD &&
			!slices.ContainsFunc(kind.Roles, func(r catalog.Role) bool { return !k.Has(r) }) {
			best = k
		}
	}
	if best.Kind == kind.Kind || *best.Law.LeOverD > 0.5**kind.Law.LeOverD {
		return nil
	}
	return []*proposal{{
		words: "a " + best.Name("en") + " instead of the " + kind.Name("en"), place: string(e.ID) + "/" + e.Kind,
		edits: []job.Edit{Set(e.ID, key+"kind", best.Kind)},
		guess: loss * (1 - *best.Law.LeOverD / *kind.Law.LeOverD), touches: []int{e.Index},
	}}
}
