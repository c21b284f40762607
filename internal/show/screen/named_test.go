package screen_test

import (
	"context"
	"strings"
	"testing"

	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/model/shoptest"
	"dropleg/internal/show/screen"
)

// Of a hall where many tools run at once a few are named and the rest counted.
func TestFewAreNamed(t *testing.T) {
	shop := screen.On(study.Of(shoptest.Drawn(107), catalog.Builtin()), nil)
	page, err := shop.Page(context.Background(), screen.Window{View: "plan", Width: liveWidth, Height: liveHeight})
	if err != nil {
		t.Fatal(err)
	}
	if got := page.Sentence; strings.Count(got, " at ") > 12 || !strings.Contains(got, " more") {
		t.Errorf("the sentence names too many: %s", got)
	}
}
