package element

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
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
	f, err := os.Open(filepath.Join("..", "..", "testdata", "ref", "air", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []row
	for _, l := range lines[1:] {
		r := row{id: l[0], quantity: l[1], tolerance: l[5], how: l[7], note: l[8], in: map[string]float64{}, text: map[string]string{}}
		r.expected, _ = strconv.ParseFloat(l[3], 64)
		for _, pair := range strings.Split(l[2], ";") {
			key, value, _ := strings.Cut(pair, "=")
			r.text[key] = value
			over, under, isFraction := strings.Cut(value, "/")
			v, err := strconv.ParseFloat(over, 64)
			if err != nil {
				continue
			}
			if isFraction {
				u, err := strconv.ParseFloat(under, 64)
				if err != nil {
					continue
				}
				v /= u
			}
			r.in[key] = v
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
