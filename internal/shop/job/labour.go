package job

import (
	"fmt"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
)

// Labour is what an installer reckons work by. What is left out is taken as is usual.
type Labour struct {
	Rate    *float64     `json:"rate_1_h,omitempty" min:"0" max:"1e6" doc:"money for an hour"`
	Margin  *unit.Ratio  `json:"margin,omitempty" min:"0" max:"10" doc:"share on top of material"`
	Tax     *unit.Ratio  `json:"tax,omitempty" min:"0" max:"1" doc:"share on top of the sum"`
	Minutes []LabourTime `json:"minutes,omitempty"`
}

// LabourTime is the time that one thing takes.
type LabourTime struct {
	For     string  `json:"for" doc:"a way of joining, or metre, support, outlet, plant part"`
	Minutes float64 `json:"min" min:"0" max:"100000"`
}

// What time can be stated for, beside the ways of joining.
const (
	LabourAnyJoint = "any joint" // of a way of joining that has no time of its own
	LabourMetre    = "metre"
	LabourSupport  = "support"
	LabourOutlet   = "outlet"
	LabourPlant    = "plant part"
)

// LabourKinds lists what time can be stated for: the ways of joining of a catalogue, and
// what else takes time.
func LabourKinds(cat *catalog.Catalog) []string {
	var out []string
	for _, j := range cat.Joints() {
		if j.Joint != "none" {
			out = append(out, j.Joint)
		}
	}
	return append(out, LabourAnyJoint, LabourMetre, LabourSupport, LabourOutlet, LabourPlant)
}

// labour checks that each time is for something, and each once.
func (v *validator) labour(cat *catalog.Catalog) {
	if v.job.Prices.Labour == nil {
		return
	}
	kinds := LabourKinds(cat)
	first := map[string]bool{}
	for i, t := range v.job.Prices.Labour.Minutes {
		path := fmt.Sprintf("prices.labour.minutes[%d].for", i)
		known := false
		for _, k := range kinds {
			known = known || k == t.For
		}
		switch {
		case !known:
			v.note("unknown-work", Caution, document.Problem{
				Path: path, Read: fmt.Sprintf("%q", brief(t.For)), Want: "a way of joining, or metre, support, outlet, plant part", Nearest: unit.Nearest(brief(t.For), kinds),
			})
		case first[t.For]:
			v.note("time-twice", Caution, document.Problem{Path: path, Read: fmt.Sprintf("%q again", t.For), Want: "each kind of work once; the first counts"})
		}
		first[t.For] = true
	}
}
