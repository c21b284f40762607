package route

import (
	"context"
	"errors"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
)

// The surfaces that lines may use beside walls. What hangs or stands free of the walls is
// reached under the ceiling in any case.
const (
	Ceiling = "ceiling" // straight across under the ceiling
	Beams   = "beams"   // along beams
)

// What is taken away before lines are laid.
const (
	ClearPlanned = "planned"
	ClearAll     = "all" // what is installed too
)

// Wish is what a person says about the lines to be laid. The zero value lays lines to all
// outlets that have none and keeps what is drawn.
type Wish struct {
	Clear   string   `json:"clear,omitempty" enum:"planned,all" doc:"lines that are taken away first; left out, none: what is drawn is kept and used"`
	Over    []string `json:"over,omitempty" doc:"ceiling, beams: surfaces beside the walls"`
	Stock   string   `json:"stock,omitempty" doc:"left out, as the lines that are there, else as is usual"`
	Main    string   `json:"main,omitempty" doc:"size of mains and branches"`
	Drop    string   `json:"drop,omitempty" doc:"size of drop legs"`
	Ring    bool     `json:"ring,omitempty" doc:"tell as well what a ring would cost and bring"`
	Outlets []job.ID `json:"outlets,omitempty" doc:"lines to these alone; left out, to all that have none"`
	Stubs   []Stub   `json:"stubs,omitempty" doc:"for outlets to come: a tee with a valve and a cap"`
	// Sized is a study of the same lines as they were sized: in these sizes they have to give way
	// where they grow. Nil: in the sizes that they are drawn with.
	Sized *study.Study `json:"-"`
}

// Stub is a place where an outlet is to come.
type Stub struct {
	Name string     `json:"name"`
	At   geom.Point `json:"at_m" min:"-2000" max:"2000"`
}

func (w *Wish) may(surface string) bool { return slices.Contains(w.Over, surface) }

// Proposal is one way to lay the lines.
type Proposal struct {
	Title   string   `json:"title"`
	Edit    job.Edit `json:"-"` // draws all of it, with fittings
	Figures Figures  `json:"figures"`
	Words   []string `json:"words"` // what was assumed, and what it comes to
	Proven  bool     `json:"proven"`
	// Verified: by the lines as drawn air comes to all that was to be reached.
	Verified bool    `json:"verified"`
	Pays     bool    `json:"pays,omitempty"` // of a ring: it brings the worst tool pressure that counts
	Gap      float64 `json:"gap"`            // share of the price by which it may be too dear, at most
}

// Figures are what a proposal comes to. Prices are those that the search reckoned with.
type Figures struct {
	Length  float64  `json:"length_m"` // of line drawn
	Mains   float64  `json:"mains_m"`  // of it mains and branches
	Legs    float64  `json:"legs_m"`   // drop legs, drips and stubs
	Bends   int      `json:"bends"`
	Tees    int      `json:"tees"`
	Valves  int      `json:"valves"`
	Holes   int      `json:"holes"` // through walls
	Feet    int      `json:"reached"`
	Price   float64  `json:"price"`
	Least   float64  `json:"least_price"` // no way of laying it over these places costs less
	Reckons Prices   `json:"reckoned_with"`
	Gain    *float64 `json:"gain_Pa,omitempty"` // of a ring: pressure at the worst tool, against the tree
}

// Progress hears how far the search is: the price so far, and what none goes below.
type Progress func(best, bound float64)

// untimed is a context that ends with who gives it up, and not with the time that a search
// was given.
func untimed(ctx context.Context) (out context.Context, done func()) {
	out, cancel := context.WithCancel(context.WithoutCancel(ctx))
	stop := context.AfterFunc(ctx, func() {
		if errors.Is(ctx.Err(), context.Canceled) {
			cancel()
		}
	})
	return out, func() { stop(); cancel() }
}

// Propose lays lines. Where ctx ends, the best so far comes with its gap. The error is a
// *job.Refusal that tells in words what stands in the way, or that of ctx.
func Propose(ctx context.Context, s *study.Study, w Wish, progress Progress) ([]Proposal, error) {
	d := &draft{job: s.Job(), shelf: s.Catalog()}
	pen, err := penOf(s, &w)
	if err != nil {
		return nil, err
	}
	if err := d.clear(&w); err != nil {
		return nil, err
	}
	l, err := layoutOf(ctx, d, &w, pen, progress)
	if err != nil {
		return nil, err
	}
	// What was found in time is drawn, though the time is over by now.
	ctx, done := untimed(ctx)
	defer done()
	tree, err := l.proposal(ctx, d, "The least tree")
	if err != nil {
		return nil, err
	}
	out := []Proposal{tree}
	if w.Ring {
		ring, ok, err := l.ring(ctx, s, d, tree)
		if err != nil {
			return out, err
		}
		if ok {
			out = append(out, ring)
		}
	}
	return out, nil
}
