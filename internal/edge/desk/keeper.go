package desk

import (
	"context"

	"dropleg/internal/edge/store"
)

// keeper is what the desk asks of a store: a store.Store, or memory.
type keeper interface {
	Jobs(ctx context.Context) ([]store.Entry, error)
	Create(ctx context.Context, e store.Entry, doc []byte) error
	Load(ctx context.Context, id string) (store.Saved, error)
	LoadAt(ctx context.Context, id string, revision int) (store.Saved, error)
	Append(ctx context.Context, id string, s store.Step) error
	Keep(ctx context.Context, id string, revision int, title string, doc, thumb []byte) error
	History(ctx context.Context, id string, before, most int) ([]store.Step, error)
	Steps(ctx context.Context, id string, after int) ([]store.Step, error)
	Thumb(ctx context.Context, id string) ([]byte, error)
	Remove(ctx context.Context, id string) error
	Restore(ctx context.Context, id string) error
	SetOrigin(ctx context.Context, id, origin, sum string) error
	PutPicture(ctx context.Context, id, name, kind string, data []byte) error
	Picture(ctx context.Context, id, name string) (kind string, data []byte, err error)
	Pictures(ctx context.Context, id string) ([]string, error)
	Backup(ctx context.Context, to string) error
	Changed(ctx context.Context) (int64, error)
}

var (
	_ keeper = (*store.Store)(nil)
	_ keeper = (*memory)(nil)
)
