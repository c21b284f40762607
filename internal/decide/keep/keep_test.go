package keep

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

var today = time.Date(2026, 11, 26, 15, 0, 0, 0, time.UTC)

func upkeep(t *testing.T, name string, records ...job.Record) *Answer {
	t.Helper()
	text, _ := example.Read(name)
	j, found := job.Parse(text)
	if j == nil {
		t.Fatal(found)
	}
	j.Records = append(j.Records, records...)
	a, err := Of(context.Background(), study.Of(j, catalog.Builtin()), today)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func find(t *testing.T, a *Answer, key string) Task {
	t.Helper()
	for _, k := range a.Tasks {
		if k.Key == key {
			return k
		}
	}
	t.Fatalf("no task %q", key)
	return Task{}
}

func on(day string, task string) job.Record {
	return job.Record{ID: job.ID("record." + task + day), Kind: "upkeep", When: day + "T09:00:00Z", Task: task}
}

// Every part that is installed has its tasks, none twice, and all are due in a shop that
// never wrote anything down.
func TestEveryPart(t *testing.T) {
	for _, x := range example.All() {
		a := upkeep(t, x.Name)
		seen := map[string]bool{}
		for _, k := range a.Tasks {
			if seen[k.Task] || k.Days <= 0 || k.Words == "" {
				t.Errorf("%s: %+v", x.Name, k)
			}
			seen[k.Task] = true
		}
		if a.Due == 0 || len(a.Tasks) < 8 {
			t.Errorf("%s: %d due of %d", x.Name, a.Due, len(a.Tasks))
		}
	}
}

// By calendar a week after it was done; by running hours where these come sooner, from the
// meter: 500 h at 250 h in 25 days are 50 days, not a year.
func TestDue(t *testing.T) {
	drain := find(t, upkeep(t, "boat-shop"), "drain")
	a := upkeep(t, "boat-shop", on("2026-11-24", drain.Task))
	k := find(t, a, "oil")
	for _, d := range a.Tasks {
		if d.Task == drain.Task && (d.Left != 5 || d.By != "calendar" || d.Next.Format(time.DateOnly) != "2026-12-01") {
			t.Errorf("drain: %+v", d)
		}
	}
	read := func(day string, h float64) job.Record {
		return job.Record{ID: job.ID("record.h" + day), Kind: "reading", When: day + "T09:00:00Z", About: []job.ID{k.Thing}, Reading: &job.Reading{Hours: &h}}
	}
	a = upkeep(t, "boat-shop", read("2026-11-01", 1000), read("2026-11-26", 1250), on("2026-11-20", k.Task))
	if k = find(t, a, "oil"); k.By != "hours" || k.Next.Format(time.DateOnly) != "2027-01-09" {
		t.Errorf("oil: %s by %s; %+v", k.Next, k.By, a.Running)
	}
	// A record that was taken back never was.
	back := job.Record{ID: "record.back", Kind: "upkeep", When: "2026-11-21T09:00:00Z", Back: on("2026-11-20", k.Task).ID}
	if k = find(t, upkeep(t, "boat-shop", on("2026-11-20", k.Task), back), "oil"); k.By != "never-done" || k.Left != 0 {
		t.Errorf("taken back: %+v", k)
	}
}

// Half a year after a share of 10 % it is 15 %: ten points a year.
func TestLeakTrend(t *testing.T) {
	timed := func(day string, load, rest unit.Duration) job.Record {
		return job.Record{ID: job.ID("record.t" + day), Kind: "test", When: day + "T00:00:00Z", Test: &job.Test{Way: "on-off", Loads: []unit.Duration{load}, Rests: []unit.Duration{rest}}}
	}
	a := upkeep(t, "boat-shop", timed("2026-01-01", 60, 540), timed("2026-07-02", 90, 510))
	if len(a.Leaks) != 2 || a.Slope == nil || math.Abs(*a.Slope-0.05*daysAYear/182) > 1e-9 {
		t.Errorf("%+v, slope %v", a.Leaks, a.Slope)
	}
}

func TestCost(t *testing.T) {
	cost := 40.0
	r := on("2025-11-20", "element point.coalescing")
	r.Cost, r.Used = &cost, []string{"element"}
	a := upkeep(t, "boat-shop", r)
	if len(a.Years) == 0 || a.Years[0].Cost != 40 || a.Priced != 1 || math.Abs(a.YearCost-40*daysAYear/365) > 1e-9 {
		t.Errorf("%+v, %v a year of %d", a.Years, a.YearCost, a.Priced)
	}
}

// readICS reads a calendar strictly by RFC 5545: lines end in CR LF and have at most 75
// octets (3.1), unfolded they are NAME;PARAM=…:VALUE, components nest, and a calendar and
// its events have what is required of them once (3.6, 3.6.1).
func readICS(text string) ([]map[string]string, error) {
	if strings.Contains(strings.ReplaceAll(text, "\r\n", ""), "\n") || !strings.HasSuffix(text, "\r\n") {
		return nil, fmt.Errorf("a line does not end in CR LF")
	}
	for _, l := range strings.Split(text, "\r\n") {
		if len(l) > 75 {
			return nil, fmt.Errorf("%d octets: %s", len(l), l)
		}
	}
	var open []string
	var events []map[string]string
	calendar := map[string]string{}
	at := calendar
	for l := range strings.SplitSeq(strings.TrimSuffix(strings.NewReplacer("\r\n ", "", "\r\n\t", "").Replace(text), "\r\n"), "\r\n") {
		name, value, ok := strings.Cut(l, ":")
		if !ok {
			return nil, fmt.Errorf("no value: %s", l)
		}
		name, _, _ = strings.Cut(name, ";")
		switch name {
		case "BEGIN":
			open = append(open, value)
			at = map[string]string{}
			if value == "VCALENDAR" {
				at = calendar
			}
			if value == "VEVENT" {
				events = append(events, at)
			}
			continue
		case "END":
			if len(open) == 0 || open[len(open)-1] != value {
				return nil, fmt.Errorf("%s ends, %v are open", value, open)
			}
			if open = open[:len(open)-1]; value == "VALARM" {
				at = events[len(events)-1]
			}
			continue
		}
		if _, twice := at[name]; twice {
			return nil, fmt.Errorf("%s twice", name)
		}
		at[name] = value
	}
	if len(open) > 0 || calendar["VERSION"] != "2.0" || calendar["PRODID"] == "" {
		return nil, fmt.Errorf("open %v, calendar %v", open, calendar)
	}
	for _, e := range events {
		if e["UID"] == "" || e["DTSTART"] == "" || e["SUMMARY"] == "" {
			return nil, fmt.Errorf("event %v", e)
		}
		if _, err := time.Parse("20060102T150405Z", e["DTSTAMP"]); err != nil {
			return nil, err
		}
		if _, err := time.Parse("20060102", e["DTSTART"]); err != nil {
			return nil, err
		}
	}
	return events, nil
}

func TestICS(t *testing.T) {
	a := upkeep(t, "boat-shop")
	var b bytes.Buffer
	name := func(k *Task) string { return "Größe, „weit“; " + k.Task + strings.Repeat(" lang", 20) }
	if err := WriteICS(&b, a, "boat", name, today); err != nil {
		t.Fatal(err)
	}
	events, err := readICS(b.String())
	if err != nil || len(events) != len(a.Tasks) {
		t.Fatalf("%d events of %d tasks: %v", len(events), len(a.Tasks), err)
	}
	ids := map[string]bool{}
	unescape := strings.NewReplacer(`\\`, `\`, `\,`, `,`, `\;`, `;`, `\n`, "\n")
	for i, e := range events {
		k := &a.Tasks[i]
		if ids[e["UID"]] || unescape.Replace(e["SUMMARY"]) != name(k) || e["RRULE"] != fmt.Sprintf("FREQ=DAILY;INTERVAL=%d", k.Days) || e["DTSTART"] != k.Next.Format("20060102") {
			t.Errorf("%v of %+v", e, k)
		}
		ids[e["UID"]] = true
	}
}

// An interval of a task that is not there is told with its place and the nearest one that is.
func TestUnknownInterval(t *testing.T) {
	text, _ := example.Read("boat-shop")
	j, _ := job.Parse(text)
	j.Rules.Upkeep = []job.Interval{{Task: "oil point.compressor", Days: 90}, {Task: "oil point.compresor", Days: 90}}
	a, err := Of(context.Background(), study.Of(j, catalog.Builtin()), today)
	if err != nil {
		t.Fatal(err)
	}
	want := []Unknown{{"rules.upkeep[1].task", "oil point.compresor", "oil point.compressor"}}
	if !slices.Equal(a.Unknown, want) {
		t.Errorf("%+v, want %+v", a.Unknown, want)
	}
}
