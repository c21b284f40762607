package job

import (
	"errors"
	"fmt"
	"strings"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
)

// Validate finds what is wrong with a job as a document: words and figures out of
// bounds, ids, names that lead nowhere, geometry that cannot be, rows that the
// catalogue does not know, ports. Each finding has the path and the nearest
// valid form. The job's own catalogue rows are laid over cat. It has no opinion
// on the design. Order: by part of the document. Cost: linear in the job's size.
func Validate(j *Job, cat *catalog.Catalog) []Finding {
	v := &validator{job: j, ix: NewIndex(j), near: map[string][]string{}}
	if j.Version != Version {
		v.note("version", Fault, document.Problem{Path: "dropleg", Read: fmt.Sprint(j.Version), Want: fmt.Sprint(Version)})
	}
	for _, p := range document.Verify(j) {
		v.note("out-of-bounds", Fault, p)
	}
	known := v.shelve(cat)
	v.ids()
	for _, l := range lists() {
		for i := range l.size(j) {
			v.thing(l, i, known)
		}
	}
	v.ports(known)
	v.plans()
	v.prices(known)
	v.labour(cat)
	return v.found
}

// validator gathers findings.
type validator struct {
	job   *Job
	ix    *Index
	found []Finding
	near  map[string][]string // ids by kind, for the nearest one
}

// mostFindings bounds the list of a document that is wrong throughout.
const mostFindings = 1000

// note adds a finding.
func (v *validator) note(code string, s Severity, p document.Problem, where ...ID) {
	if len(v.found) >= mostFindings {
		return
	}
	f := finding(code, s, p)
	if s != Fault {
		f.Why = "The document can be used, but may not say what was meant."
	}
	f.Where = where
	v.found = append(v.found, f)
}

// ids checks that each id is there once, names its kind and was not removed.
func (v *validator) ids() {
	first := map[ID]string{}
	see := func(id ID, path, word string) {
		at := path + ".id"
		name, rest, dot := strings.Cut(string(id), ".")
		switch {
		case !dot || name != word || rest == "":
			v.note("id-form", Fault, document.Problem{Path: at, Read: fmt.Sprintf("%q", id), Want: "an id that begins with " + word + ".", Nearest: string(asID(word, id))}, id)
		case first[id] != "":
			v.note("id-twice", Fault, document.Problem{Path: at, Read: fmt.Sprintf("%q, the id of %s too", id, first[id]), Want: "an id of its own", Nearest: string(v.ix.FreshID(id))}, id)
		case isRetired(v.job, id):
			v.note("id-retired", Fault, document.Problem{Path: at, Read: fmt.Sprintf("%q, which was removed from this job", id), Want: "an id that was never used", Nearest: string(v.ix.FreshID(id))}, id)
		}
		if first[id] == "" {
			first[id] = path
		}
	}
	for _, l := range lists() {
		for i := range l.size(v.job) {
			see(l.id(v.job, i), pathOf(l, v.job, i), l.word())
		}
	}
	for i := range v.job.Outlets {
		o := &v.job.Outlets[i]
		path := fmt.Sprintf("outlets[%d] (%s)", i, o.ID)
		if o.Hose != nil {
			see(o.Hose.ID, path+".hose", "hose")
		}
		for k := range o.Hang {
			if o.Hang[k].ID != "" {
				see(o.Hang[k].ID, fmt.Sprintf("%s.hang[%d]", path, k), "part")
			}
		}
	}
	for i := 1; i < len(v.job.Retired); i++ {
		if v.job.Retired[i] <= v.job.Retired[i-1] {
			v.note("retired-order", Fault, document.Problem{Path: fmt.Sprintf("retired[%d]", i), Read: fmt.Sprintf("%q", v.job.Retired[i]), Want: "ids in the order of the alphabet, each once"})
		}
	}
}

// asID makes an id of a kind out of what stood there.
func asID(word string, id ID) ID {
	_, rest, dot := strings.Cut(string(id), ".")
	if !dot || rest == "" {
		rest = strings.Trim(string(id), ".")
	}
	if rest == "" {
		rest = "1"
	}
	return ID(word + "." + rest)
}

// pathOf is the document path of an entry, with its id.
func pathOf(l list, j *Job, i int) string {
	return fmt.Sprintf("%s[%d] (%s)", l.path(), i, l.id(j, i))
}

// thing checks one thing: by itself, what it names, what the catalogue must know.
func (v *validator) thing(l list, i int, known *shelves) {
	t := l.thing(v.job, i)
	id := l.id(v.job, i)
	issues := inspect(t, v.ix)
	for _, r := range refs(t) {
		if problem, bad := v.reference(r); bad {
			if l.word() == "record" {
				problem.severity = Caution // it may tell of what is long gone
			}
			issues = append(issues, problem)
		}
	}
	issues = append(issues, known.inspect(t)...)
	if len(issues) == 0 {
		return
	}
	path := pathOf(l, v.job, i)
	for _, s := range issues {
		where := []ID{id}
		if s.also != "" {
			where = append(where, s.also)
		}
		v.note(s.code, s.severity, document.Problem{Path: path + "." + s.key, Read: s.read, Want: s.want, Nearest: s.nearest}, where...)
	}
}

// reference checks that a name leads to a thing of the right kind.
func (v *validator) reference(r ref) (issue, bool) {
	if t := v.ix.things[r.to]; t != nil && r.to.Word() == r.word {
		return issue{}, false
	}
	s := fault("leads-nowhere", r.key, fmt.Sprintf("%q", brief(string(r.to))), "the id of a "+kindWords(r.word)+" of this job")
	if isRetired(v.job, r.to) {
		s.read += ", which was removed"
	}
	if len(v.found) < mostFindings { // the nearest of many ids is costly to find
		s.nearest = nearestID(r.to, v.idsOf(r.word))
	}
	return s, true
}

// kindWords is what people call a kind of thing.
func kindWords(word string) string {
	if word == "line" {
		return "run"
	}
	return word
}

// idsOf lists the ids of a kind.
func (v *validator) idsOf(word string) []string {
	if have, ok := v.near[word]; ok {
		return have
	}
	var out []string
	if l := listFor(word); l != nil {
		for i := range l.size(v.job) {
			out = append(out, string(l.id(v.job, i)))
		}
	}
	v.near[word] = out
	return out
}

// nearestID is the nearest id to what was read; of very many only those of about
// the same length are compared.
func nearestID(read ID, ids []string) string {
	if len(read) > 80 {
		return ""
	}
	if len(ids) > 300 {
		var some []string
		for _, id := range ids {
			if d := len(id) - len(read); d >= -1 && d <= 1 && len(some) < 300 {
				some = append(some, id)
			}
		}
		ids = some
	}
	return unit.Nearest(string(read), ids)
}

// plans lays the edits of each alternative over the job that they change.
func (v *validator) plans() {
	for i := range v.job.Plans {
		_, left := variant(v.job, i)
		for _, f := range told(left) {
			if len(v.found) < mostFindings {
				v.found = append(v.found, f)
			}
		}
	}
}

// refused is what keeps an edit from a draft.
func refused(e Edit, d *draft) []Finding {
	_, err := e.do(d)
	var r *Refusal
	switch {
	case err == nil:
		return nil
	case errors.As(err, &r):
		return r.Findings
	}
	return []Finding{{Read: brief(err.Error()), Want: "an edit that fits the job after those before it"}}
}

// prices checks that no article has two prices and that offers hold something.
func (v *validator) prices(known *shelves) {
	p := &v.job.Prices
	for _, is := range inspectPriced(p.Currency, p.Date) {
		v.note(is.code, Caution, document.Problem{Path: "prices." + is.key, Read: is.read, Want: is.want, Nearest: is.nearest})
	}
	seen := map[string]bool{}
	for i, row := range p.List {
		path := fmt.Sprintf("prices.list[%d].article", i)
		switch {
		case row.Article == "":
			v.note("no-article", Fault, document.Problem{Path: path, Read: "nothing", Want: "an article"})
		case seen[row.Article+"\x00"+row.Per]:
			v.note("price-twice", Fault, document.Problem{Path: path, Read: fmt.Sprintf("%q again", row.Article), Want: "each article once"})
		}
		seen[row.Article+"\x00"+row.Per] = true
		v.free(fmt.Sprintf("prices.list[%d].each", i), row.Each)
		for _, is := range inspectPriced(row.Currency, row.Date) {
			v.note(is.code, is.severity, document.Problem{Path: fmt.Sprintf("prices.list[%d].%s", i, is.key), Read: is.read, Want: is.want, Nearest: is.nearest})
		}
	}
	for i := range p.Offers {
		v.free(fmt.Sprintf("prices.offers[%d] (%s).price", i, p.Offers[i].ID), p.Offers[i].Price, p.Offers[i].ID)
		if len(p.Offers[i].Holds) == 0 {
			v.note("empty-offer", Fault, document.Problem{Path: fmt.Sprintf("prices.offers[%d] (%s).holds", i, p.Offers[i].ID), Read: "nothing", Want: "what the offer holds"}, p.Offers[i].ID)
		}
	}
	for i, s := range v.job.Rules.Allowed {
		if _, ok := known.cat.Stock(s); !ok {
			v.note("unknown-stock", Fault, document.Problem{Path: fmt.Sprintf("rules.allowed_stocks[%d]", i), Read: fmt.Sprintf("%q", s), Want: "a stock of the catalogue", Nearest: known.cat.Nearest(catalog.Stocks, s)})
		}
	}
}
