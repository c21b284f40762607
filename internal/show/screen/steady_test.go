package screen

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

func TestDaysAreToldAsTheyAre(t *testing.T) {
	s := joinery(t)
	days, err := s.study.Steady(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	told, err := s.Steady(t.Context(), Ask{System: unit.Metric}, false)
	whole(t, "days", told, err)
	if told.Rough || told.Mark != NotYet {
		t.Errorf("rough %v, mark %s: %s", told.Rough, told.Mark, told.Sentence)
	}
	worst := slices.MaxFunc(days.Tools, func(a, b day.Tool) int { return int(math.Copysign(1, float64(a.Short-b.Short))) })
	if !strings.Contains(strings.ToLower(told.Sentence), strings.ToLower(s.toolName(worst.ID))) || told.Tools[0].ID != string(worst.ID) || told.Tools[0].State != Short {
		t.Errorf("worst off is %s, told are %s and %+v", worst.ID, told.Sentence, told.Tools[0])
	}
	if len(told.Tools) != len(days.Tools) || len(told.Remedies) != len(days.Remedies) {
		t.Errorf("%d tools of %d, %d remedies of %d", len(told.Tools), len(days.Tools), len(told.Remedies), len(days.Remedies))
	}
	// What stands on the page of an hour is the course of the day.
	hour, err := s.Stretch(t.Context(), Ask{System: unit.Metric}, 3)
	whole(t, "hour", hour, err)
	for _, m := range hour.Moments {
		at, ok := days.At(unit.Duration(m.At))
		if want := unit.Metric.Text(unit.KindGauge, float64(at.Pressure), unit.Env{}); !ok || m.Figure != want || m.At < hour.From || m.At > hour.To {
			t.Fatalf("at %g s: %s, want %s", m.At, m.Figure, want)
		}
	}
	var none *NotThere
	if _, err := s.Stretch(t.Context(), Ask{}, 8); !errors.As(err, &none) {
		t.Errorf("the ninth hour of eight: %v", err)
	}
}

// The drawing of a moment is the network solved with those tools and the receiver as it
// stands then: solved here by itself.
func TestTheDrawingOfAMoment(t *testing.T) {
	s := joinery(t)
	days, err := s.study.Steady(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	m, err := s.study.Model(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range []unit.Duration{60, 9000, 20000} {
		stands, _ := days.At(at)
		held := map[job.ID]unit.GaugePressure{}
		for _, source := range m.Sources() {
			held[source.ID] = stands.Pressure
		}
		want, err := m.NewSolver().Solve(t.Context(), model.Case{Running: stands.Running, Held: held, Idle: len(stands.Loaded) == 0})
		if err != nil || !want.Solved {
			t.Fatal(err)
		}
		v, err := s.look(t.Context(), Ask{Set: study.Moment(at)})
		if err != nil {
			t.Fatal(err)
		}
		for _, tool := range v.state.Tools {
			pair, _ := m.PairOf(job.InUse{Tool: tool.Tool, Outlet: tool.Outlet})
			if got, want := float64(tool.Pressure), float64(want.Tools[pair.Index].Pressure); math.Abs(got-want) > 1 {
				t.Errorf("at %v s: %s has %g Pa, want %g", at, tool.Tool, got, want)
			}
		}
		if len(v.state.Tools) != len(stands.Running) {
			t.Errorf("at %v s: %d tools of %d", at, len(v.state.Tools), len(stands.Running))
		}
	}
	var none *NotThere
	if _, err := s.look(t.Context(), Ask{Set: study.Moment(10 * 3600)}); !errors.As(err, &none) {
		t.Errorf("after the day: %v", err)
	}
}

func TestChartsHaveTheirFigures(t *testing.T) {
	s := joinery(t)
	days, err := s.study.Steady(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for name, rows := range map[string]int{"day": len(days.Course), "chance": len(days.Tools)} {
		c, err := s.Chart(t.Context(), Ask{}, name)
		if err != nil || len(c.Rows) != rows+1 {
			t.Fatalf("%s: %d rows, want %d and a head: %v", name, len(c.Rows), rows, err)
		}
		for _, row := range c.Rows {
			if len(row) != len(c.Rows[0]) || slices.Contains(row, "NaN") {
				t.Fatalf("%s: %v", name, row)
			}
		}
		for _, l := range c.Scene.Layers {
			for _, it := range l.Items {
				if it.Line == nil {
					continue
				}
				for _, p := range it.Line.Points {
					if !(p[0] >= 0 && p[0] <= c.Scene.Max[0]+1e-9 && p[1] >= 0 && p[1] <= c.Scene.Max[1]+1e-9) {
						t.Fatalf("%s: %s leaves the paper at %v", name, l.ID, p)
					}
				}
			}
		}
	}
	var none *NotThere
	if _, err := s.Chart(t.Context(), Ask{}, "weather"); !errors.As(err, &none) {
		t.Errorf("an unknown chart: %v", err)
	}
}

func TestDaysThatCannotBeTold(t *testing.T) {
	s := shopOf(t, []byte(`{"dropleg": 1, "title": "bare", "net": {"points": [], "runs": []}, "outlets": [], "tools": []}`))
	told, err := s.Steady(t.Context(), Ask{}, true)
	whole(t, "days", told, err)
	if told.Mark != Unknown || told.Known != "" || told.Rough || !strings.Contains(told.Sentence, "cannot be told") {
		t.Errorf("%+v", told)
	}
	var none *NotThere
	if _, err := s.Chart(t.Context(), Ask{}, "day"); !errors.As(err, &none) {
		t.Errorf("its chart: %v", err)
	}
}
