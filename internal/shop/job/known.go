package job

import (
	"fmt"

	"dropleg/engine/document"
	"dropleg/internal/shop/catalog"
)

// shelves asks the catalogue, each row once: rows are large and a job names few.
type shelves struct {
	cat   *catalog.Catalog
	kinds map[string]*catalog.Kind // nil for one that is not there
	lines map[[2]string][]issue    // stock and size → what is wrong with them
}

// shelve lays the job's own rows over the catalogue.
func (v *validator) shelve(cat *catalog.Catalog) *shelves {
	full, problems := cat.With(v.job.Catalogue)
	for _, p := range problems {
		p.Path = "catalogue." + p.Path
		v.note("own-row", Fault, p)
	}
	return &shelves{cat: full, kinds: map[string]*catalog.Kind{}, lines: map[[2]string][]issue{}}
}

// kind is a kind of part, or nil.
func (k *shelves) kind(name string) *catalog.Kind {
	have, asked := k.kinds[name]
	if !asked {
		if row, ok := k.cat.Kind(name); ok {
			have = &row
		}
		k.kinds[name] = have
	}
	return have
}

// unknown is a name that a shelf does not have.
func unknown(code, key, read, want, near string) issue {
	return issue{code: code, severity: Fault, key: key, read: fmt.Sprintf("%q", brief(read)), want: want, nearest: near}
}

// inspect checks what a thing takes from the catalogue.
func (k *shelves) inspect(t any) []issue {
	switch t := t.(type) {
	case *Point:
		return k.part(&t.Part, "part.")
	case *Run:
		return k.line(t)
	case *Outlet:
		var out []issue
		for i := range t.Hang {
			out = append(out, k.part(&t.Hang[i], fmt.Sprintf("hang[%d].", i))...)
		}
		if h := t.Hose; h != nil {
			if _, ok := k.cat.Hose(h.Item); !ok {
				out = append(out, unknown("unknown-hose", "hose.item", h.Item, "a hose of the catalogue", k.cat.Nearest(catalog.Hoses, h.Item)))
			}
			out = append(out, k.coupler("hose.plug", h.Plug)...)
			out = append(out, k.coupler("hose.socket", h.Socket)...)
		}
		return out
	case *Tool:
		out := k.coupler("plug", t.Plug)
		if t.Item == "" {
			return out
		}
		if _, ok := k.cat.Tool(t.Item); !ok {
			out = append(out, unknown("unknown-tool", "item", t.Item, "a class of tool of the catalogue", k.cat.Nearest(catalog.Tools, t.Item)))
		}
		return out
	}
	return nil
}

func (k *shelves) coupler(key, name string) []issue {
	if name == "" {
		return nil
	}
	if _, ok := k.cat.Coupler(name); ok {
		return nil
	}
	return []issue{unknown("unknown-coupler", key, name, "a coupler of the catalogue", k.cat.Nearest(catalog.Couplers, name))}
}

// line checks stock and size of a run, remembering the answer.
func (k *shelves) line(r *Run) []issue {
	key := [2]string{r.Stock, r.Size}
	if known, asked := k.lines[key]; asked {
		return known
	}
	var out []issue
	stock, ok := k.cat.Stock(r.Stock)
	if !ok {
		out = append(out, unknown("unknown-stock", "stock", r.Stock, "a stock of the catalogue", k.cat.Nearest(catalog.Stocks, r.Stock)))
	} else if _, ok := k.cat.Size(r.Stock, r.Size); !ok {
		sizes := make([]string, 0, len(stock.Sizes))
		for _, s := range stock.Sizes {
			sizes = append(sizes, s.Size)
		}
		out = append(out, unknown("unknown-size", "size", r.Size, "a size of "+stock.Stock+": "+listed(sizes), nearestSize(r.Size, sizes)))
	}
	k.lines[key] = out
	return out
}

// part checks kind and item of a part, and what its kind needs stated.
func (k *shelves) part(p *Part, prefix string) []issue {
	kind := k.kind(p.Kind)
	if kind == nil {
		return []issue{unknown("unknown-kind", prefix+"kind", p.Kind, "a kind of the catalogue", k.cat.Nearest(catalog.Kinds, p.Kind))}
	}
	if p.Item != "" {
		return k.item(p.Item, kind, prefix+"item")
	}
	var out []issue
	for _, need := range kind.Needs {
		if _, stated, _ := document.Get(p, need); !stated {
			out = append(out, issue{code: "figure-missing", severity: Caution, key: prefix + need, read: "nothing", want: "the figure, or an item of the catalogue that has it; until then it is assumed"})
		}
	}
	return out
}

// item checks that one of the shelves that can fill in a part has the row.
func (k *shelves) item(item string, kind *catalog.Kind, key string) []issue {
	_, coupler := k.cat.Coupler(item)
	_, machine := k.cat.Machine(item)
	_, treat := k.cat.Treat(item)
	if coupler || machine || treat {
		return nil
	}
	near := ""
	for _, shelf := range []string{catalog.Treatments, catalog.Machines, catalog.Couplers} {
		if near = k.cat.Nearest(shelf, item); near != "" {
			break
		}
	}
	return []issue{unknown("unknown-item", key, item, "a row of the catalogue that fills in a "+kind.Words["en"], near)}
}
