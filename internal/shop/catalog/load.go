package catalog

import (
	"embed"
	"fmt"
	"path"
	"strings"
	"sync"

	"dropleg/engine/document"
)

//go:embed data
var files embed.FS

// Builtin is the embedded catalogue, read once. Its files are part of the
// program and tested, so a file that cannot be read is a programmer's mistake.
func Builtin() *Catalog { return builtin() }

var builtin = sync.OnceValue(func() *Catalog {
	var s Shelf
	if err := s.read(); err != nil {
		panic("catalog: " + err.Error())
	}
	return build(s)
})

// read fills the shelf from the embedded files, in the order of their names.
func (s *Shelf) read() error {
	one := map[string]any{
		"couplers": &s.Couplers, "mates": &s.Mates, "hoses": &s.Hoses, "tools": &s.Tools, "machines": &s.Machines,
		"treatment": &s.Treatment, "threads": &s.Threads, "takeouts": &s.TakeOuts, "materials": &s.Materials, "turbulent": &s.Turbulent,
	}
	entries, err := files.ReadDir("data")
	if err != nil {
		return fmt.Errorf("reading the data folder: %w", err)
	}
	for _, e := range entries {
		if e.IsDir() {
			continue
		}
		into, ok := one[strings.TrimSuffix(e.Name(), ".json")]
		if !ok {
			return fmt.Errorf("data/%s belongs to no shelf", e.Name())
		}
		if err := decode("data/"+e.Name(), into); err != nil {
			return err
		}
	}
	if s.Kinds, err = folder[Kind]("data/kinds"); err != nil {
		return err
	}
	if s.Joints, err = folder[Joint]("data/joints"); err != nil {
		return err
	}
	s.Stocks, err = folder[Stock]("data/stocks")
	return err
}

// folder reads a folder with one row a file.
func folder[T any](dir string) ([]T, error) {
	entries, err := files.ReadDir(dir)
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", dir, err)
	}
	// The files are joined to one list: the reader's work on the row type is then done once.
	var text strings.Builder
	text.WriteByte('[')
	for i, e := range entries {
		raw, err := files.ReadFile(path.Join(dir, e.Name()))
		if err != nil {
			return nil, fmt.Errorf("reading %s: %w", e.Name(), err)
		}
		if i > 0 {
			text.WriteByte(',')
		}
		text.Write(raw)
	}
	text.WriteByte(']')
	rows := make([]T, 0, len(entries))
	if p := document.Decode([]byte(text.String()), &rows); len(p) > 0 {
		return nil, fmt.Errorf("%s: %s: read %s, want %s", dir, p[0].Path, p[0].Read, p[0].Want)
	}
	return rows, nil
}

// decode reads one file into a list.
func decode(name string, into any) error {
	raw, err := files.ReadFile(name)
	if err != nil {
		return fmt.Errorf("reading %s: %w", name, err)
	}
	if p := document.Decode(raw, into); len(p) > 0 {
		return fmt.Errorf("%s: %s: read %s, want %s", name, p[0].Path, p[0].Read, p[0].Want)
	}
	return nil
}
