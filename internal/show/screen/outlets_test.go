package screen

import (
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Rows are of the moment shown: an outlet that rests says so, and what it has in a worse
// moment of its own, which is the least of its figures over all sets.
func TestARestingOutletTellsItsWorst(t *testing.T) {
	rested := 0
	for _, name := range []string{"boat-shop", "ring-main"} {
		s := opened(t, name)
		a, err := s.study.Flow(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		p, err := s.Page(t.Context(), Window{View: "plan", Width: 260, Height: 170, Ask: Ask{System: unit.Metric}})
		if err != nil {
			t.Fatal(err)
		}
		v := &view{ask: Ask{System: unit.Metric}, env: unit.Env{Atmosphere: a.Atmosphere}}
		running := map[job.ID]bool{}
		for _, u := range a.Sets[a.Worst].Running {
			running[u.Outlet] = true
		}
		for _, row := range p.Outlets {
			o := s.index.Outlet(job.ID(row.ID))
			if running[o.ID] || len(o.Tools) == 0 {
				continue
			}
			rested++
			margin, least := unit.PressureDiff(1e9), ""
			for i := range a.Sets {
				for _, tool := range a.Sets[i].CutIn.Tools {
					if tool.Outlet == o.ID && tool.Known && tool.Margin < margin {
						margin, least = tool.Margin, v.plain(unit.KindGauge, float64(tool.Pressure))
					}
				}
			}
			if !strings.HasPrefix(row.Words, "rests in this moment") || least != "" && !strings.Contains(row.Words, least+" at its worst") {
				t.Errorf("%s, %s: %q, want it to rest with %s at its worst", name, row.ID, row.Words, least)
			}
		}
	}
	if rested == 0 {
		t.Error("no outlet of the examples rests in the shop's worst moment")
	}
}
