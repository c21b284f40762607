package cli

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strconv"

	"dropleg/engine/document"
	"dropleg/internal/edge/server"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// badInput is a file that cannot be used, with every problem in it.
type badInput struct {
	file     string
	problems []document.Problem
}

func (b *badInput) Error() string { return fmt.Sprintf("%s cannot be used", b.file) }

// unusable is a file that cannot be used for one reason.
func unusable(file, read, want string) error {
	return &badInput{file, []document.Problem{{Read: read, Want: want}}}
}

// tellProblems writes every problem, one a line, as editors read them:
// file:line: path: what was read; what is wanted; the nearest valid form.
func (c *call) tellProblems(b *badInput) {
	if c.json {
		text, err := json.MarshalIndent(map[string]any{"file": b.file, "problems": b.problems}, "", " ")
		if err == nil {
			fmt.Fprintf(c.Err, "%s\n", text)
			return
		}
	}
	for _, p := range b.problems {
		place := b.file
		if p.Line > 0 {
			place += ":" + strconv.Itoa(p.Line)
		}
		if p.Path != "" {
			place += ": " + p.Path
		}
		text := place + ": "
		if p.Read != "" {
			text += "read " + p.Read + "; "
		}
		text += "wanted " + p.Want
		if p.Nearest != "" {
			text += "; nearest " + quote(p.Nearest)
		}
		fmt.Fprintln(c.Err, text)
	}
}

func quote(s string) string { return strconv.Quote(s) }

// read is a file's text, or that of standard input for "-".
func (c *call) read(file string) (name string, data []byte, err error) {
	if name, data, err = c.raw(file, document.Limit); err != nil {
		return name, nil, err
	}
	return c.textual(name, data)
}

// readShop is the text of a job in a file: also out of the archive that an export with
// pictures is.
func (c *call) readShop(file string) (name string, data []byte, err error) {
	if name, data, err = c.raw(file, server.ArchiveLimit); err != nil {
		return name, nil, err
	}
	if server.IsArchive(data) {
		text, err := server.TextIn(data)
		return name, text, asInput(name, nil, err)
	}
	return c.textual(name, data)
}

// raw is what stands in a file, an archive up to so many bytes, or comes from standard input
// for "-".
func (c *call) raw(file string, archive int64) (name string, data []byte, err error) {
	if file == "-" {
		data, err = io.ReadAll(io.LimitReader(c.In, document.Limit+1))
		if err != nil {
			return "standard input", nil, fmt.Errorf("reading standard input: %w", err)
		}
		name = "standard input"
	} else {
		name = file
		if data, err = readUpTo(file, archive); err != nil {
			return name, nil, err
		}
	}
	if len(data) > document.Limit && !server.IsArchive(data) {
		return name, nil, tooLarge(name, "more than", document.Limit)
	}
	return name, data, nil
}

// textual refuses what is no text at all.
func (*call) textual(name string, data []byte) (string, []byte, error) {
	if what := foreign(data); what != "" {
		return name, nil, unusable(name, what, "a text in JSON")
	}
	return name, data, nil
}

// readFile reads a file that is one and is not too large to be a document.
func readFile(file string) ([]byte, error) { return readUpTo(file, document.Limit) }

// readUpTo is readFile where an archive, whose pictures take more than any text, may have so
// many bytes.
func readUpTo(file string, archive int64) ([]byte, error) {
	info, err := os.Stat(file)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, unusable(file, "no such file", "a file that is there, or - for standard input")
	case err != nil:
		return nil, unusable(file, err.Error(), "a file that can be read")
	case info.IsDir():
		return nil, unusable(file, "a folder", "a file")
	}
	// A pipe or a device has no size: no more is read of it than a document may have.
	f, err := os.Open(file)
	if err != nil {
		return nil, unusable(file, err.Error(), "a file that can be read")
	}
	defer f.Close()
	begin := bufio.NewReader(f)
	var most int64 = document.Limit
	if head, _ := begin.Peek(archiveHead); server.IsArchive(head) {
		most = archive
	}
	if info.Size() > most {
		return nil, tooLarge(file, fmt.Sprintf("%.0f MB, more than", float64(info.Size())/(1<<20)), most)
	}
	data, err := io.ReadAll(io.LimitReader(begin, most+1))
	if err != nil {
		return nil, unusable(file, err.Error(), "a file that can be read")
	}
	return data, nil
}

// tooLarge refuses a text, or an archive where most is what that may have.
func tooLarge(name, size string, most int64) error {
	mb, compared := most>>20, "a job of ten thousand parts takes a tenth of that"
	if most > document.Limit {
		compared = "four thousand photos take less"
	}
	return unusable(name, fmt.Sprintf("%s %d MB", size, mb), fmt.Sprintf("at most %d MB: %s", mb, compared))
}

const archiveHead = 4 // bytes that tell an archive

// foreign names what a file is that is no text at all, by its first bytes.
func foreign(data []byte) string {
	for _, kind := range []struct{ mark, words string }{
		{"PK\x03\x04", "a ZIP archive or an office document"},
		{"%PDF", "a PDF document"},
		{"\x89PNG", "a PNG picture"},
		{"\xff\xd8\xff", "a JPEG picture"},
		{"\x1f\x8b", "a gzip archive"},
		{"SQLite format 3", "a database"},
	} {
		if bytes.HasPrefix(data, []byte(kind.mark)) {
			return kind.words
		}
	}
	return ""
}

// readJobText is the text of a job: of a file where there is one of that name, else
// of the stored job.
func (c *call) readJobText(ctx context.Context, word string) (name string, data []byte, err error) {
	if word == "-" {
		return c.readShop(word)
	}
	if _, err := os.Stat(word); !errors.Is(err, fs.ErrNotExist) {
		return c.readShop(word)
	}
	data, near, ok, err := c.storedText(ctx, word)
	if err == nil && !ok {
		err = noJob(word, near)
	}
	return word, data, err
}

// noJob is a word that names no job.
func noJob(word, near string) error {
	return &badInput{word, []document.Problem{{
		Read: "no such file, nor a stored job of that name", Want: "a file that is there, a job that dropleg jobs lists, or - for standard input", Nearest: near,
	}}}
}

// readJob reads a job and sees that it can be computed. The units of the flag
// take the place of the job's own, in memory only.
func (c *call) readJob(ctx context.Context, word string) (*job.Job, error) {
	name, data, err := c.readJobText(ctx, word)
	if err != nil {
		return nil, err
	}
	j, found := job.Parse(data)
	if j == nil {
		return nil, &badInput{name, problemsOf(found, data)}
	}
	if found = job.Validate(j, catalog.Builtin()); !job.Usable(found) {
		return nil, &badInput{name, problemsOf(found, data)}
	}
	for _, p := range problemsOf(found, data) {
		fmt.Fprintf(c.Err, "%s:%d: %s: read %s; better %s\n", name, p.Line, p.Path, p.Read, p.Want)
	}
	if c.units != "" {
		system, err := c.system("")
		if err != nil {
			return nil, err
		}
		copied := *j
		copied.Site.Units = string(system)
		j = &copied
	}
	c.atWork()
	return j, nil
}

// problemsOf turns findings on the document into problems, each with its line.
func problemsOf(found []job.Finding, data []byte) []document.Problem {
	var problems []document.Problem
	for _, f := range found {
		if f.Path == "" {
			continue
		}
		p := document.Problem{Path: f.Path, Line: f.Line, Read: f.Read, Want: f.Want, Nearest: f.Nearest}
		if p.Line == 0 {
			p.Line = document.Locate(data, p.Path)
		}
		problems = append(problems, p)
	}
	return problems
}
