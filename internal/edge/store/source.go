package store

import (
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"
)

// writing is the data source of the connection that writes. WAL lets reads go on
// meanwhile; FULL syncs the log at every commit, so that a power cut takes nothing
// acknowledged (NORMAL would take the last steps); fullfsync asks macOS to empty the
// disk's own cache too. The log is cut back after a big picture went through it.
func writing(path string, busy time.Duration) string {
	return source(path, busy, "journal_mode(WAL)", "synchronous(FULL)", "foreign_keys(1)",
		"fullfsync(1)", "checkpoint_fullfsync(1)", "journal_size_limit(8388608)") + "&_txlock=immediate"
}

// reading is the data source of connections that may not write.
func reading(path string, busy time.Duration) string {
	return source(path, busy, "query_only(1)")
}

func source(path string, busy time.Duration, pragmas ...string) string {
	slashed := filepath.ToSlash(path)
	if !strings.HasPrefix(slashed, "/") { // a Windows drive
		slashed = "/" + slashed
	}
	values := []string{fmt.Sprintf("_pragma=busy_timeout(%d)", busy.Milliseconds())}
	for _, pragma := range pragmas {
		values = append(values, "_pragma="+pragma)
	}
	// Path names may hold ? # and %.
	return "file:" + (&url.URL{Path: slashed}).EscapedPath() + "?" + strings.Join(values, "&")
}

// openPool opens no connection yet. Those opened stay: a new one costs more than
// what it is for.
func openPool(source string, most int) *sql.DB {
	db, err := sql.Open("sqlite", source)
	if err != nil {
		panic(err) // the driver is linked in
	}
	db.SetMaxOpenConns(most)
	db.SetMaxIdleConns(most)
	return db
}

// makeFile makes an empty file for this person alone, and its folder, where there is
// none. The file is never opened under its own name: closing a file would take away
// the locks that another Store of this process holds on it.
func makeFile(path string) error {
	there, err := os.Stat(path)
	switch {
	case err == nil && there.IsDir():
		return &Trouble{Kind: Other, Words: path + " is a folder. Name a file that is to hold the jobs."}
	case err == nil || !errors.Is(err, fs.ErrNotExist):
		return err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	// CreateTemp makes files of mode 0600.
	part, err := os.CreateTemp(filepath.Dir(path), filepath.Base(path)+".new-*")
	if err != nil {
		return err
	}
	if err := part.Close(); err != nil {
		return err
	}
	err = publish(part.Name(), path)
	if errors.Is(err, fs.ErrExist) {
		return nil // another process was quicker
	}
	return err
}

// publish gives a finished file its name, whole or not at all, and never over a file
// that is there. The name part is gone afterwards in any case.
func publish(part, name string) error {
	err := os.Link(part, name)
	if err != nil && !errors.Is(err, fs.ErrExist) {
		// The disk knows no links (memory sticks): the name is reserved instead.
		if err = reserve(name); err == nil {
			if err = os.Rename(part, name); err == nil {
				return syncFolder(name)
			}
			err = errors.Join(err, os.Remove(name))
		}
	}
	if err != nil {
		return errors.Join(err, os.Remove(part))
	}
	return errors.Join(os.Remove(part), syncFolder(name))
}

func reserve(name string) error {
	file, err := os.OpenFile(name, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	return file.Close()
}

// syncFolder makes the names in a file's folder durable, where systems can.
func syncFolder(name string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	folder, err := os.Open(filepath.Dir(name))
	if err != nil {
		return err
	}
	return errors.Join(folder.Sync(), folder.Close())
}
