package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// way is what the air passed from the sources to a place, by the design.
type way struct {
	all  map[int]float64 // element → mass flow, kg/s
	free map[int]bool    // those of them with no holding regulator between them and the place
	ends []int           // nodes in open connection with the place where air passes
	// regulator is one that holds the place while no air is drawn there; else "".
	regulator job.ID
}

// airways is an answer of the model laid out for following the air upstream.
type airways struct {
	c      *Case
	r      *model.Result
	at     [][]int      // links by node
	source map[int]bool // nodes where pressure is held
	least  float64      // flow below which a link counts as idle, kg/s
}

// idle is the share of the largest flow below which an element counts as idle.
const idle = 1e-6

func (c *Case) airways(r *model.Result) *airways {
	a := &airways{c: c, r: r, at: make([][]int, len(c.model.Nodes())), source: map[int]bool{}}
	for i := range c.model.Elements() {
		e := &c.model.Elements()[i]
		a.at[e.From], a.at[e.To] = append(a.at[e.From], i), append(a.at[e.To], i)
		a.least = math.Max(a.least, idle*math.Abs(float64(r.Flows[i].Mass)))
	}
	for _, s := range c.model.Sources() {
		a.source[s.Node] = true
	}
	return a
}

// into is the flow of a link towards a node; 0 of an idle one.
func (a *airways) into(l, node int) float64 {
	flow := float64(a.r.Flows[l].Mass)
	if a.c.model.Elements()[l].From == node {
		flow = -flow
	}
	if math.Abs(flow) <= a.least {
		return 0
	}
	return flow
}

// far is the other end of a link.
func (a *airways) far(l, node int) int {
	e := &a.c.model.Elements()[l]
	return e.From + e.To - node
}

// to follows the air upstream from a node. A place on an idle spur stands at the
// pressure of where the spur leaves, and has that place's way.
func (a *airways) to(node int) way {
	w := way{all: map[int]float64{}, free: map[int]bool{}}
	a.spur(&w, node)
	a.upstream(w.ends, func(l int, _ float64) bool {
		w.free[l] = true
		return !a.c.holds(a.r, l)
	})
	a.upstream(w.ends, func(l int, flow float64) bool {
		w.all[l] = flow
		return true
	})
	return w
}

// spur finds the nodes with air passing that a node is in open connection with
// by idle links, and a regulator that shuts it off from them.
func (a *airways) spur(w *way, node int) {
	queue := []int{node}
	for n := 0; n < len(queue); n++ {
		passes := false
		for _, l := range a.at[queue[n]] {
			switch f := &a.r.Flows[l]; {
			case a.into(l, queue[n]) != 0:
				passes = true
			case !f.Known:
			case float64(f.Loss) > 1: // holds a difference without flow
				if a.c.holds(a.r, l) {
					w.regulator = a.c.model.Elements()[l].ID
				}
			case !slices.Contains(queue, a.far(l, queue[n])):
				queue = append(queue, a.far(l, queue[n]))
			}
		}
		if passes && !a.source[queue[n]] {
			w.ends = append(w.ends, queue[n])
		}
	}
}

// upstream visits the links that bring air to the nodes, up to the sources or
// to where visit says that it is enough.
func (a *airways) upstream(ends []int, visit func(l int, flow float64) (on bool)) {
	queue := slices.Clone(ends)
	for n := 0; n < len(queue); n++ {
		if a.source[queue[n]] {
			continue
		}
		for _, l := range a.at[queue[n]] {
			flow := a.into(l, queue[n])
			if flow <= 0 {
				continue
			}
			if up := a.far(l, queue[n]); visit(l, flow) && !slices.Contains(queue, up) {
				queue = append(queue, up)
			}
		}
	}
}

// nodeOf is the node of the model where a gauge at an outlet or a point stands;
// of a part with several ports the one with the highest pressure.
func (c *Case) nodeOf(r *model.Result, id job.ID) (node int, ok bool) {
	for _, o := range c.model.Outlets() {
		if o.ID == id {
			return o.Node, o.Node >= 0 && r.Known[o.Node]
		}
	}
	node = -1
	try := func(n int) {
		if r.Known[n] && (node < 0 || r.Pressure[n] > r.Pressure[node]) {
			node = n
		}
	}
	for i, n := range c.model.Nodes() {
		if n.Point == id {
			try(i)
		}
	}
	for i := range c.model.Elements() {
		// A point without a loss of its own goes by the node of a neighbour.
		e := &c.model.Elements()[i]
		if run := c.idx.Run(e.ID); run != nil && run.From.Point == id {
			try(e.From)
		} else if run != nil && run.To.Point == id {
			try(e.To)
		}
	}
	return node, node >= 0
}

// holds: the element is a regulator that has more before it than behind it.
func (c *Case) holds(r *model.Result, l int) bool {
	e := &c.model.Elements()[l]
	kind, ok := c.shelf.Kind(e.Kind)
	if !ok || e.Kind == "" || !kind.Has(catalog.Regulates) {
		return false
	}
	p := c.partOf(e.ID, e.Outlet, e.Kind)
	if p == nil || p.Set == nil {
		return false
	}
	up := max(r.Pressure[e.From], r.Pressure[e.To])
	return up.Gauge(c.model.Atmosphere()) > *p.Set
}

// soDo names the other readings.
func (c *Case) soDo(all []*readAt) string {
	if len(all) < 2 {
		return ""
	}
	verb := "show"
	if len(all) == 2 {
		verb = "shows"
	}
	return fmt.Sprintf(" %s, at %s, %s it as well.", sentence("%s", plural(len(all)-1, "other reading")), c.names(placesOf(all[1:])), verb)
}

// placesOf lists where readings were taken, each once.
func placesOf(all []*readAt) []job.ID {
	var out []job.ID
	for _, r := range all {
		out = append(out, r.place)
	}
	return unique(out)
}

// runningKey names a set of running tools, whatever their order.
func runningKey(running []job.InUse) string {
	words := make([]string, 0, len(running))
	for _, u := range running {
		words = append(words, string(u.Tool)+"@"+string(u.Outlet))
	}
	slices.Sort(words)
	return strings.Join(words, " ")
}
