package job

import (
	"testing"

	"dropleg/internal/shop/catalog"
)

// TestLabourTold: a time for what is no work is told with the nearest that is, and one that
// is stated twice; neither keeps the job from being used.
func TestLabourTold(t *testing.T) {
	j := &Job{Version: Version}
	j.Prices.Labour = &Labour{Minutes: []LabourTime{{For: "solder", Minutes: 8}, {For: "sodder", Minutes: 9}, {For: "metre", Minutes: 4}, {For: "solder", Minutes: 7}}}
	found := Validate(j, catalog.Builtin())
	if len(found) != 2 {
		t.Fatalf("%+v", found)
	}
	for i, want := range []Finding{
		{Code: "unknown-work", Path: "prices.labour.minutes[1].for", Nearest: "solder"},
		{Code: "time-twice", Path: "prices.labour.minutes[3].for"},
	} {
		if f := found[i]; f.Code != want.Code || f.Path != want.Path || f.Nearest != want.Nearest || f.Severity != Caution {
			t.Errorf("%+v, want %+v", f, want)
		}
	}
}
