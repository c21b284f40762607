package cli

import (
	"context"
	"fmt"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/route"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// reachAsk is what the flags say about where outlets are to hang.
type reachAsk struct {
	wanted  bool
	hose    string
	around  []string
	ceiling bool
}

// wish reads the flags.
func (a *reachAsk) wish(j *job.Job) (route.ReachWish, error) {
	w := route.ReachWish{Ceiling: a.ceiling}
	if a.hose != "" {
		long, err := unit.Parse(a.hose, unit.KindLength, unit.Env{})
		if err != nil {
			return w, misused("route: --hose: %s", err)
		}
		w.Hose = unit.Length(long)
	}
	ix := job.NewIndex(j)
	for _, word := range a.around {
		if !ix.Has(job.ID(word)) {
			return w, misused("route: --around: read %s; wanted the id of an obstacle of the job", quote(word))
		}
		w.Around = append(w.Around, job.ID(word))
	}
	return w, nil
}

// reachAnswer is what --json writes.
type reachAnswer struct {
	Title   string         `json:"title"`
	Reached *route.Reached `json:"outlets"`
	Written string         `json:"written,omitempty"`
	Job     *job.Job       `json:"job,omitempty"` // where no file was named for it
}

// reach proposes where outlets hang, and writes the job with them.
func (c *call) reach(ctx context.Context, j *job.Job, ask reachAsk, file string, force bool) error {
	wish, err := ask.wish(j)
	if err != nil {
		return err
	}
	found, err := route.Reach(ctx, study.Of(j, catalog.Builtin()), wish)
	if err != nil {
		return c.notLaid(j, err)
	}
	after := j
	if found.Edit != nil {
		if after, _, err = found.Edit.Apply(j); err != nil {
			return fmt.Errorf("placing outlets: %w", err)
		}
	}
	answer := reachAnswer{Title: j.Title, Reached: found, Written: file}
	if answer.Job, err = handOver(after, file, force); err != nil {
		return err
	}
	err = c.write(j, answer, func(p *paper, system unit.System) {
		p.heading(j.Title)
		reachPage(p, found, system)
		if file != "" {
			p.line("wrote " + file)
		}
	})
	if err == nil && len(found.Missed) > 0 {
		return errShort
	}
	return err
}

// reachPage lists the outlets with what each is for.
func reachPage(p *paper, found *route.Reached, system unit.System) {
	long := func(m float64) string { return system.Listed(unit.Length(m)) }
	t := table{{"outlet", "at", "reaches"}}
	for _, s := range found.Spots {
		at := long(s.At[0]) + ", " + long(s.At[1]) + ", up " + long(s.At[2])
		if s.Stands {
			at = "is there"
		}
		t = append(t, []string{s.Name, at, strings.Join(s.Covers, "; ")})
	}
	t.write(p)
	p.blank()
	for _, w := range found.Words {
		p.wrapped("- ", "  ", w)
	}
}
