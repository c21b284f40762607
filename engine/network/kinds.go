package network

import (
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/document"
	"dropleg/engine/element"
	"dropleg/engine/unit"
)

// kind is one kind of link in the file: the keys it must and may have, and how
// its law is made once they are there.
type kind struct {
	must, may []string
	law       func(element.Gas, *LinkSpec) (element.Law, error)
}

// kindOf is the table of link kinds; nil where the word is none.
func kindOf(word string) *kind {
	switch word {
	case "pipe":
		return &kind{must: []string{"length_m", "bore_m", "roughness_m"}, may: []string{"k", "k_reverse"}, law: pipeLaw}
	case "iso6358":
		return &kind{must: []string{"C_m3_s_Pa", "b"}, may: []string{"m"}, law: isoLaw}
	case "orifice":
		return &kind{must: []string{"bore_m", "cd"}, law: orificeLaw}
	case "valve":
		return &kind{must: []string{"k", "bore_m"}, may: []string{"open"}, law: valveLaw}
	case "check":
		return &kind{may: []string{"cracking_Pa", "C_m3_s_Pa", "b", "m", "k", "bore_m"}, law: checkLaw}
	case "regulator":
		return &kind{must: []string{"set_Pa_abs", "C_m3_s_Pa", "b"}, may: []string{"m", "droop_Pa_s_kg"}, law: regulatorLaw}
	}
	return nil
}

func pipeLaw(g element.Gas, l *LinkSpec) (element.Law, error) {
	s := element.PipeSpec{Length: *l.Length, Bore: *l.Bore, Roughness: *l.Roughness, K: or(l.K, 0)}
	if l.KReverse != nil {
		s.KReverse, s.HasReverse = *l.KReverse, true
	}
	return element.NewPipe(g, s)
}

func isoLaw(g element.Gas, l *LinkSpec) (element.Law, error) {
	return element.NewISO6358(g, element.ISO6358Spec{C: *l.C, B: *l.B, Index: or(l.M, 0.5)})
}

func orificeLaw(g element.Gas, l *LinkSpec) (element.Law, error) {
	return element.NewOrifice(g, *l.Bore, *l.Cd)
}

func valveLaw(g element.Gas, l *LinkSpec) (element.Law, error) {
	return element.NewValve(g, *l.Bore, *l.K, l.Open == nil || *l.Open)
}

func checkLaw(g element.Gas, l *LinkSpec) (element.Law, error) {
	if l.K != nil {
		return element.NewCheckK(g, *l.Bore, *l.K, or(l.Cracking, 0))
	}
	return element.NewCheck(g, element.ISO6358Spec{C: *l.C, B: *l.B, Index: or(l.M, 0.5), Cracking: or(l.Cracking, 0)})
}

func regulatorLaw(g element.Gas, l *LinkSpec) (element.Law, error) {
	return element.NewRegulator(g, element.RegulatorSpec{Set: *l.Set, Droop: or(l.Droop, 0), C: *l.C, B: *l.B, Index: or(l.M, 0.5)})
}

// given lists the figures of a link that are there, in the order of the file.
func (l *LinkSpec) given() []string {
	var keys []string
	for _, f := range []struct {
		key   string
		there bool
	}{
		{"length_m", l.Length != nil},
		{"bore_m", l.Bore != nil},
		{"roughness_m", l.Roughness != nil},
		{"k", l.K != nil},
		{"k_reverse", l.KReverse != nil},
		{"open", l.Open != nil},
		{"cd", l.Cd != nil},
		{"C_m3_s_Pa", l.C != nil},
		{"b", l.B != nil},
		{"m", l.M != nil},
		{"cracking_Pa", l.Cracking != nil},
		{"set_Pa_abs", l.Set != nil},
		{"droop_Pa_s_kg", l.Droop != nil},
	} {
		if f.there {
			keys = append(keys, f.key)
		}
	}
	return keys
}

func (b *builder) link(i int, seen map[string]int) {
	l := &b.doc.Links[i]
	path := fmt.Sprintf("links[%d]", i)
	if l.ID == "" {
		b.wrong(path+".id", `""`, "a name")
	}
	if before, twice := seen[l.ID]; twice {
		b.wrong(path+".id", fmt.Sprintf("%q", l.ID), fmt.Sprintf("a name not yet used (links[%d] has it)", before))
	}
	seen[l.ID] = i
	from, to := b.end(path+".from", l.From), b.end(path+".to", l.To)
	if l.From == l.To && from >= 0 {
		b.wrong(path+".to", fmt.Sprintf("%q", l.To), "another node than from")
	}
	k := kindOf(l.Kind)
	if k == nil {
		b.wrong(path+".kind", fmt.Sprintf("%q", l.Kind), "one of the kinds of link")
		return
	}
	if !b.keys(path, l, k) {
		return
	}
	law, err := k.law(b.gas, l)
	b.figure(path, err)
	if err == nil && from >= 0 && to >= 0 {
		b.net.AddLink(Link{Name: l.ID, From: from, To: to, Law: law})
	}
}

// keys checks that the link has the figures of its kind and no others.
func (b *builder) keys(path string, l *LinkSpec, k *kind) bool {
	before := len(b.problems)
	given := l.given()
	must := k.must
	if l.Kind == "check" { // two ways to say how it flows when open
		must = []string{"C_m3_s_Pa", "b"}
		if l.K != nil || l.Bore != nil {
			must = []string{"bore_m", "k"}
			k = &kind{may: []string{"cracking_Pa"}}
		}
	}
	for _, key := range must {
		if !slices.Contains(given, key) {
			b.wrong(path, "no "+key, fmt.Sprintf("a %s with %s", l.Kind, strings.Join(must, ", ")))
		}
	}
	for _, key := range given {
		if !slices.Contains(must, key) && !slices.Contains(k.may, key) {
			b.wrong(path+"."+key, key, fmt.Sprintf("only what a %s has: %s", l.Kind, strings.Join(append(append([]string(nil), must...), k.may...), ", ")))
		}
	}
	return len(b.problems) == before
}

// end looks a node's name up.
func (b *builder) end(path, id string) int {
	i, ok := b.index[id]
	if ok {
		return i
	}
	p := document.Problem{Path: path, Read: fmt.Sprintf("%q", id), Want: "the id of a node"}
	if len(b.problems) < manyProblems {
		names := make([]string, len(b.doc.Nodes))
		for j := range b.doc.Nodes {
			names[j] = b.doc.Nodes[j].ID
		}
		p.Nearest = unit.Nearest(id, names)
	}
	b.problems = append(b.problems, p)
	return -1
}

// manyProblems is where nearest names are no longer looked for: the file is
// then wrong as a whole, and each look costs a walk through all names.
const manyProblems = 50
