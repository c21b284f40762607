package cli

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/check"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
	"dropleg/internal/show/sheet"
)

// sheeting is what is chosen for the sheets.
type sheeting struct {
	dir, paper, by, mark, revision, date, page, against string
	only                                                []string
	zip, force                                          bool
}

// sheets writes drawings and lists.
func (c *call) sheets() *cobra.Command {
	var o sheeting
	cmd := &cobra.Command{
		Use:   "sheets JOB -o DIR [--only SHEET,…] [--against JOB] [--paper SIZE] [--zip]",
		Short: "drawings, lists, labels and the job book, on paper",
		Long: `Writes the job book (job-book.pdf), each of its sheets as PDF and SVG, plan and walls in
true size as DXF, and the lists as CSV. Drawings take the largest usual scale that has room
on the paper; what would be too small to work from comes in tiles with match lines as well.
--against makes the variation order, from an earlier state of the job to this one. --zip packs
all of it with the job file into one archive. Sheets that the job has nothing for are told
and left out. Files that are there stay unless --force is given.

sheets
` + sheetList(),
		Example: "  dropleg sheets shop.json -o paper\n  dropleg sheets shop.json -o paper --only plan,walls --paper a3 --by \"Harbour Pipework\" --mark HP",
		Args:    words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.writeSheets(contextOf(cmd), args[0], &o)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.page, "page", "", "address of the job's page on the network, for the codes on labels to open")
	f.StringVarP(&o.dir, "output", "o", "", "the folder to write to; made where it is not there")
	f.StringSliceVar(&o.only, "only", nil, "these sheets alone")
	f.StringVar(&o.against, "against", "", "an earlier state of the job, to tell the variation from")
	f.StringVar(&o.paper, "paper", "", "a4, a3, letter or tabloid (default: letter for US units, else a4)")
	f.StringVar(&o.by, "by", "", "your name or firm, for the title block")
	f.StringVar(&o.mark, "mark", "", "the letters of your mark, for the title block")
	f.StringVar(&o.revision, "revision", "", "for the title block")
	f.StringVar(&o.date, "date", "", "of the sheets, 2026-03-31 (default: today)")
	f.BoolVar(&o.zip, "zip", false, "one archive with the job file in place of many files")
	f.BoolVar(&o.force, "force", false, "write over files that are there")
	c.complete(cmd, "paper", paperNames())
	c.complete(cmd, "only", sheetNames())
	return cmd
}

func sheetNames() []string {
	var names []string
	for _, s := range sheet.All() {
		names = append(names, s.Name)
	}
	return names
}

func paperNames() []string {
	var names []string
	for _, p := range page.Papers() {
		names = append(names, p.Name)
	}
	return names
}

func sheetList() string {
	var b strings.Builder
	for _, s := range sheet.All() {
		fmt.Fprintf(&b, "  %-12s %s; for %s\n", s.Name, s.Title, s.Audience)
	}
	return strings.TrimRight(b.String(), "\n")
}

func (c *call) writeSheets(ctx context.Context, word string, o *sheeting) error {
	if o.dir == "" {
		return misused("sheets: no folder; wanted -o DIR")
	}
	for _, name := range o.only {
		if all := sheetNames(); !slices.Contains(all, name) {
			return misused("--only: read %q; wanted some of %s%s", name, strings.Join(all, ", "), nearest(name, all))
		}
	}
	j, err := c.readJob(ctx, word)
	if err != nil {
		return err
	}
	chosen, err := o.options(j)
	if err != nil {
		return err
	}
	if o.against != "" {
		old, err := c.readJob(ctx, o.against)
		if err != nil {
			return err
		}
		chosen.Before = &sheet.Earlier{Study: study.Of(old, catalog.Builtin()), Words: filepath.Base(o.against)}
	}
	judge := func(ctx context.Context, s *study.Study, system unit.System) ([]job.Finding, error) {
		return check.Run(ctx, s, system)
	}
	m, err := sheet.On(ctx, screen.On(study.Of(j, catalog.Builtin()), judge), chosen)
	if err != nil {
		return err
	}
	book, err := m.Write(ctx, o.only)
	if err != nil {
		return err
	}
	files := book.Files
	if o.zip {
		packed, err := m.Zip(files)
		if err != nil {
			return err
		}
		files = []sheet.File{{Name: "job-book.zip", Data: packed}}
	}
	if err := saveAll(o.dir, files, o.force); err != nil {
		return err
	}
	return c.tellSheets(o.dir, files, book.Missing)
}

// options are the choices, with what is not chosen filled in.
func (o *sheeting) options(j *job.Job) (sheet.Options, error) {
	system, err := unit.ParseSystem(j.Site.Units)
	if err != nil {
		system = unit.Metric
	}
	name := o.paper
	if name == "" {
		name = "a4"
		if system == unit.US {
			name = "letter"
		}
	}
	paper, ok := page.PaperOf(name)
	if !ok {
		return sheet.Options{}, misused("--paper: read %q; wanted one of %s%s", name, strings.Join(paperNames(), ", "), nearest(name, paperNames()))
	}
	day := time.Now()
	if o.date != "" {
		if day, err = time.Parse("2006-01-02", o.date); err != nil {
			return sheet.Options{}, misused("--date: read %q; wanted a day as 2026-03-31", o.date)
		}
	}
	day = time.Date(day.Year(), day.Month(), day.Day(), 0, 0, 0, 0, time.UTC)
	return sheet.Options{Paper: paper, By: o.by, Mark: o.mark, Revision: o.revision, Date: day, System: system, Page: strings.TrimSuffix(o.page, "/")}, nil
}

func nearest(word string, all []string) string {
	if near := unit.Nearest(word, all); near != "" {
		return "; nearest " + quote(near)
	}
	return ""
}

// saveAll writes files into a folder: none of them where one is there already.
func saveAll(dir string, files []sheet.File, force bool) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("making the folder: %w", err)
	}
	for _, f := range files {
		if _, err := os.Lstat(filepath.Join(dir, f.Name)); err == nil && !force {
			return misused("%s is there already; --force writes over it", filepath.Join(dir, f.Name))
		}
	}
	for _, f := range files {
		if err := save(filepath.Join(dir, f.Name), f.Data, force); err != nil {
			return err
		}
	}
	return nil
}

// tellSheets says what was written, and what was not and why.
func (c *call) tellSheets(dir string, files []sheet.File, missing []sheet.Made) error {
	for i := range missing {
		fmt.Fprintf(c.Err, "no sheet %q: it needs %s\n", missing[i].Sheet.Name, missing[i].Missing)
	}
	names := []string{}
	for _, f := range files {
		names = append(names, filepath.Join(dir, f.Name))
	}
	if c.json {
		return c.writeJSON(map[string]any{"files": names})
	}
	return c.writeAll([]byte(strings.Join(names, "\n") + "\n"))
}
