package server

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"dropleg/engine/document"
)

// Options say what is shown and where.
type Options struct {
	Source Source
	// Listen is a loopback address with port; "" is 127.0.0.1 with a free port.
	Listen string
	// Poll is how often the source is asked for its stamp; 0 is 300 ms.
	Poll time.Duration
}

// Source gives the job and says when it has changed.
type Source interface {
	// Name is what the page calls it: the file's name.
	Name() string
	// Stamp changes whenever the bytes may have.
	Stamp() (string, error)
	Bytes() ([]byte, error)
}

// File is a source on disk.
func File(path string) Source { return fileSource(path) }

type fileSource string

func (f fileSource) Name() string { return filepath.Base(string(f)) }

// Stamp is size and time of change: editors that write a new file in place of
// the old one are seen as well.
func (f fileSource) Stamp() (string, error) {
	info, err := os.Stat(string(f))
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("%d %d", info.Size(), info.ModTime().UnixNano()), nil
}

// Bytes reads no more than a job may have; what is longer is refused by the reader of the job.
func (f fileSource) Bytes() ([]byte, error) {
	file, err := os.Open(string(f))
	if err != nil {
		return nil, err
	}
	defer func() { _ = file.Close() }() // only read from
	return io.ReadAll(io.LimitReader(file, document.Limit+1))
}

// Fixed is a source that never changes, such as a built-in example.
func Fixed(name string, bytes []byte) Source { return fixedSource{name, bytes} }

type fixedSource struct {
	name  string
	bytes []byte
}

func (f fixedSource) Name() string           { return f.name }
func (f fixedSource) Stamp() (string, error) { return "", nil }
func (f fixedSource) Bytes() ([]byte, error) { return f.bytes, nil }
