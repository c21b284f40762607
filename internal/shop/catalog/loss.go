package catalog

import (
	"math"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
)

// FT is the friction factor of full turbulence in clean steel by bore, for
// K = fT · Le/D; source fof-fT, 1/2 to 3 in of schedule 40. Between the sizes it
// is linear in the bore. Outside it follows the law of the fully rough pipe,
// f = 0.25/log10(ε/(3.7 D))² with ε = 0.0457 mm, scaled to meet the table at its
// end, down to 1 mm and up to 1 m of bore, where it holds its value.
func (c *Catalog) FT(bore unit.Length) (ft float64, ref cite.Ref) {
	rows := c.shelf.Turbulent
	if len(rows) == 0 {
		return 0, cite.Ref{}
	}
	first, last := rows[0], rows[len(rows)-1]
	switch {
	case !(bore > first.Bore): // also for a bore that is no number
		return first.FT * rough(bore) / rough(first.Bore), first.Ref
	case bore > last.Bore:
		return last.FT * rough(bore) / rough(last.Bore), last.Ref
	}
	x, y := make([]float64, len(rows)), make([]float64, len(rows))
	for i, r := range rows {
		x[i], y[i] = float64(r.Bore), r.FT
	}
	return between(x, y, float64(bore)), first.Ref
}

// rough is the friction factor of the fully rough pipe of 0.0457 mm.
func rough(bore unit.Length) float64 {
	const eps = 45.7e-6
	d := float64(bore)
	if !(d > 1e-3) {
		d = 1e-3
	}
	l := math.Log10(eps / (3.7 * min(d, 1)))
	return 0.25 / (l * l)
}

// Loss is a part's coefficient on the dynamic pressure in a bore: straight
// through, and by the branch where the law has one (else the same).
type Loss struct {
	Through float64
	Branch  float64
	Ref     cite.Ref
}

// Loss evaluates a law's Le/D or K on a bore for a way of joining. Where the law
// has K by size for that joining (threaded iron loses about twice what fT says)
// that holds, linear in the bore, level below its smallest size and to 5 % above
// its largest. ok is false for a law without a coefficient.
func (c *Catalog) Loss(law LawRow, joining string, bore unit.Length) (loss Loss, ok bool) {
	for _, by := range law.ByJoining {
		if by.Joining != joining {
			continue
		}
		if loss, ok := c.joined(by, bore); ok {
			return loss, true
		}
	}
	ft, _ := c.FT(bore)
	figure := func(k, le *float64) (float64, bool) {
		switch {
		case k != nil:
			return *k, true
		case le != nil:
			return *le * ft, true
		}
		return 0, false
	}
	through, ok := figure(law.K, law.LeOverD)
	if !ok {
		return Loss{}, false
	}
	branch, has := figure(law.BranchK, law.BranchLe)
	if !has {
		branch = through
	}
	return Loss{Through: through, Branch: branch, Ref: law.Ref}, true
}

// joined reads the table of one way of joining.
func (c *Catalog) joined(by JoinedLoss, bore unit.Length) (Loss, bool) {
	var x []float64
	for _, size := range by.Sizes {
		for _, r := range c.shelf.Turbulent {
			if r.Size == size {
				x = append(x, float64(r.Bore))
			}
		}
	}
	const above = 1.05
	if len(x) == 0 || len(x) != len(by.K) || float64(bore) > above*x[len(x)-1] {
		return Loss{}, false
	}
	loss := Loss{Through: between(x, by.K, float64(bore)), Ref: by.Ref}
	loss.Branch = loss.Through
	if len(by.BranchK) == len(x) {
		loss.Branch = between(x, by.BranchK, float64(bore))
	}
	return loss, true
}
