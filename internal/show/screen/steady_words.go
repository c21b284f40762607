package screen

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// told is working days while they are put into words.
type told struct {
	shop *Shop
	view *view
	days *day.Answer
	rare unit.Ratio
}

// percent is a share to a tenth of a point; what is not quite nothing or all says so.
func percent(x unit.Ratio) string {
	switch text := number(100*float64(x), 1); {
	case x > 0 && text == "0.0":
		return "under 0.1 %"
	case x < 1 && text == "100.0":
		return "over 99.9 %"
	default:
		return strings.TrimSuffix(text, ".0") + " %"
	}
}

// percentWithin is a share with what it may be off by.
func percentWithin(x, within unit.Ratio) string {
	if within <= 0 {
		return percent(x)
	}
	return fmt.Sprintf("%.1f ± %.1f %%", 100*float64(x), math.Max(0.1, 100*float64(within)))
}

// worstFirst lists the tools by how often they go short.
func (d *told) worstFirst() []day.Tool {
	list := slices.Clone(d.days.Tools)
	slices.SortStableFunc(list, func(a, b day.Tool) int { return cmp.Compare(b.Short, a.Short) })
	return list
}

// verdict is the answer in one sentence.
func (d *told) verdict() (Mark, string) {
	var bad []string
	if !d.days.Full {
		bad = append(bad, "the compressor never catches up")
	}
	if list := d.worstFirst(); len(list) > 0 && list[0].Short > d.rare {
		t := list[0]
		words := d.shop.toolName(t.ID) + " goes short of pressure " + percentWithin(t.Short, t.Within) + " of its working time"
		if n := d.countShort(); n > 1 {
			words += ", and " + plural(n-1, "other tool", "other tools") + " too"
		}
		bad = append(bad, words)
	}
	for _, k := range d.days.Compressors {
		if why := d.overworked(k); why != "" {
			bad = append(bad, why)
		}
	}
	if len(bad) > 0 {
		return NotYet, upper(listed(bad)) + "."
	}
	return Yes, fmt.Sprintf("No tool goes short for more than %s of its working time; %s.", percent(d.rare), d.load())
}

// brief is the answer in a few words, to whole points.
func (d *told) brief() (Mark, string) {
	mark, _ := d.verdict()
	if mark == Yes {
		return mark, "Yes: " + d.loadBrief()
	}
	if !d.days.Full {
		return mark, "Not yet: the compressor never catches up."
	}
	if t := d.worstFirst()[0]; t.Short > d.rare {
		return mark, fmt.Sprintf("Not yet: the %s is short of pressure %.0f %% of its time.", d.shop.toolName(t.ID), 100*float64(t.Short))
	}
	return mark, "Not yet: it is too much for the compressor’s motor."
}

// loadBrief is how hard the compressor works, to whole points.
func (d *told) loadBrief() string {
	if len(d.days.Compressors) == 1 {
		return fmt.Sprintf("the compressor is loaded %.0f %% of the time.", 100*float64(d.days.Compressors[0].Duty))
	}
	return "the compressors keep up."
}

// load says how hard the compressors work.
func (d *told) load() string {
	list := d.days.Compressors
	if len(list) == 1 {
		return fmt.Sprintf("the compressor is under load %s of the time and starts %s an hour", percent(list[0].Duty), times(list[0].Starts))
	}
	words := make([]string, 0, len(list))
	for _, k := range list {
		words = append(words, d.shop.named(k.ID)+" "+percent(k.Duty))
	}
	return "under load are " + listed(words) + " of the time"
}

// times is how often something happens.
func times(n float64) string {
	digits := 0
	if n < 9.5 {
		digits = 1
	}
	text := strings.TrimSuffix(strconv.FormatFloat(n, 'f', digits, 64), ".0")
	if text == "1" {
		return "once"
	}
	return text + " times"
}

func (d *told) countShort() int {
	n := 0
	for _, t := range d.days.Tools {
		if t.Short > d.rare {
			n++
		}
	}
	return n
}

// overworked says what is too much for a compressor's motor; "" where nothing is.
func (d *told) overworked(k day.Compressor) string {
	motor := "the compressor’s motor"
	if len(d.days.Compressors) > 1 {
		motor = "the motor of " + d.shop.named(k.ID)
	}
	switch {
	case k.Most > 0 && k.Starts > k.Most:
		return fmt.Sprintf("%s starts %s an hour and is made for %.0f", motor, times(k.Starts), k.Most)
	case k.DutyMost > 0 && k.Duty > k.DutyMost:
		return fmt.Sprintf("%s is under load %s of the time and is made for %s", motor, percent(k.Duty), percent(k.DutyMost))
	}
	return ""
}

// known says what the figures are of.
func (d *told) known() string {
	a := d.days
	words := fmt.Sprintf("Of %s of %s, tools coming and going by chance", plural(a.Days, "day", "days"), d.view.plain(unit.KindDuration, float64(a.Time)))
	worst := unit.Ratio(0)
	for _, t := range a.Tools {
		worst = max(worst, t.Within)
	}
	if worst > 0 {
		words += fmt.Sprintf("; each share is known to ± %.1f points or better (95 %%)", math.Max(0.1, 100*float64(worst)))
	}
	return words + "."
}

// facts are how the store stood and what went through it.
func (d *told) facts() []Fact {
	a, v := d.days, d.view
	stretch := "each stretch between two events in closed form"
	if len(a.Receivers) > 0 {
		stretch = "all receivers and the network between them together, by steps of an implicit rule of second order with the error of each held"
	}
	law := from("Air in the receiver", "dp/dt = R T / V (what compressors give − what tools and leaks take), isothermal; "+stretch,
		"receivers and open lines hold "+v.plain(unit.KindVolume, float64(a.Volume)),
		"what a set of tools takes at each pressure: the whole network solved",
		fmt.Sprintf("air balance open by %.0e of what came in", math.Abs(a.Balance)))
	between := func(words string, low, high unit.GaugePressure) Fact {
		return Fact{Words: words, Figure: v.plain(unit.KindGauge, float64(low)) + " and " + v.plain(unit.KindGauge, float64(high)), From: law}
	}
	var facts []Fact
	for _, r := range a.Receivers {
		facts = append(facts, between(upper(d.receiverNames(r))+" stands between", r.Lowest, r.Highest))
	}
	if len(facts) == 0 {
		facts = append(facts, between("The receiver stands between", a.Lowest, a.Highest))
	}
	facts = append(facts, []Fact{
		{Words: "Tools and leaks take on average", Figure: v.plain(unit.KindFlow, float64(a.Taken)), From: law},
		{Words: "Of it leaks, at cut-in", Figure: v.plain(unit.KindFlow, float64(a.Leak)), From: d.shop.leakOrigin(v)},
	}...)
	if a.Purge > 0 {
		facts = append(facts, Fact{Words: "Of it dryers blow off", Figure: v.plain(unit.KindFlow, float64(a.Purge)), From: from("A share of the rated flow", fmt.Sprintf("%.0f %% of the rated flow of every bed that dries itself, all day", 100*model.PurgeShare))})
	}
	return facts
}

// notes tell how it was found out.
func (d *told) notes() []string {
	a := d.days
	notes := []string{}
	if a.Looked > 0 {
		notes = append(notes, fmt.Sprintf("So many sets of tools run here that the network was solved at %d moments drawn by chance. What a set takes between them is what its tools take apart, put right by those moments, which it misses by %.1f %%.",
			a.Looked, 100*float64(a.Off)))
	}
	if !a.Full {
		notes = append(notes, "Cut-out is never reached: the compressors cannot catch up with what is taken.")
	}
	switch n := len(d.view.model.Receivers()); {
	case a.AsOne:
		notes = append(notes, "As a first answer the receivers are taken as one store that levels out at once; the closer answer follows each by itself, filled and emptied through its line.")
	case len(a.Receivers) > 0:
		notes = append(notes, "The receivers stand so far apart that each is followed by itself, filled and emptied through its line: a far one falls while its bench works, and its bench starts with more.")
	case n > 1:
		notes = append(notes, fmt.Sprintf("The %d receivers stand side by side and level out at once: they count as one store.", n))
	}
	return notes
}

// receiverNames names the receivers of a store that stand side by side.
func (d *told) receiverNames(r day.Receiver) string {
	names := make([]string, len(r.IDs))
	for i, id := range r.IDs {
		names[i] = d.shop.named(id)
	}
	return strings.Join(names, " and ")
}

// turning is a compressor in words.
func (d *told) turning(k day.Compressor) Turning {
	out := Turning{ID: string(k.ID), Name: upper(d.shop.named(k.ID)), State: Enough}
	if d.overworked(k) != "" {
		out.State = Short
	}
	bears := func(figure, most string, stated bool) string {
		if stated {
			return figure + ", made for " + most
		}
		return figure
	}
	count := from("Counted", "over all the days worked through")
	out.Facts = []Fact{
		{Words: "Under load", Figure: bears(percent(k.Duty), percent(k.DutyMost), k.DutyMost > 0), From: count},
		{Words: "Starts an hour", Figure: bears(fmt.Sprintf("%.1f", k.Starts), fmt.Sprintf("%.0f", k.Most), k.Most > 0), From: count},
		{Words: "Delivers on average", Figure: d.view.plain(unit.KindFlow, float64(k.Air)), From: count},
	}
	if k.Idle > 0 {
		out.Facts = append(out.Facts, Fact{Words: "Runs unloaded", Figure: percent(k.Idle), From: count})
	}
	return out
}

// served is a tool in words.
func (d *told) served(t day.Tool) Served {
	out := Served{ID: string(t.ID), Name: upper(d.shop.toolName(t.ID)), Hours: fmt.Sprintf("%.1f h", float64(t.Ran)*float64(d.days.Time)/3600), Short: "never", State: Enough, Beside: []string{}}
	if t.Short > 0 {
		out.Short = percentWithin(t.Short, t.Within)
	}
	if t.Short > d.rare {
		out.State = Short
	}
	for _, set := range t.Spoilt {
		out.Beside = append(out.Beside, fmt.Sprintf("%.0f %% of it ", 100*float64(set.Share))+d.beside(set.Running, t.ID))
	}
	out.From = from("Worked through", "time below its least pressure over its working time; the error by how the days differ", d.known())
	out.From.Range = percentWithin(t.Short, t.Within)
	return out
}

// beside names who else runs.
func (d *told) beside(running []job.InUse, but job.ID) string {
	if others := d.shop.runningWords(running, but); others != "" {
		return "beside " + others
	}
	return "by itself"
}

// remedy is what would do, in words.
func (d *told) remedy(r day.Remedy) Remedy {
	words := map[day.Lever]string{day.MoreStore: "more receiver", day.MoreAir: "more compressor", day.HigherIn: "a higher cut-in"}[r.What]
	left := fmt.Sprintf("the worst tool is then short %s of its time, the motor starts %s an hour", percent(r.Short), times(r.Starts))
	switch {
	case !r.Does:
		words += " alone does not do: " + left
	case r.What == day.MoreStore:
		words += ": " + d.view.text(unit.KindVolume, float64(r.Volume)) + " in all would do; " + left
	case r.What == day.MoreAir:
		words += ": " + d.view.text(unit.KindFlow, float64(r.Air)) + " in all would do; " + left
	default:
		words += ": " + d.view.text(unit.KindGauge, float64(r.CutIn)) + " would do; " + left + "; no setting goes beyond what receiver and relief valve are rated for"
	}
	return Remedy{Words: upper(words) + ".", Does: r.Does}
}
