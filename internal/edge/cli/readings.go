package cli

import (
	"context"
	"slices"
	"strconv"
	"strings"
	"time"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/decide/prove"
	"dropleg/internal/shop/intake"
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
	name, data, err := c.raw(ask.file, document.Limit)
	if err != nil {
		return err
	}
	test, problems := readReadings(data, unit.GaugePressure(plan.Sections[at].Pascals))
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
	out := decayAnswer{j.Title, plan.Sections[at].ID, row, *row.Judged}
	err = c.write(j, out, func(p *paper, _ unit.System) {
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

// decayAnswer is what --json writes: the words, and the figures beneath them.
type decayAnswer struct {
	Title   string `json:"title"`
	Section string `json:"section"`
	screen.DecayRow
	prove.Verdict
}

// sectionOf is the section of an id or a name, or the only one where none is named.
func sectionOf(plan *screen.Prove, id string) (at int, err error) {
	if id == "" && len(plan.Sections) == 1 {
		return 0, nil
	}
	var ids, told []string
	for i := range plan.Sections {
		s := &plan.Sections[i]
		if s.ID == id || strings.EqualFold(s.Name, id) {
			return i, nil
		}
		ids = append(ids, s.ID)
		told = append(told, s.ID+" ("+s.Name+")")
	}
	near := ""
	if word := unit.Nearest(id, ids); word != "" {
		near = "; nearest " + quote(word)
	}
	return 0, misused("prove: read --section %s; wanted one of %s%s", quote(id), listed(told), near)
}

// instruments reads what gauge and thermometer are good to.
func (d decayAsk) instruments(t *job.Test) error {
	if d.gauge != "" {
		x, err := unit.Parse(d.gauge, unit.KindPressureDiff, unit.Env{})
		if err != nil {
			return misused("prove: --gauge: %s", err)
		}
		if x <= 0 {
			return misused("prove: read --gauge %s; wanted more than zero", quote(d.gauge))
		}
		t.Gauge = new(unit.PressureDiff(x))
	}
	if d.thermometer != "" {
		x, err := unit.Parse(d.thermometer, unit.KindTempDiff, unit.Env{})
		if err != nil {
			return misused("prove: --thermometer: %s", err)
		}
		if x <= 0 {
			return misused("prove: read --thermometer %s; wanted more than zero", quote(d.thermometer))
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

// columns are those of a table of readings of a decay test.
var columns = []string{"time", "pressure", "temperature"}

// readReadings reads a table of readings, CSV in any of its dialects or XLSX. A cell may
// bring its own unit; else that of the head counts, "pressure_bar". expected is about what
// a gauge would show.
func readReadings(data []byte, expected unit.GaugePressure) (*job.Test, []document.Problem) {
	file := intake.Read(data)
	if len(file.Sheets) == 0 || len(file.Sheets[0].Rows) == 0 {
		read := "no table"
		if len(file.Problems) > 0 {
			read = file.Problems[0].Read
		}
		return nil, []document.Problem{{Read: read, Want: "a table with the columns time, pressure and, if read, temperature"}}
	}
	rows := file.Sheets[0].Rows
	head, problems := heads(&rows[0])
	if len(problems) > 0 {
		return nil, problems
	}
	if len(rows) < 2 {
		return nil, []document.Problem{{Read: "no readings", Want: "a head and a line for each reading"}}
	}
	t := &job.Test{Way: "decay"}
	for i := range rows[1:] {
		row := &rows[i+1]
		var before *unit.Duration
		if k := len(t.Samples); k > 0 {
			before = &t.Samples[k-1].Time
		}
		r := reading{row: row, head: head, expected: expected}
		s := r.sample(before)
		problems = append(problems, r.bad...)
		t.Samples = append(t.Samples, s)
	}
	return t, problems
}

// heads finds the columns by the first word of their heads.
func heads(row *intake.Row) (map[string]column, []document.Problem) {
	out := map[string]column{}
	var names []string
	for i := range row.Cells {
		name, u, _ := strings.Cut(strings.TrimSpace(row.Cells[i].Text), "_")
		name = strings.ToLower(name)
		names = append(names, name)
		out[name] = column{i, strings.TrimSuffix(u, "_g")}
	}
	var problems []document.Problem
	for _, want := range columns[:2] {
		if _, ok := out[want]; !ok {
			p := document.Problem{Line: row.Number, Path: want, Read: strings.Join(names, ", "), Want: "a column " + want + ", such as " + want + map[string]string{"time": "_min", "pressure": "_bar"}[want]}
			problems = append(problems, p)
		}
	}
	for _, name := range names {
		if name != "" && !slices.Contains(columns, name) && (len(problems) > 0 || unit.Nearest(name, columns) != "") {
			problems = append(problems, document.Problem{
				Line: row.Number, Path: name, Read: quote(name), Want: "one of the columns " + strings.Join(columns, ", "), Nearest: unit.Nearest(name, columns),
			})
		}
	}
	return out, problems
}

// reading is one line of a table while it is read, with what is wrong in it.
type reading struct {
	row      *intake.Row
	head     map[string]column
	expected unit.GaugePressure
	bad      []document.Problem
}

func (r *reading) problem(name, read, want string) {
	r.bad = append(r.bad, document.Problem{Line: r.row.Number, Path: name, Read: read, Want: want})
}

// cell is what stands in a column, a decimal comma made a point.
func (r *reading) cell(name string) string {
	c, ok := r.head[name]
	if !ok || c.at >= len(r.row.Cells) {
		return ""
	}
	text := strings.TrimSpace(r.row.Cells[c.at].Text)
	if strings.Count(text, ",") == 1 && !strings.Contains(text, ".") {
		text = strings.Replace(text, ",", ".", 1)
	}
	return text
}

// figure reads a cell in its own unit or that of the head.
func (r *reading) figure(name string, k unit.Kind) float64 {
	text := r.cell(name)
	if text == "" {
		r.problem(name, "nothing", "a figure in the column "+name)
		return 0
	}
	x, err := unit.Parse(text, k, unit.Env{})
	if _, bare := strconv.ParseFloat(text, 64); bare == nil && r.head[name].unit != "" {
		x, err = unit.Parse(text+" "+r.head[name].unit, k, unit.Env{})
	}
	if err != nil {
		_, want, _ := strings.Cut(err.Error(), ", want ")
		r.problem(name, quote(text), want)
	}
	return x
}

// sample reads one line; before is the time of the line above.
func (r *reading) sample(before *unit.Duration) (s job.Sample) {
	if at, ok := clock(r.cell("time")); ok {
		s.Time = r.onTheClock(at, before)
	} else {
		s.Time = unit.Duration(r.figure("time", unit.KindDuration))
	}
	s.Pressure = unit.GaugePressure(r.figure("pressure", unit.KindGauge))
	if r.cell("temperature") != "" {
		s.Temp = new(unit.Temperature(r.figure("temperature", unit.KindTemperature)))
	}
	if len(r.bad) > 0 {
		return s
	}
	if before != nil && s.Time <= *before {
		r.problem("time", r.cell("time"), "a time after the line before")
	}
	number := strings.TrimSpace(strings.TrimRight(r.cell("pressure"), "abcdefghijklmnopqrstuvwxyzMPG²/ "))
	x, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return s
	}
	if ask := prove.Doubt(x, s.Pressure, r.expected); ask != "" {
		r.problem("pressure", strings.TrimPrefix(ask, "read "), "a pressure near that of the section, with its unit")
	} else if s.Pressure <= 0 {
		r.problem("pressure", r.cell("pressure"), "a pressure above that of the atmosphere")
	}
	return s
}

const wholeDay unit.Duration = 24 * 3600

// onTheClock is a time of the clock as the test runs on: past midnight where it is hours before
// that of the line above. Lines a little out of order are told, for a day more would make the
// leak as much smaller; and so is a watch that begins at nothing or stands under a head with a
// unit: 5:00 may be minutes there, and the leak would come out sixty times too small.
func (r *reading) onTheClock(at unit.Duration, before *unit.Duration) unit.Duration {
	if before == nil && at == 0 || r.head["time"].unit != "" {
		r.problem("time", quote(r.cell("time")), "the time of the clock, such as 22:40, or how long after the start, such as 5 min")
		return at
	}
	if before == nil {
		return at
	}
	const swapped = 3 * 3600
	for at+swapped < *before {
		at += wholeDay
	}
	return at
}

// clock reads a time as a watch shows it, 22:40 or 22:40:30.
func clock(text string) (unit.Duration, bool) {
	for _, form := range []string{"15:04", "15:04:05"} {
		if t, err := time.Parse(form, text); err == nil {
			return unit.Duration(t.Hour()*3600 + t.Minute()*60 + t.Second()), true
		}
	}
	return 0, false
}
