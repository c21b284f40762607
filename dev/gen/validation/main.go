package main

import (
	"dropleg/dev/gen/output"
	"dropleg/dev/reftest"
)

func main() { output.Main("validation", pages) }

// pages makes every page.
func pages(root string) ([]output.File, error) {
	rows, err := reftest.Load(root)
	if err != nil {
		return nil, err
	}
	return []output.File{
		{Path: "docs/validation.md", Text: validation(reftest.Judge(rows))},
		{Path: "docs/formulas.md", Text: formulas()},
		{Path: "docs/sources.md", Text: sources()},
	}, nil
}
