package main

import (
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"sort"
	"strings"
)

// layer gives each folder of web/src its height. A file may import from its own
// folder and from any lower one; two folders of one height do not know each other.
// An entry file at the top of web/src stands above all.
//
//	words, style, api < state < paint < tools < commands < questions, phone, start < main
var layer = map[string]int{
	"words": 0, "style": 0, "api": 1, "state": 2, "paint": 3, "tools": 4, "commands": 5,
	"questions": 6, "phone": 6, "start": 6, "": 7,
}

// fromClause finds what a line of TypeScript imports, types included: the bundler's
// report leaves out imports of types alone, and files that the page does not reach.
var fromClause = regexp.MustCompile(`(?m)^\s*(?:import|export)\b[^;'"]*?["']([^"']+)["']`)

// layerFaults holds the order for the imports that the bundler saw and for those that
// the text of all sources names.
func layerFaults(web string, seen []importLine) []error {
	written, err := writtenImports(filepath.Join(web, "src"))
	if err != nil {
		return []error{err}
	}
	texts := map[string]bool{}
	for _, line := range append(written, seen...) {
		if fault := line.fault(); fault != "" {
			texts[fault] = true
		}
	}
	sorted := make([]string, 0, len(texts))
	for text := range texts {
		sorted = append(sorted, text)
	}
	sort.Strings(sorted)
	faults := make([]error, len(sorted))
	for i, text := range sorted {
		faults[i] = fmt.Errorf("%s", text)
	}
	return faults
}

func (l importLine) fault() string {
	from, to := folder(l.from), folder(l.to)
	if from == to {
		return ""
	}
	for _, f := range []string{from, to} {
		if _, known := layer[f]; !known {
			return fmt.Sprintf("web/src/%s is in no layer: name it in dev/bundle/layers.go", f)
		}
	}
	if layer[to] < layer[from] {
		return ""
	}
	return fmt.Sprintf("web/src/%s may not import web/src/%s: the order in dev/bundle/layers.go leads the other way, or not at all", l.from, l.to)
}

// folder is the first part of a path under web/src, "" for a file at the top.
func folder(name string) string {
	first, _, nested := strings.Cut(name, "/")
	if !nested {
		return ""
	}
	return first
}

func writtenImports(src string) ([]importLine, error) {
	var lines []importLine
	err := filepath.WalkDir(src, func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.Contains(filepath.Ext(file), "ts") {
			return err
		}
		text, err := os.ReadFile(file)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(src, file)
		if err != nil {
			return err
		}
		from := filepath.ToSlash(rel)
		for _, match := range fromClause.FindAllStringSubmatch(string(text), -1) {
			if strings.HasPrefix(match[1], ".") {
				lines = append(lines, importLine{from, path.Join(path.Dir(from), match[1])})
			}
		}
		return nil
	})
	return lines, err
}
