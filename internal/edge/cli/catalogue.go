package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
)

// shelf is one shelf of the built-in catalogue: what it is called for people, its
// rows as they are, and each row in a line.
type shelf struct {
	name, title string
	rows        func(*catalog.Catalog) any
	lines       func(*catalog.Catalog) [][2]string
}

// shelves lists what can be looked up, in the order of a shop's needs.
func shelves() []shelf {
	return []shelf{
		{catalog.Stocks, "what lines are made of", func(c *catalog.Catalog) any { return c.Stocks() }, stockLines},
		{catalog.Kinds, "kinds of parts", func(c *catalog.Catalog) any { return c.Kinds() }, func(c *catalog.Catalog) [][2]string {
			return lined(c.Kinds(), func(k catalog.Kind) (string, string) { return k.Kind, k.Name("en") + ", " + string(k.Group) })
		}},
		{catalog.Couplers, "quick couplers by profile and size", func(c *catalog.Catalog) any { return c.Couplers() }, func(c *catalog.Catalog) [][2]string {
			return lined(c.Couplers(), func(k catalog.Coupler) (string, string) { return k.Coupler, k.Words })
		}},
		{catalog.Hoses, "hoses", func(c *catalog.Catalog) any { return c.Hoses() }, func(c *catalog.Catalog) [][2]string {
			return lined(c.Hoses(), func(h catalog.Hose) (string, string) { return h.Hose, h.Words })
		}},
		{catalog.Tools, "typical tools", func(c *catalog.Catalog) any { return c.Tools() }, func(c *catalog.Catalog) [][2]string {
			return lined(c.Tools(), func(t catalog.Tool) (string, string) { return t.Tool, t.Words })
		}},
		{catalog.Machines, "classes of compressor", func(c *catalog.Catalog) any { return c.Machines() }, func(c *catalog.Catalog) [][2]string {
			return lined(c.Machines(), func(m catalog.Machine) (string, string) { return m.Machine, m.Words })
		}},
		{catalog.Treatments, "filters, dryers, regulators and their like", func(c *catalog.Catalog) any { return c.Treatment() }, func(c *catalog.Catalog) [][2]string {
			return lined(c.Treatment(), func(t catalog.Treat) (string, string) { return t.Item, t.Words })
		}},
		{catalog.Materials, "materials", func(c *catalog.Catalog) any { return c.Materials() }, func(c *catalog.Catalog) [][2]string {
			return lined(c.Materials(), func(m catalog.Material) (string, string) { return m.Material, m.Note })
		}},
	}
}

func lined[T any](rows []T, line func(T) (id, words string)) [][2]string {
	var all [][2]string
	for _, r := range rows {
		id, words := line(r)
		all = append(all, [2]string{id, words})
	}
	return all
}

func stockLines(c *catalog.Catalog) [][2]string {
	return lined(c.Stocks(), func(s catalog.Stock) (string, string) {
		words := s.Words
		if s.FitForAir == "no" {
			words += ", NOT for compressed air"
		}
		return s.Stock, words + ": " + strings.Join(s.Names(), ", ")
	})
}

// catalogue lists a shelf of the built-in catalogue, for the ids of a job file.
func (c *call) catalogue() *cobra.Command {
	var names []string
	for _, s := range shelves() {
		names = append(names, s.name)
	}
	return &cobra.Command{
		Use:       "catalogue [SHELF]",
		Short:     "the built-in catalogue: the ids that a job file may name",
		Long:      "Without SHELF it lists the shelves. With --json the rows as they are, each with its source.",
		Example:   "  dropleg catalogue couplers",
		Args:      words(0, 1, "the name of one shelf, or none for a list"),
		ValidArgs: names,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return c.listShelves()
			}
			for _, s := range shelves() {
				if s.name == args[0] {
					return c.listShelf(s)
				}
			}
			return &badInput{"catalogue", []document.Problem{{
				Read: quote(args[0]), Want: "one of " + strings.Join(names, ", "), Nearest: unit.Nearest(args[0], names),
			}}}
		},
	}
}

// shelfRow is one shelf in the list of --json.
type shelfRow struct {
	Shelf string `json:"shelf"`
	Title string `json:"title"`
	Rows  int    `json:"rows"`
}

func (c *call) listShelves() error {
	rows := []shelfRow{}
	for _, s := range shelves() {
		rows = append(rows, shelfRow{s.name, s.title, len(catalog.Builtin().IDs(s.name))})
	}
	if c.json {
		return c.writeJSON(rows)
	}
	p := c.paper()
	for _, r := range rows {
		p.line(fmt.Sprintf("  %-10s %3d  %s", r.Shelf, r.Rows, r.Title))
	}
	return c.writeAll(p.bytes())
}

func (c *call) listShelf(s shelf) error {
	if c.json {
		return c.writeJSON(s.rows(catalog.Builtin()))
	}
	p := c.paper()
	lines := s.lines(catalog.Builtin())
	wide := 0
	for _, l := range lines {
		wide = max(wide, width(l[0]))
	}
	for _, l := range lines {
		p.wrapped("  "+pad(l[0], wide+2), pad("", wide+4), l[1])
	}
	return c.writeAll(p.bytes())
}
