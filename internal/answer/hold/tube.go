package hold

import (
	"dropleg/engine/cite"
	"dropleg/engine/solid"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
)

// tube is a stock in one size, with what holding it takes.
type tube struct {
	stock    catalog.Stock
	size     catalog.Size
	known    bool // both of the catalogue
	od, wall unit.Length
	material solid.Material
	alpha    bool    // its expansion is known
	constant float64 // of its legs; 0: not known
	legRef   cite.Ref
	level    Spacing // of horizontal line
	upright  Spacing
	sweeps   bool // corners are bent in the line
	radius   unit.Length
	unknown  []string
}

// tubeOf reads a stock and size, each once.
func (s *shop) tubeOf(stock, size string) *tube {
	key := [2]string{stock, size}
	if t := s.tubes[key]; t != nil {
		return t
	}
	t := &tube{}
	s.tubes[key] = t
	row, ok := s.shelf.Stock(stock)
	if !ok {
		t.unknown = []string{"stock"}
		return t
	}
	t.stock, t.sweeps = row, row.Corners == "sweep"
	if t.size, t.known = row.Size(size); !t.known {
		t.unknown = []string{"size"}
		return t
	}
	t.od, t.wall = t.size.Outside, t.size.Wall
	t.radius = row.LeastRadius(t.size)
	if t.sweeps && t.radius == 0 {
		t.unknown = append(t.unknown, "radius")
	}
	origin := s.shelf.Origin(catalog.Stocks, row.Stock)
	t.level, t.upright = t.spacing("horizontal", origin), t.spacing("vertical", origin)
	if !t.level.Known {
		t.unknown = append(t.unknown, "spacing")
	}
	s.readMaterial(t)
	return t
}

// spacing is the figure of the catalogue, with that of common practice beside it.
func (t *tube) spacing(direction string, from catalog.Origin) Spacing {
	row, ok := t.size.Spaced(direction)
	if !ok || !(row.Distance > 0) {
		return Spacing{}
	}
	s := Spacing{Known: true, Distance: row.Distance, Own: from == catalog.Own || from == catalog.Replaces, Ref: row.Ref}
	for i := range practice {
		if p := &practice[i]; p.material == t.stock.Material && p.size == t.size.Size && direction == "horizontal" {
			s.Practice = &p.rule
		}
	}
	return s
}

// readMaterial fills in how the tube grows and bends.
func (s *shop) readMaterial(t *tube) {
	m, ok := s.shelf.Material(t.stock.Material)
	if !ok {
		t.unknown = append(t.unknown, "material")
		return
	}
	t.material = solid.Material{Name: m.Material, Alpha: unit.Expansion(m.Alpha.Value)}
	t.alpha = true
	if m.Modulus != nil {
		t.material.Modulus = unit.Stress(m.Modulus.Value)
	} else {
		t.unknown = append(t.unknown, "modulus")
	}
	switch {
	case m.Leg != nil:
		t.constant, t.legRef = m.Leg.Value, m.Leg.Ref
	case m.Stress > 0 && m.Modulus != nil:
		if c, err := solid.LegConstant(t.material.Modulus, m.Stress); err == nil {
			t.constant, t.legRef = c, cite.Ref{Source: "leg-formula", Place: "sqrt(3 E/S)", How: cite.Computed}
		}
	default:
		t.unknown = append(t.unknown, "leg_constant")
	}
}

// leg is the leg that takes a growth up; ok is false where no constant is known.
func (t *tube) leg(growth float64) (leg float64, ok bool) {
	if t.constant == 0 {
		return 0, false
	}
	l, err := solid.Leg(t.constant, t.od, unit.Length(growth))
	return float64(l), err == nil
}
