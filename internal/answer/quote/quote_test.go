package quote_test

import (
	"context"
	"math"
	"slices"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/buy"
	"dropleg/internal/answer/hold"
	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/purchase"
	"dropleg/internal/answer/quote"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

func quoted(t *testing.T, change func(*job.Job)) (*quote.Answer, *purchase.Answer) {
	t.Helper()
	raw, _ := example.Read("boat-shop")
	j, bad := job.Parse(raw)
	if j == nil {
		t.Fatal(bad)
	}
	change(j)
	shelf := catalog.Builtin()
	p, h := parts.Of(j, shelf), hold.Of(j, shelf, nil)
	bought, err := purchase.Of(context.Background(), j, shelf, p, h)
	if err != nil {
		t.Fatal(err)
	}
	return quote.Of(j, shelf, p, h, bought), bought
}

func rated(j *job.Job) {
	rate, margin, tax := 60.0, unit.Ratio(0.15), unit.Ratio(0.0825)
	j.Prices.Labour = &job.Labour{Rate: &rate, Margin: &margin, Tax: &tax, Minutes: []job.LabourTime{{For: "solder", Minutes: 12}}}
}

// TestAddsUp: each line's hours are number × minutes, its cost the rate; sum, margin and
// tax follow to the hundredth. By arithmetic.
func TestAddsUp(t *testing.T) {
	a, bought := quoted(t, rated)
	hours, work := 0.0, 0.0
	for _, l := range a.Lines {
		if l.What == "solder" && (l.Minutes != 12 || l.Usual) {
			t.Errorf("the job's own 12 minutes are not taken: %+v", l)
		}
		hours += l.Number * l.Minutes / 60
		work += math.Round(l.Number * l.Minutes * 100)
	}
	if math.Abs(hours-a.Hours) > 1e-9 || math.Abs(work-float64(a.Work)) > 0.5 {
		t.Errorf("%g h, %v; want %g h, %g", a.Hours, a.Work, hours, work)
	}
	if a.Material != bought.Basket.Price || math.Abs(float64(a.Margin)-0.15*float64(a.Material)) > 0.5 {
		t.Errorf("material %v, margin %v", a.Material, a.Margin)
	}
	if net := a.Work + a.Material + a.Margin; a.Net != net || math.Abs(float64(a.Tax)-0.0825*float64(net)) > 0.5 || a.Gross != a.Net+a.Tax {
		t.Errorf("net %v, tax %v, gross %v", a.Net, a.Tax, a.Gross)
	}
}

// TestVariation: an outlet less, and what it comes to; nothing changed comes to nothing.
func TestVariation(t *testing.T) {
	before, had := quoted(t, rated)
	if v := quote.Vary(before, before, had, had); v.Net != 0 || len(v.Material) != 0 || len(v.Work) != 0 {
		t.Errorf("nothing changed: %+v", v)
	}
	after, has := quoted(t, func(j *job.Job) {
		rated(j)
		for i := range j.Outlets {
			if o := &j.Outlets[i]; o.ID == "outlet.bench" {
				o.Hose = nil
			}
		}
	})
	v := quote.Vary(before, after, had, has)
	if len(v.Material) == 0 || v.Net != after.Net-before.Net || v.Net >= 0 {
		t.Errorf("a hose less: %+v", v)
	}
	for _, c := range v.Material {
		if c.Before == c.After {
			t.Errorf("%s does not differ", c.Words)
		}
	}
}

// TestLent: against a state without prices and terms only what was changed is priced: with those
// of now on both sides, the same parts and hours come to nothing more. What it had stays.
func TestLent(t *testing.T) {
	raw, _ := example.Read("boat-shop")
	now, _ := job.Parse(raw)
	rated(now)
	bare := *now
	bare.Prices = job.Prices{}
	old, lent := quote.Lent(&bare, now)
	if want := []string{"prices", "rate for an hour", "margin", "times of work", "tax"}; !slices.Equal(lent, want) || *old.Prices.Labour.Rate != 60 || len(old.Prices.Offers) != len(now.Prices.Offers) {
		t.Errorf("%q: %+v", lent, old.Prices)
	}
	if bare.Prices.Labour != nil || bare.Prices.Offers != nil {
		t.Error("the state itself was changed")
	}
	dear := *now
	rate := 90.0
	terms := *now.Prices.Labour
	terms.Rate = &rate
	dear.Prices.Labour = &terms
	if old, lent := quote.Lent(&dear, now); len(lent) != 0 || *old.Prices.Labour.Rate != rate {
		t.Errorf("%q: %+v", lent, old.Prices.Labour)
	}
}

// TestNoRate: without a rate the hours are told, and work has no price.
func TestNoRate(t *testing.T) {
	a, _ := quoted(t, func(*job.Job) {})
	if a.Hours <= 0 || a.Work != 0 || a.Rate != nil {
		t.Errorf("%g h, work %v", a.Hours, a.Work)
	}
}

// TestSumsAddUp: from row to row the sums of a quotation and of a variation give what is
// paid, with margin and tax and without; the last row is the whole. By arithmetic.
func TestSumsAddUp(t *testing.T) {
	for name, change := range map[string]func(*job.Job){
		"rated": rated, "bare": func(*job.Job) {},
		"no tax": func(j *job.Job) { rated(j); j.Prices.Labour.Tax = nil },
	} {
		a, _ := quoted(t, change)
		sum := buy.Money(0)
		rows := a.Sums()
		for _, r := range rows {
			switch {
			case r.Total && r.Cost != sum:
				t.Errorf("%s: %s is %v, the rows above it %v", name, r.Words, r.Cost, sum)
			case !r.Total:
				sum += r.Cost
			}
			if got := math.Round(r.Times * float64(r.Of)); math.Abs(got-float64(r.Cost)) > 0.5 {
				t.Errorf("%s: %s is %v, %g times %v", name, r.Words, r.Cost, r.Times, r.Of)
			}
		}
		if last := rows[len(rows)-1]; !last.Total || last.Cost != a.Gross {
			t.Errorf("%s: ends with %+v, want %v", name, last, a.Gross)
		}
	}
}

// TestVariationSums: every sum is told on both sides, and none where the currencies differ.
func TestVariationSums(t *testing.T) {
	before, had := quoted(t, func(*job.Job) {})
	after, has := quoted(t, rated)
	rows := quote.Vary(before, after, had, has).Sums()
	var part, whole buy.Money
	for _, r := range rows {
		if !r.Total {
			part += r.After - r.Before
		}
	}
	whole = rows[len(rows)-1].After - rows[len(rows)-1].Before
	if len(rows) != 6 || part != whole || whole != after.Gross-before.Gross {
		t.Errorf("%v differ by %v, the whole by %v", rows, part, whole)
	}
	other, _ := quoted(t, func(j *job.Job) { rated(j); j.Prices.Currency, j.Site.Currency = "XTS", "XTS" })
	if v := quote.Vary(before, other, had, has); !v.Mixed() || v.Sums() != nil {
		t.Errorf("%s and %s are set against each other", before.Currency, other.Currency)
	}
}

// TestKinds: what a job may state a time for is what is reckoned by, and nothing else.
func TestKinds(t *testing.T) {
	may, are := job.LabourKinds(catalog.Builtin()), quote.Kinds()
	slices.Sort(may)
	slices.Sort(are)
	if !slices.Equal(may, are) {
		t.Errorf("may be stated: %q; reckoned by: %q", may, are)
	}
}
