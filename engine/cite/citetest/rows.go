package citetest

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// Row is one row of a table: what stands under each column, and under "row" the table
// and which of its rows it is.
type Row map[string]string

// Rows reads a table of testdata/ref, such as "air/friction.csv". Lines that begin with #
// are left out; what is missing at the end of a row is empty.
func Rows(t testing.TB, table string) []Row {
	t.Helper()
	f, err := os.Open(File(t, table))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment, r.FieldsPerRecord = '#', -1
	lines, err := r.ReadAll()
	if err != nil || len(lines) < 2 {
		t.Fatalf("%s: %d lines: %v", table, len(lines), err)
	}
	var rows []Row
	for n, line := range lines[1:] {
		row := Row{"row": fmt.Sprintf("%s row %d", table, n+1)}
		for i, column := range lines[0][:min(len(line), len(lines[0]))] {
			row[column] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// File is where a file of testdata/ref stands, looked for from the test's own folder upwards.
func File(t testing.TB, name string) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		ref := filepath.Join(dir, "testdata", "ref")
		if _, err := os.Stat(ref); err == nil {
			return filepath.Join(ref, filepath.FromSlash(name))
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatalf("no testdata/ref above, looked for %s", name)
		}
		dir = up
	}
}

// Number is the figure under a column.
func (r Row) Number(t testing.TB, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		t.Fatalf("%s, %s: %v", r["row"], column, err)
	}
	return x
}

// Inputs are the names and values of "name=value; name=value" under inputs.
func (r Row) Inputs() map[string]string {
	in := map[string]string{}
	for pair := range strings.SplitSeq(r["inputs"], ";") {
		name, value, _ := strings.Cut(strings.TrimSpace(pair), "=")
		in[name] = value
	}
	return in
}

// Fraction reads what sizes and bores are written as: "2", "3/4", "1-1/4", "0.5".
func Fraction(text string) (float64, bool) {
	if x, err := strconv.ParseFloat(text, 64); err == nil {
		return x, true // of 1e-6 the dash parts nothing
	}
	whole, part, mixed := strings.Cut(text, "-")
	if !mixed {
		whole, part = "0", text
	}
	over, under, divided := strings.Cut(part, "/")
	if !divided {
		under = "1"
	}
	w, errW := strconv.ParseFloat(whole, 64)
	o, errO := strconv.ParseFloat(over, 64)
	u, errU := strconv.ParseFloat(under, 64)
	return w + o/u, errW == nil && errO == nil && errU == nil && u != 0
}
