package screen

import (
	"fmt"
	"slices"

	"dropleg/internal/decide/keep"
)

// task words something to do again and again.
func (k *upkeep) task(t *keep.Task) TaskRow {
	row := TaskRow{Task: t.Task, Thing: string(k.onDrawing(t.Thing)), Name: "The shop", Words: t.Words, Safe: t.Safe, Written: written(t.Last, t.Seen, nil)}
	row.Days, row.Hours, row.Own = t.Days, t.Hours, t.Own
	row.ByHours = slices.ContainsFunc(k.a.Running, func(r keep.Running) bool { return r.Compressor == t.Thing })
	if t.Thing != "" {
		row.Name = upper(k.named(t.Thing))
	}
	row.Every = every(t.Days)
	if t.Hours > 0 {
		row.Every += fmt.Sprintf(" or %g running hours", t.Hours)
	}
	if t.Own {
		row.Every += ", as set here"
	}
	day := t.Next.Format("2 January 2006")
	switch {
	case t.Last == nil:
		row.State, row.Due = "never", "not in the log yet"
	case t.Left < 0:
		row.State, row.Due = "late", plural(-t.Left, "day", "days")+" late"
	case t.Left == 0:
		row.State, row.Due = "due", "today"
	case t.Left <= 7:
		row.State, row.Due = "soon", "in "+plural(t.Left, "day", "days")
	default:
		row.State, row.Due = "later", day
	}
	if t.By == "hours" {
		row.Due += ", by running hours"
	}
	return row
}

// every words an interval.
func every(days int) string {
	for _, r := range []struct {
		days  int
		words string
	}{{1, "every day"}, {7, "every week"}, {30, "every month"}, {91, "every quarter"}, {182, "every half year"}, {365, "every year"}} {
		if days == r.days {
			return r.words
		}
	}
	return fmt.Sprintf("every %d days", days)
}

// unknown tells which intervals of the job are of nothing that is there.
func (k *upkeep) unknown() []string {
	out := []string{}
	for _, u := range k.a.Unknown {
		words := fmt.Sprintf("%s: read “%s”, which is nothing to look after here", u.Path, u.Read)
		if u.Nearest != "" {
			words += fmt.Sprintf("; nearest “%s”", u.Nearest)
		}
		out = append(out, words)
	}
	return out
}
