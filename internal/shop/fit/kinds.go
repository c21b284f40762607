package fit

import (
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
)

// Kinds are chosen from the catalogue by what they do and by their ports. Of
// several that would serve, the one with the greater loss in the tables is the
// ordinary fitting (the elbow and not the sweep), as the take-off takes it too.

// byStock says whether every port of a kind is joined as the line's stock is.
func byStock(k catalog.Kind) bool {
	return len(k.Ports) > 0 && !slices.ContainsFunc(k.Ports, func(p catalog.Port) bool { return p.Joint != "stock" })
}

// shaped says whether the lines that meet decide on a fitting of this kind: it
// turns, branches, ends or joins lines and does nothing else.
func shaped(k catalog.Kind) bool {
	if k.Group != catalog.Fitting || !byStock(k) || k.FixesTo != "" {
		return false
	}
	return !slices.ContainsFunc(k.Roles, func(r catalog.Role) bool {
		return r != catalog.Turns && r != catalog.Branches && r != catalog.Ends
	})
}

// steps says whether a kind joins two sizes in line.
func steps(k catalog.Kind) bool {
	return len(k.Ports) == 2 && !k.Has(catalog.Turns) && (k.Ports[0].Size != "") != (k.Ports[1].Size != "")
}

// turnOf is by how many degrees a fitting with two ports turns the air.
func turnOf(k catalog.Kind) float64 {
	if len(k.Ports) != 2 {
		return 0
	}
	return degrees(math.Pi - geom.Angle(k.Ports[0].Toward, k.Ports[1].Toward))
}

func degrees(rad float64) float64 { return rad * 180 / math.Pi }

// loss ranks kinds of one shape.
func loss(k catalog.Kind) float64 {
	switch {
	case k.Law.LeOverD != nil:
		return *k.Law.LeOverD
	case k.Law.K != nil:
		return *k.Law.K
	}
	return 0
}

// pick is the kind that serves and is the ordinary one.
func (s *sketch) pick(serves func(catalog.Kind) bool) (best catalog.Kind, ok bool) {
	for _, k := range s.shelf.Kinds() {
		if serves(k) && (!ok || loss(k) > loss(best)) {
			best, ok = k, true
		}
	}
	return best, ok
}

// plain is the place where a line ends loose or goes on without a part.
func (s *sketch) plain() catalog.Kind {
	k, _ := s.shelf.Kind("")
	return k
}

// coupling joins two ends in line that are not of one stock.
func (s *sketch) coupling() (catalog.Kind, bool) {
	return s.pick(func(k catalog.Kind) bool {
		return shaped(k) && len(k.Roles) == 0 && len(k.Ports) == 2 && !steps(k) && k.Kind != s.plain().Kind
	})
}

// reducer joins two sizes in line.
func (s *sketch) reducer() (catalog.Kind, bool) {
	return s.pick(func(k catalog.Kind) bool { return shaped(k) && len(k.Roles) == 0 && steps(k) })
}

// end closes a line.
func (s *sketch) end() (catalog.Kind, bool) {
	return s.pick(func(k catalog.Kind) bool { return shaped(k) && k.Has(catalog.Ends) && len(k.Ports) == 1 })
}

// branching joins n lines, two of them in line.
func (s *sketch) branching(n int) (catalog.Kind, bool) {
	return s.pick(func(k catalog.Kind) bool { return shaped(k) && k.Has(catalog.Branches) && len(k.Ports) == n })
}

// isolating is the ordinary valve: of those that only isolate and open fully, the one
// with the least loss.
func (s *sketch) isolating() (best catalog.Kind, ok bool) {
	for _, k := range s.shelf.Kinds() {
		if k.Group == catalog.Valve && byStock(k) && len(k.Ports) == 2 && len(k.Roles) == 1 && k.Has(catalog.Isolates) && (!ok || loss(k) < loss(best)) {
			best, ok = k, true
		}
	}
	return best, ok
}

// elbow is the fitting that turns most nearly by an angle in degrees and by how
// much it misses. swept asks for the gentle one.
func (s *sketch) elbow(turn float64, swept bool) (best catalog.Kind, off float64, ok bool) {
	off = math.Inf(1)
	for _, k := range s.shelf.Kinds() {
		if !shaped(k) || !k.Has(catalog.Turns) || len(k.Ports) != 2 {
			continue
		}
		miss := math.Abs(turnOf(k) - turn)
		better := loss(k) > loss(best)
		if swept {
			better = loss(k) < loss(best)
		}
		if miss < off-1 || miss < off+1 && better {
			best, off, ok = k, miss, true
		}
	}
	return best, off, ok
}

// The angles, in degrees, of the shop floor.
const (
	// straightOn is the turn that a line follows without a fitting, as the take-off counts.
	straightOn = catalog.StraightOn
	// give is by how much an elbow may miss the angle of the corner: what play in
	// joints and a fall of 1 in 100 ask for, and where the take-off stops to find an elbow.
	give = 15.0
)

// aside says whether a port is for something else than the line that passes.
func aside(p catalog.Port) bool { return p.ID == "drain" || p.ID == "relief" }

// Isolating is the ordinary valve of a catalogue for lines.
func Isolating(shelf *catalog.Catalog) (catalog.Kind, bool) {
	return (&sketch{shelf: shelf}).isolating()
}
