package model_test

import (
	"testing"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
	"dropleg/internal/shop/model/shoptest"
)

// The drawn shops are sound jobs of the sizes they claim, every outlet fed.
func TestDrawnShops(t *testing.T) {
	for _, c := range []struct{ drops, least, most int }{{6, 55, 68}, {107, 960, 1040}} {
		j := shoptest.Drawn(c.drops)
		for _, f := range job.Validate(j, catalog.Builtin()) {
			if f.Severity == job.Fault || f.Severity == job.Danger {
				t.Errorf("%d drops: %s %s", c.drops, f.Path, f.Title)
			}
		}
		if n := shoptest.Elements(j); n < c.least || n > c.most {
			t.Errorf("%d drops make %d elements", c.drops, n)
		}
		_, found := model.Build(j, catalog.Builtin())
		for _, f := range found {
			t.Errorf("%d drops: %s: %s", c.drops, f.Code, f.Title)
		}
	}
}
