package main

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
)

// compare gives one fault for each file of dist that is missing, stale or not made
// from the sources.
func compare(dist string, want output) []error {
	have, err := readFolder(dist)
	if err != nil {
		return []error{err}
	}
	var faults []error
	for _, name := range sortedNames(want.files) {
		got, ok := have[name]
		switch {
		case !ok:
			faults = append(faults, fmt.Errorf("web/dist/%s is missing: run make bundle", name))
		case !alike(name, got, want.files[name]):
			faults = append(faults, fmt.Errorf("web/dist/%s is not what web/src gives: run make bundle", name))
		}
	}
	for _, name := range sortedNames(have) {
		if _, ok := want.files[name]; !ok {
			faults = append(faults, fmt.Errorf("web/dist/%s comes from no source: run make bundle", name))
		}
	}
	return faults
}

// write makes dist hold want and nothing else. Files that are right already are left
// alone, so that a watching server sees only real changes.
func write(dist string, want output, out io.Writer) error {
	have, err := readFolder(dist)
	if err != nil {
		return err
	}
	for _, name := range sortedNames(have) {
		if _, ok := want.files[name]; ok {
			continue
		}
		if err := os.Remove(filepath.Join(dist, filepath.FromSlash(name))); err != nil {
			return err
		}
	}
	for _, name := range sortedNames(want.files) {
		data := want.files[name]
		fmt.Fprintf(out, "web/dist/%s %d bytes\n", name, len(data))
		if got, ok := have[name]; ok && alike(name, got, data) {
			continue
		}
		path := filepath.Join(dist, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, data, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// readFolder gives all files under dir by slash path; none when dir does not exist.
func readFolder(dir string) (map[string][]byte, error) {
	files := map[string][]byte{}
	if _, err := os.Stat(dir); os.IsNotExist(err) {
		return files, nil
	}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		name, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		files[filepath.ToSlash(name)], err = os.ReadFile(path)
		return err
	})
	return files, err
}

func sortedNames(files map[string][]byte) []string {
	names := make([]string, 0, len(files))
	for name := range files {
		names = append(names, name)
	}
	sort.Strings(names)
	return names
}
