package main

import (
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

// writeTests bundles each test file of the page for Node's own test runner, which
// does not read TypeScript. Nothing is minified: a failure must be readable.
func writeTests(web, dir string, out io.Writer) error {
	files, err := testFiles(filepath.Join(web, "src"))
	if err != nil || len(files) == 0 {
		return err
	}
	dir, err = filepath.Abs(dir)
	if err != nil {
		return err
	}
	options := settings(web)
	options.EntryPoints = files
	options.Outdir = dir
	options.OutExtension = map[string]string{".js": ".mjs"}
	options.Platform = api.PlatformNode
	options.MinifySyntax, options.MinifyWhitespace, options.MinifyIdentifiers = false, false, false
	options.Sourcemap = api.SourceMapInline
	options.Write = true
	if err := messages(api.Build(options)); err != nil {
		return err
	}
	fmt.Fprintf(out, "%d test files\n", len(files))
	return nil
}

func testFiles(src string) ([]string, error) {
	var files []string
	err := filepath.WalkDir(src, func(path string, d fs.DirEntry, err error) error {
		if err == nil && (strings.HasSuffix(path, ".test.ts") || strings.HasSuffix(path, ".test.tsx")) {
			files = append(files, path)
		}
		return err
	})
	return files, err
}
