package cure

import (
	"cmp"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Size is one size that a part can be had in, beside the one that stands.
type Size struct {
	Item, Size, Words string
	Bore              float64 // m; of couplers sonic conductance, of treatment rated flow, SI
	Rating            unit.GaugePressure
	Edits             []job.Edit
	Number            int // pieces
	Now               bool
}

// HoseSizes lists the sizes of the make of a hose, by bore; none where its row is not known.
func (b *Bench) HoseSizes(e *model.Element) []Size {
	row, ok := b.shelf.Hose(e.Item)
	if !ok {
		return nil
	}
	var out []Size
	for _, h := range b.sameMake(row) {
		z := Size{Item: h.Hose, Size: h.Size, Words: h.Words, Bore: float64(h.Bore), Rating: h.Rating, Number: 1, Now: h.Hose == row.Hose}
		if !z.Now {
			z.Edits = []job.Edit{Set(e.ID, "item", h.Hose)}
		}
		out = append(out, z)
	}
	return out
}

// sameMake lists the hoses of one make, by bore.
func (b *Bench) sameMake(row catalog.Hose) []catalog.Hose {
	family, _, _ := strings.Cut(row.Hose, "-")
	rows := slices.DeleteFunc(b.shelf.Hoses(), func(h catalog.Hose) bool {
		f, _, _ := strings.Cut(h.Hose, "-")
		return f != family
	})
	slices.SortStableFunc(rows, func(x, y catalog.Hose) int { return cmp.Compare(x.Bore, y.Bore) })
	return rows
}
