package main

import (
	"context"
	"errors"
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/answer/buy"
	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// figures are what a plan comes to.
type figures struct {
	goods  float64 // the cheapest basket
	work   float64 // h
	rate   float64 // of an hour, as the job states or 50
	unsold int     // articles without a price
	metres float64
	pieces int // fittings, valves, drains
	bends  int
	valves int
	least  float64 // Pa over the need of the tool that has least to spare
	worst  string  // that tool
}

func (f *figures) price() float64 { return f.goods + f.work*f.rate }

// usualRate is an hour's work where the job states none: common practice, no source.
const usualRate = 50

// patience is how often a basket is asked for again.
const patience = 4

// figuresOf works a plan out with all its lines counted as new.
func figuresOf(ctx context.Context, j *job.Job) (*figures, error) {
	s := study.Of(asNew(j), catalog.Builtin())
	f := &figures{rate: usualRate, least: math.Inf(1)}
	taken, err := s.Parts(ctx)
	if err != nil {
		return nil, err
	}
	for i := range taken.Lines {
		l := &taken.Lines[i]
		k, _ := s.Catalog().Kind(l.Kind)
		switch l.Group {
		case parts.Stock:
			if l.Length != nil {
				f.metres += float64(*l.Length)
			}
		case parts.Fitting, parts.Valve, parts.Drainage:
			f.pieces += l.Pieces
		}
		switch {
		case k.Has(catalog.Turns):
			f.bends += l.Pieces
		case k.Has(catalog.Isolates):
			f.valves += l.Pieces
		}
	}
	quoted, err := s.Quote(ctx)
	for n := 0; errors.Is(err, buy.ErrNoTime) && n < patience; n++ { // a busy machine finds none in its time
		quoted, err = study.Of(asNew(j), catalog.Builtin()).Quote(ctx)
	}
	if err != nil {
		return nil, err
	}
	f.goods, f.work, f.unsold = float64(quoted.Material)/100, quoted.Hours, quoted.Unsold
	if quoted.Rate != nil {
		f.rate = *quoted.Rate
	}
	flow, err := s.Flow(ctx)
	if err != nil {
		return nil, err
	}
	for _, t := range flow.Tools {
		if t.Set >= 0 && t.Known && float64(t.Margin) < f.least {
			f.least, f.worst = float64(t.Margin), name(j, t.Tool)
		}
	}
	return f, nil
}

func name(j *job.Job, id job.ID) string {
	for i := range j.Tools {
		if j.Tools[i].ID == id && j.Tools[i].Name != "" {
			return j.Tools[i].Name
		}
	}
	return string(id)
}

// asNew is a job of which nothing is installed yet.
func asNew(j *job.Job) *job.Job {
	c := *j
	c.Net.Points = append([]job.Point{}, j.Net.Points...)
	c.Net.Runs = append([]job.Run{}, j.Net.Runs...)
	for i := range c.Net.Points {
		if p := &c.Net.Points[i]; p.State == "existing" {
			p.State = ""
		}
	}
	for i := range c.Net.Runs {
		if r := &c.Net.Runs[i]; r.State == "existing" {
			r.State = ""
		}
	}
	return &c
}

func bar(pa float64) string {
	return unit.Metric.Text(unit.KindPressureDiff, pa, unit.Env{})
}
