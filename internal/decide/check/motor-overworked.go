package check

import (
	"context"
	"fmt"

	"dropleg/internal/answer/day"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
)

var motorOverworked = Check{
	Code:   "motor-overworked",
	Title:  "no motor starts or runs more than it bears",
	Why:    "Each start heats the winding, and a pump of little duty needs its rests: overworked it wears out years early.",
	Limit:  "starts an hour and share of the time under load, in working days drawn by chance, against what plate or class allow; shops of more than about sixty tools are not looked at",
	Law:    "working days: compressor, receiver and tools through time, isothermal",
	Source: custom("starts an hour and duty as the maker allows"),
	Run:    runMotorOverworked,
}

func runMotorOverworked(ctx context.Context, c *Case) error {
	a, err := c.days(ctx)
	if err != nil || a == nil {
		return err
	}
	for i := range a.Compressors {
		k := &a.Compressors[i]
		starts, duty := tooOften(k), tooLong(k) && a.Full // that it never rests is told by never-full
		if !starts && !duty {
			continue
		}
		if err := c.reportMotor(ctx, a, k, duty && (!starts || overDuty(k) > overStarts(k))); err != nil {
			return err
		}
	}
	return nil
}

func tooOften(k *day.Compressor) bool { return k.Most > 0 && k.Starts > k.Most }
func tooLong(k *day.Compressor) bool  { return k.DutyMost > 0 && k.Duty > k.DutyMost }

// overStarts and overDuty are how many times what it bears; 0 where that is not known.
func overStarts(k *day.Compressor) float64 {
	if k.Most <= 0 {
		return 0
	}
	return k.Starts / k.Most
}

func overDuty(k *day.Compressor) float64 {
	if k.DutyMost <= 0 {
		return 0
	}
	return float64(k.Duty / k.DutyMost)
}

// reportMotor tells of a motor, led by the figure that is farther beyond its limit.
func (c *Case) reportMotor(ctx context.Context, a *day.Answer, k *day.Compressor, byDuty bool) error {
	f := job.Finding{
		Severity: job.Caution, Where: []job.ID{k.ID},
		Figure: figure("starts_1_s", k.Starts/3600), Limit: figure("starts_1_s", k.Most/3600),
	}
	times := overStarts(k) * 1.1 // a tenth in hand
	if byDuty {
		f.Figure, f.Limit = figure("ratio", float64(k.Duty)), figure("ratio", float64(k.DutyMost))
	}
	if !tooOften(k) {
		times = 1 // no store shortens the time under load
	}
	f.Title = sentence("%s %s starts %s and is under load %s.", byDays(a), c.named(k.ID),
		borne("%.1f times an hour", k.Starts, k.Most), borne("%.0f %% of the time", 100*float64(k.Duty), 100*float64(k.DutyMost)))
	var err error
	f.Cures, err = c.bench.ForDays(ctx, cure.Days{
		Answer: a, Times: times,
		Enough: func(after *day.Answer) bool {
			n := motorOf(after, k.ID)
			return n != nil && !tooOften(n) && !tooLong(n)
		},
		Told: func(after *day.Answer) string {
			n := motorOf(after, k.ID)
			if n == nil {
				return "it is gone then"
			}
			return fmt.Sprintf("it then starts %.1f times an hour and is under load %.0f %% of the time", n.Starts, 100*float64(n.Duty))
		},
		Left: func(after *day.Answer) float64 {
			n := motorOf(after, k.ID)
			if n == nil {
				return 0
			}
			return max(0, overStarts(n)-1) + max(0, overDuty(n)-1)
		},
	})
	if err != nil {
		return err
	}
	c.report(f)
	return nil
}

func motorOf(a *day.Answer, id job.ID) *day.Compressor {
	for i := range a.Compressors {
		if a.Compressors[i].ID == id {
			return &a.Compressors[i]
		}
	}
	return nil
}

// borne is a figure with its limit, where one is known.
func borne(format string, is, most float64) string {
	words := fmt.Sprintf(format, is)
	if most > 0 {
		words += fmt.Sprintf(" (it bears %.3g)", most)
	}
	return words
}
