package cli

import (
	"fmt"
	"os"
	"path/filepath"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// writeJSON writes a value as one document on standard output.
func (c *call) writeJSON(v any) error {
	text, err := document.Encode(v)
	if err != nil {
		return fmt.Errorf("writing JSON: %w", err)
	}
	return c.writeAll(text)
}

// write writes an answer about a job: as JSON where asked for, else as a page in the
// units asked for.
func (c *call) write(j *job.Job, answer any, page func(*paper, unit.System)) error {
	if c.json {
		return c.writeJSON(answer)
	}
	system, err := c.system(j.Site.Units)
	if err != nil {
		return err
	}
	p := c.paper()
	page(p, system)
	return c.writeAll(p.bytes())
}

// writeAll writes the whole result at once: a command that fails half way has
// written nothing.
func (c *call) writeAll(text []byte) error {
	c.rest()
	if _, err := c.Out.Write(text); err != nil {
		return fmt.Errorf("writing the result: %w", err)
	}
	return nil
}

// save writes a file whole or not at all: beside it first, then in its place.
// A file that is there stays unless force says otherwise.
func save(file string, text []byte, force bool) error {
	if _, err := os.Lstat(file); err == nil && !force {
		return misused("%s is there already; --force writes over it", file)
	}
	temporary, err := os.CreateTemp(filepath.Dir(file), "."+filepath.Base(file)+"-*")
	if err != nil {
		return fmt.Errorf("writing %s: %w", file, err)
	}
	defer os.Remove(temporary.Name()) // after the rename there is nothing to remove
	if err := fill(temporary, text); err != nil {
		return fmt.Errorf("writing %s: %w", file, err)
	}
	if err := os.Rename(temporary.Name(), file); err != nil {
		return fmt.Errorf("writing %s: %w", file, err)
	}
	return nil
}

// fill writes, brings to the disk and closes. CreateTemp lets nobody else read;
// the result is an ordinary file.
func fill(f *os.File, text []byte) error {
	_, err := f.Write(text)
	if err == nil {
		err = f.Chmod(0o644)
	}
	if err == nil {
		err = f.Sync()
	}
	if closing := f.Close(); err == nil {
		err = closing
	}
	return err
}
