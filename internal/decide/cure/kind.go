package cure

import "dropleg/internal/shop/catalog"

// KindWith is the kind with a role that has the fewest other roles and the number
// of ports asked for; of equals the one that loses least, then the first by id.
func KindWith(shelf *catalog.Catalog, r catalog.Role, ports int) (catalog.Kind, bool) {
	var best catalog.Kind
	for _, k := range shelf.Kinds() {
		if !k.Has(r) || len(k.Ports) != ports {
			continue
		}
		if best.Kind == "" || len(k.Roles) < len(best.Roles) || len(k.Roles) == len(best.Roles) && lossOf(k) < lossOf(best) {
			best = k
		}
	}
	return best, best.Kind != ""
}

// lossOf orders kinds of one role: those that lose less come first.
func lossOf(k catalog.Kind) float64 {
	if k.Law.LeOverD != nil {
		return *k.Law.LeOverD
	}
	return 0
}
