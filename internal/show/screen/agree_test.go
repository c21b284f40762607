package screen

import (
	"slices"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

// opened opens a built-in example.
func opened(t *testing.T, name string) *Shop {
	t.Helper()
	data, _ := example.Read(name)
	return shopOf(t, data)
}

// The mark of every question agrees with the worst finding that bears on it, the
// sentence with the mark, and the sentence is short enough for the strip.
func TestAnswersAgreeWithFindings(t *testing.T) {
	for _, e := range example.All() {
		s := opened(t, e.Name)
		for _, system := range []unit.System{unit.US, unit.Metric} {
			questions, err := s.Questions(t.Context(), Ask{System: system})
			if err != nil {
				t.Fatal(err)
			}
			findings, err := s.Findings(t.Context(), Ask{System: system})
			if err != nil {
				t.Fatal(err)
			}
			for _, q := range questions {
				worst := map[string]bool{}
				for _, f := range findings {
					if slices.Contains(q.Codes, f.Code) {
						worst[f.Severity] = true
					}
				}
				fails := worst[string(job.Danger)] || worst[string(job.Fault)]
				where := e.Name + ", " + q.ID + ": " + q.Answer
				if fails != (q.Mark == NotYet) {
					t.Errorf("%s: mark %s beside findings %v", where, q.Mark, worst)
				}
				if !fails && worst[string(job.Caution)] && q.Mark == Yes && !strings.HasPrefix(q.Answer, "Yes, but") {
					t.Errorf("%s: a bare yes beside a caution", where)
				}
				// Where every tool has its pressure, only what could hurt people speaks against a yes.
				against := strings.HasPrefix(q.Answer, "Not yet") || worst[string(job.Danger)] && strings.HasPrefix(q.Answer, "Every tool gets its pressure, but")
				if q.Mark == NotYet != against {
					t.Errorf("%s: mark %s", where, q.Mark)
				}
				if n := len(strings.Fields(q.Answer)); n > 16 {
					t.Errorf("%s: %d words", where, n)
				}
			}
		}
	}
}

// A figure's origin is the law of the element that takes most, as `calc` tells
// it, with that element's figures.
func TestOriginNamesTheLaw(t *testing.T) {
	s := opened(t, "boat-shop")
	way, err := s.Way(t.Context(), Ask{}, "outlet.far-bench")
	if err != nil {
		t.Fatal(err)
	}
	from := way.From
	if from == nil {
		t.Fatal("no origin")
	}
	text := from.Law + "\n" + strings.Join(from.Inputs, "\n")
	// The 10 m hose of 1/4 in takes most: friction along a bore.
	for _, want := range []string{"f L/D", "hose 1/4 in", "length L", "bore D", "flow", "roughness"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in %s", want, text)
		}
	}
	if len(from.Sources) == 0 {
		t.Error("no source")
	}
}

func TestMoneyAndWholeLengths(t *testing.T) {
	s := &Shop{job: &job.Job{}}
	s.job.Prices.Currency = "USD"
	for sum, want := range map[float64]string{3828.4: "USD 3,828", 999: "USD 999", 1234567: "USD 1,234,567", -1200: "USD −1,200"} {
		if got := s.money(sum); got != want {
			t.Errorf("%g: %q, want %q", sum, got, want)
		}
	}
	v := &view{ask: Ask{System: unit.US}}
	if got := v.whole(67.59); got != "222 ft" { // 67.59 m / 0.3048
		t.Errorf("%q", got)
	}
	v.ask.System = unit.Metric
	if got := v.whole(28.04); got != "28 m" {
		t.Errorf("%q", got)
	}
}
