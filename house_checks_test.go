package dropleg_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

const checkFolder = "internal/decide/check"

// TestChecksListed: a check is a variable or function with a Check{Code: "…"} in it.
// all.go must name it, and testdata/<code>.txtar must hold the job that fails and the
// one that just passes.
func TestChecksListed(t *testing.T) {
	if _, err := os.Stat(checkFolder); os.IsNotExist(err) {
		t.Skip("there are no checks yet")
	}
	var checks []foundCheck
	listed := map[string]bool{}
	for _, file := range goFiles(t, parser.SkipObjectResolution) {
		switch {
		case file.dir() != checkFolder || file.isTest():
		case filepath.Base(file.path) == "all.go":
			listed = identifiers(file.syntax)
		default:
			checks = append(checks, checksIn(file)...)
		}
	}
	if len(checks) == 0 {
		t.Errorf("%s: no Check with a Code was found: has its form changed?", checkFolder)
	}
	wanted := map[string]bool{}
	for _, c := range checks {
		if !listed[c.holder] {
			t.Errorf("%s: %s (%s) is not in all.go", c.file, c.holder, c.code)
		}
		pair := c.code + ".txtar"
		wanted[pair] = true
		if _, err := os.Stat(filepath.Join(checkFolder, "testdata", pair)); err != nil {
			t.Errorf("%s: %s has no testdata/%s", c.file, c.code, pair)
		}
	}
	pairs, err := filepath.Glob(checkFolder + "/testdata/*.txtar")
	if err != nil {
		t.Fatal(err)
	}
	for _, pair := range pairs {
		if !wanted[filepath.Base(pair)] {
			t.Errorf("%s: belongs to no check", pair)
		}
	}
}

// foundCheck says which top-level name of which file holds the check with this code.
type foundCheck struct{ file, holder, code string }

func checksIn(file sourceFile) []foundCheck {
	var found []foundCheck
	search := func(holder string, n ast.Node) {
		ast.Inspect(n, func(n ast.Node) bool {
			if literal, ok := n.(*ast.CompositeLit); ok {
				if code := checkCode(literal); code != "" {
					found = append(found, foundCheck{file.path, holder, code})
				}
			}
			return true
		})
	}
	for _, decl := range file.syntax.Decls {
		switch d := decl.(type) {
		case *ast.FuncDecl:
			search(d.Name.Name, d)
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				if v, ok := spec.(*ast.ValueSpec); ok {
					search(v.Names[0].Name, v)
				}
			}
		}
	}
	return found
}

// checkCode gives the code of a literal Check{Code: "…"}, "" for any other.
func checkCode(literal *ast.CompositeLit) string {
	if name, ok := literal.Type.(*ast.Ident); !ok || name.Name != "Check" {
		return ""
	}
	for _, element := range literal.Elts {
		field, ok := element.(*ast.KeyValueExpr)
		if !ok {
			continue
		}
		key, isName := field.Key.(*ast.Ident)
		value, isText := field.Value.(*ast.BasicLit)
		if isName && key.Name == "Code" && isText {
			code, err := strconv.Unquote(value.Value)
			if err == nil {
				return code
			}
		}
	}
	return ""
}

func identifiers(f *ast.File) map[string]bool {
	names := map[string]bool{}
	ast.Inspect(f, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok {
			names[id.Name] = true
		}
		return true
	})
	return names
}

func TestChecksIn(t *testing.T) {
	const text = `package check
var noDrain = Check{Title: "x", Code: "no-drain"}
func steep() Check { return Check{Code: "steep"} }
var other = Other{Code: "not-a-check"}
`
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, "c.go", text, 0)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, c := range checksIn(sourceFile{"c.go", f, set}) {
		got = append(got, c.holder+" "+c.code)
	}
	if joined := strings.Join(got, ", "); joined != "noDrain no-drain, steep steep" {
		t.Errorf("found %s", joined)
	}
}
