package main

import (
	"fmt"
	"strconv"
	"strings"

	"dropleg/dev/reftest"
	"dropleg/engine/cite"
)

// what is the state a row is for, and its quantity where that is not said above.
func what(r reftest.Result, quantity bool) string {
	inputs := strings.Join(strings.Split(r.Inputs, ";"), "; ")
	switch {
	case inputs == "-" || inputs == "":
		return r.Quantity
	case quantity:
		return r.Quantity + ": " + inputs
	}
	return inputs
}

// told is the row's figure, ours and the deviation, of the figure furthest off.
func told(r reftest.Result) []string {
	f, ok := r.Worst()
	if !ok {
		return []string{r.Expected, "–", "–"}
	}
	return []string{wanted(r, f), answer(f), deviation(f)}
}

// remark is what else there is to say of a row.
func remark(r reftest.Result) string {
	var words []string
	if r.Outcome != reftest.Held && r.Outcome != reftest.Recalled {
		words = append(words, string(r.Outcome))
	}
	if strings.Contains(r.Note, "looks off") {
		words = append(words, "the print looks off")
	}
	return strings.Join(words, "; ")
}

// byGroup sums up rows that are not shown one by one.
func (p *page) byGroup(results []reftest.Result) {
	var rows [][]string
	for _, g := range grouped(results, func(r reftest.Result) string { return string(r.How) + "\n" + r.Quantity }) {
		how, quantity, _ := strings.Cut(g.name, "\n")
		t := reftest.TallyOf(g.results)
		share, ok := worst(g.results)
		differ := t.Differs
		if how != string(cite.Computed) {
			differ = t.RecalledOff
		}
		rows = append(rows, []string{quantity, how, strconv.Itoa(len(g.results)), percent(share, ok), count(differ)})
	}
	p.table([]string{"rows not shown one by one", "how", "rows", "largest deviation", "differ"}, rows)
}

// shelf sums up what the catalogue copies, table by table.
func (p *page) shelf(results []reftest.Result) {
	p.heading(2, "Figures on the catalogue's shelves")
	p.line("Each row below was compared with every size or part of the shelf that leans on it, figure by")
	p.line("figure, and in whether it was read or recalled.\n")
	var rows [][]string
	for _, g := range grouped(results, func(r reftest.Result) string {
		return r.Law.Topic + "\n" + r.Law.Name + "\n" + r.File
	}) {
		parts := strings.Split(g.name, "\n")
		t := reftest.TallyOf(g.results)
		figures := 0
		for _, r := range g.results {
			figures += len(r.Figures)
		}
		share, ok := worst(g.results)
		rows = append(rows, []string{
			parts[0], parts[1], parts[2], count(t.Read), count(t.Computed), count(t.Recalled), strconv.Itoa(figures), percent(share, ok), count(t.Failed + t.RecalledOff),
		})
	}
	p.table([]string{"topic", "figures", "table", "read", "computed", "recalled", "comparisons", "largest deviation", "differ"}, rows)
}

// reasons lists each explanation with every row that needs it.
func (p *page) reasons(results []reftest.Result) {
	p.heading(2, "Differs, because")
	explained := chosen(results, func(r reftest.Result) bool { return r.Outcome == reftest.Explained })
	p.line("%d rows lie outside their own tolerance, each for a reason. The test holds them within the bound.", len(explained))
	for _, g := range grouped(explained, func(r reftest.Result) string { return r.Law.Topic + ": " + r.Why }) {
		p.line("\n**%s**\n\nBound: %s.\n", g.name, boundOf(g.results[0]))
		var rows [][]string
		for _, r := range g.results {
			rows = append(rows, append([]string{r.ID, string(r.How), what(r, true)}, append(told(r), r.Tolerance)...))
		}
		p.table([]string{"row", "how", "for", "the table says", "ours", "deviation", "own tolerance"}, rows)
	}
}

func boundOf(r reftest.Result) string {
	for _, b := range r.Law.Because {
		switch {
		case b.Why != r.Why:
		case b.Abs > 0:
			return strings.TrimSpace(fmt.Sprintf("%g %s", b.Abs, r.Unit))
		default:
			return fmt.Sprintf("%g %%", 100*b.Rel)
		}
	}
	return "none"
}

func (p *page) recalled(results []reftest.Result) {
	p.heading(2, "Recalled rows that differ")
	var rows [][]string
	for _, r := range results {
		if r.Outcome == reftest.Recalled && !r.Within {
			rows = append(rows, append([]string{r.ID, what(r, true)}, append(told(r), r.Tolerance, r.Source, r.Why)...))
		}
	}
	p.line("From memory, so neither side is proved. Rows within their tolerance are counted above.\n")
	p.table([]string{"row", "for", "remembered", "ours", "deviation", "own tolerance", "source", "because"}, rows)
}

func (p *page) unanswered(results []reftest.Result) {
	p.heading(2, "Not answered here")
	p.line("Rows to which no law answers, and why. Those of a later part of the program wait for it.\n")
	left := chosen(results, func(r reftest.Result) bool { return r.Outcome == reftest.Later })
	var rows [][]string
	for _, g := range grouped(left, func(r reftest.Result) string { return r.File + "\n" + r.Why }) {
		file, why, _ := strings.Cut(g.name, "\n")
		n := map[cite.How]int{}
		for _, r := range g.results {
			n[r.How]++
		}
		rows = append(rows, []string{
			file, why, count(n[cite.Read]), count(n[reftest.Solved]), count(n[cite.Computed]), count(n[cite.Recalled] + n[cite.Common]), quantities(g.results),
		})
	}
	p.table([]string{"table", "why", "read", "solved", "computed", "recalled", "about"}, rows)
}

// quantities names the first few of what the rows are about.
func quantities(results []reftest.Result) string {
	const most = 4
	groups := grouped(results, func(r reftest.Result) string { return r.Quantity })
	var names []string
	for i, g := range groups {
		if i == most {
			names = append(names, fmt.Sprintf("and %d more", len(groups)-most))
			break
		}
		names = append(names, g.name)
	}
	return strings.Join(names, "; ")
}
