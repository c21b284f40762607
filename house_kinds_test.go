package dropleg_test

import (
	"encoding/json"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"
)

// TestNoKindByName: code asks a kind for its role, its ports and its law. If it asked
// for the name, a new kind would be more than a data file.
func TestNoKindByName(t *testing.T) {
	kinds := kindNames(t)
	if len(kinds) == 0 {
		t.Skip("the catalogue has no kinds yet")
	}
	byFolder := map[string][]sourceFile{}
	for _, file := range goFiles(t, parser.SkipObjectResolution) {
		if strings.HasPrefix(file.path, "internal/") && !file.isTest() && !free(file.dir()) &&
			!strings.HasPrefix(file.path, "internal/shop/catalog/") {
			byFolder[file.dir()] = append(byFolder[file.dir()], file)
		}
	}
	used := map[string]bool{}
	for _, dir := range sortedKeys(byFolder) {
		consts := textConstants(byFolder[dir])
		for _, file := range byFolder[dir] {
			for _, c := range comparisons(file.syntax, consts) {
				if !kinds[c.word] {
					continue
				}
				key := file.path + " " + c.word
				used[key] = true
				if sameWords[key] == "" {
					t.Errorf("%s:%d: compares with the kind %q: ask for a role, a port or a law",
						file.path, file.set.Position(c.pos).Line, c.word)
				}
			}
		}
	}
	reportUnused(t, sameWords, used)
}

func kindNames(t *testing.T) map[string]bool {
	t.Helper()
	files, err := filepath.Glob("internal/shop/catalog/data/kinds/*.json")
	if err != nil {
		t.Fatal(err)
	}
	kinds := map[string]bool{}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var head struct {
			Kind string `json:"kind"`
		}
		if err := json.Unmarshal(text, &head); err != nil {
			t.Errorf("%s: %v", file, err)
		}
		if head.Kind == "" {
			t.Errorf("%s: names no kind", file)
			continue
		}
		kinds[head.Kind] = true
	}
	return kinds
}

// comparison is one place where a text is compared with a constant word.
type comparison struct {
	word string
	pos  token.Pos
}

// comparisons finds ==, != and switch cases whose one side is a text or a constant of
// the package that stands for a text, converted or not. The name of a law may be asked
// for, and some laws are called as kinds are.
func comparisons(f *ast.File, consts map[string]string) []comparison {
	var found []comparison
	add := func(e ast.Expr) {
		if word, ok := constantWord(e, consts); ok {
			found = append(found, comparison{word, e.Pos()})
		}
	}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.BinaryExpr:
			if (n.Op == token.EQL || n.Op == token.NEQ) && !asksLaw(n.X) && !asksLaw(n.Y) {
				add(n.X)
				add(n.Y)
			}
		case *ast.SwitchStmt:
			if n.Tag == nil || asksLaw(n.Tag) {
				break
			}
			for _, clause := range n.Body.List {
				for _, e := range clause.(*ast.CaseClause).List {
					add(e)
				}
			}
		}
		return true
	})
	return found
}

func constantWord(e ast.Expr, consts map[string]string) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		if e.Kind == token.STRING {
			word, err := strconv.Unquote(e.Value)
			return word, err == nil
		}
	case *ast.Ident:
		word, ok := consts[e.Name]
		return word, ok
	case *ast.ParenExpr:
		return constantWord(e.X, consts)
	case *ast.CallExpr:
		if _, plain := e.Fun.(*ast.Ident); (plain || isSelector(e.Fun)) && len(e.Args) == 1 {
			return constantWord(e.Args[0], consts)
		}
	}
	return "", false
}

// asksLaw tells an expression that ends in Law.Name.
func asksLaw(e ast.Expr) bool {
	name, ok := e.(*ast.SelectorExpr)
	if !ok || name.Sel.Name != "Name" {
		return false
	}
	law, ok := name.X.(*ast.SelectorExpr)
	return ok && law.Sel.Name == "Law"
}

func isSelector(e ast.Expr) bool {
	_, ok := e.(*ast.SelectorExpr)
	return ok
}

// textConstants gives the constants of one package that are declared as a text.
func textConstants(files []sourceFile) map[string]string {
	consts := map[string]string{}
	for _, file := range files {
		for _, decl := range file.syntax.Decls {
			block, ok := decl.(*ast.GenDecl)
			if !ok || block.Tok != token.CONST {
				continue
			}
			for _, spec := range block.Specs {
				values := spec.(*ast.ValueSpec)
				for i, value := range values.Values {
					if word, ok := constantWord(value, nil); ok {
						consts[values.Names[i].Name] = word
					}
				}
			}
		}
	}
	return consts
}

func TestComparisons(t *testing.T) {
	const text = `package p
const elbow = "elbow"
var free = "loose"
func f(k string) bool {
	switch k {
	case "tee", kind("cross"):
	}
	switch k.Law.Name {
	case "minor":
	}
	switch {
	case k == "reducer", k.Law.Name == "rated":
	}
	list := []string{"kept"}
	return k == "valve" || elbow != k || name(k) == ("drain") || k < "less" || len(list) == 1
}`
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, "p.go", text, 0)
	if err != nil {
		t.Fatal(err)
	}
	var words []string
	for _, c := range comparisons(f, textConstants([]sourceFile{{"p.go", f, set}})) {
		words = append(words, c.word)
	}
	sort.Strings(words)
	if got, want := fmt.Sprint(words), "[cross drain elbow reducer tee valve]"; got != want {
		t.Errorf("found %s, want %s", got, want)
	}
}
