package store

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

//go:embed migrations/*.sql
var embedded embed.FS

// busyWait is how long a write waits for another process before it gives up. People
// wait for it: longer than any write of ours takes, short enough to be told.
const busyWait = 5 * time.Second

// readers is how many reads run at once; they wait for no write.
const readers = 4

// Store is an open file of jobs. Its methods may be called from several goroutines,
// and several Stores, here or in other processes, may have one file open.
//
// Cancelling a context ends a call that reads or that waits for its turn to write.
// A write that has begun is finished, so that no caller is left not knowing; only a
// failure of the disk at its very end can leave a step stored that was not
// acknowledged, never the other way round.
type Store struct {
	path   string
	file   os.FileInfo // the file as it was opened
	writer *sql.DB     // a single connection: writes queue here and not on the lock
	reader *sql.DB
	copier string // data source of the connection that copies: VACUUM INTO asks for one that may write
	fixed  bool   // the disk can only be read
}

// settings are what the tests set otherwise than people.
type settings struct {
	busy       time.Duration
	migrations fs.FS // numbered .sql files
}

// Open opens the file of jobs at path, making folder and file (for this person alone)
// where there are none, and brings the file's schema up to date, after copying the
// file beside it.
//
// Where file or disk can only be read, the Store reads and every write is a [Trouble].
// A damaged file, one of a newer schema and a database of another program are refused
// and left as they are.
func Open(ctx context.Context, path string) (*Store, error) {
	migrations, err := fs.Sub(embedded, "migrations")
	if err != nil {
		return nil, err
	}
	return openWith(ctx, path, settings{busy: busyWait, migrations: migrations})
}

func openWith(ctx context.Context, path string, set settings) (*Store, error) {
	if path == "" {
		return nil, &Trouble{Kind: Other, Words: "There is no folder for a person's data on this system. " +
			"Set DROPLEG_STORE to the file that is to hold the jobs."}
	}
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, asTrouble(path, err)
	}
	steps, err := readMigrations(set.migrations)
	if err != nil {
		return nil, err
	}
	if err := makeFile(path); err != nil {
		return nil, asTrouble(path, err)
	}
	s, err := openToWrite(ctx, path, set.busy, steps)
	var trouble *Trouble
	if errors.As(err, &trouble) && trouble.Kind == ReadOnly {
		if fixed, fault := openToRead(ctx, path, set.busy, steps); fault == nil {
			return fixed, nil
		}
	}
	return s, err
}

func openToWrite(ctx context.Context, path string, busy time.Duration, steps []string) (*Store, error) {
	s := &Store{
		path:   path,
		writer: openPool(writing(path, busy), 1),
		reader: openPool(reading(path, busy), readers),
		copier: source(path, busy),
	}
	err := s.settle(ctx, busy)
	if err == nil {
		err = s.migrate(ctx, steps)
	}
	if err == nil {
		err = s.mayWrite(ctx)
	}
	if err == nil {
		s.file, err = os.Stat(path)
	}
	if err != nil {
		return nil, asTrouble(path, errors.Join(err, s.Close()))
	}
	return s, nil
}

// openToRead opens a file that cannot be written. SQLite needs its log beside the file
// to read it; where that cannot be made, and none with anything in it lies there, the
// file is read as one that nobody changes.
func openToRead(ctx context.Context, path string, busy time.Duration, steps []string) (*Store, error) {
	var last error
	for _, how := range []string{"mode=ro", "mode=ro&immutable=1"} {
		if log, err := os.Stat(path + "-wal"); err == nil && log.Size() > 0 && last != nil {
			break
		}
		from := source(path, busy) + "&" + how
		s := &Store{path: path, writer: openPool(from, 1), reader: openPool(from, readers), copier: from, fixed: true}
		if last = s.isCurrent(ctx, len(steps)); last == nil {
			return s, nil
		}
		last = errors.Join(last, s.Close())
	}
	return nil, asTrouble(path, last)
}

// settle opens the writing connection. Two processes that turn a new file to WAL at
// once do not wait for each other as elsewhere: SQLite says busy at once.
func (s *Store) settle(ctx context.Context, busy time.Duration) error {
	deadline := time.After(busy)
	for {
		err := s.writer.PingContext(ctx)
		if err == nil || kindOf(err) != Locked {
			return err
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-deadline:
			return err
		case <-time.After(10 * time.Millisecond):
		}
	}
}

// mayWrite tells a file that cannot be written. One that another process is writing
// to can.
func (s *Store) mayWrite(ctx context.Context) error {
	tx, err := s.writer.BeginTx(ctx, nil)
	if err != nil {
		if kindOf(err) == Locked {
			return nil
		}
		return err
	}
	return tx.Rollback()
}

// Close closes the file. Nothing is lost without it.
func (s *Store) Close() error {
	// The writer goes last: whoever goes last brings the log into the file.
	return asTrouble(s.path, errors.Join(s.reader.Close(), s.writer.Close()))
}

// Changed gives a number that is another one whenever another process, or another
// Store of this one, has written to the file. What this Store writes does not count.
func (s *Store) Changed(ctx context.Context) (int64, error) {
	conn, err := s.writer.Conn(ctx)
	if err != nil {
		return 0, asTrouble(s.path, err)
	}
	defer conn.Close()
	// Uncancelled: an interrupted connection is replaced, and the next counts anew.
	var number int64
	err = conn.QueryRowContext(context.WithoutCancel(ctx), "PRAGMA data_version").Scan(&number)
	return number, asTrouble(s.path, err)
}

// change runs one transaction that writes. It is durable when change returns nil.
func (s *Store) change(ctx context.Context, f func(context.Context, *sql.Tx) error) error {
	if s.fixed {
		return &Trouble{Kind: ReadOnly, Words: words(ReadOnly, s.path, nil)}
	}
	conn, err := s.writer.Conn(ctx)
	if err != nil {
		return asTrouble(s.path, err)
	}
	defer conn.Close()
	if err := s.inPlace(); err != nil {
		return err
	}
	whole := context.WithoutCancel(ctx)
	tx, err := conn.BeginTx(whole, nil)
	if err != nil {
		return asTrouble(s.path, err)
	}
	if err := f(whole, tx); err != nil {
		// A rollback that fails says less than what led to it.
		_ = tx.Rollback()
		return asTrouble(s.path, err)
	}
	return asTrouble(s.path, tx.Commit())
}

// inPlace tells a file that was moved away, deleted or replaced while it was open:
// what is written then would be acknowledged and never seen again.
func (s *Store) inPlace() error {
	now, err := os.Stat(s.path)
	if err == nil && os.SameFile(now, s.file) {
		return nil
	}
	return &Trouble{Kind: Other, Err: err, Words: s.path + " was moved, replaced or deleted while it was open, " +
		"and nothing more is written to it. Put it back, or start again with the file that is there now."}
}

// view runs reads that all see one state of the file.
func (s *Store) view(ctx context.Context, f func(*sql.Tx) error) error {
	tx, err := s.reader.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return asTrouble(s.path, err)
	}
	err = f(tx)
	_ = tx.Rollback() // nothing was written
	return asTrouble(s.path, err)
}
