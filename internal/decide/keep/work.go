package keep

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// source is the study that upkeep is read from.
type source = *study.Study

type work struct {
	job   *job.Job
	index *job.Index
	shelf *catalog.Catalog
	today time.Time
	done  map[string]job.Standing
	hours map[job.ID]Running // by compressor
	a     *Answer
}

const (
	weeksAYear = 50.0 // worked, as the year's electricity takes them (common practice, no source)
	usualWeek  = 40.0 // hours
	daysAYear  = 365.25
)

// running tells how long each compressor runs a day: by two readings of its meter, else by
// the working days gone through.
func (w *work) running(ctx context.Context, s source) error {
	w.hours = map[job.ID]Running{}
	d, err := s.Rough(ctx)
	if err != nil {
		return fmt.Errorf("working days through: %w", err)
	}
	week := usualWeek
	if h := w.job.Work.Hours; h != nil {
		week = *h
	}
	for _, c := range d.Compressors {
		r := Running{Compressor: c.ID, From: "days", PerDay: float64(c.Duty+c.Idle) * week * weeksAYear / daysAYear}
		w.meter(&r)
		w.hours[c.ID] = r
		w.a.Running = append(w.a.Running, r)
	}
	return nil
}

// meter reads the hours off the records.
func (w *work) meter(r *Running) {
	var first, last *job.Record
	for i := range w.job.Records {
		rec := &w.job.Records[i]
		if rec.Reading == nil || rec.Reading.Hours == nil || !slices.Contains(rec.About, r.Compressor) {
			continue
		}
		if first == nil {
			first = rec
		}
		last = rec
		r.Meter = rec.Reading.Hours
	}
	if first == nil || first == last {
		return
	}
	between := taken(last).Sub(taken(first)).Hours() / 24
	if ran := *last.Reading.Hours - *first.Reading.Hours; between >= 1 && ran >= 0 {
		r.PerDay, r.From = ran/between, "readings"
	}
}

// taken is when a record was made; the beginning of time where that cannot be read.
func taken(r *job.Record) time.Time {
	at, _ := time.Parse(time.RFC3339, r.When)
	return at
}

// bedsOf are the days that each bed of desiccant lasts.
func bedsOf(ctx context.Context, s source) (map[job.ID]float64, error) {
	wet, err := s.Wet(ctx)
	if err != nil {
		return nil, fmt.Errorf("following the water: %w", err)
	}
	out := map[job.ID]float64{}
	for _, season := range wet.Seasons {
		for _, d := range season.Dryers {
			if d.Lasts != nil && (out[d.ID] == 0 || d.Lasts.Likely < out[d.ID]) {
				out[d.ID] = d.Lasts.Likely
			}
		}
	}
	return out, nil
}

// list puts the tasks of all that is installed, the next due first, of those the more frequent.
func (w *work) list(beds map[job.ID]float64) {
	for _, c := range shopWide() {
		w.put(c, "", common())
	}
	for i := range w.job.Net.Points {
		if p := &w.job.Net.Points[i]; p.State != "stub" {
			w.part(p.ID, &p.Part, beds)
		}
	}
	hose, coupler, _ := hung()
	for i := range w.job.Outlets {
		o := &w.job.Outlets[i]
		couples := false
		for n := range o.Hang {
			h := &o.Hang[n]
			id := h.ID
			if id == "" {
				id = o.ID
			}
			w.part(id, h, beds)
			kind, _ := w.shelf.Kind(h.Kind)
			couples = couples || kind.Has(catalog.Couples)
		}
		if couples {
			w.put(coupler, o.ID, common())
		}
		if o.Hose != nil {
			w.put(hose, o.Hose.ID, common())
		}
	}
	slices.SortStableFunc(w.a.Tasks, func(a, b Task) int { return cmp.Or(cmp.Compare(a.Left, b.Left), cmp.Compare(a.Days, b.Days)) })
	for i := range w.a.Tasks {
		t := &w.a.Tasks[i]
		if t.Left <= 0 {
			w.a.Due++
		}
		if t.Cost != nil && t.Days > 0 {
			w.a.YearCost += *t.Cost * daysAYear / float64(t.Days)
			w.a.Priced++
		}
	}
}

// unknown finds the intervals that no task has taken up.
func (w *work) unknown() {
	var tasks []string
	for i := range w.a.Tasks {
		tasks = append(tasks, w.a.Tasks[i].Task)
	}
	for i, own := range w.job.Rules.Upkeep {
		if !slices.Contains(tasks, own.Task) {
			w.a.Unknown = append(w.a.Unknown, Unknown{fmt.Sprintf("rules.upkeep[%d].task", i), own.Task, unit.Nearest(own.Task, tasks)})
		}
	}
}

// part puts the tasks of a part by its roles.
func (w *work) part(id job.ID, p *job.Part, beds map[job.ID]float64) {
	kind, _ := w.shelf.Kind(p.Kind)
	all := func(roles []catalog.Role) bool {
		return !slices.ContainsFunc(roles, func(r catalog.Role) bool { return !kind.Has(r) })
	}
	for _, c := range customs() {
		if all(c.has) && !slices.ContainsFunc(c.not, kind.Has) {
			w.put(c, id, common())
		}
	}
	if lasts := beds[id]; lasts > 0 {
		_, _, bed := hung()
		bed.days = max(1, int(math.Min(lasts, 10*daysAYear)))
		w.put(bed, id, cite.Ref{Source: "common-practice", Place: "life of the bed, worked out from the water that comes", How: cite.Computed})
	}
}

// put adds a task with when it was done and is due.
func (w *work) put(c custom, thing job.ID, ref cite.Ref) {
	t := Task{Task: c.key, Key: c.key, Thing: thing, Words: c.words, Days: c.days, Hours: c.hours, Safe: c.safe, Ref: ref, Seen: []job.ID{}}
	if thing != "" {
		t.Task += " " + string(thing)
	}
	if slices.ContainsFunc(w.a.Tasks, func(o Task) bool { return o.Task == t.Task }) {
		return // two parts of an outlet without ids of their own
	}
	for _, own := range w.job.Rules.Upkeep {
		if own.Task == t.Task {
			t.Days, t.Hours, t.Own = own.Days, 0, true
			if own.Hours != nil {
				t.Hours = *own.Hours
			}
		}
	}
	w.due(&t)
	w.a.Tasks = append(w.a.Tasks, t)
}

// due works out when a task comes next: by calendar or by running hours, whichever is
// sooner. A task that was never done is due today.
func (w *work) due(t *Task) {
	s, ok := w.done[t.Task]
	if !ok {
		t.Next, t.By = w.today, "never-done"
		return
	}
	t.Last = s.Last
	sum, priced := 0.0, 0
	for _, r := range s.All {
		t.Seen = append(t.Seen, r.ID)
		if r.Cost != nil {
			sum, priced = sum+*r.Cost, priced+1
		}
	}
	if priced > 0 {
		t.Cost = new(sum / float64(priced))
	}
	last := midnight(taken(t.Last).In(w.today.Location()))
	t.Next, t.By = last.AddDate(0, 0, t.Days), "calendar"
	if r, ok := w.hours[t.Thing]; ok && t.Hours > 0 && r.PerDay > 0 {
		if n := int(math.Min(t.Hours/r.PerDay, 100*daysAYear)); n < t.Days {
			t.Next, t.By = last.AddDate(0, 0, n), "hours"
		}
	}
	t.Left = days(w.today, t.Next)
}
