package study

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/answer/demand"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

const momentKey = "moment-"

// Moment is the key of what runs so long into the first of the working days, for State; to
// the second.
func Moment(at unit.Duration) string {
	return momentKey + strconv.FormatFloat(math.Round(float64(at)), 'f', 0, 64)
}

// momentOf reads the key of a moment.
func momentOf(key string) (unit.Duration, bool) {
	rest, ok := strings.CutPrefix(key, momentKey)
	seconds, err := strconv.ParseUint(rest, 10, 31)
	return unit.Duration(seconds), ok && err == nil
}

// IsMoment says whether a key is that of a moment.
func IsMoment(key string) bool {
	_, ok := momentOf(key)
	return ok
}

// lastDays are the newest days that anybody asked for.
func (s *Study) lastDays() *day.Answer {
	if a, ok := s.steady.peek(); ok {
		return a
	}
	if a, ok := s.few.peek(); ok {
		return a
	}
	return s.before
}

// then solves what runs at a moment, with the receivers as they stand.
func (s *Study) then(ctx context.Context, key string, at unit.Duration) (*Shown, error) {
	days := s.lastDays()
	supposed := days != nil && days == s.before
	if days == nil {
		var err error
		if days, err = s.Rough(ctx); err != nil {
			return nil, err
		}
	}
	stands, ok := days.At(at)
	if !ok {
		return nil, &NoSet{key}
	}
	m, err := s.Model(ctx)
	if err != nil {
		return nil, err
	}
	state, err := flow.In(ctx, s.job, m, days.Case(m, stands), s.start)
	if err != nil {
		return nil, fmt.Errorf("flow at a moment of the day: %w", err)
	}
	set := demand.Set{ID: job.ID(key), Why: demand.Then, Running: stands.Running, Words: "ran at a moment of a working day"}
	return &Shown{Set: set, Supply: model.CutIn, State: &state, Supposed: supposed}, nil
}
