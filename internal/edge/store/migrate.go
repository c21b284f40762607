package store

import (
	"context"
	"database/sql"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// applicationID tells our files from other programs' databases; the first migration
// writes it.
const applicationID = 0x64726f70

// readMigrations gives the migrations in order: the n-th brings schema n-1 to n. Their
// names begin with their number, without a gap: 0001_jobs.sql.
func readMigrations(from fs.FS) ([]string, error) {
	names, err := fs.Glob(from, "*.sql")
	if err != nil {
		return nil, err
	}
	slices.Sort(names)
	texts := make([]string, len(names))
	for i, name := range names {
		if want := fmt.Sprintf("%04d_", i+1); !strings.HasPrefix(name, want) {
			return nil, fmt.Errorf("migration %s: its name should begin with %s", name, want)
		}
		text, err := fs.ReadFile(from, name)
		if err != nil {
			return nil, err
		}
		texts[i] = string(text)
	}
	return texts, nil
}

// migrate brings the schema up to date, all that is missing in one transaction that also
// writes its number: a kill leaves one schema or the other, and nobody sees a new file half
// made. A file that holds anything is checked and copied beside itself first, under the
// lock of that transaction, so that the copy is the very file that is changed.
func (s *Store) migrate(ctx context.Context, steps []string) error {
	version, err := s.schema(ctx, s.writer, len(steps))
	if err != nil || version == len(steps) {
		return err
	}
	if err := s.bring(ctx, steps); err != nil {
		return err
	}
	// Another process may have brought it further meanwhile.
	_, err = s.schema(ctx, s.writer, len(steps))
	return err
}

// bring runs the migrations that the file lacks.
func (s *Store) bring(ctx context.Context, steps []string) error {
	tx, err := s.writer.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	// After a commit this does nothing.
	defer func() { _ = tx.Rollback() }()
	var version int
	if err := tx.QueryRowContext(ctx, "PRAGMA user_version").Scan(&version); err != nil {
		return err
	}
	if version >= len(steps) {
		return nil // another process was quicker
	}
	if version > 0 {
		if err := s.copyBeside(ctx, version); err != nil {
			return err
		}
	}
	for number := version + 1; number <= len(steps); number++ {
		if _, err := tx.ExecContext(ctx, steps[number-1]); err != nil {
			return fmt.Errorf("bringing the schema to %d: %w", number, err)
		}
	}
	if _, err := tx.ExecContext(ctx, fmt.Sprintf("PRAGMA user_version = %d", len(steps))); err != nil {
		return err
	}
	return tx.Commit()
}

// schema gives the number of the file's schema, and refuses files that this program
// did not write or does not know how to read.
func (s *Store) schema(ctx context.Context, db *sql.DB, newest int) (int, error) {
	var version, application, things int
	// In one statement: another process may be making the file at this very moment.
	row := db.QueryRowContext(ctx, `SELECT (SELECT user_version FROM pragma_user_version),
		(SELECT application_id FROM pragma_application_id), count(*) FROM sqlite_schema`)
	if err := row.Scan(&version, &application, &things); err != nil {
		return 0, err
	}
	empty := version == 0 && application == 0 && things == 0
	switch {
	case !empty && application != applicationID:
		return 0, &Trouble{Kind: Other, Words: s.path + " is a database of another program and was left as it is. " +
			"Set DROPLEG_STORE to the file that is to hold the jobs."}
	case version > newest:
		return 0, &Trouble{Kind: Other, Words: fmt.Sprintf("%s was written by a newer dropleg: its schema is %d, "+
			"this program knows those up to %d. Update this program, or set DROPLEG_STORE to another file. "+
			"The file was left as it is.", s.path, version, newest)}
	}
	return version, nil
}

// isCurrent refuses an older schema where the file cannot be written.
func (s *Store) isCurrent(ctx context.Context, newest int) error {
	version, err := s.schema(ctx, s.writer, newest)
	if err == nil && version < newest {
		return &Trouble{Kind: ReadOnly, Words: fmt.Sprintf("%s was written by an older dropleg and has to be brought "+
			"up to date, which needs it to be writable. Allow writing there, or copy it elsewhere "+
			"and set DROPLEG_STORE to the copy.", s.path)}
	}
	return err
}

// copyBeside copies the file before a migration: jobs.db.schema-1, and
// jobs.db.schema-1-2 where that is taken. No copy is ever overwritten or removed.
func (s *Store) copyBeside(ctx context.Context, version int) error {
	name := fmt.Sprintf("%s.schema-%d", s.path, version)
	taken := besideNames(s.path)
	for n := 2; slices.Contains(taken, name); n++ {
		name = fmt.Sprintf("%s.schema-%d-%d", s.path, version, n)
	}
	// Under the lock nobody else makes one: what lies there was left by a kill.
	return s.copyTo(ctx, name, s.path+".schema-part")
}

// besideNames lists the copies that migrations made.
func besideNames(path string) []string {
	folder, file := filepath.Split(path)
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil
	}
	var names []string
	for _, entry := range entries {
		number, ours := strings.CutPrefix(entry.Name(), file+".schema-")
		if ours && strings.Trim(number, "0123456789-") == "" {
			names = append(names, folder+entry.Name())
		}
	}
	return names
}
