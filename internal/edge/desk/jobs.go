package desk

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"unicode"

	"dropleg/internal/answer/study"
	"dropleg/internal/edge/store"
	"dropleg/internal/shop/job"
)

// Jobs lists the jobs, the last changed first, those in the bin too (Removed).
// Where the store cannot be read, those that lie open are given with the error.
func (d *Desk) Jobs(ctx context.Context) ([]store.Entry, error) {
	list, err := d.keep.Jobs(ctx)
	at := map[string]int{}
	for i, e := range list {
		at[e.ID] = i
	}
	var unsaved []store.Entry
	for _, w := range d.open() {
		v := w.seen.Load()
		i, stored := at[w.id]
		if !stored {
			e := w.head()
			e.Title, e.Revision = v.study.Job().Title, v.revision
			unsaved = append(unsaved, e)
			continue
		}
		list[i].Title, list[i].Revision = v.study.Job().Title, max(v.revision, list[i].Revision)
	}
	return append(unsaved, list...), err
}

// Create puts a new job on the desk and into the store. Its id is made from its
// title and is no other job's. Origin and sum say where it came from and what it
// was there; they may be empty. Where the store fails, the job is there all the
// same, in memory, and is saved later.
func (d *Desk) Create(ctx context.Context, j *job.Job, origin, sum string) (id string, err error) {
	doc, err := j.Encode()
	if err != nil {
		return "", err
	}
	now := d.stamp()
	head := store.Entry{Title: j.Title, Created: now, Changed: now, Origin: origin, OriginSum: sum}
	stem := nameFrom(j.Title)
	for n := 1; ; n++ {
		if head.ID = stem; n > 1 {
			head.ID = fmt.Sprintf("%s-%d", stem, n)
		}
		s := d.claim(head.ID)
		if s == nil {
			continue
		}
		fault := d.keep.Create(context.WithoutCancel(ctx), head, doc)
		switch {
		case errors.Is(fault, store.ErrTaken):
			d.release(head.ID, s)
			s.mu.Unlock()
			continue
		case fault != nil && stem == nameFrom(j.Title):
			// Which ids are taken cannot be told now; one with the time in it is not.
			d.release(head.ID, s)
			s.mu.Unlock()
			stem, n = stem+now.Format("-20060102-150405"), 0
			continue
		}
		w := &Work{desk: d, id: head.ID}
		w.begin(j, head, doc, fault)
		s.work = w
		s.mu.Unlock()
		return head.ID, nil
	}
}

// begin is a job as it was created; fault is what kept it from the store.
func (w *Work) begin(j *job.Job, head store.Entry, doc []byte, fault error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if fault != nil {
		w.save.birth = &birth{head, doc}
		w.save.trouble = troubleWords(fault)
	}
	w.show(0, study.Of(j, w.desk.shelf), &variants{})
	w.save.shore = w.seen.Load()
	w.save.kept = -1 // the first snapshot brings the picture for the list
}

// head is the head of a job that is not in the store yet.
func (w *Work) head() store.Entry {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.save.birth != nil {
		return w.save.birth.head
	}
	return store.Entry{ID: w.id}
}

// Copy makes a new job of one as it stands, with its pictures. Title "" is the
// old one's.
func (d *Desk) Copy(ctx context.Context, id, title string) (string, error) {
	w, err := d.Work(ctx, id)
	if err != nil {
		return "", err
	}
	j := *w.seen.Load().study.Job()
	if title != "" {
		j.Title = title
	}
	fresh, err := d.Create(ctx, &j, "job "+id, "")
	if err != nil {
		return "", err
	}
	names, err := d.keep.Pictures(ctx, id)
	for _, name := range names {
		var kind string
		var data []byte
		if kind, data, err = d.keep.Picture(ctx, id, name); err == nil {
			err = d.keep.PutPicture(ctx, fresh, name, kind, data)
		}
		if err != nil {
			break
		}
	}
	if err != nil {
		return fresh, fmt.Errorf("the job is copied, its pictures are not all: %w", err)
	}
	return fresh, nil
}

// Remove puts a job into the bin and away from the desk.
func (d *Desk) Remove(ctx context.Context, id string) error {
	d.mu.Lock()
	s := d.slots[id]
	d.mu.Unlock()
	if s != nil {
		s.mu.Lock()
		defer s.mu.Unlock()
		if s.work != nil {
			if err := s.work.flush(); err != nil {
				return err
			}
			s.work.end()
		}
		d.release(id, s)
	}
	return d.keep.Remove(ctx, id)
}

// Restore takes a job out of the bin.
func (d *Desk) Restore(ctx context.Context, id string) error { return d.keep.Restore(ctx, id) }

// SetOrigin says where a job came from or was written to, and what it was there.
func (d *Desk) SetOrigin(ctx context.Context, id, origin, sum string) error {
	return d.keep.SetOrigin(ctx, id, origin, sum)
}

// Thumb is the small picture of a job, nil where there is none yet.
func (d *Desk) Thumb(ctx context.Context, id string) ([]byte, error) { return d.keep.Thumb(ctx, id) }

// PutPicture keeps a picture of a job; see store.PutPicture.
func (d *Desk) PutPicture(ctx context.Context, id, name, kind string, data []byte) error {
	return d.keep.PutPicture(ctx, id, name, kind, data)
}

// Picture is a picture of a job and its media type.
func (d *Desk) Picture(ctx context.Context, id, name string) (kind string, data []byte, err error) {
	return d.keep.Picture(ctx, id, name)
}

// Pictures lists the names of a job's pictures, in order.
func (d *Desk) Pictures(ctx context.Context, id string) ([]string, error) {
	return d.keep.Pictures(ctx, id)
}

// Backup writes all jobs to one file, after saving what waits; see store.Backup.
func (d *Desk) Backup(ctx context.Context, to string) error {
	for _, w := range d.open() {
		if err := w.flush(); err != nil {
			return fmt.Errorf("job %q has changes that cannot be saved, so that a backup would lack them: %w", w.id, err)
		}
	}
	return d.keep.Backup(ctx, to)
}

// nameFrom makes a name for an address out of a title: "Skerry Row Boatworks"
// gives "skerry-row-boatworks".
func nameFrom(title string) string {
	const most = 60
	plain := strings.NewReplacer("ä", "ae", "ö", "oe", "ü", "ue", "ß", "ss", "æ", "ae", "ø", "o", "å", "a",
		"é", "e", "è", "e", "ê", "e", "à", "a", "á", "a", "â", "a", "ç", "c", "ñ", "n", "í", "i", "ó", "o", "ô", "o", "ú", "u")
	var b strings.Builder
	gap := false
	for _, r := range plain.Replace(strings.ToLower(title)) {
		if r > unicode.MaxASCII || !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			gap = r != '\'' && r != '’' || gap
			continue
		}
		if gap && b.Len() > 0 {
			b.WriteByte('-')
		}
		gap = false
		b.WriteRune(r)
	}
	name := b.String()
	if name == "" {
		return "job"
	}
	if len(name) > most { // no word is cut, where there are several
		name = name[:most]
		if i := strings.LastIndexByte(name, '-'); i > 0 {
			name = name[:i]
		}
	}
	return name
}
