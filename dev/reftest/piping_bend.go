package reftest

import (
	"fmt"

	"dropleg/internal/shop/catalog"
)

// leastRadius holds a row of bend_radius.csv on every stock that it speaks of.
func leastRadius(r Row) ([]Figure, error) {
	stocks := map[string][]string{
		"copper K,L,M drawn": {"copper-k", "copper-l", "copper-m"}, "copper K,L drawn": {"copper-k", "copper-l"},
		"nylon_metric": {"nylon-metric"}, "nylon_metric soft": {"nylon-metric"},
		"pe_al_pe": {"pe-al-pe"}, "hdpe sdr11": {"hdpe-sdr11"},
	}[r.Cell["stock"]]
	switch {
	case r.Cell["stock"] == "hose_rubber":
		h, ok := catalog.Builtin().Hose("rubber-" + r.Cell["size"])
		if !ok {
			return nil, fmt.Errorf("no rubber hose %s", r.Cell["size"])
		}
		return []Figure{figure("", r.Num("value_mm"), 1e3*float64(h.Radius), copied, "mm")}, nil
	case stocks == nil:
		return nil, unused("no stock of the shelf is bent so: annealed copper and bare steel tube are not on it, aluminium is not bent")
	case r.Unit == "x OD":
		return radiusByDiameter(r, stocks[0])
	}
	var figures []Figure
	for _, id := range stocks {
		s, z, err := sizeOf(id, r.Cell["size"])
		if err == nil {
			figures = append(figures, figure(id, r.Num("value_mm"), 1e3*float64(s.LeastRadius(z)), copied, "mm"))
		}
	}
	if len(figures) == 0 {
		return nil, unused("the size is not on the shelf")
	}
	return figures, nil
}

// radiusByDiameter holds every size of a stock whose radius is so many diameters.
func radiusByDiameter(r Row, id string) ([]Figure, error) {
	s, ok := catalog.Builtin().Stock(id)
	if !ok {
		return nil, fmt.Errorf("no stock %q", id)
	}
	var figures []Figure
	for _, z := range s.Sizes {
		figures = append(figures, figure(z.Size, r.Want, float64(s.LeastRadius(z)/z.Outside), copied, "1"))
	}
	return figures, nil
}
