package screen

import (
	"context"
	"fmt"
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
)

// Alternative is an alternative of a job as a shop of its own.
type Alternative struct {
	Plan job.ID
	Shop *Shop
	Left []job.Finding // steps of it that no longer fit the job
}

// Comparison is a job and its alternatives side by side.
type Comparison struct {
	Columns []Column `json:"columns"` // the job as drawn first
	// Note says what the figures stand for.
	Note string `json:"note"`
}

// Column is one way to build the shop.
type Column struct {
	Plan string `json:"plan"` // id of the alternative; "" for the job as drawn
	Name string `json:"name"`
	// Worst is the pressure at the tool that has least to spare, "–" where none is known.
	Worst  string `json:"worst"`
	At     string `json:"at"`     // "sander at B"; "" where no tool runs
	Margin string `json:"margin"` // "0.4 bar to spare", "0.8 bar short", "no air reaches it"
	State  State  `json:"state"`
	Short  int    `json:"short"` // outlets at which some tool in some set falls short
	Out    int    `json:"outlets"`
	Pieces int    `json:"pieces"` // to get, lines and what is made in place not counted
	Line   string `json:"line"`   // length to get
	// Price of what has one; "" while nothing has. Unpriced counts the articles without.
	Price    string `json:"price"`
	Unpriced int    `json:"unpriced"`
	// Steps are what was changed against the job, Against what came of it.
	Steps   []string `json:"steps"`
	Against []string `json:"against"`
	// Edits are the steps as they stand in the file, for another alternative to begin with.
	Edits []job.EditForm `json:"edits"`
	Left  []string       `json:"left"` // steps left out, with the reason
}

// figures are what columns are compared by.
type figures struct {
	margin        float64 // Pa; of the tool with least to spare
	known         bool
	short, pieces int
	metres, cost  float64
	unpriced      int
}

// Compare puts a job and its alternatives side by side in one case, each over all
// its sets. A set in ask is not minded: the worst of each is compared.
func Compare(ctx context.Context, base *Shop, ask Ask, others []Alternative) (Comparison, error) {
	ask.Set, ask.System = "", base.system(ask)
	first, of, err := base.column(ctx, ask)
	if err != nil {
		return Comparison{}, err
	}
	first.Name = "as drawn"
	c := Comparison{Columns: []Column{first}, Note: "Pressures are those of each one’s worst moment. Parts and lengths are what is to be got, counted off the drawing."}
	for _, o := range others {
		col, is, err := o.Shop.column(ctx, ask)
		if err != nil {
			return Comparison{}, fmt.Errorf("alternative %s: %w", o.Plan, err)
		}
		col.Plan, col.Name = string(o.Plan), tail(o.Plan)
		if p := base.index.Plan(o.Plan); p != nil {
			col.Name = or(p.Name, col.Name)
			col.Steps, col.Edits = steps(base.job, p), append(col.Edits, p.Edits...)
		}
		col.Against = base.against(ask, of, is)
		for _, f := range o.Left {
			col.Left = append(col.Left, f.Title)
		}
		c.Columns = append(c.Columns, col)
	}
	return c, nil
}

// steps words the edits of an alternative, each on the job with those before.
func steps(j *job.Job, p *job.Plan) []string {
	words := []string{}
	for _, f := range p.Edits {
		e, bad := job.ParseEdit(f)
		if len(bad) > 0 {
			continue // told among those left out
		}
		after, _, err := e.Apply(j)
		if err != nil {
			continue
		}
		words = append(words, e.Words(j))
		j = after
	}
	return words
}

// column is the shop by itself.
func (s *Shop) column(ctx context.Context, ask Ask) (Column, figures, error) {
	v, err := s.look(ctx, ask)
	if err != nil {
		return Column{}, figures{}, err
	}
	c := Column{Worst: "–", State: NotSeen, Out: len(s.job.Outlets), Steps: []string{}, Against: []string{}, Left: []string{}, Edits: []job.EditForm{}}
	var is figures
	worst, short := s.leastToSpare(v)
	c.Short, is.short = short, short
	switch {
	case worst == nil:
	case !worst.Known:
		c.At, c.State, c.Margin = s.toolName(worst.Tool)+" at "+s.outletMark(worst.Outlet), Short, "no air reaches it"
	default:
		is.margin, is.known = float64(worst.Margin), true
		c.At = s.toolName(worst.Tool) + " at " + s.outletMark(worst.Outlet)
		c.Worst, c.State = v.plain(unit.KindGauge, float64(worst.Pressure)), Enough
		c.Margin = v.plain(unit.KindPressureDiff, math.Abs(is.margin)) + " to spare"
		if worst.Margin < 0 {
			c.State, c.Margin = Short, v.plain(unit.KindPressureDiff, -is.margin)+" short"
		}
	}
	s.count(&c, &is, v)
	return c, is, nil
}

// leastToSpare is the running tool with the least to spare over all sets, nil where
// none runs, and the number of outlets at which one falls short.
func (s *Shop) leastToSpare(v *view) (worst *flow.Tool, short int) {
	at := map[job.ID]bool{}
	for i := range v.flow.Sets {
		tools := v.flow.Sets[i].State(v.ask.Case).Tools
		for k := range tools {
			t := &tools[k]
			if !t.Known || t.Margin < 0 {
				at[t.Outlet] = true
			}
			if worst == nil || worst.Known && (!t.Known || t.Margin < worst.Margin) {
				worst = t
			}
		}
	}
	return worst, len(at)
}

// count fills in what is to be got.
func (s *Shop) count(c *Column, is *figures, v *view) {
	take := s.takeOff()
	is.metres, is.pieces, _ = s.toGet()
	is.cost, is.unpriced = take.Cost, take.Unpriced
	c.Pieces, c.Line, c.Unpriced = is.pieces, v.whole(is.metres), is.unpriced
	if is.cost > 0 {
		c.Price = s.money(is.cost)
	}
}

// against words how an alternative differs from the job.
func (s *Shop) against(ask Ask, job, other figures) []string {
	words := []string{}
	v := &view{ask: ask}
	more := func(d float64, figure func(float64) string, up, down, rest string) {
		if text := figure(math.Abs(d)); d > 0 && text != figure(0) {
			words = append(words, text+" "+up+rest)
		} else if d < 0 && text != figure(0) {
			words = append(words, text+" "+down+rest)
		}
	}
	if job.known && other.known {
		more(other.margin-job.margin, func(x float64) string { return v.plain(unit.KindPressureDiff, x) }, "more", "less", " at the worst moment")
	}
	outlets := func(x float64) string { return plural(int(x), "outlet", "outlets") }
	more(float64(other.short-job.short), outlets, "more", "fewer", " short")
	pieces := func(x float64) string { return plural(int(x), "part", "parts") }
	more(float64(other.pieces-job.pieces), pieces, "more", "fewer", "")
	more(other.metres-job.metres, v.whole, "more", "less", " of line")
	// Sums that leave out different articles are not to be set against each other.
	if job.cost > 0 && job.unpriced == 0 && other.unpriced == 0 {
		more(other.cost-job.cost, s.money, "dearer", "cheaper", "")
	}
	return words
}
