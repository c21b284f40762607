package sheet

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dropleg/internal/answer/parts"
	"dropleg/internal/decide/prove"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
)

func testSheet() Sheet {
	return Sheet{
		Name: "test", Title: "Test plan and record", Audience: "who tests it and who takes it over", Needs: "a line",
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			a, err := m.shop.Prove(ctx, screen.Ask{System: m.options.System})
			if err != nil {
				return nil, fmt.Errorf("planning the tests: %w", err)
			}
			if len(a.Sections) == 0 {
				return nil, nil
			}
			blocks := append(cautionLines("prove"), page.Paragraph("Test pressure: "+a.Rule+ruleSource(&a)))
			blocks = append(blocks, sectionTable(&a)...)
			blocks = append(blocks, risePlans(&a)...)
			blocks = append(blocks, isolation(&a)...)
			take, err := m.take(ctx)
			if err != nil {
				return nil, err
			}
			blocks = append(blocks, m.jointBoxes(&a, take)...)
			blocks = append(blocks, readings(&a)...)
			return append(blocks, standing(&a)...), nil
		},
	}
}

func ruleSource(a *screen.Prove) string {
	if len(a.RuleFrom.Sources) == 0 {
		return ""
	}
	return " (" + strings.Join(a.RuleFrom.Sources, "; ") + ")"
}

// planOf is the test that a section gets: above working pressure, else for leaks alone.
func planOf(s *screen.SectionRow) (plan *screen.TestRow, what string) {
	switch {
	case s.Test != nil && s.Test.Fits, s.Test != nil && s.Leak == nil:
		return s.Test, "strength"
	case s.Leak != nil:
		return s.Leak, "leaks"
	}
	return nil, "none"
}

// sectionTable lists the sections by their numbers, with notes on those that are not tested
// above working pressure.
func sectionTable(a *screen.Prove) []page.Block {
	t := page.Table{Columns: []page.Head{
		{Words: "section", Right: true},
		{Words: "lines"},
		{Words: "what is in it", Wide: true},
		{Words: "test at", Right: true},
		{Words: "for"},
		{Words: "energy"},
		{Words: "keep away", Right: true},
		{Words: "pressed"},
		{Words: "holds"},
	}}
	why := map[string][]int{}
	var order []string
	for i := range a.Sections {
		s := &a.Sections[i]
		pressed := slices.ContainsFunc(s.Made, func(m screen.MadeRow) bool { return m.Chart == nil && m.Figure == prove.Tight })
		row := page.Row{Cells: []string{strconv.Itoa(i + 1), s.Name, s.Words, "–", "–", "–", "–", boxOf(pressed), boxOf(s.State == prove.Holds)}}
		if plan, what := planOf(s); plan != nil {
			stores, _, _ := strings.Cut(strings.TrimPrefix(plan.Words, "stores "), "; ")
			row.Cells[3], row.Cells[4], row.Cells[5], row.Cells[6] = plan.Pressure, what, stores, plan.Distance
			if !plan.Fits {
				row.Cells[6] += " *"
			}
		}
		if s.Refused != "" && why[s.Refused] == nil {
			order = append(order, s.Refused)
		}
		why[s.Refused] = append(why[s.Refused], i+1)
		t.Rows = append(t.Rows, row)
	}
	blocks := []page.Block{t, page.Paragraph(
		"For strength: above working pressure by the rule. For leaks: at working pressure and no more, from the line alone, the receiver shut off. * The rooms are smaller than that: nobody stays in them while it is under pressure.",
	)}
	for _, words := range order {
		blocks = append(blocks, page.Paragraph("Section"+numbered(why[words])+", no test above working pressure: "+words))
	}
	return blocks
}

// risePlans are the ways up to each test pressure, with the sections that they are for.
func risePlans(a *screen.Prove) []page.Block {
	var order []string
	plans, sections := map[string]*screen.TestRow{}, map[string][]int{}
	for i := range a.Sections {
		plan, what := planOf(&a.Sections[i])
		if plan == nil {
			continue
		}
		key := what + " " + plan.Pressure + plan.Relief
		if plans[key] == nil {
			order, plans[key] = append(order, key), plan
		}
		sections[key] = append(sections[key], i+1)
	}
	var blocks []page.Block
	for _, key := range order {
		plan := plans[key]
		t := page.Table{Least: writing, Columns: []page.Head{{Words: "raise to", Right: true}, {Words: "share", Right: true}, {Words: "then"}, {Words: "sections done, when, by whom", Wide: true}}}
		for _, g := range plan.Stages {
			t.Rows = append(t.Rows, page.Row{Cells: []string{g.Pressure, g.Share, g.Words, ""}})
		}
		head := "Up to " + plan.Pressure + ": section" + numbered(sections[key])
		if relief := plan.Relief; relief != "" {
			head += "; a relief valve set to " + relief + " or less guards it"
		}
		blocks = append(blocks, page.Heading(head), t)
	}
	return blocks
}

// writing is the height of a row that a hand writes in, mm.
const writing = 8.0

func numbered(all []int) string {
	if len(all) == 1 {
		return " " + strconv.Itoa(all[0])
	}
	return "s " + draw.Ranges(all)
}

// isolation lists what is shut, taken out or may stay, by section.
func isolation(a *screen.Prove) []page.Block {
	t := page.Table{Size: 2.6, Columns: []page.Head{{Words: ""}, {Words: "part", Wide: true}, {Words: "before the test"}, {Words: "as written down"}}}
	for i := range a.Sections {
		s := &a.Sections[i]
		if len(s.Items) > 0 {
			t.Rows = append(t.Rows, page.Row{Group: true, Cells: []string{fmt.Sprintf("Section %d, %s", i+1, s.Name)}})
		}
		for _, x := range s.Items {
			t.Rows = append(t.Rows, page.Row{Cells: []string{boxOf(x.Written != ""), x.Name, x.Words, x.Written}})
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []page.Block{page.Heading("Isolate, take out, or let stand"), t}
}

// jointBoxes are the joints by room, to tick as each is found tight; ■ is tight by the
// records, × bubbles.
func (m *Maker) jointBoxes(a *screen.Prove, take *parts.Answer) []page.Block {
	rooms := map[string]job.ID{}
	for i := range take.Joints {
		rooms[take.Joints[i].ID] = take.Joints[i].Room
	}
	t := page.Table{Size: 3.4, Columns: []page.Head{{Words: "room"}, {Words: "joints, by their numbers", Wide: true}}}
	in := map[string][]string{}
	var order []string
	for i := range a.Joints {
		k := &a.Joints[i]
		sign := map[string]string{prove.Tight: doneBox, prove.Bubbles: "×"}[k.Found]
		room := m.roomName(rooms[k.ID])
		if in[room] == nil {
			order = append(order, room)
		}
		in[room] = append(in[room], or(sign, openBox)+strconv.Itoa(k.Number))
	}
	for _, room := range order {
		t.Rows = append(t.Rows, page.Row{Cells: []string{room, strings.Join(in[room], " ")}})
	}
	return []page.Block{
		page.Heading(fmt.Sprintf("Every joint wiped with soap solution: %d of %d found tight", a.Tight, len(a.Joints))),
		page.Paragraph("At the first look and never above it. Tick what is tight; ring what bubbles, let the pressure off, mend, look again. ■ is tight by the records, × bubbled."), t,
	}
}

// readings are the tests that were made with what they say, and rows for those to come.
func readings(a *screen.Prove) []page.Block {
	made := page.Table{Columns: []page.Head{{Words: "section"}, {Words: "when, by"}, {Words: "found"}, {Words: "that says", Wide: true}}}
	var charts page.Shelf
	add := func(where string, all []screen.MadeRow) {
		for _, x := range all {
			made.Rows = append(made.Rows, page.Row{Cells: []string{where, x.When, x.Figure, x.Words}})
			if x.Chart != nil {
				charts = append(charts, page.Chart{Scene: x.Chart.Scene, Scale: 1000 * decayWide / 110})
			}
		}
	}
	for i := range a.Sections {
		add(strconv.Itoa(i+1)+", "+a.Sections[i].Name, a.Sections[i].Made)
	}
	add("the whole, at the plant", a.Whole)
	blocks := []page.Block{page.Heading("Pressure held: readings")}
	if len(made.Rows) > 0 {
		blocks = append(blocks, made)
	}
	if len(charts) > 0 {
		blocks = append(blocks, charts)
	}
	for _, words := range holds(a) {
		blocks = append(blocks, page.Paragraph(words))
	}
	blank := page.Table{Least: writing, Columns: []page.Head{
		{Words: "section"}, {Words: "begun at", Wide: true}, {Words: "pressure", Wide: true}, {Words: "air is at", Wide: true}, {Words: "ended at", Wide: true}, {Words: "pressure", Wide: true}, {Words: "air is at", Wide: true}, {Words: "gauge no.", Wide: true}, {Words: "found", Wide: true},
	}}
	for i := range min(len(a.Sections), mostBlank) {
		first := ""
		if len(a.Sections) <= mostBlank {
			first = strconv.Itoa(i + 1)
		}
		blank.Rows = append(blank.Rows, page.Row{Cells: []string{first, "", "", "", "", "", "", "", ""}})
	}
	return append(blocks, blank)
}

// The charts of decay tests stand two beside each other; rows to write readings in are no more
// than a hand fills at once.
const (
	decayWide = 88.0
	mostBlank = 10
)

// holds say how long each section has to stand, those alike together.
func holds(a *screen.Prove) []string {
	var order, out []string
	sections := map[string][]int{}
	for i := range a.Sections {
		if h := a.Sections[i].Hold; h != "" {
			if sections[h] == nil {
				order = append(order, h)
			}
			sections[h] = append(sections[h], i+1)
		}
	}
	for _, h := range order {
		out = append(out, "Section"+numbered(sections[h])+": "+h+".")
	}
	return out
}

// standing are the outlets' pressures, what was checked and what was not, and where to sign.
func standing(a *screen.Prove) []page.Block {
	t := page.Table{Columns: []page.Head{{Words: "outlet", Wide: true}, {Words: "read with a tool running", Right: true}, {Words: "by the design", Right: true}, {Words: "how"}}}
	for i := range a.Outlets {
		o := &a.Outlets[i]
		words := o.Words
		if o.Read == "" {
			words = "not read yet"
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{o.Name, or(o.Read, "........"), or(o.Design, "–"), words}})
	}
	blocks := []page.Block{}
	if len(t.Rows) > 0 {
		blocks = append(blocks, page.Heading("Flowing pressure at the outlets"), t)
	}
	for _, list := range []struct {
		head string
		rows []string
	}{{"Checked", a.Checked}, {"Not checked", a.Unchecked}} {
		if len(list.rows) == 0 {
			continue
		}
		blocks = append(blocks, page.Heading(list.head))
		for _, words := range list.rows {
			blocks = append(blocks, page.Paragraph("– "+words))
		}
	}
	return append(blocks, page.Heading("Signed"),
		page.Paragraph("What is ticked and written above was found as it says, on the days named. It says what was checked and what was not; it does not say that the lines are safe."), toSign("tested by", "taken over by"))
}
