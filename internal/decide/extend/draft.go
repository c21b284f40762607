package extend

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// draft is the job while things are added, and the edits so far.
type draft struct {
	study *study.Study
	edits []job.Edit
}

// take applies an edit.
func (d *draft) take(e job.Edit) error {
	after, err := d.study.After(e)
	if err != nil {
		return err
	}
	d.study, d.edits = after, append(d.edits, e)
	return nil
}

// do makes a gesture and gives the ids that it made.
func (d *draft) do(g fit.Gesture) ([]job.ID, error) {
	e, made, err := g.Edit(d.study.Index(), d.study.Catalog())
	if err != nil {
		return nil, err
	}
	return made, d.take(e)
}

// outlet adds the outlet with what hangs there and its tool; no line leads there yet.
func (d *draft) outlet(w *Wish) (job.ID, error) {
	kind, err := d.hangsAt()
	if err != nil {
		return "", err
	}
	made, err := d.do(&fit.Plant{Kind: kind, At: w.At, State: "planned"})
	if err != nil {
		return "", err
	}
	point := made[0]
	at, _ := d.study.Index().Where(d.study.Index().Point(point))
	like := d.like(w, at)
	mark := fit.NextMark(d.study.Job().Outlets)
	g := &fit.Compose{Point: point, Name: &w.Name, Mark: &mark}
	plug := ""
	if like != nil {
		g.Hang = slices.Clone(like.Hang)
		for i := range g.Hang {
			g.Hang[i].ID = ""
		}
		if like.Hose != nil {
			hose := fit.Hose(*like.Hose)
			hose.ID, plug = "", like.Hose.Socket
			g.Hose = &hose
		}
	}
	tool, err := d.tool(w, plug)
	if err != nil {
		return "", err
	}
	if tool != "" {
		g.Tools = []job.ID{tool}
		if w.Name == "" {
			w.Name = d.study.Index().Tool(tool).Name
		}
	}
	if w.Name == "" {
		w.Name = "For later"
	}
	if made, err = d.do(g); err != nil {
		return "", err
	}
	return made[0], nil
}

// hangsAt is the kind of fitting that most outlets of the job with two openings hang at, fixed
// to the wall; the first of the catalogue where there is none.
func (d *draft) hangsAt() (string, error) {
	n, best := map[string]int{}, ""
	ix, shelf := d.study.Index(), d.study.Catalog()
	fits := func(k catalog.Kind) bool { return k.Has(catalog.Outlets) && len(k.Ports) == 2 && k.FixesTo == "wall" }
	for i := range d.study.Job().Outlets {
		if p := ix.Point(d.study.Job().Outlets[i].Point); p != nil {
			if k, ok := shelf.Kind(p.Part.Kind); ok && fits(k) {
				if n[k.Kind]++; n[k.Kind] > n[best] {
					best = k.Kind
				}
			}
		}
	}
	for _, k := range shelf.Kinds() {
		if best == "" && fits(k) {
			best = k.Kind
		}
	}
	if best == "" {
		return "", refuse("no-fitting", "at", "the catalogue has no fitting for an outlet on a wall", "")
	}
	return best, nil
}

// like is the outlet whose parts the new one gets: as wished, else the nearest with a hose,
// else the nearest; nil for none.
func (d *draft) like(w *Wish, at geom.Point) *job.Outlet {
	ix := d.study.Index()
	if w.Like != "" {
		return ix.Outlet(w.Like)
	}
	var best *job.Outlet
	least := math.Inf(1)
	for i := range d.study.Job().Outlets {
		o := &d.study.Job().Outlets[i]
		p, ok := ix.Where(ix.Point(o.Point))
		if !ok || len(ix.Ends(o.Point)) == 0 {
			continue
		}
		far := p.Distance(at)
		if o.Hose == nil {
			far += 1e6
		}
		if far < least {
			best, least = o, far
		}
	}
	return best
}

// tool is the tool of the job, or a new one of a class of the catalogue with the plug that fits.
func (d *draft) tool(w *Wish, plug string) (job.ID, error) {
	if w.Tool == "" || d.study.Index().Tool(job.ID(w.Tool)) != nil {
		return job.ID(w.Tool), nil
	}
	row, _ := d.study.Catalog().Tool(w.Tool)
	thing := map[string]any{"name": capital(row.Words), "item": row.Tool}
	if plug != "" {
		thing["plug"] = plug
	}
	raw, err := json.Marshal(thing)
	if err != nil {
		return "", fmt.Errorf("writing the tool: %w", err)
	}
	made, err := d.do(&fit.Put{What: "tool", Thing: raw})
	if err != nil {
		return "", err
	}
	return made[0], nil
}
