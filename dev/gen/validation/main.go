package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"dropleg/dev/reftest"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "validation:", err)
		os.Exit(1)
	}
}

// file is a page and where it goes.
type file struct {
	path string
	text []byte
}

func run(args []string) error {
	flags := flag.NewFlagSet("validation", flag.ContinueOnError)
	check := flags.Bool("check", false, "compare the pages with what they would be instead of writing them")
	if err := flags.Parse(args); err != nil {
		return err
	}
	root, err := reftest.Root()
	if err != nil {
		return err
	}
	files, err := pages(root)
	if err != nil {
		return err
	}
	for _, f := range files {
		path := filepath.Join(root, filepath.FromSlash(f.path))
		if *check {
			have, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			if !bytes.Equal(have, f.text) {
				return errors.New(f.path + " is not what its sources give: run make generate")
			}
			continue
		}
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, f.text, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// pages makes every page.
func pages(root string) ([]file, error) {
	rows, err := reftest.Load(root)
	if err != nil {
		return nil, err
	}
	return []file{
		{"docs/validation.md", validation(reftest.Judge(rows))},
		{"docs/formulas.md", formulas()},
		{"docs/sources.md", sources()},
	}, nil
}
