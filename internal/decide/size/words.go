package size

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dropleg/engine/unit"
)

// name is what a proposal is called beside the others.
func (w *work) name() string {
	switch {
	case w.wish.Growth > 0:
		return fmt.Sprintf("room for %.0f %% more air", 100*w.wish.Growth)
	case w.wish.Reserve > 0:
		return w.text(unit.KindPressureDiff, float64(w.wish.Reserve)) + " more at every tool"
	}
	return "the cheapest"
}

// how says by what the bound holds.
func (w *work) how(rounds int) string {
	text := "each tool taking what it takes at the pressure that it needs, no selection of these sizes is cheaper than the bound"
	if w.ringed() {
		text += "; lines that hang together on a ring have one size, and air parts there as the network has it; with sizes of their own, and a ring that lost nothing, it would be " + w.money(w.mixedBound) + " at least"
	}
	if w.prices != nil {
		text += "; tees, reducers and adapters are counted as the take-off makes them where sizes meet"
		if w.rate > 0 {
			text += ", and hours as the quotation has them"
		}
	}
	if rounds > 1 {
		text += fmt.Sprintf("; with flows that follow pressure it took %d picks", rounds)
	}
	return text
}

// ringed: some live lines lie on a ring.
func (w *work) ringed() bool {
	return slices.ContainsFunc(w.net.blocks, func(links []int) bool { return len(links) > 1 })
}

// money is an amount as people read it.
func (w *work) money(x float64) string {
	if w.prices == nil {
		return fmt.Sprintf("%.0f (no prices: metres of line times millimetres of bore)", x)
	}
	return fmt.Sprintf("%.2f %s", x, w.job.Prices.Currency)
}

// summary is a proposal in a sentence.
func (w *work) summary(p *Proposal) string {
	text := fmt.Sprintf("%d of %d sizes change; %s", len(p.Changes), len(w.choices), w.money(p.Price))
	switch diff := p.Price - p.Was; {
	case math.Abs(diff) < 0.005:
		text += ", as it stands"
	case diff < 0:
		text += ", " + w.money(-diff) + " less than as it stands"
	default:
		text += ", " + w.money(diff) + " more than as it stands"
	}
	if p.Proven {
		return text + "; proved to be the cheapest."
	}
	return text + fmt.Sprintf("; a cheaper selection could save %.1f %% at most.", 100*p.Gap())
}

// told is what is to be known of a pick beside its figures.
func (w *work) told(v *verdict) []string {
	out := slices.Clone(w.notes)
	if !v.holds() {
		out = append(out, fmt.Sprintf("after %d picks some tool still lacks a little by flows that follow pressure: see the least pressures", mostRounds))
	}
	var guessed []string
	for i, k := range v.picks {
		guessed = append(guessed, w.choices[i].options[k].guessed...)
	}
	for _, m := range w.meets {
		guessed = append(guessed, w.meetPrice(m, v.picks).guessed...)
	}
	if list := sorted(guessed); len(list) > 0 {
		out = append(out, "without a price of their own, taken as the dearest of their kind, or not counted where it has none: "+strings.Join(list, ", "))
	}
	if list := sorted(w.unsold); len(list) > 0 {
		out = append(out, "not taken, for they have no price: "+strings.Join(list, ", "))
	}
	return out
}

func sorted(list []string) []string {
	list = slices.Clone(list)
	slices.Sort(list)
	return slices.Compact(list)
}
