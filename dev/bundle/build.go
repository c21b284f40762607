package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

// entries are the files of web/src that become scripts of their own. Those that do
// not exist are passed over; the first must.
var entries = []string{"main.tsx", "phone/main.tsx", "offline.ts", "pdf.ts", "pdfworker.ts"}

// taken are files of packages that the page loads as they are, when it needs them:
// slash path in web/dist from slash path in web/node_modules. These two read pictures
// in scanned PDF files, in plain script: the page's policy allows no WebAssembly.
var taken = map[string]string{
	"pdf/jbig2_nowasm_fallback.js":    "pdfjs-dist/wasm/jbig2_nowasm_fallback.js",
	"pdf/openjpeg_nowasm_fallback.js": "pdfjs-dist/wasm/openjpeg_nowasm_fallback.js",
}

// packed are files that stand gzipped in web/dist: large, seldom asked for, and of other
// people's making, so that nobody reads how they change. The program is smaller by them.
var packed = []string{"pdf.js", "pdfworker.js", "pdf/jbig2_nowasm_fallback.js", "pdf/openjpeg_nowasm_fallback.js"}

// output is the content of web/dist by slash path, and what the sources import.
type output struct {
	files   map[string][]byte
	imports []importLine
}

// importLine says that one file of web/src imports another; both slash paths are
// relative to web/src.
type importLine struct{ from, to string }

// metafile is the part of the bundler's report that is read here.
type metafile struct {
	Inputs map[string]struct {
		Imports []struct {
			Path     string `json:"path"`
			External bool   `json:"external"`
		} `json:"imports"`
	} `json:"inputs"`
}

func build(web string) (output, error) {
	if _, err := os.Stat(filepath.Join(web, "node_modules", "preact")); err != nil {
		return output{}, errors.New("web/node_modules is not installed: run npm ci in web")
	}
	options := settings(web)
	for i, name := range entries {
		path := filepath.Join(web, "src", filepath.FromSlash(name))
		if _, err := os.Stat(path); err == nil {
			options.EntryPoints = append(options.EntryPoints, path)
		} else if i == 0 {
			return output{}, fmt.Errorf("opening the page's first file: %w", err)
		}
	}
	result := api.Build(options)
	err := messages(result)
	if err != nil {
		return output{}, err
	}
	var meta metafile
	if err := json.Unmarshal([]byte(result.Metafile), &meta); err != nil {
		return output{}, fmt.Errorf("reading the bundler's report: %w", err)
	}
	out := output{files: map[string][]byte{}, imports: sourceImports(meta)}
	for _, f := range result.OutputFiles {
		name, err := filepath.Rel(options.Outdir, f.Path)
		if err != nil {
			return output{}, err
		}
		out.files[filepath.ToSlash(name)] = f.Contents
	}
	if err := addStatic(filepath.Join(web, "static"), out.files); err != nil {
		return output{}, err
	}
	for name, from := range taken {
		if out.files[name], err = os.ReadFile(filepath.Join(web, "node_modules", filepath.FromSlash(from))); err != nil {
			return output{}, fmt.Errorf("taking a file of a package: %w", err)
		}
	}
	notices, err := notices(web, meta)
	if err != nil {
		return output{}, err
	}
	out.files["licences.txt"] = notices
	return out, packAll(out.files)
}

// settings are shared by the page and its tests. Names in the output carry no hash:
// the server gives an ETag, and the committed files keep their names.
func settings(web string) api.BuildOptions {
	return api.BuildOptions{
		AbsWorkingDir:     web,
		Outdir:            filepath.Join(web, "dist"),
		Outbase:           filepath.Join(web, "src"),
		Bundle:            true,
		Format:            api.FormatESModule,
		Platform:          api.PlatformBrowser,
		Target:            api.ES2022,
		JSX:               api.JSXAutomatic,
		JSXImportSource:   "preact",
		MinifySyntax:      true,
		MinifyWhitespace:  true,
		MinifyIdentifiers: true,
		Charset:           api.CharsetUTF8,
		LegalComments:     api.LegalCommentsNone,
		Loader:            map[string]api.Loader{".svg": api.LoaderText},
		// What people's own environment says must not change the bytes.
		Define:   map[string]string{"process.env.NODE_ENV": `"production"`},
		Metafile: true,
		LogLevel: api.LogLevelSilent,
	}
}

// messages gives every error and warning of a build; a warning fails as well.
func messages(result api.BuildResult) error {
	var faults []error
	for _, m := range append(result.Errors, result.Warnings...) {
		where := ""
		if m.Location != nil {
			where = fmt.Sprintf("web/%s:%d:%d: ", m.Location.File, m.Location.Line, m.Location.Column+1)
		}
		faults = append(faults, errors.New(where+m.Text))
	}
	return errors.Join(faults...)
}

func sourceImports(meta metafile) []importLine {
	var lines []importLine
	for from, input := range meta.Inputs {
		from, own := strings.CutPrefix(from, "src/")
		if !own {
			continue
		}
		for _, imported := range input.Imports {
			if to, own := strings.CutPrefix(imported.Path, "src/"); own && !imported.External {
				lines = append(lines, importLine{from, to})
			}
		}
	}
	sort.Slice(lines, func(i, j int) bool {
		if lines[i].from != lines[j].from {
			return lines[i].from < lines[j].from
		}
		return lines[i].to < lines[j].to
	})
	return lines
}

// addStatic copies the files that need no building: the page itself, the manifest,
// pictures.
func addStatic(dir string, files map[string][]byte) error {
	return filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		name, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		name = filepath.ToSlash(name)
		if _, taken := files[name]; taken {
			return fmt.Errorf("web/static/%s and a built file have the same name", name)
		}
		files[name], err = os.ReadFile(path)
		return err
	})
}
