package buy

import (
	"errors"
	"fmt"
	"math"
	"sort"
	"strings"
)

// Money is a sum in hundredths of the currency.
type Money int64

// mostMoney keeps every sum far from where a float64 stops counting by ones.
const mostMoney = 1e11

// Hundredths reads a price as written, such as 0.37. It refuses what is negative, no
// number, or finer than a hundredth.
func Hundredths(price float64) (Money, error) {
	whole := math.Round(price * 100)
	if !(price >= 0 && whole <= mostMoney) || math.Abs(price*100-whole) > 1e-6*(1+whole*1e-6) {
		return 0, fmt.Errorf("%w: the price %v is not a sum in hundredths from 0 on", ErrQuestion, price)
	}
	return Money(whole), nil
}

func (m Money) String() string {
	sign := ""
	if m < 0 {
		sign, m = "-", -m
	}
	return fmt.Sprintf("%s%d.%02d", sign, m/100, m%100)
}

// Supplier charges Delivery when it is used, unless its goods reach FreeFrom. A
// FreeFrom of 0 means that delivery is never free.
type Supplier struct {
	ID       string
	Delivery Money
	FreeFrom Money
}

// Offer is something for sale: for its price it brings so much of each article.
type Offer struct {
	ID        string
	Supplier  string
	Price     Money
	Contains  map[string]float64 // pieces or metres by article, above 0
	Available *int               // how often it can be bought; nil for any number
}

// Question is what is needed and what is for sale. Amounts by article are pieces or
// metres, not negative.
type Question struct {
	Need      map[string]float64
	Drawer    map[string]float64 // there already
	Spare     map[string]float64 // wanted on top of the need
	Suppliers []Supplier
	Offers    []Offer
}

// ErrQuestion is wrapped by what is said of a question that cannot be read.
var ErrQuestion = errors.New("unusable question")

// ErrNoTime says that the work was cut short before any basket was found.
var ErrNoTime = errors.New("cut short before a basket was found")

// UncoveredError names the articles of which all offers together bring too little.
type UncoveredError struct {
	Articles []string           // sorted
	Missing  map[string]float64 // how much is wanting when everything is bought
}

func (e *UncoveredError) Error() string {
	return "no offer covers the need of " + strings.Join(e.Articles, ", ")
}

func (q Question) check() error {
	for _, list := range []struct {
		name    string
		amounts map[string]float64
	}{{"need", q.Need}, {"drawer", q.Drawer}, {"spare", q.Spare}} {
		for _, article := range sortedKeys(list.amounts) {
			if v := list.amounts[article]; !(v >= 0 && v <= mostAmount) {
				return fmt.Errorf("%w: %s of %s is %v, expected 0 to %g", ErrQuestion, list.name, article, v, mostAmount)
			}
		}
	}
	suppliers := map[string]bool{}
	for _, s := range q.Suppliers {
		if suppliers[s.ID] {
			return fmt.Errorf("%w: supplier %s is there twice", ErrQuestion, s.ID)
		}
		suppliers[s.ID] = true
		if !s.Delivery.fair() || !s.FreeFrom.fair() {
			return fmt.Errorf("%w: supplier %s: delivery %v, free from %v", ErrQuestion, s.ID, s.Delivery, s.FreeFrom)
		}
	}
	offers := map[string]bool{}
	for _, o := range q.Offers {
		if offers[o.ID] {
			return fmt.Errorf("%w: offer %s is there twice", ErrQuestion, o.ID)
		}
		offers[o.ID] = true
		if !suppliers[o.Supplier] {
			return fmt.Errorf("%w: offer %s: supplier %q is not listed", ErrQuestion, o.ID, o.Supplier)
		}
		if err := o.check(); err != nil {
			return err
		}
	}
	return nil
}

const mostAmount = 1e6

func (m Money) fair() bool { return m >= 0 && m <= mostMoney }

func (o Offer) check() error {
	if !o.Price.fair() || o.Available != nil && *o.Available < 0 {
		return fmt.Errorf("%w: offer %s: a negative figure, or one too large", ErrQuestion, o.ID)
	}
	for _, article := range sortedKeys(o.Contains) {
		if v := o.Contains[article]; !(v >= leastAmount && v <= mostAmount) {
			return fmt.Errorf("%w: offer %s: %v of %s, expected %g to %g", ErrQuestion, o.ID, v, article, leastAmount, mostAmount)
		}
	}
	return nil
}

// leastAmount is the least that an offer may bring of an article; what is wanting by
// less counts as covered.
const leastAmount = 1e-6

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}
