package catalog

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"dropleg/engine/document"
)

// With is the catalogue with a person's own rows on top. A row with the id of
// one beneath takes its place, whole. Rows that cannot be used are left out and
// told, all at once; paths count from the shelf.
func (c *Catalog) With(own *Shelf) (*Catalog, []document.Problem) {
	if own == nil {
		return c, nil
	}
	good, problems := c.sift(own)
	out := build(Shelf{
		Kinds:     over(c.shelf.Kinds, good.Kinds, kindID),
		Joints:    over(c.shelf.Joints, good.Joints, jointID),
		Stocks:    over(c.shelf.Stocks, good.Stocks, stockID),
		Couplers:  over(c.shelf.Couplers, good.Couplers, couplerID),
		Mates:     append(slices.Clone(good.Mates), c.shelf.Mates...), // the first row that fits answers
		Hoses:     over(c.shelf.Hoses, good.Hoses, hoseID),
		Tools:     over(c.shelf.Tools, good.Tools, toolID),
		Machines:  over(c.shelf.Machines, good.Machines, machineID),
		Treatment: over(c.shelf.Treatment, good.Treatment, treatID),
		Threads:   over(c.shelf.Threads, good.Threads, threadID),
		TakeOuts:  over(c.shelf.TakeOuts, good.TakeOuts, takeOutID),
		Materials: over(c.shelf.Materials, good.Materials, materialID),
		Turbulent: over(c.shelf.Turbulent, good.Turbulent, turbulentID),
	})
	for _, name := range Shelves() {
		origins := maps.Clone(c.origin[name])
		if origins == nil {
			origins = map[string]Origin{}
		}
		for _, id := range good.ids(name) {
			switch c.Origin(name, id) {
			case BuiltIn, Replaces:
				origins[id] = Replaces
			default:
				origins[id] = Own
			}
		}
		out.origin[name] = origins
	}
	return out, problems
}

func kindID(r Kind) string                 { return r.Kind }
func jointID(r Joint) string               { return r.Joint }
func stockID(r Stock) string               { return r.Stock }
func couplerID(r Coupler) string           { return r.Coupler }
func hoseID(r Hose) string                 { return r.Hose }
func toolID(r Tool) string                 { return r.Tool }
func machineID(r Machine) string           { return r.Machine }
func treatID(r Treat) string               { return r.Item }
func threadID(r Thread) string             { return r.Kind + " " + r.Size }
func takeOutID(r TakeOut) string           { return r.Family + " " + r.Kind + " " + r.Size }
func materialID(r Material) string         { return r.Material }
func turbulentID(r TurbulentFactor) string { return r.Size }

// ids lists the ids of one shelf in its order.
func (s Shelf) ids(name string) []string {
	switch name {
	case Kinds:
		return idsOf(s.Kinds, kindID)
	case Joints:
		return idsOf(s.Joints, jointID)
	case Stocks:
		return idsOf(s.Stocks, stockID)
	case Couplers:
		return idsOf(s.Couplers, couplerID)
	case Hoses:
		return idsOf(s.Hoses, hoseID)
	case Tools:
		return idsOf(s.Tools, toolID)
	case Machines:
		return idsOf(s.Machines, machineID)
	case Treatments:
		return idsOf(s.Treatment, treatID)
	case Threads:
		return idsOf(s.Threads, threadID)
	case TakeOuts:
		return idsOf(s.TakeOuts, takeOutID)
	case Materials:
		return idsOf(s.Materials, materialID)
	}
	return nil
}

func idsOf[T any](rows []T, id func(T) string) []string {
	ids := make([]string, len(rows))
	for i, r := range rows {
		ids[i] = id(r)
	}
	return ids
}

// over lays the own rows over the others; of two own rows with one id the last holds.
func over[T any](base, own []T, id func(T) string) []T {
	all := slices.Clone(base)
	at := make(map[string]int, len(all))
	for i, r := range all {
		at[id(r)] = i
	}
	for _, r := range own {
		if i, ok := at[id(r)]; ok {
			all[i] = r
			continue
		}
		at[id(r)] = len(all)
		all = append(all, r)
	}
	return all
}

// build sorts the shelves, which it takes over, and indexes them.
func build(s Shelf) *Catalog {
	arrange(s.Kinds, kindID)
	arrange(s.Joints, jointID)
	arrange(s.Stocks, stockID)
	arrange(s.Couplers, couplerID)
	arrange(s.Hoses, hoseID)
	arrange(s.Tools, toolID)
	arrange(s.Machines, machineID)
	arrange(s.Treatment, treatID)
	arrange(s.Threads, threadID)
	arrange(s.TakeOuts, takeOutID)
	arrange(s.Materials, materialID)
	slices.SortStableFunc(s.Turbulent, func(a, b TurbulentFactor) int { return cmp.Compare(a.Bore, b.Bore) })
	c := &Catalog{shelf: s, index: map[string]map[string]int{}, origin: map[string]map[string]Origin{}, alias: map[string]map[string]string{Couplers: {}, Stocks: {}}}
	for _, name := range Shelves() {
		ids := s.ids(name)
		index := make(map[string]int, len(ids))
		for i, id := range ids {
			index[id] = i
		}
		c.index[name] = index
	}
	for _, r := range s.Couplers {
		for _, other := range r.Also {
			c.alias[Couplers][other] = r.Coupler
		}
	}
	for _, r := range s.Stocks {
		for _, other := range r.Also {
			c.alias[Stocks][other] = r.Stock
		}
	}
	return c
}

// arrange sorts one shelf by id, numbers and fractions within ids by their value.
func arrange[T any](rows []T, id func(T) string) {
	slices.SortStableFunc(rows, func(a, b T) int { return compareIDs(id(a), id(b)) })
}

// compareIDs puts "industrial-3/8" before "industrial-1/2".
func compareIDs(a, b string) int {
	i, j := sizeAt(a), sizeAt(b)
	if d := strings.Compare(a[:i], b[:j]); d != 0 {
		return d
	}
	x, okX := inches(a[i:])
	y, okY := inches(b[j:])
	if okX && okY && x != y {
		return cmp.Compare(x, y)
	}
	return strings.Compare(a, b)
}

// sizeAt is where the size at the end of an id begins: "1-1/4" of "npt 1-1/4".
func sizeAt(id string) int {
	digit := func(i int) bool { return i >= 0 && id[i] >= '0' && id[i] <= '9' }
	i := len(id)
	for i > 0 && (digit(i-1) || id[i-1] == '/' || id[i-1] == '.' || id[i-1] == '-' && i < len(id) && digit(i) && digit(i-2)) {
		i--
	}
	return i
}
