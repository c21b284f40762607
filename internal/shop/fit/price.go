package fit

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Price puts an article's price on the own list, in the place of the one that it has:
// the gesture "price". Without a price the article is taken off the list.
type Price struct {
	did
	Article string   `json:"article" doc:"as the take-off has it"`
	Each    *float64 `json:"each,omitempty" min:"0" max:"1e9" doc:"money for one piece or metre"`
	Per     string   `json:"per,omitempty" enum:"piece,m"`
	Date    string   `json:"date,omitempty" doc:"ISO 8601, the day that it was told"`
	Money   string   `json:"currency,omitempty" doc:"ISO 4217; the job's own where left out"`
}

// Edit puts it on the list.
func (g *Price) Edit(ix *job.Index, _ *catalog.Catalog) (job.Edit, []job.ID, error) {
	if strings.TrimSpace(g.Article) == "" {
		return nil, nil, refuse("nothing-given", "article", "it is not said what has the price", "name an article of the list")
	}
	list := slices.DeleteFunc(slices.Clone(ix.Job().Prices.List), func(p job.Price) bool { return strings.EqualFold(p.Article, g.Article) })
	title := "took the price of " + g.Article + " off the list"
	if g.Each != nil {
		per := g.Per
		if per == "" {
			per = "piece"
		}
		list = append(list, job.Price{Article: g.Article, Each: *g.Each, Per: per, Currency: g.Money, Date: g.Date})
		title = fmt.Sprintf("priced %s at %g", g.Article, *g.Each)
	}
	e, err := fits(job.AllOf(title, setTo("", "prices.list", list)), ix)
	return e, nil, err
}

// Offer adds an offer of a supplier, or states anew what one is: the gesture "offer".
type Offer struct {
	did
	ID       job.ID       `json:"id,omitempty" doc:"of the offer that is stated anew; none adds one"`
	Supplier string       `json:"supplier"`
	Words    string       `json:"words"`
	Price    float64      `json:"price" min:"0" max:"1e9"`
	Holds    []job.Amount `json:"holds"`
	Number   string       `json:"number,omitempty" doc:"the supplier's article number; one stated anew keeps its own where left out"`
	Date     string       `json:"date,omitempty" doc:"ISO 8601, the day that it was told; likewise"`
	Money    string       `json:"currency,omitempty" doc:"ISO 4217; likewise"`
}

// Edit adds or changes it.
func (g *Offer) Edit(ix *job.Index, _ *catalog.Catalog) (job.Edit, []job.ID, error) {
	if strings.TrimSpace(g.Supplier) == "" {
		return nil, nil, refuse("nothing-given", "supplier", "it is not said who offers it", "name the supplier")
	}
	if len(g.Holds) == 0 || slices.ContainsFunc(g.Holds, func(a job.Amount) bool { return !(a.Number > 0) || strings.TrimSpace(a.Article) == "" }) {
		return nil, nil, refuse("nothing-given", "holds", "it is not said how much of what it holds", "give each article with a number above 0")
	}
	if g.ID == "" {
		id := ix.FreshID(job.OfferStem(g.Words, g.Supplier))
		offer := job.Offer{ID: id, Supplier: g.Supplier, Words: g.Words, Price: g.Price, Holds: g.Holds, Number: g.Number, Currency: g.Money, Date: g.Date}
		e, err := fits(job.AllOf("added an offer: "+g.Words, job.AddOf(&offer)), ix)
		return e, []job.ID{id}, err
	}
	if ix.Offer(g.ID) == nil {
		return nil, nil, refuse("no-such-thing", "id", fmt.Sprintf("there is no offer %s", g.ID), "", g.ID)
	}
	edits := []job.Edit{setTo(g.ID, "supplier", g.Supplier), setTo(g.ID, "words", g.Words), setTo(g.ID, "price", g.Price), setTo(g.ID, "holds", g.Holds)}
	for _, more := range [][2]string{{"number", g.Number}, {"date", g.Date}, {"currency", g.Money}} {
		if more[1] != "" {
			edits = append(edits, setTo(g.ID, more[0], more[1]))
		}
	}
	e, err := fits(job.AllOf("changed an offer: "+g.Words, edits...), ix)
	return e, []job.ID{g.ID}, err
}

// setTo sets a key of a thing to a value that JSON holds.
func setTo(id job.ID, key string, value any) job.Edit {
	raw, err := json.Marshal(value)
	if err != nil {
		panic("fit: a value that JSON cannot hold: " + err.Error())
	}
	return &job.Change{ID: id, Key: key, Value: raw}
}
