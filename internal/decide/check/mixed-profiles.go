package check

import (
	"context"
	"slices"

	"dropleg/internal/shop/job"
)

var mixedProfiles = Check{
	Code:   "mixed-profiles",
	Title:  "one coupler profile in the whole shop",
	Why:    "With one profile every hose fits every outlet, and no plug is forced where it only looks alike.",
	Limit:  "sockets of one interchange profile",
	Source: custom("one interchange profile in the whole shop, body size by the largest tool"),
	Run:    runMixedProfiles,
}

func runMixedProfiles(_ context.Context, c *Case) error {
	var names []string
	at := map[string][]job.ID{}
	note := func(row string, id job.ID) {
		k, ok := c.shelf.Coupler(row)
		if !ok {
			return
		}
		if !slices.Contains(names, k.Profile) {
			names = append(names, k.Profile)
		}
		if !slices.Contains(at[k.Profile], id) {
			at[k.Profile] = append(at[k.Profile], id)
		}
	}
	for i := range c.job.Outlets {
		o := &c.job.Outlets[i]
		note(c.wallSocket(o), o.ID)
		if o.Hose != nil {
			note(o.Hose.Socket, o.ID)
		}
	}
	if len(names) < 2 {
		return nil
	}
	slices.SortStableFunc(names, func(a, b string) int { return len(at[b]) - len(at[a]) })
	var where []job.ID
	for _, n := range names[1:] {
		where = append(where, at[n]...)
	}
	c.report(job.Finding{
		Severity: job.Note, Where: where,
		Title: sentence("the sockets are of %s: %s.", plural(len(names), "profile"), listed(names)),
	})
	return nil
}
