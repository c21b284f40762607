package screen

import (
	"strings"
	"time"

	"dropleg/internal/shop/job"
)

// Written is who wrote a thing down, and when.
type Written struct {
	Record string   `json:"record"` // newest record on it; "" for none
	Words  string   `json:"words"`  // "Ann, 14 March 2026 09:30"
	Seen   []string `json:"seen"`   // for the next record to name as known to its author
	Clash  string   `json:"clash"`  // what two wrote who had not seen each other's; "" for nothing
	Photo  string   `json:"photo"`
}

func written(last *job.Record, seen []job.ID, clash []*job.Record) Written {
	w := Written{Seen: []string{}}
	for _, id := range seen {
		w.Seen = append(w.Seen, string(id))
	}
	if last != nil {
		w.Record, w.Words, w.Photo = string(last.ID), by(last), last.Photo
	}
	var said []string
	for _, r := range clash {
		said = append(said, or(r.By, "somebody")+" wrote “"+or(r.Found, "done")+"”")
	}
	w.Clash = strings.Join(said, ", ")
	return w
}

// by is who wrote a record and when, as the clock of its writer had it.
func by(r *job.Record) string {
	at, err := time.Parse(time.RFC3339, r.When)
	if err != nil {
		return r.By
	}
	when := at.Format("2 January 2006 15:04")
	if r.By == "" {
		return when
	}
	return r.By + ", " + when
}
