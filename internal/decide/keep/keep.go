package keep

import (
	"context"
	"time"

	"dropleg/engine/cite"
	"dropleg/internal/shop/job"
)

// Task is something to do again and again.
type Task struct {
	Task  string   `json:"task"` // that a record names: "drain point.receiver-drain"
	Key   string   `json:"key"`  // what it is: drain, oil, element, …
	Thing job.ID   `json:"thing,omitempty"`
	Words string   `json:"words"`
	Days  int      `json:"every_d"`
	Hours float64  `json:"every_running_h,omitempty"` // or so many running hours, whichever comes first
	Safe  bool     `json:"shut_off_first"`
	Ref   cite.Ref `json:"source"`
	Own   bool     `json:"own"` // the interval is the shop's, not the usual one
	// Last is the newest record of it, nil for never; Next is the day on which it is due:
	// of what was never done, today.
	Last *job.Record `json:"last,omitempty"`
	Next time.Time   `json:"next"`
	By   string      `json:"by"`    // what makes it due: calendar, hours, never-done
	Left int         `json:"due_d"` // days until then; below zero it is late
	// Cost is the mean of what it cost, where a record says.
	Cost *float64 `json:"cost_each,omitempty"`
	Seen []job.ID `json:"seen"`
}

// Dates are the days from one on until before another on which a task comes, done each time
// on the day. What is late comes on the first of them.
func (t *Task) Dates(from, until time.Time) []time.Time {
	at := t.Next
	if at.Before(from) {
		at = from
	}
	var out []time.Time
	for at.Before(until) {
		out = append(out, at)
		at = at.AddDate(0, 0, t.Every())
	}
	return out
}

// Year is what upkeep cost in a calendar year.
type Year struct {
	Year int     `json:"year"`
	Cost float64 `json:"cost"`
	Done int     `json:"done"`
}

// LeakAt is the leak as it was timed on a day.
type LeakAt struct {
	When   time.Time `json:"when"`
	Share  float64   `json:"share_of_supply"`
	Record job.ID    `json:"record"`
}

// Running is how many hours a compressor runs a day, and how that is known.
type Running struct {
	Compressor job.ID   `json:"compressor"`
	PerDay     float64  `json:"running_h_1_d"`
	From       string   `json:"from"` // readings, days
	Meter      *float64 `json:"meter_h,omitempty"`
}

// Answer is the upkeep of a job.
type Answer struct {
	Today    time.Time     `json:"today"`
	Tasks    []Task        `json:"tasks"` // the next due first
	Due      int           `json:"due"`   // today or late
	Log      []*job.Record `json:"log"`   // newest first
	Years    []Year        `json:"years"`
	YearCost float64       `json:"year_cost"` // that the tasks with a known cost come to in a year
	Priced   int           `json:"priced"`    // tasks with a known cost
	Currency string        `json:"currency,omitempty"`
	Leaks    []LeakAt      `json:"leaks"`
	// Slope is by how much the leak's share grows a year; nil with fewer than two timings.
	Slope   *float64  `json:"leak_share_1_a,omitempty"`
	Running []Running `json:"running"`
	Unknown []Unknown `json:"unknown_tasks"`
}

// Unknown is an interval of the job that is of nothing to be looked after: mistyped, or of
// what has gone since.
type Unknown struct {
	Path    string `json:"path"`
	Read    string `json:"read"`
	Nearest string `json:"nearest,omitempty"` // task that was perhaps meant
}

// Of lists the upkeep of a job as it stands on a day.
func Of(ctx context.Context, s source, now time.Time) (*Answer, error) {
	w := &work{
		job: s.Job(), index: s.Index(), shelf: s.Catalog(), today: midnight(now), done: s.Job().Standing("upkeep"),
		a: &Answer{Tasks: []Task{}, Log: []*job.Record{}, Years: []Year{}, Leaks: []LeakAt{}, Running: []Running{}, Unknown: []Unknown{}},
	}
	w.a.Today, w.a.Currency = w.today, w.job.Site.Currency
	if err := w.running(ctx, s); err != nil {
		return nil, err
	}
	beds, err := bedsOf(ctx, s)
	if err != nil {
		return nil, err
	}
	w.list(beds)
	w.unknown()
	w.log()
	w.leaks()
	return w.a, nil
}

// midnight is the day of a moment.
func midnight(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, t.Location())
}

// days between two days; summer time makes one of them shorter.
func days(from, to time.Time) int {
	utc := func(t time.Time) time.Time { return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC) }
	return int(utc(to).Sub(utc(from)).Hours() / 24)
}
