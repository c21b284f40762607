package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"

	"modernc.org/sqlite"
	lib "modernc.org/sqlite/lib"
)

// What callers decide by. They come wrapped, with the job concerned.
var (
	ErrNotThere = errors.New("not in the store")
	ErrBehind   = errors.New("does not follow the last revision")
	ErrTaken    = errors.New("is already in the store")
	ErrName     = errors.New("cannot be a name in the store")
	ErrTooBig   = errors.New("is too big for the store")
)

// The kinds of [Trouble].
const (
	Full     = "full"      // no room on the disk
	ReadOnly = "read-only" // the file, its folder or the disk cannot be written
	Locked   = "locked"    // another process writes and has not let go in time
	Damaged  = "damaged"   // the file is not what was written
	Other    = "other"
)

// Trouble is a failure of the disk or of the file on it, as opposed to a call that
// does not fit. Nothing of the call was acknowledged, and what was acknowledged
// before is untouched.
type Trouble struct {
	Kind  string // one of the kinds above
	Words string // what is the matter and what to do, for people
	Err   error
}

// Error gives the words and, for whoever mends it, the cause.
func (t *Trouble) Error() string {
	if t.Err == nil {
		return t.Words
	}
	return fmt.Sprintf("%s (%v)", t.Words, t.Err)
}

// Unwrap gives the cause.
func (t *Trouble) Unwrap() error { return t.Err }

// asTrouble makes a Trouble of a failure concerning the file at path. What callers
// decide by, cancelled calls and a Trouble already told pass unchanged.
func asTrouble(path string, err error) error {
	var told *Trouble
	switch {
	case err == nil, errors.As(err, &told),
		errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return err
	}
	for _, sentinel := range []error{ErrNotThere, ErrBehind, ErrTaken, ErrName, ErrTooBig, fs.ErrExist} {
		if errors.Is(err, sentinel) {
			return err
		}
	}
	kind := kindOf(err)
	return &Trouble{Kind: kind, Words: words(kind, path, err), Err: err}
}

func kindOf(err error) string {
	var failed *sqlite.Error
	if errors.As(err, &failed) {
		return kindOfCode(failed.Code())
	}
	switch {
	case errors.Is(err, errNotWhole):
		return Damaged
	case isFull(err):
		return Full
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return ReadOnly
	}
	return Other
}

func kindOfCode(code int) string {
	switch code {
	case lib.SQLITE_IOERR_SHMSIZE:
		// The index of the write-ahead log could not grow.
		return Full
	case lib.SQLITE_IOERR_CORRUPTFS, lib.SQLITE_IOERR_DATA:
		return Damaged
	case lib.SQLITE_IOERR_LOCK, lib.SQLITE_IOERR_SHMLOCK, lib.SQLITE_IOERR_BLOCKED:
		return Locked
	}
	switch code & 0xff { // the primary code is the low byte
	case lib.SQLITE_FULL:
		return Full
	case lib.SQLITE_READONLY, lib.SQLITE_PERM, lib.SQLITE_CANTOPEN:
		return ReadOnly
	case lib.SQLITE_BUSY, lib.SQLITE_LOCKED, lib.SQLITE_PROTOCOL:
		return Locked
	case lib.SQLITE_CORRUPT, lib.SQLITE_NOTADB:
		return Damaged
	}
	return Other
}

// isFull knows Windows' own numbers too, which have no portable name: disk full and
// handle disk full.
func isFull(err error) bool {
	if errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) {
		return true
	}
	var number syscall.Errno
	return runtime.GOOS == "windows" && errors.As(err, &number) && (number == 112 || number == 39)
}

func words(kind, path string, err error) string {
	switch kind {
	case Full:
		return fmt.Sprintf("There is no room left on the disk to write %s. Make room and try again.", path)
	case ReadOnly:
		return fmt.Sprintf("%s cannot be written: the file, its folder or the disk is read-only for you. "+
			"Allow writing there, or set DROPLEG_STORE to a file elsewhere.", path)
	case Locked:
		return fmt.Sprintf("Another program is writing to %s and has not let go. "+
			"Wait for it or close it, then try again.", path)
	case Damaged:
		return damagedWords(path)
	}
	if errors.Is(err, sql.ErrConnDone) || strings.Contains(err.Error(), "database is closed") {
		return fmt.Sprintf("%s was already closed by this program.", path)
	}
	return fmt.Sprintf("%s could not be read or written.", path)
}

// damagedWords names the copies that lie beside the file, as they are the way out.
func damagedWords(path string) string {
	text := fmt.Sprintf("%s is damaged and was left as it is. Move it aside together with %s-wal and %s-shm, "+
		"if they are there, and put a backup in its place; or set DROPLEG_STORE to another file and start afresh.",
		path, filepath.Base(path), filepath.Base(path))
	var copies []string
	for _, name := range besideNames(path) {
		copies = append(copies, filepath.Base(name))
	}
	if len(copies) > 0 {
		text += " Copies made beside it: " + strings.Join(copies, ", ") + "."
	}
	return text
}
