package intake

import (
	"slices"
	"strings"

	"dropleg/internal/shop/job"
)

// what finds the article that a row is: by the person's word, by what the job has of this
// supplier under this number, by the article's key, by all its words. Anything less is a
// question.
func (c *clerk) what(e *entry) {
	l := e.line
	if i := slices.IndexFunc(c.ask.Pairs, func(p Pair) bool { return p.Row == e.row.Number }); i >= 0 {
		word := c.ask.Pairs[i].Article
		if it, ok := c.shelf.named(word); ok {
			e.take(it, "as you say")
			return
		}
		e.problem(c, Ours, "unknown-article", word, "an article that the job or the catalogue knows", articles(c.shelf.nearest(word))...)
		return
	}
	if o := c.offered(e.supplier, e.code); o != nil {
		e.known, l.How, l.Words = o, "as the job has it by its number", o.Words
		l.Article = o.Holds[0].Article
		if len(o.Holds) == 1 {
			e.item, _ = c.shelf.named(o.Holds[0].Article)
		}
		return
	}
	if own := c.text(e, Ours); own != "" {
		if it, ok := c.shelf.named(own); ok {
			e.take(it, "by its key")
			return
		}
		l.Nearest = c.shelf.nearest(own)
		e.problem(c, Ours, "unknown-article", own, "an article that the job or the catalogue knows", articles(l.Nearest)...)
		return
	}
	for _, text := range []string{e.code, e.words} {
		if it, ok := c.shelf.named(text); ok {
			e.take(it, "by its key")
			if key(text) != key(it.Article) {
				l.How = "by all its words"
			}
			return
		}
	}
	if e.code == "" && e.words == "" {
		e.problem(c, Words, "no-article", "nothing", "a number or words that say what it is")
		return
	}
	l.Nearest = c.shelf.nearest(strings.TrimSpace(e.words + " " + e.code))
}

func (e *entry) take(it *Item, how string) {
	e.item, e.line.Article, e.line.How, e.line.Words = it, it.Article, how, it.Words
}

// offered is the offer that the job has of a supplier under a number.
func (c *clerk) offered(supplier, code string) *job.Offer {
	if supplier == "" || code == "" {
		return nil
	}
	all := c.index.Job().Prices.Offers
	for i := range all {
		if o := &all[i]; len(o.Holds) > 0 && o.Number == code && strings.EqualFold(o.Supplier, supplier) {
			return o
		}
	}
	return nil
}

func articles(all []Proposal) []string {
	var out []string
	for _, p := range all {
		out = append(out, p.Article)
	}
	return out
}
