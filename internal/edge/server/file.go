package server

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"strings"

	"dropleg/engine/document"
	"dropleg/internal/edge/desk"
	"dropleg/internal/shop/job"
)

// The forms in which a job leaves and comes in.
const (
	jsonType = "application/json"
	zipType  = "application/zip"
)

// A job with pictures is an archive of these two kinds of entries and no others.
const (
	jobEntry   = "job.json"
	pictureDir = "pictures/"
)

// The bounds of an archive: what is beyond is no job, whatever it says of itself.
const (
	mostEntries  = 4000 // a photo of each joint, and of each drain each week for years
	mostUnpacked = ArchiveLimit
	mostRatio    = 200 // of a JSON text full of blanks; pictures do not shrink
)

// ArchiveLimit is the size in bytes above which an archive is refused: four thousand photos as
// the page makes them.
const ArchiveLimit = 1 << 30

// isJobFile says whether a JSON text is a job, and no question for one.
func isJobFile(data []byte) bool {
	if len(data) > document.Limit {
		return true // whose reader says so
	}
	_, version := document.Keys(data, "dropleg")
	return version != nil
}

// Export is a job as a file: JSON, or an archive where it has pictures.
func Export(ctx context.Context, d *desk.Desk, id string) (name, kind string, data []byte, err error) {
	w, err := d.Work(ctx, id)
	if err != nil {
		return "", "", nil, err
	}
	now, err := w.Now("")
	if err != nil {
		return "", "", nil, err
	}
	text, err := now.Study.Job().Encode()
	if err != nil {
		return "", "", nil, fmt.Errorf("writing the job: %w", err)
	}
	pictures, err := d.Pictures(ctx, id)
	if err != nil {
		return "", "", nil, err
	}
	if len(pictures) == 0 {
		return id + ".json", jsonType, text, nil
	}
	data, err = pack(ctx, d, id, text, pictures)
	return id + ".zip", zipType, data, err
}

// pack writes the archive. The same job gives the same bytes: entries carry no time.
func pack(ctx context.Context, d *desk.Desk, id string, text []byte, pictures []string) ([]byte, error) {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	put := func(name string, method uint16, data []byte) error {
		e, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: method})
		if err != nil {
			return err
		}
		_, err = e.Write(data)
		return err
	}
	if err := put(jobEntry, zip.Deflate, text); err != nil {
		return nil, err
	}
	for _, name := range pictures {
		_, data, err := d.Picture(ctx, id, name)
		if err != nil {
			return nil, err
		}
		if err := put(pictureDir+name, zip.Store, data); err != nil {
			return nil, err
		}
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// getFile gives the job as a file to keep.
func (s *Server) getFile(w http.ResponseWriter, r *http.Request) {
	name, kind, data, err := Export(r.Context(), s.desk, r.PathValue("job"))
	if err != nil {
		failWith(w, r, err)
		return
	}
	h := w.Header()
	h.Set("Content-Type", kind)
	h.Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": name}))
	h.Set("Cache-Control", "no-store")
	_, _ = w.Write(data) // the reader has gone: nobody to tell
}

func (s *Server) importFile(w http.ResponseWriter, r *http.Request, data []byte) {
	id, err := Import(r.Context(), s.desk, data, "", "")
	if err != nil {
		failWith(w, r, err)
		return
	}
	created(w, r, id, nil)
}

func (s *Server) importZip(w http.ResponseWriter, r *http.Request) {
	data, _, ok := readBody(w, r, mostFile, zipType)
	if !ok {
		return
	}
	s.importFile(w, r, data)
}

// Import makes a job of a file: JSON, or an archive as Export writes it. The error
// is a *job.Refusal where the file cannot be used, with all that is wrong.
func Import(ctx context.Context, d *desk.Desk, data []byte, origin, sum string) (id string, err error) {
	text, pictures := data, []picture(nil)
	if IsArchive(data) {
		if text, pictures, err = unpack(data); err != nil {
			return "", err
		}
	}
	j, faults := ReadJob(text)
	if j == nil {
		return "", &job.Refusal{Findings: faults}
	}
	if id, err = d.Create(ctx, j, origin, sum); err != nil {
		return "", err
	}
	for _, p := range pictures {
		if err := d.PutPicture(ctx, id, p.name, p.kind, p.data); err != nil {
			return id, err
		}
	}
	return id, nil
}

// IsArchive tells a ZIP archive by its first bytes.
func IsArchive(data []byte) bool { return bytes.HasPrefix(data, []byte("PK\x03\x04")) }

// TextIn is the job's own text in an archive; its pictures are left out.
func TextIn(archive []byte) ([]byte, error) {
	text, _, err := unpack(archive)
	return text, err
}

// picture is one picture of a job.
type picture struct {
	name, kind string
	data       []byte
}

// unpack reads an archive in memory, never by the names in it, and no further than
// its bounds. What it claims of its sizes is not believed.
func unpack(data []byte) (text []byte, pictures []picture, err error) {
	bad := func(path, read, want string) error { return refusal(path, read, want, "") }
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, nil, bad("archive", err.Error(), "an archive that this program wrote")
	}
	if len(z.File) > mostEntries {
		return nil, nil, bad("archive", fmt.Sprintf("%d entries", len(z.File)), fmt.Sprintf("at most %d", mostEntries))
	}
	left := min(int64(mostUnpacked), int64(len(data))*mostRatio)
	for _, f := range z.File {
		name, isPicture := strings.CutPrefix(f.Name, pictureDir)
		if f.Name != jobEntry && (!isPicture || !pictureName(name)) {
			return nil, nil, bad("archive", fmt.Sprintf("an entry %q", clip(f.Name)), jobEntry+" and "+pictureDir+"…, with names of letters, digits and . _ -")
		}
		body, err := unpackOne(f, left)
		if err != nil {
			return nil, nil, bad(f.Name, err.Error(), "an entry that unpacks to no more than a job may have")
		}
		left -= int64(len(body))
		switch {
		case f.Name == jobEntry && text != nil:
			return nil, nil, bad("archive", "two entries "+jobEntry, "one")
		case f.Name == jobEntry:
			text = body
		default:
			kind, err := pictureKind(body)
			if err != nil {
				return nil, nil, bad(f.Name, err.Error(), pictureWanted)
			}
			pictures = append(pictures, picture{name, kind, body})
		}
	}
	if text == nil {
		return nil, nil, bad("archive", "no entry "+jobEntry, "an archive that this program wrote")
	}
	return text, pictures, nil
}

// unpackOne reads one entry to a limit.
func unpackOne(f *zip.File, left int64) ([]byte, error) {
	most := min(left, mostPicture)
	if f.Name == jobEntry {
		most = min(left, document.Limit)
	}
	e, err := f.Open()
	if err != nil {
		return nil, err
	}
	body, err := io.ReadAll(io.LimitReader(e, most+1))
	if closing := e.Close(); err == nil {
		err = closing
	}
	if err == nil && int64(len(body)) > most {
		err = errors.New("more than it may unpack to")
	}
	return body, err
}
