package quote

import "dropleg/internal/shop/job"

// Lent is an earlier state of a job with the prices and terms that it did not have taken from
// the later one, and what these are: a variation prices what was changed, and not that a list
// or a rate came in meanwhile. What the earlier state did have stays, for it may be in a
// quotation that somebody holds.
func Lent(before, after *job.Job) (*job.Job, []string) {
	out, lent := *before, []string(nil)
	was, is := &out.Prices, after.Prices
	if len(was.List)+len(was.Offers) == 0 && len(is.List)+len(is.Offers) > 0 {
		was.Currency, was.Date, was.List, was.Offers, was.Delivery = is.Currency, is.Date, is.List, is.Offers, is.Delivery
		out.Site.Currency = after.Site.Currency
		lent = append(lent, "prices")
	}
	had := job.Labour{}
	if was.Labour != nil {
		had = *was.Labour
	}
	if is.Labour == nil || had.Rate != nil {
		return &out, lent // by its own rate it may have been quoted, as it stood
	}
	for _, t := range []struct {
		words  string
		lacks  bool
		borrow func()
	}{
		{"rate for an hour", is.Labour.Rate != nil, func() { had.Rate = is.Labour.Rate }},
		{"margin", had.Margin == nil && is.Labour.Margin != nil, func() { had.Margin = is.Labour.Margin }},
		{"times of work", len(had.Minutes) == 0 && len(is.Labour.Minutes) > 0, func() { had.Minutes = is.Labour.Minutes }},
		{"tax", had.Tax == nil && is.Labour.Tax != nil, func() { had.Tax = is.Labour.Tax }},
	} {
		if t.lacks {
			t.borrow()
			lent = append(lent, t.words)
			was.Labour = &had
		}
	}
	return &out, lent
}
