package plan

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/size"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// What was had stays where lines cannot be laid for the sizes picked; any other failure is one.
func TestLooserTellsWhatFailed(t *testing.T) {
	j := &job.Job{Version: job.Version}
	cold, warm := unit.Celsius(-10), unit.Celsius(32)
	j.Building.Zones = []job.Zone{{ID: "zone.shop", Climate: "heated", Winter: &cold, Summer: &warm}}
	j.Net.Points = []job.Point{
		{ID: "point.from", At: &geom.Point{0, 0, 3}, Part: job.Part{Kind: "wall-block"}},
		{ID: "point.to", At: &geom.Point{30, 0, 3}, Part: job.Part{Kind: "wall-block"}},
	}
	j.Net.Runs = []job.Run{{
		ID: "line.a", From: job.End{Point: "point.from"}, To: job.End{Point: "point.to"},
		Stock: "copper-l", Size: "1/2", Role: "main", Zone: "zone.shop", State: "planned",
	}}
	had := []Proposal{{Name: "had", After: study.Of(j, catalog.Builtin())}}
	broken := errors.New("broken")
	for _, c := range []struct{ failed, want error }{
		{fmt.Errorf("sizes: %w", &size.NoneError{}), nil},
		{fmt.Errorf("lines: %w", &job.Refusal{}), nil},
		{broken, broken},
	} {
		asked := 0
		out, err := looser(context.Background(), had, func(*study.Study) ([]Proposal, error) {
			asked++
			return nil, c.failed
		})
		if asked != 1 || !errors.Is(err, c.want) || c.want == nil && (len(out) != 1 || out[0].Name != "had") {
			t.Errorf("%v: asked %d times, %v, %v", c.failed, asked, out, err)
		}
	}
}
