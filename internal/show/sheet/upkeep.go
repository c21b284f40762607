package sheet

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"dropleg/internal/decide/keep"
	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
)

func upkeepSheet() Sheet {
	return Sheet{
		Name: "upkeep", Title: "Upkeep calendar", Audience: "who looks after it", Needs: "something that wants looking after", Wide: true, Days: true,
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			a, err := keep.Of(ctx, m.study, m.options.Date)
			if err != nil {
				return nil, fmt.Errorf("listing the upkeep: %w", err)
			}
			if len(m.job.Net.Points) == 0 || len(a.Tasks) == 0 {
				return nil, nil
			}
			told, err := m.shop.Keep(ctx, screen.Ask{System: m.options.System, Now: m.options.Date})
			if err != nil {
				return nil, fmt.Errorf("wording the upkeep: %w", err)
			}
			chores := choresOf(a, &told)
			blocks := append(cautionLines("keep"), page.Heading("The year at a glance"), m.year(chores),
				page.Paragraph("A box for each time that it comes, from the day of this sheet on; a figure where it comes more than "+strconv.Itoa(mostBoxes)+" times in a month. What was never written down counts from this day."))
			blocks = append(append(blocks, trendBlocks(&told)...), page.Paragraph("Intervals by: "+strings.Join(groundsOf(a), "; ")+"."))
			return append(blocks, page.Heading("What to do, and where"), m.choreTable(chores)), nil
		},
	}
}

// chore is one thing to do at several places at the same interval.
type chore struct {
	words, every string
	tasks        []*keep.Task
	told         []*screen.TaskRow
}

// choresOf groups the tasks that say the same, in the order in which they come.
func choresOf(a *keep.Answer, told *screen.Keep) []chore {
	var all []chore
	at := map[string]int{}
	for i := range a.Tasks {
		t, row := &a.Tasks[i], &told.Tasks[i]
		key := row.Words + row.Every
		k, met := at[key]
		if !met {
			k = len(all)
			at[key] = k
			all = append(all, chore{words: row.Words, every: row.Every})
		}
		all[k].tasks, all[k].told = append(all[k].tasks, t), append(all[k].told, row)
	}
	return all
}

// mostBoxes is how many boxes to tick have room in a month.
const mostBoxes = 5

// year is when each thing comes in the twelve months from the day of the sheet on.
func (m *Maker) year(all []chore) page.Table {
	t := page.Table{Size: 2.6, Columns: []page.Head{{Words: "what", Wide: true}, {Words: "at", Right: true}, {Words: "every"}}}
	from := m.options.Date
	first := time.Date(from.Year(), from.Month(), 1, 0, 0, 0, 0, from.Location())
	for k := range 12 {
		month := first.AddDate(0, k, 0)
		words := month.Format("Jan")
		if k == 0 || month.Month() == time.January {
			words = month.Format("Jan 06")
		}
		t.Columns = append(t.Columns, page.Head{Words: words})
	}
	for i := range all {
		c := &all[i]
		row := page.Row{Cells: []string{c.words, places(len(c.tasks)), c.every}}
		times := make([]int, 12)
		for _, task := range c.tasks {
			per := make([]int, 12)
			for _, day := range task.Dates(from, first.AddDate(1, 0, 0)) {
				per[(day.Year()-first.Year())*12+int(day.Month()-first.Month())]++
			}
			for k := range per {
				times[k] = max(times[k], per[k])
			}
		}
		for _, n := range times {
			row.Cells = append(row.Cells, boxes(n))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func places(n int) string {
	if n == 1 {
		return "1 place"
	}
	return strconv.Itoa(n) + " places"
}

func boxes(n int) string {
	if n > mostBoxes {
		return openBox + " " + strconv.Itoa(n) + "×"
	}
	return strings.Repeat(openBox, n)
}

// groundsOf are the sources of the intervals, each once.
func groundsOf(a *keep.Answer) []string {
	var out []string
	for i := range a.Tasks {
		if text := a.Tasks[i].Ref.Text(); !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return out
}

// choreTable lists what is done where and how soon.
func (m *Maker) choreTable(all []chore) page.Table {
	t := page.Table{Size: 2.6, Columns: []page.Head{{Words: "next"}, {Words: "where", Wide: true}, {Words: "last done"}, {Words: "done, by"}}}
	for i := range all {
		c := &all[i]
		head := c.words + ", " + c.every
		if c.tasks[0].Safe {
			head += "; shut off, lock, vent and see zero first"
		}
		t.Rows = append(t.Rows, page.Row{Group: true, Cells: []string{head}})
		for k, task := range c.tasks {
			row := c.told[k]
			last := "not in the log yet"
			if task.Last != nil {
				last = row.Written.Words
			}
			t.Rows = append(t.Rows, page.Row{Cells: []string{task.Next.Format("2006-01-02"), row.Name, last, openBox}})
		}
	}
	return t
}

// trendBlocks are how the leak goes, how long compressors run, and what upkeep costs.
func trendBlocks(k *screen.Keep) []page.Block {
	blocks := []page.Block{page.Heading("What the intervals rest on"), page.Paragraph(k.Trend)}
	for _, r := range k.Running {
		blocks = append(blocks, page.Paragraph(r.Name+": "+r.Words+"."))
	}
	if k.Cost != "" {
		blocks = append(blocks, page.Paragraph("Cost: "+k.Cost))
	}
	return blocks
}
