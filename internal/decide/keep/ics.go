package keep

import (
	"fmt"
	"io"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"
)

// WriteICS writes the tasks as a calendar (RFC 5545), each a whole day that comes again at
// its interval, with a reminder in the morning. name words a thing for people; job tells
// the calendar from that of another job, stamp is when it is written.
func WriteICS(w io.Writer, a *Answer, job string, name func(t *Task) string, stamp time.Time) error {
	cal := ics.NewCalendarFor("dropleg")
	cal.SetMethod(ics.MethodPublish)
	for i := range a.Tasks {
		t := &a.Tasks[i]
		e := cal.AddEvent(uid(job, t))
		e.SetDtStampTime(stamp)
		e.SetSummary(name(t))
		e.SetDescription(t.describe())
		e.SetAllDayStartAt(t.Next)
		e.SetAllDayEndAt(t.Next.AddDate(0, 0, 1))
		e.AddRrule(fmt.Sprintf("FREQ=DAILY;INTERVAL=%d", t.Every()))
		e.SetTimeTransparency(ics.TransparencyTransparent)
		alarm := e.AddAlarm()
		alarm.SetAction(ics.ActionDisplay)
		alarm.SetDescription(name(t))
		alarm.SetTrigger("PT8H")
	}
	return cal.SerializeTo(w, ics.WithNewLineWindows)
}

// Every is the interval in days by which a task comes: by running hours where these are
// what makes it due.
func (t *Task) Every() int {
	if t.By == "hours" && t.Last != nil {
		return max(1, days(midnight(taken(t.Last).In(t.Next.Location())), t.Next))
	}
	return max(1, t.Days)
}

// describe says what to do and on what grounds.
func (t *Task) describe() string {
	text := strings.ToUpper(t.Words[:1]) + t.Words[1:] + "."
	if t.Safe {
		text += " Shut off, lock, vent and see zero first."
	}
	if t.Hours > 0 {
		text += fmt.Sprintf(" Every %d days or %g running hours, whichever comes first.", t.Days, t.Hours)
	} else {
		text += fmt.Sprintf(" Every %d days.", t.Days)
	}
	return text + " The maker's instructions and the law come first."
}

// uid names a task for ever, so that a calendar that is read in again replaces it.
func uid(job string, t *Task) string {
	return strings.Map(func(r rune) rune {
		if r == ' ' || r == '/' {
			return '-'
		}
		return r
	}, t.Task) + "." + job + "@dropleg.invalid"
}
