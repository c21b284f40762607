package dropleg_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"
)

// sourceFile is a parsed Go file; its path is relative to the root, with slashes.
type sourceFile struct {
	path   string
	syntax *ast.File
	set    *token.FileSet
}

func (f sourceFile) dir() string     { return path.Dir(f.path) }
func (f sourceFile) isTest() bool    { return strings.HasSuffix(f.path, "_test.go") }
func (f sourceFile) generated() bool { return ast.IsGenerated(f.syntax) }

// foreign tells folders that are not ours to judge. testdata is passed over as the go
// command does.
func foreign(name string) bool {
	switch name {
	case "node_modules", "testdata":
		return true
	}
	return name != "." && strings.HasPrefix(name, ".") && name != ".ci"
}

// walk calls visit for every folder and file of the tree, with slash paths.
func walk(t *testing.T, skip func(name string) bool, visit func(file string, d fs.DirEntry)) {
	t.Helper()
	err := filepath.WalkDir(".", func(file string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (skip(d.Name()) || file == "bin" || file == "dist") {
			return filepath.SkipDir
		}
		visit(filepath.ToSlash(file), d)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func goFiles(t *testing.T, mode parser.Mode) []sourceFile {
	t.Helper()
	var files []sourceFile
	walk(t, foreign, func(file string, d fs.DirEntry) {
		if d.IsDir() || !strings.HasSuffix(file, ".go") {
			return
		}
		set := token.NewFileSet()
		syntax, err := parser.ParseFile(set, file, nil, mode)
		if err != nil {
			t.Errorf("parsing: %v", err)
			return
		}
		files = append(files, sourceFile{file, syntax, set})
	})
	if len(files) == 0 {
		t.Fatal("found no Go files: the test does not run at the root of the repository")
	}
	return files
}

// lineCount counts as an editor does: a last line without its end counts too.
func lineCount(t *testing.T, file string) int {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	n := strings.Count(string(text), "\n")
	if len(text) > 0 && text[len(text)-1] != '\n' {
		n++
	}
	return n
}
