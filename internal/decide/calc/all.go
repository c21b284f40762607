package calc

import (
	"slices"
	"sync"

	"dropleg/engine/air"
	"dropleg/engine/element"
	"dropleg/engine/formula"
	"dropleg/engine/solid"
	"dropleg/engine/unit"
	"dropleg/engine/vessel"
	"dropleg/internal/shop/catalog"
)

// All lists every formula, in the order in which they are told: flow, air,
// vessels, lines.
func All() []formula.Formula { return slices.Clone(all()) }

// all is built once: some formulas carry the catalogue's words.
var all = sync.OnceValue(func() []formula.Formula {
	return slices.Concat(
		element.Formulas(), air.Formulas(), vessel.Formulas(), solid.Formulas(materials()), catalog.Formulas(),
	)
})

// Find is the formula of that name.
func Find(name string) (formula.Formula, bool) {
	for _, f := range all() {
		if f.Name == name {
			return f, true
		}
	}
	return formula.Formula{}, false
}

// Nearest is the name nearest to a word, "" if none is near.
func Nearest(word string) string { return unit.Nearest(word, Names()) }

// Names lists the names in the order of All.
func Names() []string {
	var names []string
	for _, f := range all() {
		names = append(names, f.Name)
	}
	return names
}

// materials are those of the catalogue, as growth takes them.
func materials() []solid.Material {
	var all []solid.Material
	for _, row := range catalog.Builtin().Materials() {
		m := solid.Material{Name: row.Material, Alpha: unit.Expansion(row.Alpha.Value)}
		if row.Leg != nil {
			m.Leg = row.Leg.Value
		}
		if row.Modulus != nil {
			m.Modulus = unit.Stress(row.Modulus.Value)
		}
		all = append(all, m)
	}
	return all
}
