package screen

import (
	"context"
	"errors"
	"strings"
	"time"

	"dropleg/engine/unit"
	"dropleg/internal/decide/calibrate"
	"dropleg/internal/shop/job"
)

// Calibration is what readings make of roughness, filters and the leak.
type Calibration struct {
	State    string          `json:"state"` // fits, unfit, untold, none
	Sentence string          `json:"sentence"`
	Figures  []CalibratedRow `json:"figures"` // those that are told first
	Looks    []LookRow       `json:"looks"`
	Unused   []string        `json:"unused"`
	// Against is what the job tells otherwise once the figures are taken over.
	Against []string      `json:"against"`
	Step    *job.EditForm `json:"step"` // what takes them over; null where nothing is
}

// States of a calibration.
const (
	Fits       = "fits"   // the readings fit and tell something
	Unfit      = "unfit"  // no figures show what was read
	Untold     = "untold" // they fit, and tell nothing closer
	NoReadings = "none"
)

// CalibratedRow is one figure.
type CalibratedRow struct {
	Name   string   `json:"name"`
	Before string   `json:"before"`
	Now    string   `json:"now"`
	Low    string   `json:"low"` // 19 times in 20
	High   string   `json:"high"`
	Told   bool     `json:"told"`
	Words  string   `json:"words"`  // why it is not told, or that it is far off
	Things []string `json:"things"` // lines, or the filter
}

// LookRow is a reading with what is computed for it.
type LookRow struct {
	Name   string `json:"name"`
	Read   string `json:"read"`
	Before string `json:"before"` // by how much it is off, with its sign; "" for no answer
	Now    string `json:"now"`
}

// CalibrateWish says what is known of the instruments and which records count.
type CalibrateWish struct {
	Gauge unit.PressureDiff // plus or minus; 0: class 1.6 to 10 bar, marks of 1 psi
	Since time.Time         // records of that day and later
}

// Readings are those of the job's records.
func (s *Shop) Readings(ctx context.Context, wish CalibrateWish) (calibrate.Ask, error) {
	m, err := s.study.Model(ctx)
	if err != nil {
		return calibrate.Ask{}, err
	}
	out := calibrate.OfJob(s.job, m, wish.Since)
	out.Gauge = wish.Gauge
	return out, nil
}

// Calibrate adjusts the figures of the job to the readings of its records.
func (s *Shop) Calibrate(ctx context.Context, ask Ask, wish CalibrateWish, progress func(done, total int)) (Calibration, error) {
	readings, err := s.Readings(ctx, wish)
	if err != nil {
		return Calibration{}, err
	}
	a, err := calibrate.Of(ctx, s.study, readings, progress)
	if errors.Is(err, calibrate.ErrNoReadings) || errors.Is(err, calibrate.ErrNoFigures) {
		out := blankCalibration(NoReadings)
		out.Sentence, out.Unused = upper(strings.Replace(err.Error(), ": wanted ", ". Wanted are ", 1))+".", s.unusedIn(readings.Unused)
		return out, nil
	}
	if err != nil {
		return Calibration{}, err
	}
	return s.Calibrated(ctx, ask, a)
}

func blankCalibration(state string) Calibration {
	return Calibration{State: state, Figures: []CalibratedRow{}, Looks: []LookRow{}, Unused: []string{}, Against: []string{}}
}

// Calibrated words what calibration found, and tells what taking it over changes.
func (s *Shop) Calibrated(ctx context.Context, ask Ask, a *calibrate.Answer) (Calibration, error) {
	w := calibrationWords{s, s.system(ask), a}
	out := blankCalibration(w.state())
	out.Sentence, out.Unused, out.Step = w.sentence(), s.unusedIn(a.Unused), a.Edit
	for _, told := range []bool{true, false} {
		for i := range a.Figures {
			if f := &a.Figures[i]; f.Told == told {
				out.Figures = append(out.Figures, w.row(f))
			}
		}
	}
	for i := range a.Looks {
		out.Looks = append(out.Looks, w.look(&a.Looks[i]))
	}
	if a.Change() == nil {
		return out, nil
	}
	ask.Set = ""
	_, was, err := s.column(ctx, ask)
	if err != nil {
		return out, err
	}
	next, err := s.study.After(a.Change())
	if err != nil {
		return out, err
	}
	_, is, err := On(next, s.judge).column(ctx, ask)
	if err != nil {
		return out, err
	}
	out.Against = append(out.Against, s.against(ask, was, is)...)
	return out, nil
}

// unusedIn words readings that could not be used.
func (s *Shop) unusedIn(list []string) []string {
	out := []string{}
	for _, w := range list {
		out = append(out, s.namesIn(w))
	}
	return out
}
