package dropleg_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"slices"
	"strings"
	"testing"
)

func TestFolderNames(t *testing.T) {
	walk(t, foreign, func(file string, d fs.DirEntry) {
		if d.IsDir() && slices.Contains(badFolders, d.Name()) {
			t.Errorf("%s: the name says nothing about what is inside", file)
		}
	})
}

func TestPackageDocs(t *testing.T) {
	docs := map[string][]string{} // folder → files that carry a package comment
	names := map[string]string{}  // folder → package name
	folders := map[string]bool{}  // folders with a doc.go
	for _, file := range goFiles(t, parser.ParseComments|parser.PackageClauseOnly) {
		if file.isTest() {
			continue
		}
		dir := file.dir()
		names[dir] = file.syntax.Name.Name
		if path.Base(file.path) == "doc.go" {
			folders[dir] = true
			if !opensWell(file.syntax) {
				t.Errorf("%s: begin it with \"Package %s\" (or \"Command\")", file.path, file.syntax.Name.Name)
			}
		}
		if file.syntax.Doc != nil {
			docs[dir] = append(docs[dir], path.Base(file.path))
		}
	}
	for _, dir := range sortedKeys(names) {
		switch with := docs[dir]; {
		case !folders[dir]:
			t.Errorf("%s: package %s has no doc.go", dir, names[dir])
		case len(with) > 1:
			t.Errorf("%s: more than doc.go carries a package comment: %s", dir, strings.Join(with, ", "))
		}
	}
}

// opensWell tells whether the package comment begins as documentation tools expect.
func opensWell(f *ast.File) bool {
	text := f.Doc.Text()
	return strings.HasPrefix(text, "Package "+f.Name.Name+" ") ||
		f.Name.Name == "main" && strings.HasPrefix(text, "Command ")
}

func TestFileLengths(t *testing.T) {
	used := map[string]bool{}
	judge := func(file string, test bool) {
		n := lineCount(t, file)
		switch {
		case n > fileMost:
			t.Errorf("%s: %d lines, %d at most", file, n, fileMost)
		case n > filePlain && !test:
			used[file] = true
			if longFiles[file] == "" {
				t.Errorf("%s: %d lines; above %d a reason stands in house_test.go", file, n, filePlain)
			}
		}
	}
	for _, file := range goFiles(t, parser.ParseComments|parser.PackageClauseOnly) {
		if !file.generated() {
			judge(file.path, file.isTest())
		}
	}
	walk(t, foreign, func(file string, d fs.DirEntry) {
		source := strings.HasSuffix(file, ".ts") || strings.HasSuffix(file, ".tsx") || strings.HasSuffix(file, ".css")
		if !d.IsDir() && source && strings.HasPrefix(file, "web/src/") && !strings.HasSuffix(file, ".gen.ts") {
			judge(file, strings.Contains(file, ".test."))
		}
	})
	reportUnused(t, longFiles, used)
}

func TestFunctionLengths(t *testing.T) {
	used := map[string]bool{}
	for _, file := range goFiles(t, parser.ParseComments|parser.SkipObjectResolution) {
		if file.generated() {
			continue
		}
		for _, decl := range file.syntax.Decls {
			f, ok := decl.(*ast.FuncDecl)
			if !ok {
				continue
			}
			n := lines(file.set, f)
			key := file.path + " " + funcName(f)
			switch {
			case n > funcMost:
				t.Errorf("%s: %d lines, %d at most", key, n, funcMost)
			case n > funcPlain && !file.isTest():
				used[key] = true
				if longFuncs[key] == "" {
					t.Errorf("%s: %d lines; above %d a reason stands in house_test.go", key, n, funcPlain)
				}
			}
		}
	}
	reportUnused(t, longFuncs, used)
}

// reportUnused keeps the lists of exceptions short: one that nothing needs any more
// fails.
func reportUnused(t *testing.T, list map[string]string, used map[string]bool) {
	t.Helper()
	for _, key := range sortedKeys(list) {
		if !used[key] {
			t.Errorf("%s is excepted in house_test.go and need not be", key)
		}
	}
}

func TestNoInit(t *testing.T) {
	for _, file := range goFiles(t, parser.SkipObjectResolution) {
		for _, decl := range file.syntax.Decls {
			if f, ok := decl.(*ast.FuncDecl); ok && f.Recv == nil && f.Name.Name == "init" {
				t.Errorf("%s: init runs in an order that nobody sees; use an explicit list", file.path)
			}
		}
	}
}

// lines counts from the word func to the closing brace; the comment above is free.
func lines(set *token.FileSet, f *ast.FuncDecl) int {
	return set.Position(f.End()).Line - set.Position(f.Pos()).Line + 1
}

func funcName(f *ast.FuncDecl) string {
	if f.Recv == nil || len(f.Recv.List) == 0 {
		return f.Name.Name
	}
	receiver := f.Recv.List[0].Type
	for {
		switch r := receiver.(type) {
		case *ast.StarExpr:
			receiver = r.X
		case *ast.IndexExpr:
			receiver = r.X
		case *ast.IndexListExpr:
			receiver = r.X
		case *ast.Ident:
			return r.Name + "." + f.Name.Name
		default:
			return f.Name.Name
		}
	}
}

func TestFuncName(t *testing.T) {
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, "", "package p\nfunc a() {\n}\nfunc (t *T[K]) b() {}\nfunc (U) c() {}\n", 0)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"a", "T.b", "U.c"}
	for i, decl := range f.Decls {
		if got := funcName(decl.(*ast.FuncDecl)); got != want[i] {
			t.Errorf("got %s, want %s", got, want[i])
		}
	}
	if got := lines(set, f.Decls[0].(*ast.FuncDecl)); got != 2 {
		t.Errorf("func a counts %d lines, want 2", got)
	}
}
