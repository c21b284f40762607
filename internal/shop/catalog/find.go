package catalog

import (
	"slices"
	"strings"

	"dropleg/engine/unit"
)

// Shelves lists the shelves that have ids.
func Shelves() []string {
	return []string{Kinds, Joints, Stocks, Couplers, Hoses, Tools, Machines, Treatments, Threads, TakeOuts, Materials}
}

// IDs lists the ids of a shelf, sorted; none for an unknown shelf.
func (c *Catalog) IDs(shelf string) []string { return c.shelf.ids(shelf) }

// Origin says whose row it is; "" where there is none.
func (c *Catalog) Origin(shelf, id string) Origin {
	if from, ok := c.origin[shelf][id]; ok {
		return from
	}
	if _, ok := c.index[shelf][id]; ok {
		return BuiltIn
	}
	return ""
}

// Nearest is the id of the shelf nearest to a word that has none; "" if none is near.
func (c *Catalog) Nearest(shelf, word string) string {
	if id := fold(word); id != word {
		if _, ok := c.index[shelf][id]; ok {
			return id
		}
	}
	return unit.Nearest(word, c.IDs(shelf))
}

// fold writes a word as ids are written: "copper_L" is "copper-l".
func fold(word string) string {
	return strings.ToLower(strings.Join(strings.FieldsFunc(word, func(r rune) bool { return r == '_' || r == ' ' }), "-"))
}

// Kind finds a kind of part; "" is the plain place on a line.
func (c *Catalog) Kind(id string) (Kind, bool) {
	if id == "" {
		id = plainPlace
	}
	return pick(c.index[Kinds], c.shelf.Kinds, id)
}

// plainPlace is the kind of a point that names none.
const plainPlace = "joint"

// Joint finds a way of joining.
func (c *Catalog) Joint(id string) (Joint, bool) { return pick(c.index[Joints], c.shelf.Joints, id) }

// JointAt is the way of joining at a port: of the stock where the port says so.
// joining is the one chosen for the stock; "" is its usual one.
func (c *Catalog) JointAt(p Port, s Stock, joining string) (Joint, bool) {
	switch p.Joint {
	case "stock":
		if joining == "" && len(s.Joining) > 0 {
			joining = s.Joining[0]
		}
		return c.Joint(joining)
	case "thread-female", "thread-male":
		return c.Joint("thread")
	case "plug":
		return c.Joint("socket")
	}
	return c.Joint(p.Joint)
}

// Stock finds a stock, also by its name as in tables ("copper_L") and by another
// name of it.
func (c *Catalog) Stock(id string) (Stock, bool) {
	for _, word := range []string{id, fold(id), c.alias[Stocks][fold(id)]} {
		if s, ok := pick(c.index[Stocks], c.shelf.Stocks, word); ok {
			return s, true
		}
	}
	return Stock{}, false
}

// Size finds a size of a stock by any of its names.
func (c *Catalog) Size(stock, size string) (Size, bool) {
	s, ok := c.Stock(stock)
	if !ok {
		return Size{}, false
	}
	return s.Size(size)
}

// Coupler finds a profile and size, also by another name of it.
func (c *Catalog) Coupler(id string) (Coupler, bool) {
	return pick(c.index[Couplers], c.shelf.Couplers, c.couplerID(id))
}

func (c *Catalog) couplerID(id string) string {
	if other, ok := c.alias[Couplers][id]; ok {
		return other
	}
	return id
}

// Hose finds a hose.
func (c *Catalog) Hose(id string) (Hose, bool) { return pick(c.index[Hoses], c.shelf.Hoses, id) }

// HoseLine lists the hoses that go by one name together, by size; none where no
// hose goes by it.
func (c *Catalog) HoseLine(name string) []Hose {
	var sizes []Hose
	for _, h := range c.shelf.Hoses {
		if h.Line != "" && h.Line == fold(name) {
			sizes = append(sizes, h)
		}
	}
	return sizes
}

// Tool finds a class of tool.
func (c *Catalog) Tool(id string) (Tool, bool) { return pick(c.index[Tools], c.shelf.Tools, id) }

// Machine finds a class of compressor.
func (c *Catalog) Machine(id string) (Machine, bool) {
	return pick(c.index[Machines], c.shelf.Machines, id)
}

// Treat finds a class of treatment part.
func (c *Catalog) Treat(id string) (Treat, bool) {
	return pick(c.index[Treatments], c.shelf.Treatment, id)
}

// Thread finds a thread by kind ("npt", "r") and size, in any case and spelling.
func (c *Catalog) Thread(kind, size string) (Thread, bool) {
	return pick(c.index[Threads], c.shelf.Threads, strings.ToLower(kind)+" "+bare(size))
}

// Material finds a material.
func (c *Catalog) Material(id string) (Material, bool) {
	return pick(c.index[Materials], c.shelf.Materials, id)
}

// Kinds lists the kinds, sorted by id, as do its sisters below.
func (c *Catalog) Kinds() []Kind { return slices.Clone(c.shelf.Kinds) }

// Joints lists the ways of joining.
func (c *Catalog) Joints() []Joint { return slices.Clone(c.shelf.Joints) }

// Stocks lists the stocks.
func (c *Catalog) Stocks() []Stock { return slices.Clone(c.shelf.Stocks) }

// Couplers lists the coupler profiles by size.
func (c *Catalog) Couplers() []Coupler { return slices.Clone(c.shelf.Couplers) }

// Hoses lists the hoses.
func (c *Catalog) Hoses() []Hose { return slices.Clone(c.shelf.Hoses) }

// Tools lists the classes of tool.
func (c *Catalog) Tools() []Tool { return slices.Clone(c.shelf.Tools) }

// Machines lists the classes of compressor.
func (c *Catalog) Machines() []Machine { return slices.Clone(c.shelf.Machines) }

// Treatment lists the classes of treatment part.
func (c *Catalog) Treatment() []Treat { return slices.Clone(c.shelf.Treatment) }

// Threads lists the threads.
func (c *Catalog) Threads() []Thread { return slices.Clone(c.shelf.Threads) }

// Materials lists the materials.
func (c *Catalog) Materials() []Material { return slices.Clone(c.shelf.Materials) }

func pick[T any](index map[string]int, rows []T, id string) (row T, ok bool) {
	i, ok := index[id]
	if !ok {
		return row, false
	}
	return rows[i], true
}

// Has says whether the kind has the role.
func (k Kind) Has(r Role) bool { return slices.Contains(k.Roles, r) }

// StraightOn is the turn, in degrees, that a line follows without a fitting: the give of a
// joint. Common practice, no source.
const StraightOn = 10.0

// InLine says whether the kind is set into a line by the line's own joints, one at each end.
func (k Kind) InLine() bool {
	return len(k.Ports) == 2 && k.Ports[0].Joint == "stock" && k.Ports[1].Joint == "stock"
}

// Port finds a port by its id; "" finds the only one, or the first.
func (k Kind) Port(id string) (Port, bool) {
	for _, p := range k.Ports {
		if p.ID == id || id == "" {
			return p, true
		}
	}
	return Port{}, false
}

// Name is the kind's name in a language, in English where there is none.
func (k Kind) Name(language string) string {
	if w, ok := k.Words[language]; ok {
		return w
	}
	return k.Words["en"]
}

// Names is the kind's name for several of it.
func (k Kind) Names(language string) string {
	if w, ok := k.Plural[language]; ok {
		return w
	}
	return k.Name(language) + "s"
}
