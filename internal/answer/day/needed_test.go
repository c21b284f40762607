package day_test

import (
	"context"
	"fmt"
	"testing"

	"dropleg/internal/answer/day"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// busy is a garage whose motor starts too often with the receiver it has.
const busy = `{"dropleg": 1, "title": "Busy garage", "site": {"units": "metric"},
 "net": {
  "points": [
   {"id": "point.compressor", "at_m": [0.5, 0.5, 0.6], "part": {"kind": "compressor", "compressor":
    {"free_air": {"m3_s": 0.006}, "cut_in_kPa_g": 700, "cut_out_kPa_g": 900, "starts_1_h": 8}}},
   {"id": "point.receiver", "at_m": [1, 0.5, 0.6], "part": {"kind": "receiver", "volume_L": %v, "rating_kPa_g": 1100}},
   {"id": "point.bench", "at_m": [3, 0.5, 1.2], "part": {"kind": "drop-elbow"}}],
  "runs": [
   {"id": "line.delivery", "from": {"point": "point.compressor"}, "to": {"point": "point.receiver", "port": "in"},
    "stock": "copper-l", "size": "3/4", "role": "link"},
   {"id": "line.main", "from": {"point": "point.receiver", "port": "out"}, "to": {"point": "point.bench", "port": "in"},
    "stock": "copper-l", "size": "3/4", "role": "main"}]},
 "outlets": [
  {"id": "outlet.bench", "name": "Bench", "mark": "A", "point": "point.bench", "port": "out",
   "hang": [{"kind": "coupler", "item": "industrial-1/4"}],
   "hose": {"id": "hose.bench", "item": "rubber-3/8", "length_m": 5, "plug": "industrial-1/4", "socket": "industrial-1/4"},
   "tools": ["tool.grinder"]}],
 "tools": [
  {"id": "tool.grinder", "name": "Die grinder", "flow": {"m3_s": 0.004}, "at_kPa_g": 620, "least_kPa_g": 500, "plug": "industrial-1/4", "share": 0.6}]}`

func busyDays(t *testing.T, litres float64, remedies bool) (*day.Answer, *job.Job) {
	t.Helper()
	j, bad := job.Parse(fmt.Appendf(nil, busy, litres))
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	m, _ := model.Build(j, catalog.Builtin())
	a, err := day.Of(context.Background(), j, m, day.Ask{Seed: 1, Days: 16, Remedies: remedies})
	if err != nil || a.Untold != "" {
		t.Fatal(err, a.Untold)
	}
	return a, j
}

// The receiver that would do does when it is written into the job, and one a twentieth
// smaller does not.
func TestReceiverNeeded(t *testing.T) {
	a, j := busyDays(t, 100, true)
	rare := j.RuleRare().Value
	if a.Enough(rare) || len(a.Remedies) != 3 {
		t.Fatalf("enough %v, remedies %v", a.Enough(rare), a.Remedies)
	}
	store := a.Remedies[0]
	if store.What != day.MoreStore || !store.Does || store.Starts > 8 {
		t.Fatalf("%+v", store)
	}
	lines := float64(a.Volume) - 0.1
	needs := (float64(store.Volume) - lines) * 1000
	if better, _ := busyDays(t, needs+0.01, false); !better.Enough(rare) {
		t.Errorf("%.0f L do not do: %+v", needs, better.Compressors)
	}
	if less, _ := busyDays(t, needs*0.95, false); less.Enough(rare) {
		t.Errorf("less than %.0f L do as well: %+v", needs, less.Compressors)
	}
}

// A shop that has enough is told of no remedy.
func TestNothingNeeded(t *testing.T) {
	a, j := busyDays(t, 1000, true)
	if !a.Enough(j.RuleRare().Value) || len(a.Remedies) > 0 {
		t.Errorf("%+v", a.Remedies)
	}
}
