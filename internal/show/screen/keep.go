package screen

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"dropleg/engine/unit"
	"dropleg/internal/decide/keep"
	"dropleg/internal/shop/job"
)

// Keep is the upkeep.
type Keep struct {
	Sentence string    `json:"sentence"`
	Cautions []string  `json:"cautions"`
	Tasks    []TaskRow `json:"tasks"` // next due first
	// Own are the intervals that the job states, those of tasks not listed now too.
	Own     []job.Interval `json:"own"`
	Unknown []string       `json:"unknown_tasks"`
	Log     []LogRow       `json:"log"`
	Years   []string       `json:"years"`
	Cost    string         `json:"cost"`
	Leaks   []LogRow       `json:"leaks"`
	Trend   string         `json:"trend"`
	Running []HoursRow     `json:"running"`
	// Read is what was read at the plant: hours, water, dew points, newest first.
	Read []LogRow `json:"read"`
}

// TaskRow is something to do again and again.
type TaskRow struct {
	Task    string  `json:"task"`
	Thing   string  `json:"thing"` // on the drawing; "" for the shop
	Name    string  `json:"name"`
	Words   string  `json:"words"`
	Every   string  `json:"every"`
	Days    int     `json:"days"`
	Hours   float64 `json:"hours"` // or so many running hours; 0: none
	ByHours bool    `json:"by_hours"`
	Own     bool    `json:"own"` // the shop's own interval
	Due     string  `json:"due"`
	State   string  `json:"state"` // late, due, soon, later, never
	Safe    bool    `json:"shut_off_first"`
	Written Written `json:"written"`
}

// LogRow is what was done or measured.
type LogRow struct {
	Record string `json:"record"`
	When   string `json:"when"`
	Words  string `json:"words"`
	Cost   string `json:"cost"`
	Photo  string `json:"photo"`
}

// HoursRow is how long a compressor runs.
type HoursRow struct {
	Thing string `json:"thing"`
	Name  string `json:"name"`
	Words string `json:"words"`
}

type upkeep struct {
	*held
	a *keep.Answer
}

func (s *Shop) upkeep(ctx context.Context, ask Ask) (*upkeep, error) {
	h, err := s.held(ctx, ask)
	if err != nil {
		return nil, err
	}
	a, err := keep.Of(ctx, s.study, ask.Now)
	if err != nil {
		return nil, fmt.Errorf("listing the upkeep: %w", err)
	}
	return &upkeep{h, a}, nil
}

// Keep tells what is due when and what was done.
func (s *Shop) Keep(ctx context.Context, ask Ask) (Keep, error) {
	k, err := s.upkeep(ctx, ask)
	if err != nil {
		return Keep{}, err
	}
	out := Keep{Sentence: k.sentence(), Cautions: eachWeek().cautions, Tasks: []TaskRow{}, Own: append([]job.Interval{}, k.job.Rules.Upkeep...), Unknown: k.unknown(), Log: []LogRow{}, Years: []string{}, Leaks: []LogRow{}, Running: []HoursRow{}, Read: []LogRow{}}
	names := map[string]string{}
	for i := range k.a.Tasks {
		row := k.task(&k.a.Tasks[i])
		names[row.Task] = row.Name + ": " + row.Words
		out.Tasks = append(out.Tasks, row)
	}
	for _, r := range k.a.Log {
		out.Log = append(out.Log, k.logged(r, names))
	}
	for _, y := range k.a.Years {
		text := fmt.Sprintf("%d: %s", y.Year, plural(y.Done, "entry", "entries"))
		if y.Cost > 0 {
			text += ", " + money(y.Cost, k.a.Currency)
		}
		out.Years = append(out.Years, text)
	}
	if k.a.Priced > 0 {
		out.Cost = money(k.a.YearCost, k.a.Currency) + " a year by " + plural(k.a.Priced, "task that has", "tasks that have") + " a cost in the log"
	}
	for _, l := range k.a.Leaks {
		out.Leaks = append(out.Leaks, LogRow{Record: string(l.Record), When: l.When.Format("2 January 2006"), Words: fmt.Sprintf("%.1f %%", 100*l.Share)})
	}
	out.Trend = k.trend()
	for _, r := range k.a.Running {
		out.Running = append(out.Running, k.hours(r))
	}
	for i := range slices.Backward(k.job.Records) {
		if row, ok := k.read(&k.job.Records[i]); ok {
			out.Read = append(out.Read, row)
		}
	}
	return out, nil
}

// read words what was read off a meter, out of a drain or by a hygrometer.
func (k *upkeep) read(r *job.Record) (row LogRow, ok bool) {
	if r.Reading == nil || len(r.About) == 0 {
		return row, false
	}
	row = LogRow{Record: string(r.ID), When: by(r), Photo: r.Photo, Words: upper(k.named(r.About[0])) + ": "}
	switch x := r.Reading; {
	case x.Hours != nil:
		row.Words += fmt.Sprintf("%.0f h", *x.Hours)
	case x.Water != nil:
		row.Words += k.plain(unit.KindVolume, float64(*x.Water)) + " of water"
		if x.Time != nil {
			row.Words += " in " + k.plain(unit.KindDuration, float64(*x.Time))
		}
	case x.Dew != nil:
		row.Words += "dew point under pressure " + k.plain(unit.KindTemperature, float64(*x.Dew))
	default:
		return row, false
	}
	return row, true
}

func money(x float64, currency string) string {
	return strings.TrimSpace(fmt.Sprintf("%.2f %s", x, currency))
}

func (k *upkeep) sentence() string {
	switch late := k.late(); {
	case len(k.a.Tasks) == 0:
		return "Nothing is installed yet that wants looking after."
	case k.never() == len(k.a.Tasks):
		return fmt.Sprintf("%s to look after; nothing is in the log yet, so all count as due.", plural(len(k.a.Tasks), "thing", "things"))
	case k.a.Due == 0:
		return "Nothing is due today; next: " + k.next() + "."
	case late > 0:
		return fmt.Sprintf("%s due, %d of them late; first: %s.", plural(k.a.Due, "thing", "things"), late, k.next())
	}
	return plural(k.a.Due, "thing is", "things are") + " due today; first: " + k.next() + "."
}

func (k *upkeep) late() int {
	n := 0
	for i := range k.a.Tasks {
		if k.a.Tasks[i].Left < 0 {
			n++
		}
	}
	return n
}

func (k *upkeep) never() int {
	n := 0
	for i := range k.a.Tasks {
		if k.a.Tasks[i].Last == nil {
			n++
		}
	}
	return n
}

func (k *upkeep) next() string {
	t := k.task(&k.a.Tasks[0])
	if t.Thing == "" {
		return t.Words
	}
	return t.Words + " (" + t.Name + ")"
}

func (k *upkeep) logged(r *job.Record, names map[string]string) LogRow {
	row := LogRow{Record: string(r.ID), When: by(r), Words: or(names[r.Task], r.Task), Photo: r.Photo}
	if len(r.Used) > 0 {
		row.Words += "; used " + strings.Join(r.Used, ", ")
	}
	if r.Text != "" {
		row.Words += "; " + r.Text
	}
	if r.Cost != nil {
		row.Cost = money(*r.Cost, k.a.Currency)
	}
	return row
}

// trend words how the leak goes.
func (k *upkeep) trend() string {
	switch {
	case len(k.a.Leaks) == 0:
		return "The compressor was never timed with everything shut: do it once to know the leak, and again to know its trend."
	case k.a.Slope == nil:
		return "Timed once; the next timing tells the trend."
	case *k.a.Slope > 0.001:
		return fmt.Sprintf("The leak grows by %.1f points a year of what the compressors deliver.", 100**k.a.Slope)
	case *k.a.Slope < -0.001:
		return fmt.Sprintf("The leak falls by %.1f points a year of what the compressors deliver.", -100**k.a.Slope)
	}
	return "The leak stays as it is."
}

func (k *upkeep) hours(r keep.Running) HoursRow {
	row := HoursRow{Thing: string(r.Compressor), Name: upper(k.named(r.Compressor))}
	row.Words = fmt.Sprintf("%.1f h a day by the working days gone through; two readings of its meter would tell", r.PerDay)
	if r.From == "readings" {
		row.Words = fmt.Sprintf("%.1f h a day by its meter", r.PerDay)
	}
	if r.Meter != nil {
		row.Words += fmt.Sprintf("; it stood at %.0f h", *r.Meter)
	}
	return row
}

// Calendar writes the upkeep as iCalendar.
func (s *Shop) Calendar(ctx context.Context, w io.Writer, ask Ask, id string, stamp time.Time) error {
	k, err := s.upkeep(ctx, ask)
	if err != nil {
		return err
	}
	return keep.WriteICS(w, k.a, id, func(t *keep.Task) string {
		row := k.task(t)
		return row.Name + ": " + row.Words
	}, stamp)
}

// answerKeep tells what is due; it is no verdict.
func answerKeep(in *inquiry) answer {
	if in.waits {
		return answer{mark: Told, words: "Opens with the hours that the compressor runs; it takes a moment."}
	}
	return answer{mark: Told, words: in.upkeep.sentence(), facts: []Fact{
		{Words: "Due", Figure: fmt.Sprint(in.upkeep.a.Due), From: counted("tasks of what is installed that are due today, late, or not in the log")},
	}}
}
