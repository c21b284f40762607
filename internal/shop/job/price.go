package job

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"dropleg/engine/document"
	"dropleg/engine/unit"
)

// Prices is the person's own list and offers.
type Prices struct {
	Currency string     `json:"currency,omitempty" doc:"ISO 4217, of prices that state none"`
	Date     string     `json:"date,omitempty" doc:"ISO 8601, of prices that state none"`
	List     []Price    `json:"list,omitempty"`
	Offers   []Offer    `json:"offers,omitempty"`
	Delivery []Delivery `json:"delivery,omitempty"`
	Drawer   []Amount   `json:"drawer,omitempty" doc:"already there"`
	Labour   *Labour    `json:"labour,omitempty" doc:"for a quotation"`
}

// Amount is a number of one article; for lines the article is stock and size and the number is metres.
type Amount struct {
	Article string  `json:"article"`
	Number  float64 `json:"number" min:"0" max:"1e9"`
	// Lengths that a number of metres comes in; without it one length, or sticks as usual.
	Each *unit.Length `json:"lengths_m,omitempty" above:"0" max:"1000" doc:"of lines: the number of metres comes in lengths of this"`
}

// Price is one own price.
type Price struct {
	Article  string  `json:"article"`
	Each     float64 `json:"each" min:"0" max:"1e9"`
	Per      string  `json:"per,omitempty" enum:"piece,m"`
	Currency string  `json:"currency,omitempty" doc:"ISO 4217; the job's own where left out"`
	Date     string  `json:"date,omitempty" doc:"ISO 8601, the day that it was told"`
}

// Offer is a kit, pack, coil, stick or single as a supplier sells it.
type Offer struct {
	ID       ID       `json:"id" doc:"offer.…"`
	Supplier string   `json:"supplier,omitempty"`
	Number   string   `json:"number,omitempty" doc:"the supplier's article number"`
	Words    string   `json:"words,omitempty"`
	Price    float64  `json:"price" min:"0" max:"1e9"`
	Currency string   `json:"currency,omitempty" doc:"ISO 4217; the job's own where left out"`
	Date     string   `json:"date,omitempty" doc:"ISO 8601, the day that it was told"`
	Holds    []Amount `json:"holds"`
}

// Delivery is what a supplier charges to deliver.
type Delivery struct {
	Supplier string   `json:"supplier"`
	Charge   float64  `json:"charge" min:"0" max:"1e9"`
	FreeFrom *float64 `json:"free_from,omitempty" min:"0" max:"1e9"`
}

// Money is the currency that the job reckons in: that of its prices, of its site, else
// the one that most of its prices and offers state; "" where nothing says it.
func (j *Job) Money() string {
	if stated := cmp.Or(j.Prices.Currency, j.Site.Currency); stated != "" {
		return stated
	}
	count := map[string]int{}
	for i := range j.Prices.List {
		count[j.Prices.List[i].Currency]++
	}
	for i := range j.Prices.Offers {
		count[j.Prices.Offers[i].Currency]++
	}
	delete(count, "")
	best := ""
	for code, n := range count {
		if n > count[best] || n == count[best] && code < best {
			best = code
		}
	}
	return best
}

// OwnPrices are the prices of the own list in the job's currency: those in another are
// not reckoned with.
func (j *Job) OwnPrices() []Price {
	money := j.Money()
	return slices.DeleteFunc(slices.Clone(j.Prices.List), func(p Price) bool { return p.Currency != "" && p.Currency != money })
}

// SoundCurrency tells three capital letters.
func SoundCurrency(code string) bool {
	return len(code) == 3 && strings.Trim(code, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
}

// inspectPriced checks the currency and the day of a price.
func inspectPriced(currency, date string) []issue {
	var out []issue
	if currency != "" && !SoundCurrency(currency) {
		one := fault("no-currency", "currency", fmt.Sprintf("%q", brief(currency)), "three capital letters (ISO 4217), such as USD")
		if upper := strings.ToUpper(strings.TrimSpace(currency)); SoundCurrency(upper) {
			one.nearest = upper
		}
		out = append(out, one)
	}
	if _, err := time.Parse(time.DateOnly, date); date != "" && err != nil {
		out = append(out, fault("no-date", "date", fmt.Sprintf("%q", brief(date)), "year, month, day, such as 2026-03-14 (ISO 8601)"))
	}
	return out
}

// OfferStem is what the id of an offer begins with, by its words and who sells it.
func OfferStem(words, supplier string) ID { return ID("offer." + slug(words+" "+supplier)) }

// slug is the letters and figures of a name, as ids have them.
func slug(name string) string {
	out := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			return r
		}
		return '-'
	}, strings.ToLower(name))
	out = strings.Trim(out, "-")
	for strings.Contains(out, "--") {
		out = strings.ReplaceAll(out, "--", "-")
	}
	const most = 30
	return strings.Trim(out[:min(len(out), most)], "-")
}

// OldPrices counts the offers and own prices that were told longer before a day
// ("2026-03-14") than the rules have it, and gives the oldest day among them. A price
// without a day of its own is of the day of all; one without any is not counted.
func (j *Job) OldPrices(today string) (n int, oldest string) {
	now, err := time.Parse(time.DateOnly, today)
	if err != nil {
		return 0, ""
	}
	limit := float64(j.RulePriceAge().Value)
	look := func(date string) {
		date = cmp.Or(date, j.Prices.Date)
		day, err := time.Parse(time.DateOnly, date)
		if err != nil || now.Sub(day).Seconds() <= limit {
			return
		}
		if n++; oldest == "" || date < oldest {
			oldest = date
		}
	}
	for i := range j.Prices.List {
		look(j.Prices.List[i].Date)
	}
	for i := range j.Prices.Offers {
		look(j.Prices.Offers[i].Date)
	}
	return n, oldest
}

// free notes a price of nothing: the cheapest basket is full of it.
func (v *validator) free(path string, price float64, where ...ID) {
	if price == 0 {
		v.note("zero-price", Caution, document.Problem{Path: path, Read: "0", Want: "a price above 0; what is there already lies in the drawer (prices.drawer)"}, where...)
	}
}
