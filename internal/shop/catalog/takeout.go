package catalog

import "dropleg/engine/unit"

// TakeOut finds the take-out of a family, kind and size as listed; the rule for
// any size has the size "*".
func (c *Catalog) TakeOut(family, kind, size string) (TakeOut, bool) {
	return pick(c.index[TakeOuts], c.shelf.TakeOuts, family+" "+kind+" "+size)
}

// TakeOutOf is the take-out of a kind on a stock and size: the listed row, else
// the family's rule by outside diameter, else its rule for any kind. The figures
// of a rule are worked out in the answer, and its source says it is an estimate.
// ok is false where the stock has no family, or a family that is not listed.
func (c *Catalog) TakeOutOf(s Stock, z Size, kind string) (TakeOut, bool) {
	if t, ok := c.TakeOut(s.TakeOuts, kind, z.Size); ok {
		return t, true
	}
	t, ok := c.TakeOut(s.TakeOuts, kind, anySize)
	if !ok {
		if t, ok = c.TakeOut(s.TakeOuts, anySize, anySize); !ok {
			return TakeOut{}, false
		}
	}
	t.Kind, t.Size = kind, z.Size
	t.TakeOut += unit.Length(t.PerOutside) * z.Outside
	t.Insert += unit.Length(t.InsertPerOutside) * z.Outside
	t.CentreEnd = t.TakeOut + t.Insert
	t.PerOutside, t.InsertPerOutside = 0, 0
	return t, true
}

// anySize marks a rule.
const anySize = "*"
