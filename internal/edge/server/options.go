package server

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"dropleg/engine/document"
	"dropleg/internal/edge/desk"
)

// Options say what is shown and where.
type Options struct {
	Desk *desk.Desk // whose jobs are shown; it stays the caller's to close
	// Listen is an address with port; "" is a free port, of the loopback unless Network is set.
	Listen string
	// Network lets others on the local network in who bring the token (see Server.Invitation).
	Network bool
	// TLS serves the network over TLS (see package trust), and the loopback at a port of its own as ever.
	TLS bool
	// Folder keeps the network's port, token and authority from one run to the next; "":
	// they are new in each run, and there is no TLS.
	Folder string
	// NewToken shuts out all who were let in by the token of earlier runs.
	NewToken bool
	// Follow lists the jobs that follow a file: what changes on disk changes the job.
	Follow []Follow
	// Poll is how often the files are asked for their stamp; 0 is 300 ms.
	Poll time.Duration
	// Trouble says why nothing can be kept, where the desk has no store.
	Trouble string
}

// Follow is a job that follows a file.
type Follow struct {
	Job    string // id on the desk
	Source Source
	Sum    string // of the bytes that the job was made from (see SumOf)
}

// Source gives a job file and says when it has changed.
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

// tick is within what time a file can change twice and keep its time of change, as
// some systems' clocks are that coarse, with much to spare.
const tick = 100 * time.Millisecond

// Stamp is size and time of change: editors that write a new file in place of
// the old one are seen as well. A file just changed has another stamp than a moment
// later, so that it is read once more then.
func (f fileSource) Stamp() (string, error) {
	info, err := os.Stat(string(f))
	if err != nil {
		return "", err
	}
	just := time.Since(info.ModTime()) < tick
	return fmt.Sprintf("%d %d %t", info.Size(), info.ModTime().UnixNano(), just), nil
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
