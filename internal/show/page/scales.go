package page

import (
	"fmt"
	"strconv"
)

// Scale is one of the usual scales of drawings.
type Scale struct {
	Words string
	Ratio float64 // 50 for 1:50
}

// PerMetre is the scale in mm of paper to the metre.
func (s Scale) PerMetre() float64 { return 1000 / s.Ratio }

// Scales lists the usual ones, the largest first: of ISO 5455 with 1:25 and 1:250, as is
// common; of feet and inches those of architects' rules (common practice, no source).
func Scales(inches bool) []Scale {
	var all []Scale
	if !inches {
		for _, r := range []float64{5, 10, 20, 25, 50, 100, 200, 250, 500, 1000, 2000, 5000} {
			all = append(all, Scale{"1:" + strconv.FormatFloat(r, 'f', -1, 64), r})
		}
		return all
	}
	for _, s := range []struct {
		words  string
		inches float64 // on paper to the foot
	}{{"3", 3}, {"1 1/2", 1.5}, {"1", 1}, {"3/4", 0.75}, {"1/2", 0.5}, {"3/8", 0.375}, {"1/4", 0.25}, {"3/16", 0.1875}, {"1/8", 0.125}, {"3/32", 0.09375}, {"1/16", 0.0625}, {"1/32", 0.03125}} {
		all = append(all, Scale{fmt.Sprintf(`%s" = 1'`, s.words), 12 / s.inches})
	}
	for _, feet := range []float64{50, 100, 200, 400} {
		all = append(all, Scale{fmt.Sprintf(`1" = %.0f'`, feet), 12 * feet})
	}
	return all
}
