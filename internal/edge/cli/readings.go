package cli

import (
	"context"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/decide/prove"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/screen"
)

// proveDecay judges the readings of a decay test.
func (c *call) proveDecay(ctx context.Context, j *job.Job, ask decayAsk) error {
	shop, view, err := c.shopOf(j)
	if err != nil {
		return err
	}
	plan, err := shop.Prove(ctx, view)
	if err != nil {
		return err
	}
	at, err := sectionOf(&plan, ask.section)
	if err != nil {
		return err
	}
	name, data, err := c.read(ask.file)
	if err != nil {
		return err
	}
	test, problems := readReadings(string(data), unit.GaugePressure(plan.Sections[at].Pascals))
	if len(problems) > 0 {
		return &badInput{name, problems}
	}
	test.Section = plan.Sections[at].ID
	if err := ask.instruments(test); err != nil {
		return err
	}
	row, err := shop.Decay(ctx, view, test)
	if err != nil {
		return err
	}
	err = c.write(j, row, func(p *paper, _ unit.System) {
		p.heading(plan.Sections[at].Name)
		if row.Figure != "" {
			p.line("Leak " + row.Figure + " (95 %)")
		}
		p.wrapped("", "", row.Words)
	})
	if err == nil && row.State == prove.Leaks {
		return errShort
	}
	return err
}

// sectionOf is the section of an id, or the only one where none is named.
func sectionOf(plan *screen.Prove, id string) (at int, err error) {
	if id == "" && len(plan.Sections) == 1 {
		return 0, nil
	}
	var ids []string
	for i := range plan.Sections {
		ids = append(ids, plan.Sections[i].ID)
	}
	if at = slices.Index(ids, id); at >= 0 {
		return at, nil
	}
	near := ""
	if word := unit.Nearest(id, ids); word != "" {
		near = "; nearest " + quote(word)
	}
	return 0, misused("prove: read --section %s; wanted one of %s%s", quote(id), listed(ids), near)
}

// instruments reads what gauge and thermometer are good to.
func (d decayAsk) instruments(t *job.Test) error {
	if d.gauge != "" {
		x, err := unit.Parse(d.gauge, unit.KindPressureDiff, unit.Env{})
		if err != nil {
			return misused("prove: --gauge: %s", err)
		}
		t.Gauge = new(unit.PressureDiff(x))
	}
	if d.thermometer != "" {
		x, err := unit.Parse(d.thermometer, unit.KindTempDiff, unit.Env{})
		if err != nil {
			return misused("prove: --thermometer: %s", err)
		}
		t.Thermo = new(unit.TempDiff(x))
	}
	return nil
}

// column is one of a table of readings, with the unit that its head names.
type column struct {
	at   int
	unit string
}

// readReadings reads a table of readings. A cell may bring its own unit; else that of the
// head counts, "pressure_bar". expected is about what a gauge would show.
func readReadings(text string, expected unit.GaugePressure) (*job.Test, []document.Problem) {
	r := csv.NewReader(strings.NewReader(text))
	r.TrimLeadingSpace = true
	rows, err := r.ReadAll()
	if err != nil {
		return nil, []document.Problem{{Read: err.Error(), Want: "a table in CSV with the columns time, pressure and, if read, temperature"}}
	}
	if len(rows) < 2 {
		return nil, []document.Problem{{Read: "no readings", Want: "a head and a line for each reading"}}
	}
	head := heads(rows[0])
	for _, want := range []string{"time", "pressure"} {
		if _, ok := head[want]; !ok {
			return nil, []document.Problem{{Line: 1, Read: strings.Join(rows[0], ","), Want: "a column " + want}}
		}
	}
	t := &job.Test{Way: "decay"}
	var problems []document.Problem
	for n, row := range rows[1:] {
		s, bad := readSample(row, head, expected)
		for i := range bad {
			bad[i].Line = n + 2
		}
		problems = append(problems, bad...)
		if k := len(t.Samples); k > 0 && len(bad) == 0 && s.Time <= t.Samples[k-1].Time {
			problems = append(problems, document.Problem{Line: n + 2, Path: "time", Read: row[head["time"].at], Want: "a time after the line before"})
		}
		t.Samples = append(t.Samples, s)
	}
	return t, problems
}

// heads finds the columns by the first word of their heads.
func heads(row []string) map[string]column {
	out := map[string]column{}
	for i, cell := range row {
		name, u, _ := strings.Cut(strings.TrimSpace(cell), "_")
		out[strings.ToLower(name)] = column{i, strings.TrimSuffix(u, "_g")}
	}
	return out
}

// readSample reads one line.
func readSample(row []string, head map[string]column, expected unit.GaugePressure) (s job.Sample, bad []document.Problem) {
	figure := func(name string, k unit.Kind) float64 {
		c := head[name]
		text := strings.TrimSpace(row[c.at])
		x, err := unit.Parse(text, k, unit.Env{})
		if _, bare := strconv.ParseFloat(text, 64); bare == nil && c.unit != "" {
			x, err = unit.Parse(text+" "+c.unit, k, unit.Env{})
		}
		if err != nil {
			bad = append(bad, document.Problem{Path: name, Read: fmt.Sprintf("%q", text), Want: err.Error()})
		}
		return x
	}
	s.Time = unit.Duration(figure("time", unit.KindDuration))
	s.Pressure = unit.GaugePressure(figure("pressure", unit.KindGauge))
	if c, ok := head["temperature"]; ok && strings.TrimSpace(row[c.at]) != "" {
		s.Temp = new(unit.Temperature(figure("temperature", unit.KindTemperature)))
	}
	number := strings.TrimSpace(strings.TrimRight(row[head["pressure"].at], "abcdefghijklmnopqrstuvwxyzMPG²/ "))
	if x, err := strconv.ParseFloat(number, 64); err == nil && len(bad) == 0 {
		if ask := prove.Doubt(x, s.Pressure, expected); ask != "" {
			bad = append(bad, document.Problem{Path: "pressure", Read: strings.TrimPrefix(ask, "read "), Want: "a pressure near that of the section, with its unit"})
		}
	}
	return s, bad
}
