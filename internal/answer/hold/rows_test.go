package hold

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"dropleg/engine/cite"
	"dropleg/engine/cite/citetest"
	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
)

// row is one of support_spacing.csv.
type row struct {
	stock, size, orientation, source, how string
	metres                                float64
}

func rows(t *testing.T) (all []row) {
	t.Helper()
	for _, l := range citetest.Rows(t, "piping/support_spacing.csv") {
		m, _ := strconv.ParseFloat(l["spacing_m"], 64)
		all = append(all, row{stock: l["stock"], size: l["size"], orientation: l["orientation"], source: l["source"], how: l["how"], metres: m})
	}
	return all
}

// inches reads "1-1/4"; what is no size is none that a row speaks of.
func inches(size string) float64 {
	x, ok := citetest.Fraction(size)
	if !ok {
		return math.NaN()
	}
	return x
}

// speaksOf says whether a row's sizes ("3/4 and smaller", "1 to 1-1/4", "all") hold one.
func (r row) speaksOf(size string) bool {
	x := inches(size)
	if low, high, ok := strings.Cut(r.size, " to "); ok {
		return x >= inches(low) && x <= inches(high)
	}
	if s, ok := strings.CutSuffix(r.size, " and smaller"); ok {
		return x <= inches(s)
	}
	if s, ok := strings.CutSuffix(r.size, " and larger"); ok {
		return x >= inches(s)
	}
	if s, ok := strings.CutPrefix(r.size, "over "); ok {
		return x > inches(s)
	}
	return r.size == "all" || r.size == size
}

// TestSpacingIsTheStrictest: of all rows of the reference table that were read for a
// material and size, the least; the distance between neighbours of a long line keeps it.
func TestSpacingIsTheStrictest(t *testing.T) {
	table := rows(t)
	for _, c := range []struct {
		stock, material string
		sizes           []string
	}{
		{"copper-l", "copper", []string{"1/2", "3/4", "1", "1-1/4", "1-1/2", "2"}},
		{"steel-sch40", "steel", []string{"1/2", "3/4", "1", "1-1/4", "1-1/2", "2"}},
	} {
		for _, size := range c.sizes {
			least, source := math.Inf(1), ""
			for _, r := range table {
				if r.stock == c.material && r.how == "read" && r.orientation == "horizontal" && r.speaksOf(size) && r.metres < least {
					least, source = r.metres, r.source
				}
			}
			a := Of(shopOf(c.stock, size, "tee", "tee", geom.Point{0, 0, 3}, geom.Point{40, 0, 3}), catalog.Builtin(), nil)
			if got := a.Runs[0].Horizontal; !got.Known || !near(float64(got.Distance), least, 1e-9) || got.How != cite.Read || got.Own {
				t.Errorf("%s %s: %+v, want %v (%s)", c.stock, size, got, least, source)
			}
			most := 0.0
			for i := 1; i < len(a.Supports); i++ {
				most = max(most, float64(a.Supports[i].Along-a.Supports[i-1].Along))
			}
			if want := int(math.Ceil(40 / least)); most > least+1e-9 || len(a.Supports) < want || len(a.Supports) > want+2 {
				t.Errorf("%s %s: %d supports, at most %v apart; %v allowed (%s)", c.stock, size, len(a.Supports), most, least, source)
			}
		}
	}
}

// TestRuleRows: clip distances and the figure of common practice are those of the table.
func TestRuleRows(t *testing.T) {
	found := 0
	for _, r := range rows(t) {
		switch r.orientation {
		case "clip from a change of direction":
			found++
			if r.metres != ruleTurn.Value || r.how != "read" || ruleTurn.How != cite.Read {
				t.Errorf("%+v, the rule says %+v", r, ruleTurn)
			}
		case "from each fitting joint at a change of direction":
			found++
			if r.metres < ruleTurn.Value {
				t.Errorf("%+v is closer than %+v", r, ruleTurn)
			}
		case "clip from valve, coupler or drop end":
			found++
			if r.metres != rulePart.Value || r.metres != ruleOutlet.Value || r.how != "memory" || rulePart.How != cite.Recalled {
				t.Errorf("%+v, the rules say %+v, %+v", r, rulePart, ruleOutlet)
			}
		}
		if r.how == "practice" {
			found++
			a := Of(shopOf("pe-al-pe", r.size, "tee", "tee", geom.Point{0, 0, 3}, geom.Point{9, 0, 3}), catalog.Builtin(), nil)
			s := a.Runs[0].Horizontal
			if s.Practice == nil || s.Practice.Value != r.metres || s.Practice.How != cite.Common || s.Distance >= 1.5 || s.How != cite.Read {
				t.Errorf("%+v: %+v", r, s)
			}
		}
	}
	if found != 4 {
		t.Errorf("%d rows", found)
	}
}

// A person's own row is the maker's figure and governs.
func TestOwnSpacing(t *testing.T) {
	stock, _ := catalog.Builtin().Stock("aluminium-metric")
	for i := range stock.Sizes {
		stock.Sizes[i].Spacing = []catalog.Spacing{{Direction: "horizontal", Distance: 2.2, Ref: cite.Ref{Source: "common-practice", How: cite.Read}}}
	}
	shelf, problems := catalog.Builtin().With(&catalog.Shelf{Stocks: []catalog.Stock{stock}})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	a := Of(shopOf("aluminium-metric", "25", "tee", "tee", geom.Point{0, 0, 3}, geom.Point{9, 0, 3}), shelf, nil)
	if s := a.Runs[0].Horizontal; !s.Own || s.Distance != 2.2 || !a.Runs[0].Vertical.Own {
		t.Errorf("%+v", s)
	}
}
