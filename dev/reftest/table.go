package reftest

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"dropleg/engine/cite"
)

// table says what the columns of a file mean.
type table struct {
	file             string
	id               string   // column; "": file and line
	quantity, inputs []string // columns, joined
	expected, unit   string   // columns; "": none
	pairs            bool     // inputs are name=value;name=value
}

// tables lists every file of testdata/ref with rows, in the order of the page.
func tables() []table {
	var all []table
	for _, name := range []string{
		"air_properties", "humidity", "reference_flow", "friction", "orifices", "iso6358", "receiver",
		"power", "test", "checks_demand", "tools", "dryers", "purity",
	} {
		all = append(all, table{
			file: "air/" + name + ".csv", id: "id", quantity: []string{"quantity"}, inputs: []string{"inputs"},
			expected: "expected", unit: "unit", pairs: true,
		})
	}
	return append(
		all,
		table{file: "piping/checks.csv", id: "id", quantity: []string{"topic"}, inputs: []string{"inputs"}, expected: "expected", unit: "unit"},
		table{file: "piping/pipe_dimensions.csv", quantity: []string{"stock"}, inputs: []string{"size"}, expected: "id_mm"},
		table{file: "piping/ratings.csv", quantity: []string{"stock"}, inputs: []string{"size", "temp_c"}, expected: "pressure_kpa"},
		table{file: "piping/expansion.csv", quantity: []string{"material"}, expected: "alpha_um_per_m_k"},
		table{file: "piping/support_spacing.csv", quantity: []string{"stock", "orientation"}, inputs: []string{"size"}, expected: "spacing_m"},
		table{file: "piping/bend_radius.csv", quantity: []string{"kind", "stock"}, inputs: []string{"size", "growth_in"}, expected: "value", unit: "unit"},
		table{file: "piping/npt.csv", quantity: []string{"thread"}, inputs: []string{"size"}, expected: "L1_or_gauge_len_in"},
		table{file: "piping/takeouts.csv", quantity: []string{"family", "fitting"}, inputs: []string{"size"}, expected: "takeout_mm"},
		table{file: "piping/roughness.csv", quantity: []string{"material", "state"}, expected: "eps_mm"},
		table{file: "piping/fittings_k.csv", quantity: []string{"kind", "fitting"}, inputs: []string{"size"}, expected: "value"},
		table{file: "piping/couplers.csv", quantity: []string{"profile", "series_or_item"}, inputs: []string{"body_size_in"}, expected: "C_dm3_s_bar"},
		table{file: "piping/coupler_mates.csv", quantity: []string{"socket"}, inputs: []string{"plug"}, expected: "mates"},
		table{file: "piping/labels.csv", quantity: []string{"standard"}, inputs: []string{"item"}, expected: "value", unit: "unit"},
	)
}

// Load reads every row of testdata/ref under the root of the repository: the
// tables in the order of the page, then the solved cases.
func Load(root string) ([]Row, error) {
	var rows []Row
	for _, t := range tables() {
		more, err := t.read(root)
		if err != nil {
			return nil, fmt.Errorf("reading %s: %w", t.file, err)
		}
		rows = append(rows, more...)
	}
	cases, err := benchRows(root)
	return append(rows, cases...), err
}

// Root looks for the repository from the working directory upwards.
func Root() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "testdata", "ref")); err == nil {
			return dir, nil
		}
		parent := filepath.Dir(dir)
		if parent == dir {
			return "", errors.New("found no testdata/ref in this folder or above it")
		}
		dir = parent
	}
}

func (t table) read(root string) ([]Row, error) {
	f, err := os.Open(filepath.Join(root, "testdata", "ref", filepath.FromSlash(t.file)))
	if err != nil {
		return nil, err
	}
	defer f.Close()
	reader := csv.NewReader(f)
	reader.Comment = '#'
	head, err := reader.Read()
	if err != nil {
		return nil, err
	}
	var rows []Row
	for {
		cells, err := reader.Read()
		if errors.Is(err, io.EOF) {
			return rows, nil
		}
		if err != nil {
			return nil, err
		}
		line, _ := reader.FieldPos(0)
		cell := make(map[string]string, len(head))
		for i, name := range head {
			cell[name] = cells[i]
		}
		r, err := t.row(cell, line)
		if err != nil {
			return nil, err
		}
		rows = append(rows, r)
	}
}

// row makes a row of its cells.
func (t table) row(cell map[string]string, line int) (Row, error) {
	stem := strings.TrimSuffix(filepath.Base(t.file), ".csv")
	r := Row{
		File: t.file, ID: cell[t.id], Cell: cell,
		Quantity: joined(cell, t.quantity), Inputs: joined(cell, t.inputs),
		Expected: cell[t.expected], Unit: cell[t.unit], Tolerance: cell["tolerance"],
		Source: cell["source"], Note: cell["note"],
		Want: math.NaN(), In: map[string]float64{}, Word: map[string]string{},
	}
	switch {
	case t.id == "":
		r.ID = stem + ":" + strconv.Itoa(line)
	case !t.pairs:
		r.ID = stem + " " + r.ID
	}
	if x, ok := number(r.Expected); ok {
		r.Want = x
	}
	if t.pairs {
		for pair := range strings.SplitSeq(r.Inputs, ";") {
			key, text, _ := strings.Cut(pair, "=")
			r.Word[key] = text
			if x, ok := number(text); ok {
				r.In[key] = x
			}
		}
	}
	how, ok := map[string]cite.How{"read": cite.Read, "memory": cite.Recalled, "computed": cite.Computed, "practice": cite.Common}[cell["how"]]
	if !ok {
		return r, fmt.Errorf("%s: how %q, wanted read, memory, computed or practice", r.ID, cell["how"])
	}
	r.How = how
	return r, nil
}

func joined(cell map[string]string, columns []string) string {
	var words []string
	for _, c := range columns {
		if cell[c] != "" {
			words = append(words, cell[c])
		}
	}
	return strings.Join(words, ", ")
}
