package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// nameMost is the length of ids and names in bytes.
const nameMost = 120

// Entry is the head of a job. Times are kept to the microsecond and come back in UTC.
type Entry struct {
	ID, Title string
	Created   time.Time
	Changed   time.Time // when the last step was taken
	Revision  int       // the last one
	Origin    string    // where it came from: a file, an example, another job
	OriginSum string    // a checksum of what it was then
	Removed   bool      // in the bin
}

const entryColumns = "id, title, created, changed, revision, origin, origin_sum, removed"

func scanEntry(row interface{ Scan(...any) error }) (Entry, error) {
	var e Entry
	var created, changed int64
	err := row.Scan(&e.ID, &e.Title, &created, &changed, &e.Revision, &e.Origin, &e.OriginSum, &e.Removed)
	e.Created, e.Changed = fromMicros(created), fromMicros(changed)
	return e, err
}

func fromMicros(t int64) time.Time { return time.UnixMicro(t).UTC() }

// Jobs lists all jobs, those in the bin too, the last changed first.
func (s *Store) Jobs(ctx context.Context) ([]Entry, error) {
	var entries []Entry
	err := s.view(ctx, func(tx *sql.Tx) error {
		var err error
		entries, err = all(ctx, tx, scanEntry, "SELECT "+entryColumns+" FROM job ORDER BY changed DESC, id")
		return err
	})
	return entries, err
}

// Create takes in a job whose document is doc at revision e.Revision. ErrTaken: there
// is one of this id, in the bin perhaps. ErrName: the id cannot be one.
func (s *Store) Create(ctx context.Context, e Entry, doc []byte) error {
	if err := checkName(e.ID); err != nil {
		return err
	}
	return s.change(ctx, func(ctx context.Context, tx *sql.Tx) error {
		if _, err := lastRevision(ctx, tx, e.ID); err == nil {
			return fmt.Errorf("job %s %w", e.ID, ErrTaken)
		} else if !errors.Is(err, ErrNotThere) {
			return err
		}
		_, err := tx.ExecContext(ctx,
			"INSERT INTO job ("+entryColumns+", kept) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
			e.ID, e.Title, e.Created.UnixMicro(), e.Changed.UnixMicro(), e.Revision, e.Origin, e.OriginSum, e.Removed, e.Revision)
		if err != nil {
			return err
		}
		return putSnapshot(ctx, tx, e.ID, e.Revision, doc)
	})
}

// Remove puts a job into the bin. Nothing of it is lost, and it can be read and
// written as before.
func (s *Store) Remove(ctx context.Context, id string) error {
	return s.changeJob(ctx, id, "removed = 1")
}

// Restore takes a job out of the bin.
func (s *Store) Restore(ctx context.Context, id string) error {
	return s.changeJob(ctx, id, "removed = 0")
}

// SetOrigin says where a job came from, and a checksum of what it was there.
func (s *Store) SetOrigin(ctx context.Context, id, origin, sum string) error {
	return s.changeJob(ctx, id, "origin = ?, origin_sum = ?", origin, sum)
}

// changeJob sets columns of a job's row.
func (s *Store) changeJob(ctx context.Context, id, set string, values ...any) error {
	return s.change(ctx, func(ctx context.Context, tx *sql.Tx) error {
		done, err := tx.ExecContext(ctx, "UPDATE job SET "+set+" WHERE id = ?", append(values, id)...)
		if err != nil {
			return err
		}
		if rows, err := done.RowsAffected(); err != nil || rows == 0 {
			return errors.Join(err, notThere(id))
		}
		return nil
	})
}

func lastRevision(ctx context.Context, tx *sql.Tx, id string) (int, error) {
	var last int
	err := tx.QueryRowContext(ctx, "SELECT revision FROM job WHERE id = ?", id).Scan(&last)
	if errors.Is(err, sql.ErrNoRows) {
		err = notThere(id)
	}
	return last, err
}

func notThere(id string) error { return fmt.Errorf("job %q is %w", id, ErrNotThere) }

// checkName refuses what could not stand in an address or name a file when the job is
// exported.
func checkName(name string) error {
	fault := ""
	switch {
	case name == "":
		fault = "it is empty"
	case len(name) > nameMost:
		fault = fmt.Sprintf("it is longer than %d bytes", nameMost)
	case !utf8.ValidString(name) || strings.ContainsFunc(name, unicode.IsControl):
		fault = "it has characters that cannot be printed"
	case strings.ContainsAny(name, `/\`):
		fault = "it has a slash"
	case name == "." || name == "..":
		fault = "it means a folder"
	default:
		return nil
	}
	return fmt.Errorf("%.140q %w: %s", name, ErrName, fault)
}

// all reads every row of a query.
func all[T any](ctx context.Context, tx *sql.Tx, scan func(interface{ Scan(...any) error }) (T, error), query string, values ...any) ([]T, error) {
	rows, err := tx.QueryContext(ctx, query, values...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var got []T
	for rows.Next() {
		one, err := scan(rows)
		if err != nil {
			return nil, err
		}
		got = append(got, one)
	}
	return got, rows.Err()
}
