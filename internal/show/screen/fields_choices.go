package screen

import (
	"slices"
	"strings"

	"dropleg/engine/document"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// choices lists what can be chosen at a place: words of the file, rows of the
// catalogue, things of the job. open says that other words are taken too.
func (s *Shop) choices(p *place) (list []Choice, open bool) {
	if len(p.Enum) > 0 {
		for _, w := range p.Enum {
			list = append(list, Choice{ID: w, Words: choiceWords(p.Key, w)})
		}
		return list, false
	}
	switch p.Of + "." + p.Key {
	case "Run.stock", "Rules.allowed_stocks":
		return s.stockChoices(), false
	case "Run.size":
		return s.sizeChoices(p.root.(*job.Run).Stock), false
	case "Part.size", "Part.branch_size":
		return s.partSizes(p), true
	case "Part.kind":
		return s.kindChoices(p), false
	case "Part.item":
		return s.itemChoices(p), false
	case "Hose.item":
		for _, h := range s.study.Catalog().Hoses() {
			list = append(list, Choice{ID: h.Hose, Words: h.Words})
		}
	case "Hose.plug", "Hose.socket", "Tool.plug":
		return s.couplerChoices(), false
	case "Tool.item":
		for _, t := range s.study.Catalog().Tools() {
			list = append(list, Choice{ID: t.Tool, Words: t.Words})
		}
	default:
		return s.thingChoices(p), false
	}
	return list, false
}

func (s *Shop) stockChoices() []Choice {
	var list []Choice
	for _, k := range s.study.Catalog().Stocks() {
		c := Choice{ID: k.Stock, Words: k.Words}
		switch k.FitForAir {
		case "no":
			c.Note = "not for air"
		case "limited":
			c.Note = "within limits"
		}
		list = append(list, c)
	}
	return list
}

func (s *Shop) sizeChoices(stock string) []Choice {
	var list []Choice
	if row, ok := s.study.Catalog().Stock(stock); ok {
		for _, z := range row.Sizes {
			list = append(list, Choice{ID: z.Size, Words: z.Size})
		}
	}
	return list
}

// partSizes are the sizes of the line at the part.
func (s *Shop) partSizes(p *place) []Choice {
	point := p.id
	if o := s.outletOf(p.id); o != nil {
		point = o.Point
	}
	for _, e := range s.index.Ends(point) {
		return s.sizeChoices(e.Run.Stock)
	}
	return nil
}

// outletOf is the outlet that an id names, or at which its part or hose hangs.
func (s *Shop) outletOf(id job.ID) *job.Outlet {
	for _, o := range []*job.Outlet{s.index.Outlet(id), s.index.OutletOfPart(id), s.index.OutletOfHose(id)} {
		if o != nil {
			return o
		}
	}
	return nil
}

// kindChoices are the kinds that have as many openings as the one that is there.
func (s *Shop) kindChoices(p *place) []Choice {
	var list []Choice
	for _, k := range s.study.Catalog().Kinds() {
		if p.sec.kind == nil || k.Kind == p.sec.kind.Kind || len(k.Ports) == len(p.sec.kind.Ports) && k.Group == p.sec.kind.Group {
			list = append(list, Choice{ID: k.Kind, Words: k.Name("en")})
		}
	}
	return list
}

// itemChoices are the rows that fill in a part of this kind.
func (s *Shop) itemChoices(p *place) []Choice {
	k := p.sec.kind
	if k == nil {
		return nil
	}
	var list []Choice
	for _, t := range s.study.Catalog().Treatment() {
		if t.Kind == k.Kind {
			list = append(list, Choice{ID: t.Item, Words: t.Words, Note: t.Size})
		}
	}
	if k.Has(catalog.Supplies) {
		for _, m := range s.study.Catalog().Machines() {
			list = append(list, Choice{ID: m.Machine, Words: m.Words})
		}
	}
	if k.Has(catalog.Couples) {
		list = append(list, s.couplerChoices()...)
	}
	return list
}

func (s *Shop) couplerChoices() []Choice {
	var list []Choice
	for _, c := range s.study.Catalog().Couplers() {
		list = append(list, Choice{ID: c.Coupler, Words: c.Words})
	}
	return list
}

// refWord is the kind of thing that a key names; "" for keys that name none.
func refWord(l document.Leaf) string {
	switch l.Key {
	case "zone", "wall", "point":
		return l.Key
	case "tools", "with", "not_with":
		return "tool"
	}
	return ""
}

// thingChoices are the things of the job that a place can name.
func (s *Shop) thingChoices(p *place) []Choice {
	word := refWord(p.Leaf)
	if word == "" {
		return nil
	}
	var list []Choice
	for _, t := range s.things() {
		if t.id.Word() == word && t.id != p.id {
			list = append(list, Choice{ID: string(t.id), Words: t.words})
		}
	}
	return list
}

// fixed says that a value is shown here and changed elsewhere: the ends of lines
// and the places of outlets are drawn, records stay as they are.
func (p *place) fixed() bool {
	switch {
	case p.id.Word() == "record":
		return true
	case p.Of == "End", p.Of == "Outlet" && (p.Key == "point" || p.Key == "port"), p.Of == "OnWall" && p.Key == "wall":
		return true
	case p.Of == "Underlay":
		return p.Key != "faint"
	}
	return false
}

// senseless are figures of a part that say nothing of a kind which does not want
// them. It is never written to.
var senseless = map[string]bool{
	"branch_size": true, "shut": true, "condition": true, "set_kPa_g": true, "rated_flow": true, "rated_at_kPa_g": true, "clean_kPa": true,
	"loaded_kPa": true, "found_kPa": true, "droop_kPa": true, "pressure_dew_point_C": true, "volume_L": true,
	"particle_class": true, "oil_class": true, "desiccant_kg": true,
}

// seldom says that a value is not one that a part of its kind is asked for.
func (p *place) seldom() bool {
	k := p.sec.kind
	if p.Of != "Part" || k == nil {
		if r, ok := p.root.(*job.Run); ok && p.Key == "length_m" {
			return r.Length == nil // the drawing tells it
		}
		if r, ok := p.root.(*job.Run); ok && p.Key == "roughness_mm" {
			return r.Wall == nil // the stock tells it
		}
		return strings.HasPrefix(p.Path, "from.") || strings.HasPrefix(p.Path, "to.") || p.Key == "port"
	}
	has := func(roles ...catalog.Role) bool {
		for _, r := range roles {
			if k.Has(r) {
				return true
			}
		}
		return false
	}
	roles, known := asksFor[p.Key]
	switch {
	case p.Key == "item", p.Key == "kind", p.Key == "note":
		return false
	case p.Key == "size":
		return has(catalog.Supplies, catalog.Stores)
	case p.Key == "branch_size":
		return !slices.ContainsFunc(k.Ports, func(port catalog.Port) bool { return port.Size == "branch" })
	case p.Key == "desiccant_kg" && has(catalog.Collects):
		return true
	case known:
		return !has(roles...)
	}
	return true
}

// asksFor is the roles of a part that a value is asked of. It is never written to.
var asksFor = map[string][]catalog.Role{
	"shut":                 {catalog.Isolates},
	"condition":            {catalog.Filters, catalog.DeOils},
	"loaded_kPa":           {catalog.Filters, catalog.DeOils},
	"found_kPa":            treating,
	"set_kPa_g":            {catalog.Regulates, catalog.Relieves, catalog.Checks},
	"rating_kPa_g":         {catalog.Stores, catalog.Relieves},
	"rated_flow":           treating,
	"rated_at_kPa_g":       treating,
	"clean_kPa":            treating,
	"C_m3_s_Pa":            {catalog.Couples},
	"b":                    {catalog.Couples},
	"droop_kPa":            {catalog.Regulates},
	"particle_class":       {catalog.Filters, catalog.DeOils},
	"oil_class":            {catalog.DeOils, catalog.Supplies},
	"desiccant_kg":         {catalog.Dries},
	"pressure_dew_point_C": {catalog.Dries},
	"volume_L":             {catalog.Stores},
}

// treating are the roles of what treats the air.
var treating = []catalog.Role{catalog.Filters, catalog.Dries, catalog.Separates, catalog.Cools, catalog.DeOils}
