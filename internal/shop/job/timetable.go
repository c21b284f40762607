package job

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"dropleg/engine/unit"
)

// Spell is a time of the day in which a tool runs by timetable, since midnight.
type Spell struct{ From, To unit.Duration }

// defaultBegin is when the shop opens where the job does not say: custom of the trade, no source.
const defaultBegin = 8 * 3600

// Timetable is when a tool runs by the clock, in order; none: it comes and goes by chance.
// What cannot be read is left out; Validate tells it.
func (t *Tool) Timetable() []Spell {
	spells, _ := readTimetable(t.Hours)
	return spells
}

// Opens is when the working day begins, since midnight.
func (w *Work) Opens() unit.Duration {
	if w.Begin != nil {
		return *w.Begin
	}
	return defaultBegin
}

var (
	clockForm = regexp.MustCompile(`^(\d{1,2})(?:[:.](\d{2}))?$`)
	dashes    = strings.NewReplacer("–", "-", "—", "-", " to ", "-")
)

// clock reads a time of the day: "9:30", "14".
func clock(text string) (unit.Duration, bool) {
	m := clockForm.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return 0, false
	}
	hours, _ := strconv.Atoi(m[1]) // two digits
	minutes, _ := strconv.Atoi("0" + m[2])
	if at := hours*60 + minutes; minutes < 60 && at <= 24*60 {
		return unit.Duration(at * 60), true
	}
	return 0, false
}

// Clock words a time of the day since midnight, hours and minutes.
func Clock(t unit.Duration) string {
	m := int(math.Round(float64(t) / 60))
	return fmt.Sprintf("%d:%02d", m/60, m%60)
}

// misread is what is wrong with a timetable, and the nearest that would do.
type misread struct{ code, read, want, nearest string }

// readTimetable reads "9:00-9:20, 14:00-15:00".
func readTimetable(text string) ([]Spell, *misread) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	const want = `clock times from and to, such as "9:00-9:20, 14:00-15:00"`
	var out []Spell
	for part := range strings.SplitSeq(text, ",") {
		from, to, ok := strings.Cut(dashes.Replace(part), "-")
		a, okA := clock(from)
		b, okB := clock(to)
		read := fmt.Sprintf("%q", brief(strings.TrimSpace(part)))
		switch {
		case !ok || !okA || !okB:
			return nil, &misread{"no-clock-time", read, want, ""}
		case b <= a:
			return nil, &misread{"ends-before-it-begins", read, "a time that ends after it begins", Clock(b) + "-" + Clock(a)}
		}
		out = append(out, Spell{a, b})
	}
	slices.SortFunc(out, func(x, y Spell) int { return int(x.From - y.From) })
	for i := 1; i < len(out); i++ {
		if before := out[i-1]; out[i].From < before.To {
			return nil, &misread{
				"times-overlap", spellWords(before) + " and " + spellWords(out[i]), "times that do not overlap",
				spellWords(Spell{before.From, max(before.To, out[i].To)}),
			}
		}
	}
	return out, nil
}

func spellWords(s Spell) string { return Clock(s.From) + "-" + Clock(s.To) }

// inspectTimetable tells what cannot be read of a tool's timetable.
func inspectTimetable(t *Tool) []issue {
	if _, bad := readTimetable(t.Hours); bad != nil {
		f := fault(bad.code, "hours", bad.read, bad.want)
		f.nearest = bad.nearest
		return []issue{f}
	}
	return nil
}
