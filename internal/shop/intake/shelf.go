package intake

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Item is an article that a row can be.
type Item struct {
	Article string
	Words   string
	Names   []string // other names that a price list of the job may know it by
	Metres  bool     // sold by length
	Cut     bool     // cut to length by the seller; else in sticks or coils of a length
	Lengths []unit.Length
	Asked   bool // the job is to have it
}

// Shelf is the articles known, to be found by their names and words.
type Shelf struct {
	items  []Item
	exact  map[string]int   // by article, name, words in any order
	by     map[string][]int // items by word
	grams  [][]string       // the words of each item
	weight map[string]float64
}

// NewShelf puts the articles that the job asks for together with those of the catalogue:
// lines, hoses, couplers, and fittings in the stocks that the job uses.
func NewShelf(asked []Item, j *job.Job, cat *catalog.Catalog) *Shelf {
	s := &Shelf{exact: map[string]int{}, by: map[string][]int{}, weight: map[string]float64{}}
	for _, it := range asked {
		it.Asked = true
		s.add(it)
	}
	s.catalogue(j, cat)
	for _, p := range j.Prices.List {
		s.add(Item{Article: p.Article, Words: p.Article, Metres: p.Per == "m", Cut: true})
	}
	for i := range j.Prices.Offers {
		for _, a := range j.Prices.Offers[i].Holds {
			s.add(Item{Article: a.Article, Words: a.Article, Metres: a.Each != nil})
		}
	}
	for word, of := range s.by {
		s.weight[word] = math.Log(1 + float64(len(s.items))/float64(len(of)))
	}
	return s
}

// catalogue adds what the catalogue has of what can be bought by name.
func (s *Shelf) catalogue(j *job.Job, cat *catalog.Catalog) {
	used := map[string]bool{}
	for i := range j.Net.Runs {
		used[j.Net.Runs[i].Stock] = true
	}
	for _, st := range cat.Stocks() {
		for _, z := range st.Sizes {
			s.add(Item{Article: st.Stock + " " + z.Size, Words: st.Words + " " + z.Size, Metres: true, Lengths: st.Lengths})
			if !used[st.Stock] {
				continue
			}
			for _, k := range cat.Kinds() {
				if k.Group == catalog.Plant || !slices.ContainsFunc(k.Ports, func(p catalog.Port) bool { return p.Joint == "stock" }) {
					continue
				}
				s.add(Item{Article: st.Stock + " " + k.Kind + " " + z.Size, Words: k.Name("en") + " for " + st.Words + " " + z.Size})
			}
		}
	}
	for _, h := range cat.Hoses() {
		s.add(Item{Article: h.Hose, Words: h.Words, Metres: true, Cut: true})
	}
	for _, q := range cat.Couplers() {
		s.add(Item{Article: "socket " + q.Coupler, Words: "coupler socket " + q.Words})
		if !q.SocketOnly {
			s.add(Item{Article: "plug " + q.Coupler, Words: "coupler plug " + q.Words})
		}
	}
}

// add puts an article on the shelf; one that is there learns the lengths that it comes in.
func (s *Shelf) add(it Item) {
	key := key(it.Article)
	if i, there := s.exact[key]; there {
		if s.items[i].Lengths == nil {
			s.items[i].Lengths = it.Lengths
		}
		return
	}
	if key == "" {
		return
	}
	at := len(s.items)
	s.items = append(s.items, it)
	words := grams(it.Article + " " + it.Words)
	s.grams = append(s.grams, words)
	for _, w := range words {
		s.by[w] = append(s.by[w], at)
	}
	s.exact[key] = at
	for _, name := range append([]string{it.Words}, it.Names...) {
		k := strings.Join(grams(name), " ")
		if _, there := s.exact["\x00"+k]; there && k != "" {
			s.exact["\x00"+k] = -1 // two go by it: it says nothing
			continue
		}
		s.exact["\x00"+k] = at
	}
}

// key writes an article so that case, × and spacing do not part two spellings.
func key(article string) string {
	return strings.Join(strings.Fields(strings.ToLower(strings.ReplaceAll(article, "×", "x"))), " ")
}

// named finds the article of a text that is its key, or has all its words and no other.
func (s *Shelf) named(text string) (*Item, bool) {
	if i, ok := s.exact[key(text)]; ok && key(text) != "" {
		return &s.items[i], true
	}
	words := strings.Join(grams(text), " ")
	if i, ok := s.exact["\x00"+words]; ok && i >= 0 && words != "" {
		return &s.items[i], true
	}
	return nil, false
}

const (
	mostProposed = 4
	leastAlike   = 0.22 // share of words in common, weighed by how rare they are
)

// nearest are the articles whose words are most like those of a text. A size alone is no
// likeness: what is 16 mm may be anything.
func (s *Shelf) nearest(text string) []Proposal {
	words := grams(text)
	total := 0.0
	shared := map[int]float64{}
	named := map[int]bool{} // by a word
	for _, w := range words {
		weight, known := s.weight[w]
		if !known {
			weight = 1
		}
		total += weight
		for _, i := range s.by[w] {
			shared[i] += weight
			named[i] = named[i] || tells(w)
		}
	}
	type scored struct {
		at    int
		alike float64
	}
	var best []scored
	for _, i := range slices.Sorted(maps.Keys(shared)) {
		own := 0.0
		for _, w := range s.grams[i] {
			own += s.weight[w]
		}
		alike := 2 * shared[i] / (total + own)
		if s.items[i].Asked {
			alike *= 1.25
		}
		if otherSize(words, s.grams[i]) {
			alike *= 0.5
		}
		if alike >= leastAlike && named[i] {
			best = append(best, scored{i, alike})
		}
	}
	slices.SortStableFunc(best, func(a, b scored) int { return cmp.Compare(b.alike, a.alike) })
	var out []Proposal
	for _, b := range best[:min(len(best), mostProposed)] {
		out = append(out, Proposal{s.items[b.at].Article, s.items[b.at].Words})
	}
	return out
}

// tells says whether a word names a thing: no size, and no letter that stands for a litre as
// well as for a type of tube.
func tells(word string) bool { return utf8.RuneCountInString(word) > 2 && !sized(word) }

func sized(word string) bool { return word[0] >= '0' && word[0] <= '9' }

// otherSize says whether both name sizes and have none in common.
func otherSize(a, b []string) bool {
	common := slices.ContainsFunc(a, func(w string) bool { return sized(w) && slices.Contains(b, w) })
	return !common && slices.ContainsFunc(a, sized) && slices.ContainsFunc(b, sized)
}
