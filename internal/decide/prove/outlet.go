package prove

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Outlet is an outlet with what a gauge showed there, beside the design.
type Outlet struct {
	ID      job.ID              `json:"id"`
	Last    *job.Record         `json:"last,omitempty"` // newest pressure read there with a tool running
	Read    *unit.GaugePressure `json:"read_Pa_g,omitempty"`
	Design  *unit.GaugePressure `json:"design_Pa_g,omitempty"` // with the same tools, from the same pressure in the receiver
	Dew     *job.Record         `json:"dew_point,omitempty"`   // newest dew point read
	DewSays *unit.Temperature   `json:"design_dew_point_K,omitempty"`
}

// outlets lists each outlet with its newest readings.
func (w *work) outlets(ctx context.Context) ([]Outlet, error) {
	out := make([]Outlet, 0, len(w.job.Outlets))
	for i := range w.job.Outlets {
		o := Outlet{ID: w.job.Outlets[i].ID}
		for n := range w.job.Records {
			r := &w.job.Records[n]
			if r.Reading == nil || !slices.Contains(r.About, o.ID) {
				continue
			}
			if r.Reading.Pressure != nil && len(r.Reading.Running) > 0 && !r.Reading.Stopped {
				o.Last, o.Read = r, r.Reading.Pressure
			}
			if r.Reading.Dew != nil {
				o.Dew = r
			}
		}
		if err := w.compare(ctx, &o); err != nil {
			return nil, err
		}
		out = append(out, o)
	}
	return out, nil
}

// compare puts the design beside what was read.
func (w *work) compare(ctx context.Context, o *Outlet) error {
	if o.Dew != nil {
		wet, err := w.study.Wet(ctx)
		if err != nil {
			return fmt.Errorf("following the water: %w", err)
		}
		for _, s := range wet.Seasons {
			for _, x := range s.Outlets {
				if x.ID == o.ID && x.Dew != nil && (o.DewSays == nil || *x.Dew > *o.DewSays) {
					o.DewSays = x.Dew
				}
			}
		}
	}
	if o.Last == nil || o.Last.Reading.Receiver == nil {
		return nil
	}
	held := map[job.ID]unit.GaugePressure{}
	for _, s := range w.model.Sources() {
		held[s.ID] = *o.Last.Reading.Receiver
	}
	for _, use := range o.Last.Reading.Running {
		if _, ok := w.model.PairOf(use); !ok {
			return nil // the tool is no longer used there
		}
	}
	state, err := flow.In(ctx, w.job, w.model, model.Case{Running: o.Last.Reading.Running, Supply: model.CutIn, Held: held}, model.Start{})
	if err != nil {
		return fmt.Errorf("pressure at %s: %w", o.ID, err)
	}
	for _, x := range state.Outlets {
		if x.Outlet == o.ID && x.Known {
			o.Design = new(x.Pressure)
		}
	}
	return nil
}

// whole is the thing that a thing within it belongs to: "line.main-2" of
// "line.main-2/corner-1".
func whole(id string) string {
	first, _, _ := strings.Cut(id, "/")
	return first
}
