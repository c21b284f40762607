package cli

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/edge/desk"
	"dropleg/internal/edge/server"
	"dropleg/internal/edge/store"
	"dropleg/internal/shop/catalog"
)

// openStore opens the store of jobs. Where there is none yet it is made only if
// fresh says so; else the store is nil.
func (c *call) openStore(ctx context.Context, fresh bool) (*store.Store, error) {
	path := store.Path(c.Env)
	if _, err := os.Stat(path); !fresh && err != nil {
		if path == "" || errors.Is(err, fs.ErrNotExist) {
			return nil, nil
		}
	}
	return store.Open(ctx, path)
}

// onDesk runs f with the stored jobs on a desk and puts everything away after it.
// The desk is of jobs in memory, and so empty, where there is no store yet.
func (c *call) onDesk(ctx context.Context, fresh bool, f func(*desk.Desk) error) (err error) {
	s, err := c.openStore(ctx, fresh)
	if err != nil {
		return inWords(err)
	}
	d := desk.New(desk.Options{Store: s, Shelf: catalog.Builtin(), Thumb: server.Thumb})
	return putAway(d, s, f(d))
}

// putAway closes the desk, which saves what waits, and the store; what went wrong
// before counts first.
func putAway(d *desk.Desk, s *store.Store, err error) error {
	if closing := d.Close(); err == nil {
		err = inWords(closing)
	}
	if s == nil {
		return err
	}
	if closing := s.Close(); err == nil {
		err = inWords(closing)
	}
	return err
}

// inWords leaves of a trouble with the disk what it says to people.
func inWords(err error) error {
	var trouble *store.Trouble
	if errors.As(err, &trouble) {
		return errors.New(trouble.Words)
	}
	return err
}

// find is the stored job that a word names: by its id, or by the file that it came
// from. What is in the bin is not found.
func find(ctx context.Context, d *desk.Desk, word string) (store.Entry, error) {
	list, err := d.Jobs(ctx)
	if err != nil {
		return store.Entry{}, inWords(err)
	}
	var ids []string
	for _, e := range list {
		if e.ID == word && !e.Removed {
			return e, nil
		}
		if !e.Removed {
			ids = append(ids, e.ID)
		}
	}
	if _, err := os.Stat(word); err == nil {
		if e, ok := fromFile(list, word); ok {
			return e, nil
		}
		return store.Entry{}, unusable(word, "a file that is not among the stored jobs", "a stored job; dropleg import makes one of the file")
	}
	return store.Entry{}, &badInput{word, []document.Problem{{
		Read: "no stored job of that name", Want: "one that dropleg jobs lists", Nearest: unit.Nearest(word, ids),
	}}}
}

// fromFile is the job that was made of a file, the last changed of several.
func fromFile(list []store.Entry, file string) (store.Entry, bool) {
	path, err := filepath.Abs(file)
	if err != nil {
		return store.Entry{}, false
	}
	for _, e := range list {
		if e.Origin == path && !e.Removed {
			return e, true
		}
	}
	return store.Entry{}, false
}

// storedText is the file of a stored job; ok is false where there is no such job,
// near then being the id that is meant perhaps.
func (c *call) storedText(ctx context.Context, id string) (text []byte, near string, ok bool, err error) {
	err = c.onDesk(ctx, false, func(d *desk.Desk) error {
		e, missing := find(ctx, d, id)
		var bad *badInput
		if errors.As(missing, &bad) {
			near = bad.problems[0].Nearest
			return nil
		}
		if missing != nil {
			return missing
		}
		w, err := d.Work(ctx, e.ID)
		if err != nil {
			return inWords(err)
		}
		now, err := w.Now("")
		if err != nil {
			return err
		}
		ok = true
		if text, err = now.Study.Job().Encode(); err != nil {
			return fmt.Errorf("writing the job: %w", err)
		}
		return nil
	})
	return text, near, ok, err
}
