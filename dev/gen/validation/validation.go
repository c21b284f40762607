package main

import (
	"strconv"

	"dropleg/dev/reftest"
	"dropleg/engine/cite"
)

const preface = `Every row of the reference tables in ` + "`testdata/ref`" + ` that touches something built, with
the figure of the row and the answer of the program. This page and the test
` + "`go test ./dev/reftest`" + ` are made from the same evaluators: what stands here as held is held there.

- **read**: seen in the publication named or in a faithful reproduction of it. These rows count.
- **solved**: an independent solver's answer to the same equations. It holds the method, not the equations.
- **computed**: worked from the formula that the row names. It holds the arithmetic, not the physics.
- **recalled**: from memory. Told where it differs, and never a reason to fail.

A row is *held* within its own tolerance, which is the rounding or the stated accuracy of its source.
Where the program answers differently it *differs, because* of a stated reason, within a stated bound;
a read, solved or computed row that does neither fails the test. No law was fitted to a row; where a
figure that a row needs was inferred from the rows themselves, that stands beside it.
`

// group is results under one name, in the order in which they came.
type group struct {
	name    string
	results []reftest.Result
}

// grouped splits results by a key.
func grouped(results []reftest.Result, key func(reftest.Result) string) []group {
	var groups []group
	at := map[string]int{}
	for _, r := range results {
		k := key(r)
		i, ok := at[k]
		if !ok {
			i = len(groups)
			at[k] = i
			groups = append(groups, group{name: k})
		}
		groups[i].results = append(groups[i].results, r)
	}
	return groups
}

// chosen keeps the results that a condition takes.
func chosen(results []reftest.Result, take func(reftest.Result) bool) []reftest.Result {
	var kept []reftest.Result
	for _, r := range results {
		if take(r) {
			kept = append(kept, r)
		}
	}
	return kept
}

// The parts of the page split the rows once each: answered by a law, answered by
// the shelf, not answered.
func answered(r reftest.Result) bool { return r.Law != nil && r.Outcome != reftest.Later }
func byLaw(r reftest.Result) bool    { return answered(r) && !r.Law.Shelf }
func byShelf(r reftest.Result) bool  { return answered(r) && r.Law.Shelf }

func topic(r reftest.Result) string { return r.Law.Topic }

// validation is the whole page.
func validation(results []reftest.Result) []byte {
	p := newPage("Validation")
	p.line("%s", preface)
	p.summary(results)
	p.failures(results)
	p.unverified(results)
	for _, t := range inOrder(chosen(results, byLaw)) {
		p.topic(t)
	}
	p.shelf(chosen(results, byShelf))
	p.stories()
	p.reasons(results)
	p.recalled(results)
	p.unanswered(results)
	return p.bytes()
}

// inOrder groups by topic in the order of the list of laws.
func inOrder(results []reftest.Result) []group {
	byTopic := map[string]group{}
	for _, g := range grouped(results, topic) {
		byTopic[g.name] = g
	}
	var groups []group
	for _, l := range reftest.Laws() {
		if g, ok := byTopic[l.Topic]; ok {
			groups = append(groups, g)
			delete(byTopic, l.Topic)
		}
	}
	return groups
}

func (p *page) summary(results []reftest.Result) {
	p.heading(2, "Summary")
	head := []string{"topic", "read", "held", "differs, because", "largest deviation of read rows", "solved", "computed", "of them differ", "recalled", "of them off"}
	var rows [][]string
	for _, g := range inOrder(chosen(results, byLaw)) {
		rows = append(rows, summaryRow(g.name, g.results))
	}
	rows = append(rows, summaryRow("**all laws**", chosen(results, byLaw)))
	p.table(head, rows)
	p.line("Figures that the catalogue holds as they stand in a table. Agreement shows that the copy is")
	p.line("right, and nothing about the figure:\n")
	rows = nil
	for _, g := range inOrder(chosen(results, byShelf)) {
		rows = append(rows, summaryRow(g.name, g.results))
	}
	rows = append(rows, summaryRow("**all shelves**", chosen(results, byShelf)))
	p.table(head, rows)
	t := reftest.TallyOf(results)
	p.line("%d rows in all: %d answered, %d not answered here (last section), %d failing.",
		len(results), len(results)-t.Unanswered, t.Unanswered, t.Failed)
}

func summaryRow(name string, results []reftest.Result) []string {
	t := reftest.TallyOf(results)
	share, ok := worst(chosen(results, isRead))
	return []string{
		name, count(t.Read), count(t.ReadHeld), count(t.ReadExplained), percent(share, ok),
		count(t.Solved), count(t.Computed), count(t.Differs), count(t.Recalled), count(t.RecalledOff),
	}
}

func isRead(r reftest.Result) bool { return r.How == cite.Read }

func (p *page) failures(results []reftest.Result) {
	failed := chosen(results, func(r reftest.Result) bool { return r.Outcome == reftest.Failed })
	if len(failed) == 0 {
		return
	}
	p.heading(2, "Failing")
	var rows [][]string
	for _, r := range failed {
		rows = append(rows, append([]string{r.ID, what(r, true)}, append(told(r), r.Why)...))
	}
	p.table([]string{"row", "what", "the table says", "ours", "deviation", "why it fails"}, rows)
}

// unverified lists the laws that no read row was put to, and what stays open of
// the others.
func (p *page) unverified(results []reftest.Result) {
	p.heading(2, "Unverified from outside")
	p.line("Laws and formulas to which no read row was put. What holds them is arithmetic, an independent")
	p.line("solver or nothing but their own properties (monotone, slopes by differences, zero at equal pressures):\n")
	var none, some [][]string
	for _, c := range reftest.Coverage() {
		e := c.Evidence(results)
		row := []string{c.Name, c.Kind, count(e.Read), count(e.Solved), count(e.Computed), count(e.Recalled), c.Open}
		switch {
		case e.Read == 0:
			none = append(none, append(row[:2:2], row[3:]...))
		case c.Open != "":
			some = append(some, row)
		}
	}
	p.table([]string{"law", "kind", "solved", "computed", "recalled", "what nothing from outside has confirmed"}, none)
	p.line("Held by read rows, with something left open:\n")
	p.table([]string{"law", "kind", "read", "solved", "computed", "recalled", "left open"}, some)
	p.line("Held by rows that are not quite independent of the law:\n")
	for _, l := range reftest.Laws() {
		if l.Caution != "" {
			p.line("- %s: %s.", l.Name, l.Caution)
		}
	}
	p.line("")
	p.through()
}

// followed is what is followed through time and along lines: no table has it, so that tests
// beside the code hold it.
var followed = [][]string{
	{"a working day", "fixed-step integration of the laws themselves, fourth order, and a march of 1 ms for load, unload and run-on", "pressure 1e-4, duty 1e-3, starts equal", "no measured day; isothermal air"},
	{"a day of receivers that stand apart", "fixed-step integration of two vessels with a line between them, fourth order, stages solved by nested halving; nets that do not meet against each alone; the network solved again along the day", "both pressures 1e-4, duty 1e-3, starts equal; coarse days: shares within half a point", "no measured day; what a compressor delivers goes to the first receiver that it feeds; what levels out within 10 kPa counts as one store"},
	{"what a day took", "the network solved again along the day's course, Simpson's rule", "1e-6 of the mass", "–"},
	{"air balance of a day", "in less out less stored", "1e-6 of what came in", "–"},
	{"who runs together, through time", "the product form of a reversible loss network, by listing all sets", "four standard errors", "bursts and pauses are taken as exponential"},
	{"numbers, flows, crews, exclusions", "listing of all sets of up to eight tools", "1e-9", "–"},
	{"sets too many to solve", "every set solved, in a shop where both ways can be gone", "0.5 % of the air, duty 0.005, shares within 99.9 %", "how tools apart make a set is a law of ours, checked at moments"},
	{"tools by the clock", "by hand", "exact", "–"},
	{"baskets and cuts of generated questions", "glpsol, the same question as an integer programme", "the coin", "–"},
	{"solder of a joint (Copper Tube Handbook, table 14.10)", "the ring between tube and cup, 0.010 in wide, of 95-5 at 7250 kg/m³", "2.5 %", "what really goes depends on the hand"},
	{"water from intake to outlet", "balance of water, and the tables of moist air above", "1e-6 of what comes in", "no measured line: heat given off by lines is a range"},
}

// onPaper is what foreign programs find in the sheets and lists of the examples: tests beside the
// writers, the readers and the sheets.
var onPaper = [][]string{
	{"PDF: page, faces embedded, text as set, metadata", "poppler (pdfinfo, pdffonts, pdftotext)", "page 0.05 mm", "–"},
	{"PDF: a wall of 10 m at 1:50, one of 12 m on the plan at 1:96", "the document's own paths by pdftocairo", "0.1 mm", "–"},
	{"book of every example: no page empty, no word on another", "word boxes of pdftotext -bbox", "a fifth of the smaller box", "turned words by their upright boxes only"},
	{"DXF: layers, line types, arcs, texts; a wall of 10 m, the hall's 36 m", "ezdxf, with its audit", "1e-4 mm", "–"},
	{"SVG of every leaf: well-formed, its size that of the paper, a wall of 12 m as long as in the PDF", "XML decoder; the PDF measured above", "0.1 mm", "–"},
	{"isometric: axes 30° off the level, at full length", "projection by hand", "1e-9", "–"},
	{"isometric, broken: each line that is drawn shorter has its mark and its length; no place lies where it is shortened", "distances in the job; made-up places along an axis", "as written", "–"},
	{"isometric: each joint's number once, on any paper", "the take-off of the examples", "exact", "–"},
	{"words of the plan on lines, signs and each other: none on the examples", "boxes of the scene, three sizes of sheet", "0.1 mm", "the boxes are ours; the row on word boxes is not"},
	{"QR codes: each of 40 sizes, square by square", "boombuler/barcode", "exact, but for the choice of the mask", "–"},
	{"XLSX: every cell, its form, sums and products as formulas", "openpyxl, each formula reckoned anew", "1e-9", "opened in no spreadsheet program"},
	{"XLSX read: texts, numbers, days from 1900 and 1904, merged cells", "workbooks that openpyxl wrote", "every cell", "lists of suppliers themselves"},
	{"QR codes of outlets and joints", "zbar, from the page at 220 and 300 dots to the inch", "every code", "not scanned by a phone"},
	{"pipe markers: letters and fields", "size table of ASME A13.1, `piping/labels.csv`", "0.5 mm", "the standard itself not seen"},
	{"symbols, identification codes", "descriptions of ISO 1219-1 and 1219-2, feature by feature", "recalled", "the standards were not at hand"},
	{"order of work, test record, calendar: every step, joint, verdict and date", "the steps, records and dates that they come from", "exact", "–"},
}

// inTheShop is what comes after the plan: tests of the packages named.
var inTheShop = [][]string{
	{"calibration: roughness, filter and leak of a long line, and their deviations, `decide/calibrate`", "scipy.optimize.least_squares on a model of the line written anew in Python", "0.01 deviations, 1 % of their size", "the weights of priors and of what is not known are common practice"},
	{"calibration: what was planted lies in the range said, over seeds, gauges, shops; roughness, losses, tools, sets, plates and gauges off, leaks elsewhere", "the shops' own networks, perturbed and solved apart from the fit", "19 times in 20, less two deviations of the count", "no measured shop"},
	{"upkeep as a calendar, all examples, `decide/keep`", "icalendar (python3-icalendar), RFC 5545", "names, days, intervals, reminders as written", "–"},
}

// through writes what tests hold and no row.
func (p *page) through() {
	p.heading(2, "Through time and along lines")
	p.line("What no table of rows can hold, by the tests of `internal/answer`:\n")
	p.table([]string{"what", "held by", "within", "what nothing from outside has confirmed"}, followed)
	p.heading(2, "On paper")
	p.line("What comes out of the printer and what other programs read, by the tests of `internal/show/scene`, `internal/show/sheet`, `internal/show/page` and `internal/shop/intake`:\n")
	p.table([]string{"what", "held by", "within", "what nothing from outside has confirmed"}, onPaper)
	p.heading(2, "In the shop")
	p.line("What comes after the plan, by the tests of the packages named:\n")
	p.table([]string{"what", "held by", "within", "what nothing from outside has confirmed"}, inTheShop)
}

// topic writes one topic: each read row, and the others by law.
func (p *page) topic(g group) {
	p.heading(2, g.name)
	for _, law := range grouped(g.results, func(r reftest.Result) string { return r.Law.Name + ", `" + r.Law.Code + "`" }) {
		p.heading(3, law.name)
		if caution := law.results[0].Law.Caution; caution != "" {
			p.line("*With care: %s.*\n", caution)
		}
		p.solvedRows(chosen(law.results, func(r reftest.Result) bool { return r.How == reftest.Solved }))
		p.readRows(chosen(law.results, isRead))
		p.byGroup(chosen(law.results, func(r reftest.Result) bool { return !isRead(r) && r.How != reftest.Solved }))
	}
}

func (p *page) solvedRows(results []reftest.Result) {
	var rows [][]string
	for _, r := range results {
		share, _ := worst([]reftest.Result{r})
		rows = append(rows, []string{r.ID, strconv.Itoa(len(r.Figures)), bound(share)})
	}
	p.table([]string{"case", "figures compared", "largest deviation, as a share"}, rows)
}

func (p *page) readRows(results []reftest.Result) {
	for _, s := range grouped(results, func(r reftest.Result) string { return r.Source }) {
		p.line("%s; %d read:\n", s.name, len(s.results))
		several := len(grouped(s.results, func(r reftest.Result) string { return r.Quantity })) > 1
		var rows [][]string
		for _, r := range s.results {
			rows = append(rows, append([]string{r.ID, what(r, several)}, append(told(r), remark(r))...))
		}
		p.table([]string{"row", "for", "the table says", "ours", "deviation", ""}, rows)
	}
}
