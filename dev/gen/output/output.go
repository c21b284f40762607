package output

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"dropleg/dev/reftest"
)

// File is a generated file: its path from the repository's root, with slashes.
type File struct {
	Path string
	Text []byte
}

// Main runs the generator of that name with the program's arguments and ends
// the program with status 1 where it fails.
func Main(name string, files func(root string) ([]File, error)) {
	if err := Run(name, os.Args[1:], files); err != nil {
		fmt.Fprintf(os.Stderr, "%s: %v\n", name, err)
		os.Exit(1)
	}
}

// Run writes the files, or compares them where -check is among the arguments.
func Run(name string, args []string, files func(root string) ([]File, error)) error {
	flags := flag.NewFlagSet(name, flag.ContinueOnError)
	check := flags.Bool("check", false, "compare the files with what they would be instead of writing them")
	if err := flags.Parse(args); err != nil {
		return err
	}
	root, err := reftest.Root()
	if err != nil {
		return err
	}
	made, err := files(root)
	if err != nil {
		return err
	}
	for _, f := range made {
		path := filepath.Join(root, filepath.FromSlash(f.Path))
		if *check {
			have, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			if !bytes.Equal(have, f.Text) {
				return fmt.Errorf("%s is not what its sources give: run make generate", f.Path)
			}
			continue
		}
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, f.Text, 0o644); err != nil {
			return err
		}
	}
	return nil
}
