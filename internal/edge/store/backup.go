package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Backup writes all jobs to one file, as they stand at one moment, while work goes on.
// The file gets its name only when it was written, synced, opened and checked. It is a
// store itself: put in place of a damaged one, it is opened like any other. A file that
// is there is never overwritten: the error is then fs.ErrExist.
func (s *Store) Backup(ctx context.Context, to string) error {
	to, err := filepath.Abs(to)
	if err != nil {
		return asTrouble(to, err)
	}
	if _, err := os.Lstat(to); err == nil {
		return fmt.Errorf("there is already something called %s, and a backup overwrites nothing: %w", to, fs.ErrExist)
	}
	// Two backups to one folder at once do not meet.
	part, err := os.CreateTemp(filepath.Dir(to), filepath.Base(to)+".part-*")
	if err != nil {
		return asTrouble(to, err)
	}
	if err := part.Close(); err != nil {
		return asTrouble(to, err)
	}
	return s.copyTo(ctx, to, part.Name())
}

// copyTo makes a checked copy under the name part and gives it its name at the end.
func (s *Store) copyTo(ctx context.Context, name, part string) error {
	if err := s.writePart(ctx, part); err != nil {
		if fault := os.Remove(part); fault != nil && !errors.Is(fault, fs.ErrNotExist) {
			err = errors.Join(err, fault)
		}
		return err
	}
	return asTrouble(name, publish(part, name))
}

func (s *Store) writePart(ctx context.Context, part string) error {
	// VACUUM INTO takes an empty file, which keeps its mode.
	file, err := os.OpenFile(part, os.O_CREATE|os.O_TRUNC|os.O_RDWR, 0o600)
	if err != nil {
		return asTrouble(part, err)
	}
	defer file.Close()
	db := openPool(s.copier, 1)
	defer db.Close()
	// A copy of a damaged file may look whole and lack what could not be read.
	if err := checkWhole(ctx, db); err != nil {
		return asTrouble(s.path, err)
	}
	if _, err := db.ExecContext(ctx, "VACUUM INTO ?", part); err != nil {
		return asTrouble(part, err)
	}
	if err := file.Sync(); err != nil {
		return asTrouble(part, err)
	}
	return s.checkCopy(ctx, part)
}

// checkCopy opens a copy and reads all of it.
func (s *Store) checkCopy(ctx context.Context, part string) error {
	db := openPool(reading(part, 0)+"&mode=ro&immutable=1", 1)
	defer db.Close()
	var version, application int
	fault := errors.Join(
		checkWhole(ctx, db),
		db.QueryRowContext(ctx, "PRAGMA user_version").Scan(&version),
		db.QueryRowContext(ctx, "PRAGMA application_id").Scan(&application))
	if fault == nil && (version == 0 || application != applicationID) {
		fault = fmt.Errorf("schema %d, application %#x", version, application)
	}
	if fault == nil || ctx.Err() != nil {
		return errors.Join(ctx.Err(), fault)
	}
	return &Trouble{Kind: Damaged, Err: fault, Words: fmt.Sprintf("The copy of %s in %s was opened and is not good; "+
		"it was thrown away. The store may be damaged, or the disk that was written to.", s.path, filepath.Dir(part))}
}

// checkWhole gives what SQLite's own check of every page and index finds.
func checkWhole(ctx context.Context, db *sql.DB) error {
	var said string
	if err := db.QueryRowContext(ctx, "PRAGMA integrity_check(1)").Scan(&said); err != nil {
		return err
	}
	if said != "ok" {
		return fmt.Errorf("%w: %s", errNotWhole, said)
	}
	return nil
}

var errNotWhole = errors.New("the check of the file failed")
