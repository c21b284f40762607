package cure

import (
	"cmp"
	"maps"
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

// CouplerSizes lists the bodies of the profile of a coupler, by what they let through, each
// with all halves that change with it so that everything still mates; outlets are those whose
// sockets do, atEnd says whether at the tool's end of the hose. None where it cannot change.
func (b *Bench) CouplerSizes(e *model.Element) (sizes []Size, outlets []job.ID, atEnd bool) {
	row, ok := b.shelf.Coupler(e.Item)
	outlet := b.idx.Outlet(e.Outlet)
	if !ok || outlet == nil {
		return nil, nil, false
	}
	atEnd = e.Leg == "end" || e.Tool != ""
	rows := slices.DeleteFunc(b.shelf.Couplers(), func(k catalog.Coupler) bool { return k.SocketOnly || k.Profile != row.Profile })
	slices.SortStableFunc(rows, func(x, y catalog.Coupler) int { return cmp.Compare(x.C, y.C) })
	for _, k := range rows {
		s := b.wallSwap(outlet, k.Coupler)
		if atEnd {
			s = b.endSwap(outlet, k.Coupler)
		}
		if s.blocked || s.count == 0 {
			return nil, nil, atEnd
		}
		outlets = slices.Sorted(maps.Keys(s.sockets))
		sizes = append(sizes, Size{
			Item: k.Coupler, Size: k.Body, Words: k.Words, Bore: float64(k.C), Rating: k.Rating,
			Edits: s.edits, Number: s.count, Now: k.Coupler == row.Coupler,
		})
	}
	return sizes, outlets, atEnd
}

// TreatmentSizes lists the sizes of a part of the treatment that clean and dry as this one
// does, by their rated flow; none where it has figures of its own.
func (b *Bench) TreatmentSizes(e *model.Element) []Size {
	part, key := b.part(e)
	if part == nil {
		return nil
	}
	row, ok := b.shelf.Treat(part.Item)
	if !ok || row.RatedFlow <= 0 || part.C != nil || part.Flow != nil || part.Clean != nil || part.Loaded != nil || part.Droop != nil {
		return nil
	}
	rows := slices.DeleteFunc(b.shelf.Treatment(), func(t catalog.Treat) bool {
		return t.Kind != row.Kind || t.RatedFlow <= 0 || t.Particles != row.Particles || t.Oil != row.Oil ||
			(t.DewPoint == nil) != (row.DewPoint == nil) || t.DewPoint != nil && *t.DewPoint != *row.DewPoint
	})
	slices.SortStableFunc(rows, func(x, y catalog.Treat) int { return cmp.Compare(x.RatedFlow, y.RatedFlow) })
	var out []Size
	for _, t := range rows {
		z := Size{Item: t.Item, Size: t.Size, Words: t.Words, Bore: float64(t.RatedFlow), Rating: t.Rating, Number: 1, Now: t.Item == row.Item}
		if !z.Now {
			z.Edits = append(z.Edits, Set(e.ID, key+"item", t.Item))
			if part.Size != "" && t.Size != "" {
				z.Edits = append(z.Edits, Set(e.ID, key+"size", t.Size))
			}
		}
		out = append(out, z)
	}
	return out
}
