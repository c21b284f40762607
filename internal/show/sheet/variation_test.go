package sheet_test

import (
	"context"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/screen"
	"dropleg/internal/show/sheet"
)

// priced is the boat shop with an hour, a margin and a tax, and with what else changes.
func priced(t *testing.T, change func(*job.Job)) *job.Job {
	t.Helper()
	j := exampleJob(t, "boat-shop")
	rate, margin, tax := 60.0, unit.Ratio(0.15), unit.Ratio(0.0825)
	j.Prices.Labour = &job.Labour{Rate: &rate, Margin: &margin, Tax: &tax}
	change(j)
	return j
}

// orders are a job as it was ordered and as it is built: at one outlet the hose falls away, in
// one run of pipe another size lies, and couplings take longer.
func orders(t *testing.T) (before, after *job.Job) {
	t.Helper()
	before = priced(t, func(*job.Job) {})
	after = priced(t, func(j *job.Job) {
		i := slices.IndexFunc(j.Outlets, func(o job.Outlet) bool { return o.ID == "outlet.bench" })
		j.Outlets[i].Hose = nil
		j.Prices.Labour.Minutes = []job.LabourTime{{For: "solder", Minutes: 14}}
		k := slices.IndexFunc(j.Net.Runs, func(r job.Run) bool { return r.Role == "main" })
		j.Net.Runs[k].Size = "1-1/4"
	})
	return before, after
}

// On the variation order now less before is the difference, row by row; what it was and what it
// is are those of the two quotations; and what is more and what is less stand apart.
func TestVariationCloses(t *testing.T) {
	before, after := orders(t)
	was, is := screen.On(study.Of(before, catalog.Builtin()), nil), screen.On(study.Of(after, catalog.Builtin()), nil)
	q, err := is.Quotation(context.Background(), screen.Ask{}, was.Study())
	if err != nil {
		t.Fatal(err)
	}
	old, err := was.Quotation(context.Background(), screen.Ask{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	lists := map[string][]screen.DifferRow{}
	for _, l := range q.Change.Lists {
		lists[l.Heads[0]] = l.Rows
	}
	for _, head := range []string{"material added", "material that falls away", "work", "hours", q.Money} {
		if len(lists[head]) == 0 {
			t.Errorf("no %s in %+v", head, q.Change.Lists)
		}
	}
	for head, sign := range map[string]string{"material added": "+", "material that falls away": "−"} {
		for _, r := range lists[head] {
			if !strings.HasPrefix(r.By, sign) {
				t.Errorf("%s: %+v", head, r)
			}
		}
	}
	for _, head := range []string{"hours", q.Money} {
		for _, r := range lists[head] {
			if d := figure(t, r.After) - figure(t, r.Before) - figure(t, r.By); math.Abs(d) > 1e-9 {
				t.Errorf("%s: %+v is out by %g", head, r, d)
			}
		}
	}
	sums, total := lists[q.Money], func(q screen.Quotation) string { return q.Sums[len(q.Sums)-1].Cost }
	if last := sums[len(sums)-1]; !last.Total || last.Before != total(old) || last.After != total(q) {
		t.Errorf("%+v; quoted %s before, %s now", last, total(old), total(q))
	}
	hours := lists["hours"]
	if last := hours[len(hours)-1]; !strings.HasPrefix(old.Sentence, last.Before+" h of work") || !strings.HasPrefix(q.Sentence, last.After+" h of work") {
		t.Errorf("%+v; quoted %q and %q", last, old.Sentence, q.Sentence)
	}
}

func figure(t *testing.T, words string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(strings.NewReplacer("−", "-", "+", "").Replace(words), 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// The sheet says which state it is told from and has every row of the page, on every paper, with
// room to sign; without an earlier state there is none.
func TestVariationSheet(t *testing.T) {
	before, after := orders(t)
	for _, paper := range []string{"a4", "letter"} {
		o := options(paper)
		o.Before = &sheet.Earlier{Study: study.Of(before, catalog.Builtin()), Words: "as-ordered.json"}
		shop := screen.On(study.Of(after, catalog.Builtin()), nil)
		m, err := sheet.On(context.Background(), shop, o)
		if err != nil {
			t.Fatal(err)
		}
		made, err := m.Make(context.Background(), []string{"variation"})
		if err != nil || made[0].Missing != "" {
			t.Fatal(err, made[0].Missing)
		}
		words := texts(m.Leaves(made[0]))
		v, err := shop.Variation(context.Background(), o.Before.Study, unit.US)
		if err != nil {
			t.Fatal(err)
		}
		want := []string{v.Sentence, "Told from as-ordered.json.", "for the customer", "for the installer"}
		for _, l := range v.Lists {
			for _, r := range l.Rows {
				want = append(want, r.Before, r.After, r.By)
			}
		}
		for _, w := range want {
			if !strings.Contains(words, w+"\n") {
				t.Errorf("%s: no %q", paper, w)
			}
		}
		pdf, err := m.PDF(made)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range wordsOf(t, saved(t, "variation.pdf", pdf)).Pages {
			for _, pair := range overlaps(p.Words) {
				t.Errorf("%s: %q lies on %q", paper, pair[0].Text, pair[1].Text)
			}
		}
	}
	if _, all := made(t, vastHall, "a4", "variation"); all[0].Missing == "" {
		t.Error("told from nothing")
	}
}
