package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

func main() {
	if err := run(os.Args[1:], os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "bundle:", err)
		os.Exit(1)
	}
}

func run(args []string, out io.Writer) error {
	flags := flag.NewFlagSet("bundle", flag.ContinueOnError)
	check := flags.Bool("check", false, "compare web/dist with the sources instead of writing it")
	tests := flags.String("tests", "", "write each web/src/**/*.test.ts, bundled for Node, into this `folder` instead")
	if err := flags.Parse(args); err != nil {
		return err
	}
	if flags.NArg() > 0 {
		return fmt.Errorf("takes no arguments, read %q", flags.Arg(0))
	}
	web, err := findWeb()
	if err != nil {
		return err
	}
	if *tests != "" {
		return writeTests(web, *tests, out)
	}
	want, err := build(web)
	if err != nil {
		return err
	}
	if err := errors.Join(layerFaults(web, want.imports)...); err != nil {
		return err
	}
	dist := filepath.Join(web, "dist")
	if *check {
		return errors.Join(compare(dist, want)...)
	}
	return write(dist, want, out)
}

// findWeb looks for the web folder from the working directory upwards, so that the
// command runs from the repository root and from its own folder alike.
func findWeb() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		web := filepath.Join(dir, "web")
		if _, err := os.Stat(filepath.Join(web, "package.json")); err == nil {
			return web, nil
		}
		parent := filepath.Dir(dir)
		if parent == dir {
			return "", errors.New("found no web/package.json in this folder or above it")
		}
		dir = parent
	}
}
