package check

import (
	"time"

	"dropleg/internal/shop/job"
)

// gauged are the records of pressures read with the receiver's, in the shop as it
// is. With the compressor stopped a receiver falls while its gauge and another
// are read one after the other: what that is good for is weighed where the
// fault is looked for.
func (c *Case) gauged() []*job.Record {
	back := c.job.TakenBack()
	var renewed time.Time
	for i := range c.job.Records {
		if rec := &c.job.Records[i]; !back[rec.ID] && rec.Renews() && taken(rec).After(renewed) {
			renewed = taken(rec)
		}
	}
	var out []*job.Record
	for i := range c.job.Records {
		rec := &c.job.Records[i]
		r := rec.Reading
		if rec.Kind != "reading" || r == nil || r.Pressure == nil || r.Receiver == nil || r.Stopped {
			continue
		}
		if !back[rec.ID] && !taken(rec).Before(renewed) {
			out = append(out, rec)
		}
	}
	return out
}

// taken is when a record was made; the beginning of time where that cannot be read.
func taken(r *job.Record) time.Time {
	at, _ := time.Parse(time.RFC3339, r.When)
	return at
}
