package formulatest

import (
	"encoding/json"
	"strings"
	"testing"

	"dropleg/engine/formula"
	"dropleg/engine/unit"
)

// Ask reads the line, runs the formula that it names and reads its JSON.
func Ask(t *testing.T, formulas []formula.Formula, line string) (map[string]float64, error) {
	t.Helper()
	name, args, _ := strings.Cut(line, " ")
	for _, f := range formulas {
		if f.Name != name {
			continue
		}
		v, problems := f.Read(strings.Fields(args), unit.Env{})
		if len(problems) > 0 {
			t.Fatalf("%s: %+v", line, problems)
		}
		out, err := f.Run(v)
		if err != nil {
			return nil, err
		}
		text, err := f.JSON(out)
		if err != nil {
			t.Fatal(err)
		}
		var got map[string]float64
		if err := json.Unmarshal(text, &got); err != nil {
			t.Fatal(err)
		}
		return got, nil
	}
	t.Fatalf("no formula %q", name)
	return nil, nil
}
