package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
)

// PictureMost is the size of a picture in bytes: a large sheet scanned at 300 dots to
// the inch, or a photograph.
const PictureMost = 32 << 20

// PutPicture keeps a picture of a job under a name, in place of the one there was. Kind
// is its media type. A caller that can undo gives each content a name of its own.
// ErrName: name or kind is empty, longer than 120 bytes or not printable, or the name
// has a slash. ErrTooBig: more than [PictureMost].
func (s *Store) PutPicture(ctx context.Context, id, name, kind string, data []byte) error {
	if err := checkName(name); err != nil {
		return fmt.Errorf("picture %w", err)
	}
	if err := checkKind(kind); err != nil {
		return err
	}
	if len(data) > PictureMost {
		return fmt.Errorf("picture %s of %d bytes %w: %d at most", name, len(data), ErrTooBig, PictureMost)
	}
	return s.change(ctx, func(ctx context.Context, tx *sql.Tx) error {
		if _, err := lastRevision(ctx, tx, id); err != nil {
			return err
		}
		if data == nil {
			data = []byte{} // NULL is no picture
		}
		_, err := tx.ExecContext(ctx, "INSERT OR REPLACE INTO picture (job, name, kind, data) VALUES (?, ?, ?, ?)",
			id, name, kind, data)
		return err
	})
}

// checkKind holds a media type to what can stand in a header: it is sent back in one.
func checkKind(kind string) error {
	ok := kind != "" && len(kind) <= nameMost
	for _, b := range []byte(kind) {
		ok = ok && b >= ' ' && b <= '~'
	}
	if !ok {
		return fmt.Errorf("picture kind %.140q %w: a media type is wanted, such as image/png", kind, ErrName)
	}
	return nil
}

// Picture gives a picture and its media type.
func (s *Store) Picture(ctx context.Context, id, name string) (kind string, data []byte, err error) {
	err = s.view(ctx, func(tx *sql.Tx) error {
		err := tx.QueryRowContext(ctx, "SELECT kind, data FROM picture WHERE job = ? AND name = ?", id, name).
			Scan(&kind, &data)
		if errors.Is(err, sql.ErrNoRows) {
			return fmt.Errorf("picture %q of job %q is %w", name, id, ErrNotThere)
		}
		return err
	})
	return kind, data, err
}

// Pictures gives the names of a job's pictures, in order.
func (s *Store) Pictures(ctx context.Context, id string) ([]string, error) {
	var names []string
	err := s.view(ctx, func(tx *sql.Tx) error {
		_, err := lastRevision(ctx, tx, id)
		if err == nil {
			names, err = all(ctx, tx, func(row interface{ Scan(...any) error }) (name string, err error) {
				return name, row.Scan(&name)
			}, "SELECT name FROM picture WHERE job = ? ORDER BY name", id)
		}
		return err
	})
	return names, err
}
