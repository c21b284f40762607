package keep

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"testing"
	"time"

	"dropleg/internal/shop/example"
)

// TestReadByAnother: the calendars of all examples are read by icalendar of Debian, a parser of
// RFC 5545 that is none of ours, and hold what was written: names, whole days, intervals,
// reminders.
func TestReadByAnother(t *testing.T) {
	const python = "/usr/bin/python3" // the one that Debian's packages serve
	if exec.Command(python, "-c", "import icalendar").Run() != nil {
		t.Skip("there is no python3-icalendar here")
	}
	for _, x := range example.All() {
		a := upkeep(t, x.Name)
		var b bytes.Buffer
		name := func(k *Task) string { return "Größe, „weit“; \\ and\nso on: " + k.Words + " at " + k.Task }
		if err := WriteICS(&b, a, x.Name, name, today); err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command(python, "testdata/read.py")
		cmd.Stdin, cmd.Stderr = &b, os.Stderr
		out, err := cmd.Output()
		if err != nil {
			t.Fatalf("%s: %v", x.Name, err)
		}
		var read struct {
			Version string
			Errors  []string
			Events  []struct {
				UID, Summary, Description, Start, End, Stamp, Freq string
				Interval                                           int
				Alarm                                              []float64 `json:"alarm_s"`
			}
		}
		if err := json.Unmarshal(out, &read); err != nil {
			t.Fatal(err)
		}
		if read.Version != "2.0" || len(read.Errors) > 0 || len(read.Events) != len(a.Tasks) {
			t.Fatalf("%s: %d events of %d tasks, %v", x.Name, len(read.Events), len(a.Tasks), read.Errors)
		}
		for i, e := range read.Events {
			k := &a.Tasks[i]
			stamp, err := time.Parse(time.RFC3339, e.Stamp)
			whole := e.Start == k.Next.Format(time.DateOnly) && e.End == k.Next.AddDate(0, 0, 1).Format(time.DateOnly)
			again := e.Freq == "DAILY" && e.Interval == k.Every() && len(e.Alarm) == 1 && e.Alarm[0] == 8*3600
			if e.Summary != name(k) || e.Description != k.describe() || !whole || !again || err != nil || !stamp.Equal(today) {
				t.Errorf("%s: read %+v of %+v", x.Name, e, k)
			}
		}
	}
}
