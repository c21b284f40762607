package sheet

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dropleg/internal/answer/parts"
	"dropleg/internal/decide/build"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
)

func orderSheet() Sheet {
	return Sheet{
		Name: "order", Title: "Order of work", Audience: "who builds it", Needs: "something that is planned",
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			a, err := build.Of(ctx, m.study)
			if err != nil {
				return nil, fmt.Errorf("ordering the work: %w", err)
			}
			if a.All == 0 {
				return nil, nil
			}
			told, err := m.shop.Build(ctx, screen.Ask{System: m.options.System})
			if err != nil {
				return nil, fmt.Errorf("wording the work: %w", err)
			}
			take, err := m.take(ctx)
			if err != nil {
				return nil, err
			}
			return append(cautionLines("build"), m.order(a, &told, pieceNumbers(take))...), nil
		},
	}
}

// cautionLines are the cautions of a question, at the head of its sheet.
func cautionLines(question string) []page.Block {
	var blocks []page.Block
	for _, words := range screen.CautionsOf(question) {
		blocks = append(blocks, page.Paragraph("– "+words))
	}
	return blocks
}

// The boxes of a sheet: to be ticked by hand, and what the records say is done.
const (
	openBox = "□"
	doneBox = "■"
)

func boxOf(done bool) string {
	if done {
		return doneBox
	}
	return openBox
}

// stint is steps that follow one another on one line.
type stint struct {
	run    job.ID
	steps  []*build.Step
	worded []*screen.StepRow
}

// stints groups the steps of a stage by line as they follow one another. What has to be tested
// before it is hidden stands alone.
func stints(a *build.Answer, told *screen.Build, stage build.Stage) []stint {
	var all []stint
	for i := range a.Steps {
		s := &a.Steps[i]
		if s.Stage != stage {
			continue
		}
		n := len(all)
		if n == 0 || all[n-1].run != s.Run || s.What == build.Hide || all[n-1].steps[0].What == build.Hide {
			all = append(all, stint{run: s.Run})
			n++
		}
		all[n-1].steps, all[n-1].worded = append(all[n-1].steps, s), append(all[n-1].worded, &told.Steps[i])
	}
	return all
}

// order is the work by its stages, a row for each line in turn.
func (m *Maker) order(a *build.Answer, told *screen.Build, numbers map[string]int) []page.Block {
	blocks := []page.Block{page.Paragraph(
		"From top to bottom; a box to tick for each row. ■ is done by the records of " + m.options.Date.Format("2 January 2006") + ". ‹7› is piece 7 of the cut list, joint numbers are those on walls, isometric and labels. A row that begins with TEST holds the work: what comes after hides a line for good.",
	)}
	for _, c := range told.Progress {
		t := page.Table{Columns: []page.Head{{Words: ""}, {Words: "step", Right: true}, {Words: "line"}, {Words: "cut"}, {Words: "joints"}, {Words: "mind", Wide: true}}}
		fixing := build.Stage(c.Stage) == build.Supports
		if fixing {
			t.Columns = []page.Head{{Words: ""}, {Words: "step", Right: true}, {Words: "line"}, {Words: "supports", Right: true}, {Words: "where, along the wall from its left corner; heights: marks on the walls", Wide: true}}
		}
		for n, s := range stints(a, told, build.Stage(c.Stage)) {
			switch {
			case fixing:
				t.Rows = append(t.Rows, m.fixRow(n+1, &s))
			case s.steps[0].What == build.Hide:
				t.Rows = append(t.Rows, m.hideRow(n+1, s.steps[0], s.worded[0]))
			default:
				t.Rows = append(t.Rows, m.buildRow(n+1, &s, numbers))
			}
		}
		blocks = append(blocks, page.Heading(fmt.Sprintf("%s: %d of %d done", c.Words, c.Done, c.All)), t)
	}
	return blocks
}

// pieceNumbers are the numbers of pieces on the cut list, by id.
func pieceNumbers(take *parts.Answer) map[string]int {
	out := map[string]int{}
	for i := range take.Pieces {
		out[take.Pieces[i].ID] = i + 1
	}
	return out
}

// fixRow is the supports of a line, with where they are marked on each wall.
func (m *Maker) fixRow(n int, s *stint) page.Row {
	var where []string
	done := true
	count := 0
	for _, step := range s.steps {
		done = done && step.Done
		count += len(step.Supports)
		where = append(where, m.marksOf(step)...)
	}
	return page.Row{Cells: []string{boxOf(done), strconv.Itoa(n), m.shop.Named(s.run), strconv.Itoa(count), strings.Join(where, "; ")}}
}

// marksOf are the places of supports, by wall; what is on no wall by its place along the line.
func (m *Maker) marksOf(s *build.Step) []string {
	var out []string
	last, same := "none", 1
	for _, p := range s.Supports {
		on, at := "along the line", p.Along
		if p.On.Place != nil {
			on, at = "a wall", p.On.Place.Along
			if w := m.index.Wall(p.On.Wall); w != nil {
				on = or(w.Name, on)
			}
		}
		words := m.marked(at)
		if on != last {
			words = on + " " + words
		}
		last = on
		if p.Kind == fastKind {
			words += " (holds fast)"
		}
		// One above the other on an upright line: one place along the wall, told once.
		if n := len(out) - 1; n >= 0 && strings.HasSuffix(strings.TrimSuffix(out[n], times(same)), words) {
			out[n] = strings.TrimSuffix(out[n], times(same)) + times(same+1)
			same++
			continue
		}
		same = 1
		out = append(out, words)
	}
	return out
}

// times is how often a place is marked, one above the other; nothing for once.
func times(n int) string {
	if n == 1 {
		return ""
	}
	return fmt.Sprintf(" ×%d", n)
}

// fastKind is how a support is known that holds its line fast.
const fastKind = "fixed"

func (m *Maker) hideRow(n int, s *build.Step, told *screen.StepRow) page.Row {
	mind := "nothing is open on it"
	if len(s.Open) > 0 {
		mind = told.Waits
	}
	return page.Row{Cells: []string{boxOf(s.Done), strconv.Itoa(n), "TEST: " + strings.TrimPrefix(told.Words, "test "), "", "", mind}}
}

// buildRow is what is cut for a line and which joints are made on it.
func (m *Maker) buildRow(n int, s *stint, numbers map[string]int) page.Row {
	var cuts, mind []string
	var joints []int
	ready := 0
	for i, step := range s.steps {
		if step.Done {
			ready++
		}
		if p := step.Piece; p != nil {
			words := "‹" + strconv.Itoa(numbers[p.ID]) + "›"
			if p.Cut != nil {
				words += " " + m.marked(*p.Cut)
			}
			cuts = append(cuts, words)
		}
		if step.Joint != nil {
			joints = append(joints, step.Joint.Number)
		}
		mind = minded(mind, s.worded[i])
	}
	if ready > 0 && ready < len(s.steps) {
		mind = append(mind, fmt.Sprintf("%d of %d are done", ready, len(s.steps)))
	}
	name := m.shop.Named(s.run)
	if s.run == "" {
		name = m.joined(s)
	}
	return page.Row{Cells: []string{boxOf(ready == len(s.steps)), strconv.Itoa(n), name, strings.Join(cuts, "; "), draw.Ranges(joints), strings.Join(mind, "; ")}}
}

// joined names what the joints of a stint are on, where that is no line.
func (m *Maker) joined(s *stint) string {
	var names []string
	for _, step := range s.steps {
		if step.Joint == nil {
			continue
		}
		if name := m.shop.Named(parts.ThingOf(step.Joint.Sides[0].Thing)); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return few(names)
}

// minded adds what a step asks for, each once: bends and seals, and what it waits for.
func minded(all []string, s *screen.StepRow) []string {
	add := func(words string) {
		if !slices.Contains(all, words) {
			all = append(all, words)
		}
	}
	for _, d := range s.Details {
		if !strings.HasPrefix(d, "from ") && !strings.HasPrefix(d, "mark the pipe ") { // those stand in the lists
			add(d)
		}
	}
	if s.Waits != "" {
		add(s.Waits)
	}
	return all
}
