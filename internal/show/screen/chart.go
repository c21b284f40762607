package screen

import (
	"context"
	"fmt"
	"slices"
	"strconv"

	"dropleg/engine/unit"
	"dropleg/internal/show/scene"
)

// Chart is a chart to take away: as it is drawn, and the figures that it is drawn from.
type Chart struct {
	Scene scene.Scene
	// Rows of the table, the first its head: the unit stands in each name, figures in SI as
	// job files have them.
	Rows [][]string
}

// chartWidth is that of a chart on paper, mm.
const chartWidth = 240

// charts lists the charts by name.
var charts = []struct {
	name string
	make func(context.Context, *Shop, Ask) (Chart, error)
}{
	{"day", dayChart},
	{"chance", chanceChart},
	{"wet-cold", wetChart("cold")},
	{"wet-warm", wetChart("warm")},
}

// Charts lists the names that Chart knows.
func Charts() []string {
	names := make([]string, len(charts))
	for i, c := range charts {
		names[i] = c.name
	}
	return names
}

// Chart is one chart by its name; an unknown one is a *NotThere.
func (s *Shop) Chart(ctx context.Context, ask Ask, name string) (Chart, error) {
	i := slices.Index(Charts(), name)
	if i < 0 {
		return Chart{}, &NotThere{name}
	}
	return charts[i].make(ctx, s, ask)
}

// told works days through and gets ready to word them; nothing where they cannot be told.
func (s *Shop) told(ctx context.Context, ask Ask) (*told, error) {
	a, err := s.study.Steady(ctx)
	if err != nil {
		return nil, fmt.Errorf("working days through: %w", err)
	}
	if a.Untold != "" {
		return nil, &NotThere{"working day: " + a.Untold}
	}
	v, err := s.plainView(ctx, ask)
	return &told{shop: s, view: v, days: a, rare: s.job.RuleRare().Value}, err
}

// number is a figure for a table of figures.
func number(x float64, digits int) string { return strconv.FormatFloat(x, 'f', digits, 64) }

// wetChart is the chart of a season; its table holds both.
func wetChart(season string) func(context.Context, *Shop, Ask) (Chart, error) {
	const high = 100
	return func(ctx context.Context, s *Shop, ask Ask) (Chart, error) {
		w, err := s.WaterTo(ctx, ask, "", chartWidth, high)
		if err != nil {
			return Chart{}, err
		}
		for _, one := range w.Seasons {
			if one.Season == season {
				return Chart{one.Scene, w.CSV()}, nil
			}
		}
		return Chart{}, &NotThere{season + " season: " + w.Untold}
	}
}

func dayChart(ctx context.Context, s *Shop, ask Ask) (Chart, error) {
	d, err := s.told(ctx, ask)
	if err != nil {
		return Chart{}, err
	}
	head := []string{"time_s", "receiver_kPa_g", "compressors_under_load", "tools"}
	for _, r := range d.days.Receivers {
		head = append(head, string(r.IDs[0])+"_kPa_g")
	}
	rows := [][]string{head}
	for _, m := range d.days.Course {
		row := []string{number(float64(m.At), 1), number(float64(m.Pressure)/1e3, 2), strconv.Itoa(len(m.Loaded)), s.runningWords(m.Running, "")}
		for _, p := range m.Receivers {
			row = append(row, number(float64(p)/1e3, 2))
		}
		rows = append(rows, row)
	}
	return Chart{d.chart(0, d.days.Time, true, chartWidth), rows}, nil
}

func chanceChart(ctx context.Context, s *Shop, ask Ask) (Chart, error) {
	d, err := s.told(ctx, ask)
	if err != nil {
		return Chart{}, err
	}
	rows := [][]string{{"tool", "works_h_1_d", "share_short", "share_short_within_95", "mostly"}}
	for _, t := range d.worstFirst() {
		mostly := ""
		if len(t.Spoilt) > 0 {
			mostly = d.beside(t.Spoilt[0].Running, t.ID)
		}
		rows = append(rows, []string{
			s.toolName(t.ID), number(float64(t.Ran)*float64(d.days.Time)/3600, 3), number(float64(t.Short), 5), number(float64(max(t.Within, unit.Ratio(0))), 5), mostly,
		})
	}
	return Chart{d.chances(chartWidth / 1.6), rows}, nil
}
