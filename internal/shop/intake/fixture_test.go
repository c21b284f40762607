package intake_test

import (
	"context"
	"testing"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/intake"
	"dropleg/internal/shop/job"
)

// shop is a job in dollars with one line of copper, and two articles that it asks for.
func shop(prices job.Prices) (*job.Index, *intake.Shelf) {
	j := &job.Job{Version: job.Version, Site: job.Site{Currency: "USD"}, Prices: prices}
	j.Net.Runs = []job.Run{{ID: "line.a", Stock: "copper-l", Size: "3/4"}}
	asked := []intake.Item{
		{Article: "copper-l 3/4", Words: "copper tube type L, drawn, 3/4 in", Metres: true},
		{Article: "copper-l elbow-90 3/4", Words: "elbow 3/4 in, copper tube type L, drawn"},
		{Article: "drain-cock 1/2", Words: "drain cock 1/2 in"},
	}
	return job.NewIndex(j), intake.NewShelf(asked, j, catalog.Builtin())
}

func take(t testing.TB, list string, ask intake.Ask) *intake.Intake {
	t.Helper()
	ix, shelf := shop(job.Prices{})
	in, err := intake.Of(context.Background(), intake.Read([]byte(list)), ask, ix, shelf)
	if err != nil {
		t.Fatal(err)
	}
	return in
}

// codes are the problems of a row.
func codes(in *intake.Intake, row int) []string {
	out := []string{}
	for i := range in.Lines {
		if in.Lines[i].Row == row {
			for _, p := range in.Lines[i].Problems {
				out = append(out, p.Code)
			}
		}
	}
	return out
}
