package study

import (
	"context"

	"dropleg/internal/answer/hold"
	"dropleg/internal/answer/water"
)

// Hold is how the lines are held, grown as warm as the air of the warm season makes them.
func (s *Study) Hold(ctx context.Context) (*hold.Answer, error) {
	return s.hold.get(ctx, func(ctx context.Context) (*hold.Answer, error) {
		wet, err := s.Wet(ctx)
		if err != nil {
			return nil, err
		}
		return hold.Of(s.job, s.shelf, hottest(wet)), nil
	})
}

// hottest is the warmest air in each run through the year; none where water is not told.
func hottest(wet *water.Answer) hold.Temps {
	air := hold.Temps{}
	if wet.Untold != "" {
		return air
	}
	for i := range wet.Seasons {
		if wet.Seasons[i].Name != "warm" {
			continue
		}
		for _, l := range wet.Seasons[i].Lines {
			air[l.ID] = max(air[l.ID], l.In, l.Out)
		}
	}
	return air
}
