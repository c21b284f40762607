package sheet

import (
	"context"
	"fmt"
	"slices"
	"time"

	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
)

// Sheet is one sheet of the job book.
type Sheet struct {
	Name     string // in names of files and in addresses
	Title    string
	Audience string // who works from it
	Needs    string // what the job must have for it, in words
	Wide     bool   // landscape
	Bare     bool   // to be cut apart: no frame
	Days     bool   // rests on working days gone through, which take longest
	// Make makes what stands on it; nothing where the job has not what it needs.
	Make func(ctx context.Context, m *Maker) ([]page.Block, error)
	// Drawings are what it shows in true size, for DXF; nil for none.
	Drawings func(ctx context.Context, m *Maker) ([]Drawing, error)
}

// Drawing is a drawing to scale with a name for its file.
type Drawing struct {
	Name string
	page.View
}

// Options is what a person chooses for the sheets.
type Options struct {
	Paper    page.Paper
	By, Mark string // the user's own name, and the few letters of their mark
	Revision string
	Date     time.Time
	System   unit.System // "": the job's
	// Page is the address of the job's page, to which the codes on tags lead; "": they say ids.
	Page string
	// Before is what the variation is told from; nil for nothing.
	Before *Earlier
}

// Earlier is an earlier state of the job.
type Earlier struct {
	Study *study.Study
	Words string // which it is: "state 3 of 2 March 2026", a file
}

// Maker makes the sheets of one revision of a job.
type Maker struct {
	shop    *screen.Shop
	study   *study.Study
	job     *job.Job
	index   *job.Index
	options Options
	units   draw.Sheet // with units and air pressure, for the words on drawings
}

// On is a maker of sheets of a shop.
func On(ctx context.Context, shop *screen.Shop, o Options) (*Maker, error) {
	s := shop.Study()
	m := &Maker{shop: shop, study: s, job: s.Job(), index: s.Index(), options: o}
	if m.options.System == "" {
		system, err := unit.ParseSystem(m.job.Site.Units)
		if err != nil {
			system = unit.Metric
		}
		m.options.System = system
	}
	net, err := s.Model(ctx)
	if err != nil {
		return nil, fmt.Errorf("reading the job as a network: %w", err)
	}
	m.units = draw.Sheet{Units: m.options.System, Env: unit.Env{Atmosphere: net.Atmosphere()}}
	return m, nil
}

// stamp is the title block.
func (m *Maker) stamp() page.Stamp {
	o := &m.options
	return page.Stamp{
		Job: m.job.Title, By: o.By, Mark: o.Mark, Revision: o.Revision, Date: o.Date, Paper: o.Paper,
		Inches: o.System == unit.US,
	}
}

// Made is one sheet that was made, or why it was not.
type Made struct {
	Sheet    Sheet
	Document page.Document
	Missing  string // what the job lacks for it
}

// Make makes sheets by their names, in the order of All; no names are all of them. An unknown
// name is a *screen.NotThere.
func (m *Maker) Make(ctx context.Context, names []string) ([]Made, error) {
	var out []Made
	wanted := map[string]bool{}
	for _, name := range names {
		if _, ok := Find(name); !ok {
			return nil, &screen.NotThere{ID: name}
		}
		wanted[name] = true
	}
	chosen := slices.DeleteFunc(All(), func(s Sheet) bool { return len(names) > 0 && !wanted[s.Name] })
	if len(chosen) > 1 && slices.ContainsFunc(chosen, func(s Sheet) bool { return s.Days }) {
		defer m.study.Ahead(ctx)()
	}
	for _, s := range chosen {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		blocks, err := s.Make(ctx, m)
		if err != nil {
			return nil, fmt.Errorf("sheet %s: %w", s.Name, err)
		}
		made := Made{Sheet: s, Document: page.Document{Title: s.Title, Wide: s.Wide, Bare: s.Bare, Blocks: blocks}}
		if len(blocks) == 0 {
			made.Missing = s.Needs
		}
		out = append(out, made)
	}
	return out, nil
}

// Find is a sheet by its name.
func Find(name string) (s Sheet, ok bool) {
	for _, s := range All() {
		if s.Name == name {
			return s, true
		}
	}
	return Sheet{}, false
}

// plain words a figure in the person's main unit.
func (m *Maker) plain(k unit.Kind, si float64) string {
	number, u := m.options.System.Split(k, si, m.units.Env)
	return number + " " + u
}

// marked is a length as a tape shows it.
func (m *Maker) marked(l unit.Length) string { return m.options.System.Marked(l) }

func (m *Maker) take(ctx context.Context) (*parts.Answer, error) {
	a, err := m.study.Parts(ctx)
	if err != nil {
		return nil, fmt.Errorf("taking off: %w", err)
	}
	return a, nil
}

// drawn says whether anything of the net has a place in the room.
func (m *Maker) drawn() bool {
	for i := range m.job.Net.Points {
		if _, ok := m.index.Where(&m.job.Net.Points[i]); ok {
			return true
		}
	}
	return false
}
