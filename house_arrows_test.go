package dropleg_test

import (
	"fmt"
	"go/parser"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"
)

type floor struct{ folder, rooms string }

type pair struct{ low, high string }

// order is the arrows text, read.
type order struct {
	names map[string]bool
	below map[string]map[string]bool // below[b][a]: b may import a, all steps taken
	never []pair
}

func readOrder(text string) (order, error) {
	o := order{map[string]bool{}, map[string]map[string]bool{}, nil}
	for statement := range strings.SplitSeq(text, ";") {
		if strings.TrimSpace(statement) == "" {
			continue
		}
		if err := o.readStatement(statement); err != nil {
			return o, err
		}
	}
	for _, high := range sortedKeys(o.below) {
		for _, low := range sortedKeys(o.below[high]) {
			if !o.names[low] {
				return o, fmt.Errorf("%s < %s, and nothing says what %s stands on", low, high, low)
			}
		}
	}
	o.close()
	for name := range o.names {
		if o.below[name][name] {
			return o, fmt.Errorf("%s comes to stand below itself", name)
		}
	}
	for _, p := range o.never {
		if !o.names[p.low] || !o.names[p.high] {
			return o, fmt.Errorf("%s !< %s names what has no arrow", p.low, p.high)
		}
		if o.below[p.high][p.low] {
			return o, fmt.Errorf("the arrows lead from %s up to %s, and say that they do not", p.low, p.high)
		}
	}
	return o, nil
}

func (o *order) readStatement(statement string) error {
	var low []string
	denies := false
	// "!<" is read as "<" followed by a mark, so that one split does for both.
	for i, part := range strings.Split(strings.ReplaceAll(statement, "!<", "<!"), "<") {
		rest, not := strings.CutPrefix(part, "!")
		denies = denies || not
		var high []string
		for name := range strings.SplitSeq(rest, ",") {
			name = strings.TrimSpace(name)
			if name == "" || strings.ContainsAny(name, " \t\n!") {
				return fmt.Errorf("a name is missing or a comma: %q", strings.TrimSpace(statement))
			}
			high = append(high, name)
		}
		if i > 0 {
			o.join(low, high, denies)
		}
		low = high
	}
	return nil
}

func (o *order) join(low, high []string, never bool) {
	for _, b := range high {
		if !never {
			o.names[b] = true
			if o.below[b] == nil {
				o.below[b] = map[string]bool{}
			}
		}
		for _, a := range low {
			switch {
			case never:
				o.never = append(o.never, pair{a, b})
			case a != "NONE":
				o.below[b][a] = true
			}
		}
	}
}

// close adds to each name what lies beneath those beneath it, until nothing is new.
func (o *order) close() {
	for grown := true; grown; {
		grown = false
		for _, under := range o.below {
			for a := range under {
				for deeper := range o.below[a] {
					if !under[deeper] {
						under[deeper] = true
						grown = true
					}
				}
			}
		}
	}
}

// room gives the arrow name and the floor of a folder, "" for one without.
func room(dir string) (name string, height int) {
	for i, f := range floors {
		if dir == f.folder && f.folder == f.rooms {
			return f.folder, i
		}
		if rest, ok := strings.CutPrefix(dir, f.folder+"/"); ok {
			first, _, _ := strings.Cut(rest, "/")
			if f.folder == "cmd" {
				return "cmd", i
			}
			return first, i
		}
	}
	return "", -1
}

// free tells folders that may import anything: what serves development, and packages
// that only tests use (lawtest, writertest).
func free(dir string) bool {
	return dir == "." || dir == "dev" || strings.HasPrefix(dir, "dev/") || strings.HasSuffix(dir, "test")
}

func TestArrows(t *testing.T) {
	o, err := readOrder(arrows)
	if err != nil {
		t.Fatal(err)
	}
	compareFloors(t, o)
	for _, file := range goFiles(t, parser.ImportsOnly) {
		if file.isTest() || free(file.dir()) {
			continue
		}
		name, height := room(file.dir())
		if name == "" || !slices.Contains(strings.Fields(floors[height].rooms), name) {
			t.Errorf("%s: the folder is on no floor: name it in house_test.go", file.path)
			continue
		}
		for _, spec := range file.syntax.Imports {
			imported, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				t.Fatal(err)
			}
			if fault := importFault(o, name, height, imported); fault != "" {
				t.Errorf("%s: %s", file.path, fault)
			}
		}
	}
}

func importFault(o order, name string, height int, imported string) string {
	dir, own := strings.CutPrefix(imported, "dropleg/")
	if !own {
		outside := strings.Contains(strings.Split(imported, "/")[0], ".")
		allowed := slices.ContainsFunc(engineMayUse, func(module string) bool {
			return imported == module || strings.HasPrefix(imported, module+"/")
		})
		if floors[height].folder == "engine" && outside && !allowed {
			return fmt.Sprintf("the engine may not import %s", imported)
		}
		return ""
	}
	if free(dir) {
		return fmt.Sprintf("imports %s, which is for tests and development", imported)
	}
	below, depth := room(dir)
	switch {
	case below == name:
		return ""
	case depth > height:
		return fmt.Sprintf("%s imports %s from a floor above", name, below)
	case !o.below[name][below]:
		return fmt.Sprintf("%s may not import %s: no arrow leads from %s up to %s", name, below, below, name)
	}
	return ""
}

// compareFloors holds that arrows and floors speak of the same packages, and that no
// arrow points down.
func compareFloors(t *testing.T, o order) {
	t.Helper()
	heights := map[string]int{}
	for i, f := range floors {
		for name := range strings.FieldsSeq(f.rooms) {
			if _, twice := heights[name]; twice {
				t.Errorf("%s stands on two floors", name)
			}
			heights[name] = i
		}
	}
	for _, name := range sortedKeys(o.names) {
		height, ok := heights[name]
		if !ok {
			t.Errorf("%s has an arrow and no floor", name)
		}
		for _, below := range sortedKeys(o.below[name]) {
			if heights[below] > height {
				t.Errorf("the arrows let %s import %s from a floor above", name, below)
			}
		}
	}
	for _, name := range sortedKeys(heights) {
		if !o.names[name] {
			t.Errorf("%s has a floor and no arrow", name)
		}
	}
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}

func TestReadOrder(t *testing.T) {
	const good = "NONE < a, x; a < b < c; x < c; b !< x;"
	o, err := readOrder(good)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range []struct {
		low, high string
		want      bool
	}{{"a", "b", true}, {"a", "c", true}, {"x", "c", true}, {"x", "b", false}, {"c", "a", false}} {
		if got := o.below[p.high][p.low]; got != p.want {
			t.Errorf("%s < %s is %v, want %v", p.low, p.high, got, p.want)
		}
	}
	for _, bad := range []string{"a < b; b < a", "NONE < a < b < c; a !< c", "NONE < a; a !< z", "a < < b", "a b < c", "NONE < a; b < c"} {
		if _, err := readOrder(bad); err == nil {
			t.Errorf("%q was taken", bad)
		}
	}
}

func TestImportFault(t *testing.T) {
	o, err := readOrder(arrows)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		dir, imported string
		fault         bool
	}{
		{"internal/shop/job", "dropleg/engine/unit", false},
		{"internal/shop/job", "dropleg/engine/network", true},
		{"internal/show/scene", "dropleg/internal/shop/job", true},
		{"internal/answer/study", "dropleg/internal/answer/parts", false},
		{"engine/network", "dropleg/engine/num/sparse", false},
		{"engine/air", "gonum.org/v1/gonum/mat", false},
		{"engine/air", "github.com/spf13/cobra", true},
		{"internal/edge/store", "dropleg/internal/answer/study", true},
		{"cmd/dropleg", "dropleg/internal/edge/cli", false},
		{"engine/element", "dropleg/engine/element/lawtest", true},
		{"internal/edge/server", "dropleg/web", false},
		{"internal/edge/cli", "dropleg/dev/gen", true},
	} {
		name, height := room(row.dir)
		if got := importFault(o, name, height, row.imported); (got != "") != row.fault {
			t.Errorf("%s importing %s: fault %q, want one: %v", row.dir, row.imported, got, row.fault)
		}
	}
}
