package purchase

import (
	"context"
	"testing"

	"dropleg/internal/answer/cut"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// TestJoinInsteadOfACoil: pieces of 8, 4, 4 and 3 m from coils of 10 m at 40. Whole pieces
// take three coils, as two leave 2 m each. Two ends of 2 and 1 m come out of these: a
// coupling of 6 saves 34. By hand.
func TestJoinInsteadOfACoil(t *testing.T) {
	w := &works{shelf: catalog.Builtin(), job: &job.Job{Prices: job.Prices{List: []job.Price{{Article: "pe-al-pe-metric coupling 20", Each: 6, Per: "piece"}}}}}
	s := &stock{article: "pe-al-pe-metric 20", id: "pe-al-pe-metric", size: "20", coil: true, rules: &job.Job{}, lengths: []length{{long: toCut(10), price: 4000, priced: true}}}
	for _, p := range []struct {
		id   string
		long float64
	}{{"a", 8}, {"b", 4}, {"c", 4}, {"d", 3}} {
		s.pieces = append(s.pieces, cut.Piece{ID: p.id, Length: toCut(p.long), Count: 1})
	}
	p, _, err := s.plan(context.Background(), nil)
	if err != nil || len(p.Bars) != 3 || !p.Proven {
		t.Fatalf("plan %+v, %v", p, err)
	}
	if err := w.join(context.Background(), s, &p); err != nil {
		t.Fatal(err)
	}
	if p.Join == nil || p.Join.Saves != 3400 || !p.Join.Proven {
		t.Fatalf("join %+v, want 34.00 saved", p.Join)
	}
	// Dearer than a coil it is not worth it.
	p.Join, w.job.Prices.List[0].Each = nil, 41
	if err := w.join(context.Background(), s, &p); err != nil || p.Join != nil {
		t.Errorf("join %+v, %v", p.Join, err)
	}
}
