package cli

import (
	"context"
	"errors"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/calibrate"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/show/screen"
)

// calibrateAsk are the flags of calibrate.
type calibrateAsk struct {
	table, gauge, since, file string
	force                     bool
}

// calibrate sets roughness, leak and filters by readings.
func (c *call) calibrate() *cobra.Command {
	var ask calibrateAsk
	cmd := &cobra.Command{
		Use:   "calibrate JOB [--readings CSV] [-o JOB]",
		Short: "roughness, leak and the state of filters by the readings of a commissioning",
		Long: `Sets the roughness of the lines of each stock, the loss of each filter and the share that leaks,
and nothing else, so that the job shows what gauges and clocks showed: by the records of the job
and by a table of readings (as dropleg find reads it). Each comes with its range, 19 times in 20;
what the readings cannot tell stays as it was, and that is told. Couplers, fittings, tools and
plates are not adjusted, and what is not known of them widens the ranges. With -o the job is
written with what was found. A fault is not a state: where the readings do not fit, dropleg find
looks for it. Status 1 where they do not fit, or nothing is told.`,
		Example: `  dropleg calibrate shop.json
  dropleg calibrate shop.json --readings commissioning.csv --gauge 0.5kPa -o as-built.json`,
		Args: words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.writeCalibrate(contextOf(cmd), args[0], ask)
		},
	}
	cmd.Flags().StringVar(&ask.table, "readings", "", "a table of readings in CSV")
	cmd.Flags().StringVar(&ask.gauge, "gauge", "", "what both gauges are good to, plus or minus (default: class 1.6)")
	cmd.Flags().StringVar(&ask.since, "since", "", "records of this day and later only, such as 2026-11-26")
	cmd.Flags().StringVarP(&ask.file, "output", "o", "", "write the job with what was found to this file")
	cmd.Flags().BoolVar(&ask.force, "force", false, "write over a file that is there")
	return cmd
}

// calibrateAnswer is what --json writes.
type calibrateAnswer struct {
	Title  string            `json:"title"`
	Answer *calibrate.Answer `json:"answer"`
}

func (c *call) writeCalibrate(ctx context.Context, name string, ask calibrateAsk) error {
	j, err := c.readJob(ctx, name)
	if err != nil {
		return err
	}
	s := study.Of(j, catalog.Builtin())
	readings, err := ask.readings(ctx, s)
	if err != nil {
		return err
	}
	a, err := calibrate.Of(ctx, s, readings, nil)
	if errors.Is(err, calibrate.ErrNoReadings) || errors.Is(err, calibrate.ErrNoFigures) {
		read, want, _ := strings.Cut(err.Error(), ": wanted ")
		return unusable(name, read, want)
	}
	if err != nil {
		return err
	}
	told, err := c.toldOf(ctx, s, a)
	if err != nil {
		return err
	}
	err = c.write(j, calibrateAnswer{j.Title, a}, func(p *paper, _ unit.System) { calibrationPage(p, j.Title, &told) })
	if err != nil {
		return err
	}
	if ask.file != "" && a.Change() != nil {
		if err := c.writeEdited(j, a.Change(), ask.file, ask.force); err != nil {
			return err
		}
	}
	if !a.Fits || a.Change() == nil {
		return errShort
	}
	return nil
}

// toldOf is a calibration in words.
func (c *call) toldOf(ctx context.Context, s *study.Study, a *calibrate.Answer) (screen.Calibration, error) {
	system, err := c.system(s.Job().Site.Units)
	if err != nil {
		return screen.Calibration{}, err
	}
	return screen.On(s, nil).Calibrated(ctx, screen.Ask{System: system}, a)
}

// readings are those of the job's records and of the table.
func (ask *calibrateAsk) readings(ctx context.Context, s *study.Study) (out calibrate.Ask, err error) {
	var since time.Time
	if ask.since != "" {
		if since, err = time.ParseInLocation(time.DateOnly, ask.since, time.Local); err != nil {
			return out, misused("calibrate: read --since %s; wanted a day such as 2026-11-26", quote(ask.since))
		}
	}
	m, err := s.Model(ctx)
	if err != nil {
		return out, err
	}
	out = calibrate.OfJob(s.Job(), m, since)
	if ask.gauge != "" {
		x, err := unit.Parse(ask.gauge, unit.KindPressureDiff, unit.Env{})
		if err != nil || x <= 0 {
			return out, misused("calibrate: read --gauge %s; wanted a difference of pressure above zero, such as 0.5kPa", quote(ask.gauge))
		}
		out.Gauge = unit.PressureDiff(x)
	}
	if ask.table == "" {
		return out, nil
	}
	more, err := tableOfReadings(s.Job(), ask.table)
	if err != nil {
		return out, err
	}
	for i, r := range more {
		if bad := r.Usable(m); bad != nil {
			return out, tellsNothing(ask.table, i, bad)
		}
	}
	out.Readings = append(out.Readings, more...)
	return out, nil
}
