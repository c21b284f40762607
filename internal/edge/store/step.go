package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"time"
)

// Step is one revision's change. Empty bytes come back as nil.
type Step struct {
	Revision int
	When     time.Time // kept to the microsecond
	By       string    // who
	Plan     string    // the alternative it was made in, "" the job itself
	Kind     string    // edit, undo, redo, replace
	Of       int       // the revision undone or redone
	Words    string
	Edit     []byte
	Inverse  []byte
	Doc      []byte // the whole document, where it was replaced
	// Key is what a step was sent under, so that it is known when it comes again, "" for
	// none. Made and Merged are what its sender was told besides; they are kept with a
	// key alone.
	Key    string
	Made   []string
	Merged bool
}

const (
	ownColumns     = "revision, at, by, plan, kind, of, words, edit, inverse"
	historyColumns = ownColumns + ", COALESCE(key, ''), COALESCE(made, ''), COALESCE(merged, 0)"
	stepColumns    = historyColumns + ", doc"
	fromSteps      = " FROM step LEFT JOIN sent USING (job, revision) "
)

func scanHistory(row interface{ Scan(...any) error }) (Step, error) {
	return scanWith(row)
}

func scanStep(row interface{ Scan(...any) error }) (Step, error) {
	var doc []byte
	step, err := scanWith(row, &doc)
	step.Doc = doc
	return step, err
}

// scanWith reads the columns of the history, and those that come after.
func scanWith(row interface{ Scan(...any) error }, more ...any) (Step, error) {
	var step Step
	var when int64
	var made string
	err := row.Scan(append([]any{
		&step.Revision, &when, &step.By, &step.Plan, &step.Kind, &step.Of, &step.Words,
		&step.Edit, &step.Inverse, &step.Key, &made, &step.Merged,
	}, more...)...)
	step.When = fromMicros(when)
	if err == nil && made != "" {
		err = json.Unmarshal([]byte(made), &step.Made)
	}
	return step, err
}

// Append takes in the step after the last, which is on the disk when it returns nil.
// ErrBehind: step.Revision is not the last plus one, as another was quicker or one is
// missing. ErrNotThere: there is no such job.
func (s *Store) Append(ctx context.Context, id string, step Step) error {
	return s.change(ctx, func(ctx context.Context, tx *sql.Tx) error {
		last, err := lastRevision(ctx, tx, id)
		if err != nil {
			return err
		}
		if step.Revision != last+1 {
			return fmt.Errorf("job %s stands at revision %d, step %d %w", id, last, step.Revision, ErrBehind)
		}
		when := step.When.UnixMicro()
		_, err = tx.ExecContext(ctx,
			"INSERT INTO step (job, "+ownColumns+", doc) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
			id, step.Revision, when, step.By, step.Plan, step.Kind, step.Of, step.Words,
			blob(step.Edit), blob(step.Inverse), blob(step.Doc))
		if err != nil {
			return err
		}
		if err := putSent(ctx, tx, id, step); err != nil {
			return err
		}
		_, err = tx.ExecContext(ctx, "UPDATE job SET revision = ?, changed = ? WHERE id = ?", step.Revision, when, id)
		return err
	})
}

// putSent keeps how a step was sent, where that is to be known again.
func putSent(ctx context.Context, tx *sql.Tx, id string, step Step) error {
	if step.Key == "" {
		return nil
	}
	made := ""
	if len(step.Made) > 0 {
		list, err := json.Marshal(step.Made)
		if err != nil {
			return err
		}
		made = string(list)
	}
	_, err := tx.ExecContext(ctx, "INSERT INTO sent (job, revision, key, made, merged) VALUES (?, ?, ?, ?, ?)",
		id, step.Revision, step.Key, made, step.Merged)
	return err
}

// History gives the steps before a revision, the newest first, most of them at most
// and without documents. Before 0 begins at the newest, most 0 gives all.
func (s *Store) History(ctx context.Context, id string, before, most int) ([]Step, error) {
	query := "SELECT " + historyColumns + fromSteps + "WHERE job = ?"
	values := []any{id}
	if before > 0 {
		query, values = query+" AND revision < ?", append(values, before)
	}
	query += " ORDER BY revision DESC"
	if most > 0 {
		query, values = query+" LIMIT ?", append(values, most)
	}
	return s.steps(ctx, id, scanHistory, query, values...)
}

// Steps gives the steps after a revision, in order.
func (s *Store) Steps(ctx context.Context, id string, after int) ([]Step, error) {
	return s.steps(ctx, id, scanStep,
		"SELECT "+stepColumns+fromSteps+"WHERE job = ? AND revision > ? ORDER BY revision", id, after)
}

func (s *Store) steps(ctx context.Context, id string, scan func(interface{ Scan(...any) error }) (Step, error),
	query string, values ...any,
) ([]Step, error) {
	var steps []Step
	err := s.view(ctx, func(tx *sql.Tx) error {
		_, err := lastRevision(ctx, tx, id)
		if err == nil {
			steps, err = all(ctx, tx, scan, query, values...)
		}
		return err
	})
	return steps, err
}

// blob keeps nothing as NULL.
func blob(data []byte) any {
	if len(data) == 0 {
		return nil
	}
	return data
}
