package main

import (
	"fmt"
	"strconv"
	"strings"

	"dropleg/engine/cite"
	"dropleg/engine/formula"
	"dropleg/internal/decide/calc"
	"dropleg/internal/shop/catalog"
)

// sources is the bibliography.
func sources() []byte {
	p := newPage("Sources")
	all := cite.All()
	n := map[cite.How]int{}
	for _, s := range all {
		n[s.How]++
	}
	recalled, refs := catalog.Builtin().Recalled()
	p.line("%d sources. How most of the figures of a source came: %d read in the publication or a faithful", len(all), n[cite.Read])
	p.line("reproduction, %d recalled from memory, %d computed from its equation, %d common practice.\n", n[cite.Recalled], n[cite.Computed], n[cite.Common])
	p.line("The catalogue makes %d references to them; %d of these are recalled, and are shown to people as such.\n", refs, recalled)
	used := citing()
	var rows [][]string
	for _, s := range all {
		rows = append(rows, []string{"`" + string(s.ID) + "`", published(s), string(s.How), s.Note, strings.Join(used[s.ID], ", ")})
	}
	p.table([]string{"id", "source", "how", "note", "formulas"}, rows)
	return p.bytes()
}

func published(s cite.Source) string {
	parts := []string{s.Title}
	for _, more := range []string{s.Publisher, s.Edition} {
		if more != "" {
			parts = append(parts, more)
		}
	}
	if year := strconv.Itoa(s.Year); s.Year != 0 && !strings.Contains(s.Edition, year) {
		parts = append(parts, year)
	}
	return strings.Join(parts, "; ")
}

// citing lists the formulas by the sources that they lean on.
func citing() map[cite.ID][]string {
	used := map[cite.ID][]string{}
	for _, f := range calc.All() {
		seen := map[cite.ID]bool{}
		for _, r := range f.Cite {
			if !seen[r.Source] {
				seen[r.Source] = true
				used[r.Source] = append(used[r.Source], f.Name)
			}
		}
	}
	return used
}

// formulas is every formula, as `calc` knows it.
func formulas() []byte {
	p := newPage("Formulas")
	all := calc.All()
	p.line("%d formulas can be asked for one at a time, `dropleg calc NAME key=value …`. What each of them was", len(all))
	p.line("put to from outside stands in [validation.md](validation.md).\n")
	var rows [][]string
	for _, f := range all {
		rows = append(rows, []string{fmt.Sprintf("[%s](#%s)", f.Name, f.Name), f.Title})
	}
	p.table([]string{"name", "what it tells"}, rows)
	for _, f := range all {
		p.formula(f)
	}
	return p.bytes()
}

func (p *page) formula(f formula.Formula) {
	p.heading(2, f.Name)
	p.line("%s.\n", upper(f.Title))
	p.line("```\n%s\n```\n", f.Law)
	p.line("Range: %s\n", f.Range)
	p.takes(f.In)
	p.gives(f.Out)
	var refs []string
	for _, r := range f.Cite {
		refs = append(refs, r.Text())
	}
	p.line("Sources: %s.", strings.Join(refs, "; "))
}

func (p *page) takes(symbols []formula.Symbol) {
	var rows [][]string
	for _, s := range symbols {
		rows = append(rows, append(symbolCells(s), otherwise(s)))
	}
	p.table([]string{"takes", "", "kind", "SI", "if left out"}, rows)
}

func (p *page) gives(symbols []formula.Symbol) {
	var rows [][]string
	for _, s := range symbols {
		rows = append(rows, symbolCells(s))
	}
	p.table([]string{"gives", "", "kind", "SI"}, rows)
}

func symbolCells(s formula.Symbol) []string {
	return []string{"`" + s.Key + "`", s.Words, s.Kind.Words(), s.Kind.SI()}
}

// otherwise is what holds when a symbol is not given.
func otherwise(s formula.Symbol) string {
	switch {
	case s.Default != nil:
		return strconv.FormatFloat(*s.Default, 'g', 6, 64)
	case s.Word != "":
		return s.Word
	case s.Optional:
		return "nothing"
	}
	return ""
}

func upper(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
