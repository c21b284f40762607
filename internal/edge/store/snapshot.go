package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
)

// newestKept is how many snapshots stay besides the first. Loading needs the newest
// alone; a few more let one go back a little without many steps, and give a second
// start where a newer program wrote what an older cannot read. The first lets one go
// back all the way, as no step is ever dropped.
const newestKept = 4

// Saved is a job as it lies in the store: the document at revision At and the steps
// after it.
type Saved struct {
	Entry
	Doc   []byte
	At    int // revision of Doc
	Steps []Step
}

// Load gives a job from its newest snapshot.
func (s *Store) Load(ctx context.Context, id string) (Saved, error) {
	return s.load(ctx, id, func(last int) int { return last })
}

// LoadAt gives a job as it stood at a revision: the newest snapshot that is not later,
// and the steps from there up to the revision. The entry is today's. ErrNotThere: the
// job has not come to that revision, or began after it.
func (s *Store) LoadAt(ctx context.Context, id string, revision int) (Saved, error) {
	return s.load(ctx, id, func(int) int { return revision })
}

func (s *Store) load(ctx context.Context, id string, upTo func(last int) int) (Saved, error) {
	var saved Saved
	err := s.view(ctx, func(tx *sql.Tx) error {
		var err error
		saved.Entry, err = scanEntry(tx.QueryRowContext(ctx, "SELECT "+entryColumns+" FROM job WHERE id = ?", id))
		if errors.Is(err, sql.ErrNoRows) {
			return notThere(id)
		}
		if err != nil {
			return err
		}
		revision := upTo(saved.Revision)
		err = tx.QueryRowContext(ctx,
			"SELECT revision, doc FROM snapshot WHERE job = ? AND revision <= ? ORDER BY revision DESC LIMIT 1",
			id, revision).Scan(&saved.At, &saved.Doc)
		if errors.Is(err, sql.ErrNoRows) || revision > saved.Revision {
			return fmt.Errorf("revision %d of job %s is %w", revision, id, ErrNotThere)
		}
		if err != nil {
			return err
		}
		saved.Steps, err = all(ctx, tx, scanStep, "SELECT "+stepColumns+fromSteps+
			"WHERE job = ? AND revision > ? AND revision <= ? ORDER BY revision", id, saved.At, revision)
		if err != nil {
			return err
		}
		return s.checkSteps(saved, revision)
	})
	if err != nil {
		return Saved{}, err
	}
	return saved, nil
}

// checkSteps holds that no step is missing, which no call of this package can bring
// about.
func (s *Store) checkSteps(saved Saved, upTo int) error {
	next := saved.At
	for _, step := range saved.Steps {
		if next++; step.Revision != next {
			break
		}
	}
	if next == upTo && len(saved.Steps) == upTo-saved.At {
		return nil
	}
	return &Trouble{
		Kind: Damaged, Words: damagedWords(s.path),
		Err: fmt.Errorf("job %s: steps are missing between revisions %d and %d", saved.ID, saved.At, upTo),
	}
}

// Keep takes in a snapshot: the document as it stood at a revision, with its title and
// a picture of it for the list (nil: the one there stays). Loading starts at the newest
// snapshot from then on; of the older ones the first and the newest few stay, and every
// step stays. A snapshot may come late: an earlier revision's title and picture do not
// replace a later one's. ErrBehind: the job has not come to that revision yet.
func (s *Store) Keep(ctx context.Context, id string, revision int, title string, doc, thumb []byte) error {
	return s.change(ctx, func(ctx context.Context, tx *sql.Tx) error {
		last, err := lastRevision(ctx, tx, id)
		if err != nil {
			return err
		}
		if revision > last {
			return fmt.Errorf("job %s stands at revision %d, a snapshot of %d %w", id, last, revision, ErrBehind)
		}
		if err := putSnapshot(ctx, tx, id, revision, doc); err != nil {
			return err
		}
		if err := thin(ctx, tx, id); err != nil {
			return err
		}
		return putFace(ctx, tx, id, revision, title, thumb)
	})
}

func putSnapshot(ctx context.Context, tx *sql.Tx, id string, revision int, doc []byte) error {
	if len(doc) == 0 {
		return fmt.Errorf("revision %d of job %s: the document is empty", revision, id)
	}
	_, err := tx.ExecContext(ctx, "INSERT OR REPLACE INTO snapshot (job, revision, doc) VALUES (?, ?, ?)",
		id, revision, doc)
	return err
}

// thin drops the snapshots between the first and the newest few.
func thin(ctx context.Context, tx *sql.Tx, id string) error {
	_, err := tx.ExecContext(ctx, `DELETE FROM snapshot WHERE job = ?1
		AND revision > (SELECT min(revision) FROM snapshot WHERE job = ?1)
		AND revision NOT IN (SELECT revision FROM snapshot WHERE job = ?1 ORDER BY revision DESC LIMIT ?2)`,
		id, newestKept)
	return err
}

func putFace(ctx context.Context, tx *sql.Tx, id string, revision int, title string, thumb []byte) error {
	done, err := tx.ExecContext(ctx, "UPDATE job SET title = ?, kept = ? WHERE id = ? AND kept <= ?",
		title, revision, id, revision)
	if err != nil {
		return err
	}
	rows, err := done.RowsAffected()
	if err != nil || rows == 0 || len(thumb) == 0 {
		return err
	}
	_, err = tx.ExecContext(ctx, "INSERT OR REPLACE INTO thumb (job, data) VALUES (?, ?)", id, thumb)
	return err
}

// Thumb gives the picture of a job for the list, nil where none was kept yet.
func (s *Store) Thumb(ctx context.Context, id string) ([]byte, error) {
	var data []byte
	err := s.view(ctx, func(tx *sql.Tx) error {
		if _, err := lastRevision(ctx, tx, id); err != nil {
			return err
		}
		err := tx.QueryRowContext(ctx, "SELECT data FROM thumb WHERE job = ?", id).Scan(&data)
		if errors.Is(err, sql.ErrNoRows) {
			return nil
		}
		return err
	})
	return data, err
}
