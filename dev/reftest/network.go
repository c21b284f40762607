package reftest

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"

	"dropleg/engine/network"
	"dropleg/engine/vessel"
	"dropleg/internal/answer/demand"

	"dropleg/engine/air"
	"dropleg/engine/unit"
)

// benchAgreement is how closely an answer must meet that of the independent
// solver, as a share.
const benchAgreement = 1e-6

// benchFolders are the solved cases.
func benchFolders() []string {
	return []string{"network", "demand", "cutting", "purchase", "steiner", "steiner-published"}
}

// benchRows makes a row of each solved case: Cell has its text under "text".
func benchRows(root string) ([]Row, error) {
	var rows []Row
	for _, folder := range benchFolders() {
		paths, err := filepath.Glob(filepath.Join(root, "testdata", "ref", "bench", folder, "*.json"))
		if err != nil || len(paths) == 0 {
			return nil, fmt.Errorf("no cases in bench/%s: %w", folder, errors.Join(err, os.ErrNotExist))
		}
		for _, path := range paths {
			text, err := os.ReadFile(path)
			if err != nil {
				return nil, err
			}
			name := strings.TrimSuffix(filepath.Base(path), ".json")
			rows = append(rows, Row{
				File: "bench/" + folder, ID: folder + "/" + name, Quantity: name, How: Solved,
				Source: "independent solver, bench/README.md", Want: math.NaN(), Cell: map[string]string{"text": string(text)},
			})
		}
	}
	return rows, nil
}

func networkLaws() []Law {
	return []Law{
		{
			Topic: "Networks against an independent solver", Name: "steady network: every pressure and flow", Code: "engine/network Document.Answer",
			File: "bench/network", Figures: networkFigures,
		},
		{
			Topic: "Demand", Name: "distribution of the flow taken", Code: "internal/answer/demand FlowsOf",
			File: "bench/demand", When: func(r Row) bool { return !strings.HasPrefix(r.Quantity, "receiver") }, Figures: distributionFigures,
		},
		{
			Topic: "Receivers", Name: "cycle between two pressures", Code: "engine/vessel Receiver.Cycle",
			File: "bench/demand", Of: []string{"receiver"}, Figures: cycleFigures,
		},
		{
			Topic: "Buying and cutting, to the proven optimum", Name: "cheapest basket of offers", Code: "internal/answer/buy Cheapest",
			File: "bench/purchase", Figures: basketFigures,
		},
		{
			Topic: "Buying and cutting, to the proven optimum", Name: "cheapest lengths to cut from", Code: "internal/answer/cut Solve",
			File: "bench/cutting", Figures: cuttingFigures,
		},
		{
			Topic: "Where lines run, to the proven optimum", Name: "least tree of a graph", Code: "engine/num/steiner Solve",
			File: "bench/steiner", Figures: treeFigures,
		},
		{
			Topic: "Where lines run, to the proven optimum", Name: "least tree of a published graph", Code: "engine/num/steiner Solve",
			File: "bench/steiner-published", Figures: treeFigures,
		},
	}
}

func networkFigures(r Row) ([]Figure, error) {
	d, problems := network.Read([]byte(r.Cell["text"]))
	if len(problems) > 0 {
		return nil, fmt.Errorf("%s: %v", r.ID, problems)
	}
	var want struct {
		Pressure map[string]float64 `json:"pressure_Pa_abs"`
		Flow     map[string]float64 `json:"flow_kg_s"`
	}
	if err := json.Unmarshal(d.Expected, &want); err != nil {
		return nil, err
	}
	a, problems, err := d.Answer(context.Background(), nil)
	if err != nil {
		return nil, err
	}
	if len(problems) > 0 || a.Refused != nil || len(want.Pressure) != len(a.Nodes) || len(want.Flow) != len(a.Links) {
		return nil, fmt.Errorf("%s: no whole answer", r.ID)
	}
	var figures []Figure
	for _, n := range a.Nodes {
		if n.Pressure == nil {
			return nil, fmt.Errorf("%s: %s has no pressure", r.ID, n.ID)
		}
		figures = append(figures, figure("pressure at "+n.ID, want.Pressure[n.ID], *n.Pressure, benchAgreement, "Pa"))
	}
	for _, l := range a.Links {
		figures = append(figures, figure("flow in "+l.ID, want.Flow[l.ID], l.Flow, benchAgreement, "kg/s"))
	}
	return figures, nil
}

func distributionFigures(r Row) ([]Figure, error) {
	var c struct {
		Tools []struct {
			Flow  float64 `json:"flow_L_min"`
			Share float64 `json:"share"`
		} `json:"tools"`
		Mean       float64            `json:"mean_L_min"`
		SD         float64            `json:"sd_L_min"`
		Percentile map[string]float64 `json:"percentile_L_min"`
		Above      *float64           `json:"P_above_1000_L_min"`
	}
	if err := json.Unmarshal([]byte(r.Cell["text"]), &c); err != nil {
		return nil, err
	}
	var parts []demand.Part
	for _, t := range c.Tools {
		parts = append(parts, demand.Solo(t.Share, t.Flow))
	}
	f := demand.FlowsOf(parts, 1, 0)
	figures := []Figure{
		figure("mean", c.Mean, f.Mean(), benchAgreement, "L/min"),
		figure("standard deviation", c.SD, f.SD(), benchAgreement, "L/min"),
	}
	for _, level := range []string{"0.5", "0.9", "0.99", "0.999"} {
		share, ok := number(level)
		want, stated := c.Percentile[level]
		if ok && stated {
			figures = append(figures, figure("not exceeded in "+level, want, f.Level(share), benchAgreement, "L/min"))
		}
	}
	if c.Above != nil {
		figures = append(figures, figure("chance above 1000 L/min", *c.Above, f.Above(1000), benchAgreement, "1"))
	}
	return figures, nil
}

func cycleFigures(r Row) ([]Figure, error) {
	var c struct {
		Volume    float64 `json:"volume_m3"`
		CutIn     float64 `json:"cut_in_Pa"`
		CutOut    float64 `json:"cut_out_Pa"`
		Reference float64 `json:"reference_Pa"`
		Supply    float64 `json:"supply_free_m3_s"`
		Demand    float64 `json:"demand_free_m3_s"`
		On        float64 `json:"time_on_s"`
		Off       float64 `json:"time_off_s"`
		Duty      float64 `json:"duty"`
		Starts    float64 `json:"starts_per_h"`
	}
	if err := json.Unmarshal([]byte(r.Cell["text"]), &c); err != nil {
		return nil, err
	}
	free, err := air.Site(unit.AbsPressure(c.Reference), room, 0)
	if err != nil {
		return nil, err
	}
	v := vessel.Receiver{Volume: unit.Volume(c.Volume), Temperature: room}
	cycle, err := v.Cycle(unit.AbsPressure(c.CutOut), unit.AbsPressure(c.CutIn),
		free.Mass(unit.VolumeFlow(c.Supply)), free.Mass(unit.VolumeFlow(c.Demand)))
	return []Figure{
		figure("time on", c.On, float64(cycle.Load), benchAgreement, "s"),
		figure("time off", c.Off, float64(cycle.Rest), benchAgreement, "s"),
		figure("duty", c.Duty, float64(cycle.Duty), benchAgreement, "1"),
		figure("starts", c.Starts, float64(cycle.Starts)*3600, benchAgreement, "1/h"),
	}, err
}
