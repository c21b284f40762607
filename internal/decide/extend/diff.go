package extend

import (
	"cmp"
	"slices"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Grow is one sort of thing that stands, and what of it comes out otherwise; nothing where it
// is enough as it is.
type Grow struct {
	What    string   `json:"what"` // "main", "drop leg", "hose", "compressor", "receiver", "dryer", "filter", "regulator"
	Changes []Change `json:"changes"`
}

// Change is one thing that stands and comes out otherwise.
type Change struct {
	ID   job.ID `json:"id"`
	From string `json:"from"` // "" where it is new
	To   string `json:"to"`
}

// Supply is the sort of compressors.
const Supply = "compressor"

// sorts are those that are always told of, enough or not, in their order.
func sorts() []string {
	return []string{"main", "drop leg", "hose", Supply, "receiver", "dryer", "filter", "regulator"}
}

// compare lists what stands and comes out otherwise, sort by sort.
func compare(before, after *job.Index, shelf *catalog.Catalog, system unit.System) []Grow {
	c := comparison{shelf: shelf, system: system, by: map[string][]Change{}}
	for i := range before.Job().Net.Runs {
		was := &before.Job().Net.Runs[i]
		if is := after.Run(was.ID); is != nil && (is.Size != was.Size || is.Stock != was.Stock) {
			c.note(lineSort(was), was.ID, was.Stock+" "+parts.SizeWords(was.Size), is.Stock+" "+parts.SizeWords(is.Size))
		}
	}
	for i := range before.Job().Net.Points {
		was := &before.Job().Net.Points[i]
		if is := after.Point(was.ID); is != nil {
			c.part(was.ID, &was.Part, &is.Part)
		}
	}
	for i := range before.Job().Outlets {
		was := &before.Job().Outlets[i]
		is := after.Outlet(was.ID)
		if is == nil {
			continue
		}
		if was.Hose != nil && is.Hose != nil && was.Hose.Item != is.Hose.Item {
			c.note("hose", was.ID, was.Hose.Item, is.Hose.Item)
		}
		for k := range was.Hang {
			if k < len(is.Hang) && was.Hang[k].ID == is.Hang[k].ID {
				c.part(was.ID, &was.Hang[k], &is.Hang[k])
			}
		}
	}
	c.second(before, after)
	var out []Grow
	for _, s := range sorts() {
		out = append(out, Grow{s, slices.Clone(c.by[s])})
	}
	return out
}

// comparison gathers changes by sort.
type comparison struct {
	shelf  *catalog.Catalog
	system unit.System
	by     map[string][]Change
}

func (c *comparison) note(what string, id job.ID, from, to string) {
	c.by[what] = append(c.by[what], Change{id, from, to})
}

// second notes compressors that come beside those that stand, with the band that they are set to.
func (c *comparison) second(before, after *job.Index) {
	for i := range after.Job().Net.Points {
		p := &after.Job().Net.Points[i]
		if k, ok := c.shelf.Kind(p.Part.Kind); ok && k.Has(catalog.Supplies) && before.Point(p.ID) == nil {
			c.note(Supply, p.ID, "", c.words(k, &p.Part))
		}
	}
}

func lineSort(r *job.Run) string {
	if r.Role == "drop" || r.Role == "drip" {
		return "drop leg"
	}
	return "main"
}

// part compares one part of plant or treatment.
func (c *comparison) part(id job.ID, was, is *job.Part) {
	k, ok := c.shelf.Kind(was.Kind)
	if !ok {
		return
	}
	what := ""
	for _, s := range []struct {
		role catalog.Role
		what string
	}{
		{catalog.Supplies, Supply},
		{catalog.Stores, "receiver"},
		{catalog.Regulates, "regulator"},
		{catalog.Dries, "dryer"},
		{catalog.Filters, "filter"},
		{catalog.DeOils, "filter"},
	} {
		if what == "" && k.Has(s.role) {
			what = s.what
		}
	}
	if what == "" {
		return
	}
	from, to := c.words(k, was), c.words(k, is)
	if from != to {
		c.note(what, id, from, to)
	}
}

// words is a part by what of it may grow.
func (c *comparison) words(k catalog.Kind, p *job.Part) string {
	s := cmp.Or(p.Item, k.Words["en"])
	if m, ok := c.shelf.Machine(p.Item); ok {
		s = m.Words
	} else if t, ok := c.shelf.Treat(p.Item); ok {
		s = t.Words
	}
	if p.Volume != nil {
		s += " " + c.system.Text(unit.KindVolume, float64(*p.Volume), unit.Env{})
	}
	if p.Set != nil {
		s += " set to " + c.system.Text(unit.KindGauge, float64(*p.Set), unit.Env{})
	}
	if plate := p.Compressor; plate != nil {
		if plate.FreeAir != nil && p.Item == "" {
			s += " of " + c.system.Text(unit.KindFlow, plate.FreeAir.Value, unit.Env{})
		}
		if plate.CutIn != nil && plate.CutOut != nil {
			s += ", " + band(*plate.CutIn, *plate.CutOut, c.system)
		}
	}
	return s
}

// fresh are the lines of a job that do not run where one ran before: a line that was cut for a
// tee is none of them.
func fresh(before, after *job.Index) []job.ID {
	const same = 0.001 // m: the piece between a tee and its valve is a few centimetres
	var out []job.ID
	for i := range after.Job().Net.Runs {
		r := &after.Job().Net.Runs[i]
		if before.Run(r.ID) != nil {
			continue
		}
		way := after.Centreline(r)
		mid, _, ok := geom.OnPath(way, geom.Length(way)/2)
		old := ok && slices.ContainsFunc(before.Job().Net.Runs, func(was job.Run) bool {
			hit, near := geom.NearestOnPath(mid, before.Centreline(&was))
			return near && hit.Distance < same
		})
		if !old {
			out = append(out, r.ID)
		}
	}
	return out
}
