package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"dropleg/internal/edge/server"
)

const target = "web/src/api/types.gen.ts"

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "gen:", err)
		os.Exit(1)
	}
}

func run(args []string) error {
	flags := flag.NewFlagSet("gen", flag.ContinueOnError)
	check := flags.Bool("check", false, "compare "+target+" with the types instead of writing it")
	if err := flags.Parse(args); err != nil {
		return err
	}
	text, err := typescript(server.Resources())
	if err != nil {
		return err
	}
	root, err := findRoot()
	if err != nil {
		return err
	}
	file := filepath.Join(root, filepath.FromSlash(target))
	if !*check {
		return os.WriteFile(file, text, 0o644)
	}
	have, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	if !bytes.Equal(have, text) {
		return errors.New(target + " is not what the types give: run make generate")
	}
	return nil
}

// findRoot looks for the repository from the working directory upwards: go
// generate runs in the folder of the package that asks for it.
func findRoot() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, filepath.FromSlash(filepath.Dir(target)))); err == nil {
			return dir, nil
		}
		parent := filepath.Dir(dir)
		if parent == dir {
			return "", errors.New("found no " + filepath.Dir(target) + " in this folder or above it")
		}
		dir = parent
	}
}
