package element

import (
	"strconv"
	"strings"
	"testing"

	"dropleg/engine/cite/citetest"
)

// row is one line of a reference table.
type row struct {
	id, quantity, how, tolerance, note string
	in                                 map[string]float64
	text                               map[string]string
	expected                           float64
}

// rows reads a table of testdata/ref/air; a fraction such as 1/8 is a number.
func rows(t *testing.T, name string) []row {
	t.Helper()
	var out []row
	for _, l := range citetest.Rows(t, "air/"+name) {
		r := row{id: l["id"], quantity: l["quantity"], tolerance: l["tolerance"], how: l["how"], note: l["note"], in: map[string]float64{}, text: l.Inputs()}
		r.expected, _ = strconv.ParseFloat(l["expected"], 64)
		for key, value := range r.text {
			if x, ok := citetest.Fraction(value); ok {
				r.in[key] = x
			}
		}
		out = append(out, r)
	}
	return out
}

// within is the row's relative tolerance.
func (r row) relative(t *testing.T) float64 {
	t.Helper()
	text, ok := strings.CutPrefix(r.tolerance, "rel:")
	v, err := strconv.ParseFloat(text, 64)
	if !ok || err != nil {
		t.Fatalf("%s: no relative tolerance in %q", r.id, r.tolerance)
	}
	return v
}
