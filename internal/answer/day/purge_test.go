package day_test

import (
	"fmt"
	"math"
	"testing"

	"dropleg/internal/answer/day"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// A bed of 10 L/s blows off 1.5 L/s. Behind the receiver that leaves the store all day;
// before it the compressor of 20 L/s delivers 18.5. No tool runs, so that the sums are
// these figures and what leaks.
func TestPurge(t *testing.T) {
	for _, r := range []struct {
		name, item   string
		behind       bool
		purge, gives float64 // L/s
	}{
		{"behind the receiver", "desiccant-dryer-10", true, 1.5, 20},
		{"before the receiver", "desiccant-dryer-10", false, 0, 18.5},
		{"one that cools", "refrigerated-dryer-10", true, 0, 20},
	} {
		t.Run(r.name, func(t *testing.T) {
			order := [3]string{"compressor", "receiver", "dryer"}
			if !r.behind {
				order = [3]string{"compressor", "dryer", "receiver"}
			}
			run := func(from, to string) string {
				return fmt.Sprintf(`{"id": "line.%s-%s", "from": {"point": "point.%s"%s}, "to": {"point": "point.%s"%s}, "stock": "copper-l", "size": "1", "role": "link", "length_m": 1}`,
					from, to, from, port(from, "out"), to, port(to, "in"))
			}
			text := fmt.Sprintf(`{"dropleg": 1, "title": "purge", "rules": {"leak": 0.02}, "net": {"points": [
				{"id": "point.compressor", "part": {"kind": "compressor", "compressor": {"free_air": {"m3_s": 0.02}, "cut_in_kPa_g": 700, "cut_out_kPa_g": 900}}},
				{"id": "point.receiver", "part": {"kind": "receiver", "volume_L": 300}},
				{"id": "point.dryer", "part": {"kind": "%s", "item": "%s"}},
				{"id": "point.end", "part": {"kind": "cap"}}],
				"runs": [%s, %s, %s]}, "outlets": [], "tools": []}`,
				map[bool]string{true: "desiccant-dryer", false: "refrigerated-dryer"}[r.item == "desiccant-dryer-10"], r.item,
				run(order[0], order[1]), run(order[1], order[2]), run(order[2], "end"))
			j, found := job.Parse([]byte(text))
			if j == nil {
				t.Fatal(found)
			}
			m, _ := model.Build(j, catalog.Builtin())
			if len(m.Dryers()) != 1 || m.Dryers()[0].Delivery == r.behind {
				t.Fatalf("dryers: %+v", m.Dryers())
			}
			a, err := day.Of(t.Context(), j, m, day.Ask{Seed: 1})
			if err != nil || a.Untold != "" {
				t.Fatal(a.Untold, err)
			}
			near := func(what string, got, want float64) {
				t.Helper()
				if math.Abs(1e3*got-want) > 1e-9*want+1e-12 {
					t.Errorf("%s: %g L/s, want %g", what, 1e3*got, want)
				}
			}
			near("purge", float64(a.Purge), r.purge)
			k := a.Compressors[0]
			if k.Duty <= 0 {
				t.Fatal("the compressor never runs")
			}
			near("given under load", float64(k.Air)/float64(k.Duty), r.gives)
			// What leaks is 0.4 L/s at cut-in, and more by as much as the store stands higher.
			atm := float64(m.Atmosphere())
			if leak := 1e3*float64(a.Taken) - r.purge; leak < 0.4 || leak > 0.4*(9e5+atm)/(7e5+atm) {
				t.Errorf("taken %g L/s, with %g blown off", 1e3*float64(a.Taken), r.purge)
			}
		})
	}
}

// port names the port of plant that has two; a compressor and a cap have one.
func port(point, name string) string {
	if point == "compressor" || point == "end" {
		return ""
	}
	return fmt.Sprintf(`, "port": "%s"`, name)
}
