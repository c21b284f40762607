package intake

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strconv"
	"strings"
)

// Bounds of a workbook: what it may unpack to, so that a small file cannot fill the memory.
const (
	mostUnpacked = 48 << 20 // all parts that are read together
	mostParts    = 4000
	mostStrings  = 1_000_000
	mostSheets   = 64
)

// workbook is a workbook (ECMA-376, SpreadsheetML) while it is read.
type workbook struct {
	parts   map[string]*zip.File
	left    int64 // bytes that may still be unpacked
	strings []string
	dates   []bool // by cell style: the number is a date
	from    epoch
}

// errEnough ends the reading of a part of which no more is wanted.
var errEnough = errors.New("enough")

// errUnpacked says that the parts of a workbook are larger than is read.
var errUnpacked = errors.New("unpacked too large")

// readWorkbook reads all sheets of a workbook.
func readWorkbook(data []byte) *File {
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return unread("an archive that is cut short or damaged: "+err.Error(), "a whole workbook", "save it anew as XLSX", "save it as CSV")
	}
	if len(archive.File) > mostParts {
		return unread(fmt.Sprintf("an archive of %d parts", len(archive.File)), "a workbook with a price list")
	}
	w := &workbook{parts: map[string]*zip.File{}, left: mostUnpacked}
	for _, f := range archive.File {
		w.parts[strings.ToLower(strings.TrimPrefix(f.Name, "/"))] = f
	}
	f, err := w.read()
	switch {
	case errors.Is(err, errUnpacked):
		return unread(fmt.Sprintf("a workbook that unpacks to more than %d MB", mostUnpacked>>20), "a price list without pictures and other sheets", "save the sheet with the prices as CSV")
	case err != nil:
		return unread(err.Error(), "a workbook (XLSX)", "save it anew as XLSX", "save it as CSV")
	}
	return f
}

// read reads what sheets there are, their common texts and styles, and then each sheet.
func (w *workbook) read() (*File, error) {
	name := w.target("_rels/.rels", "", "/officeDocument")
	if name == "" {
		name = "xl/workbook.xml"
	}
	if w.parts[name] == nil {
		return nil, errors.New("an archive without a workbook in it")
	}
	sheets, err := w.sheets(name)
	if err != nil {
		return nil, err
	}
	rels := relsOf(name)
	if part := w.target(rels, path.Dir(name), "/sharedStrings"); part != "" {
		if err := w.sharedStrings(part); err != nil {
			return nil, err
		}
	}
	if part := w.target(rels, path.Dir(name), "/styles"); part != "" {
		if err := w.styles(part); err != nil {
			return nil, err
		}
	}
	f := &File{Form: "XLSX"}
	for _, one := range sheets {
		part := w.target(rels, path.Dir(name), "\x00"+one.rel)
		if part == "" || w.parts[part] == nil {
			f.Problems = append(f.Problems, Problem{Code: "no-sheet", Read: fmt.Sprintf("sheet %q, of which the file has no table", one.name), Want: "a sheet with cells"})
			continue
		}
		s, err := w.sheet(part)
		if err != nil {
			return nil, err
		}
		s.Name = one.name
		f.Sheets = append(f.Sheets, *s)
	}
	if len(f.Sheets) == 0 {
		return nil, errors.New("a workbook without a sheet of cells")
	}
	return f, nil
}

func relsOf(part string) string {
	return strings.ToLower(path.Dir(part) + "/_rels/" + path.Base(part) + ".rels")
}

// walk gives each token of a part to visit, within what may be unpacked.
func (w *workbook) walk(name string, visit func(*xml.Decoder, xml.Token) error) error {
	f := w.parts[strings.ToLower(name)]
	if f == nil {
		return fmt.Errorf("a workbook without its part %s", name)
	}
	if f.UncompressedSize64 > uint64(max(0, w.left)) { // it says so itself; one that does not is metered
		return errUnpacked
	}
	r, err := f.Open()
	if err != nil {
		return fmt.Errorf("a workbook whose part %s cannot be unpacked: %w", name, err)
	}
	defer r.Close() // it was only read
	bounded := &metered{r, &w.left}
	d := xml.NewDecoder(bounded)
	for {
		t, err := d.Token()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err == nil {
			err = visit(d, t)
		}
		switch {
		case errors.Is(err, errEnough):
			return nil
		case errors.Is(err, errUnpacked):
			return err
		case err != nil:
			return fmt.Errorf("a workbook whose part %s cannot be read: %w", name, err)
		}
	}
}

// metered counts what is unpacked, whatever the archive says of itself.
type metered struct {
	from io.Reader
	left *int64
}

func (m *metered) Read(p []byte) (int, error) {
	if *m.left <= 0 {
		return 0, errUnpacked
	}
	n, err := m.from.Read(p[:min(int64(len(p)), *m.left)])
	*m.left -= int64(n)
	return n, err
}

// target finds the part that a relation leads to: the first of a kind, or by "\x00id".
func (w *workbook) target(rels, base, want string) string {
	found := ""
	id, byID := strings.CutPrefix(want, "\x00")
	if w.parts[rels] == nil {
		return ""
	}
	err := w.walk(rels, func(_ *xml.Decoder, t xml.Token) error {
		e, ok := t.(xml.StartElement)
		if !ok || e.Name.Local != "Relationship" || found != "" {
			return nil
		}
		if byID && attr(e, "Id") == id || !byID && strings.HasSuffix(attr(e, "Type"), want) {
			found = attr(e, "Target")
		}
		return nil
	})
	if err != nil || found == "" {
		return ""
	}
	if strings.HasPrefix(found, "/") {
		return strings.ToLower(found[1:])
	}
	return strings.ToLower(path.Join(base, found))
}

func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// named is a sheet and the relation that leads to its cells.
type named struct{ name, rel string }

func (w *workbook) sheets(part string) ([]named, error) {
	var out []named
	err := w.walk(part, func(_ *xml.Decoder, t xml.Token) error {
		e, ok := t.(xml.StartElement)
		switch {
		case !ok:
		case e.Name.Local == "workbookPr" && truth(attr(e, "date1904")):
			w.from = from1904
		case e.Name.Local == "sheet" && len(out) < mostSheets:
			out = append(out, named{tidy(attr(e, "name")), relID(e)})
		}
		return nil
	})
	return out, err
}

// relID is the id of the relation: the attribute id that has a name space.
func relID(e xml.StartElement) string {
	for _, a := range e.Attr {
		if a.Name.Local == "id" && a.Name.Space != "" {
			return a.Value
		}
	}
	return ""
}

func truth(word string) bool { on, err := strconv.ParseBool(word); return err == nil && on }

// sharedStrings reads the texts that cells point to.
func (w *workbook) sharedStrings(part string) error {
	return w.walk(part, func(d *xml.Decoder, t xml.Token) error {
		e, ok := t.(xml.StartElement)
		if !ok || e.Name.Local != "si" {
			return nil
		}
		if len(w.strings) == mostStrings {
			return errUnpacked
		}
		text, err := textIn(d)
		w.strings = append(w.strings, text)
		return err
	})
}

// textIn is the text of an element whose start was read: its runs together, without the
// readings that stand over them.
func textIn(d *xml.Decoder) (string, error) {
	var out strings.Builder
	depth, in, skip := 1, 0, 0
	for depth > 0 {
		t, err := d.Token()
		if err != nil {
			return "", err
		}
		switch t := t.(type) {
		case xml.StartElement:
			depth++
			switch {
			case t.Name.Local == "rPh" && skip == 0:
				skip = depth
			case t.Name.Local == "t" && in == 0:
				in = depth
			}
		case xml.EndElement:
			if in == depth {
				in = 0
			}
			if skip == depth {
				skip = 0
			}
			depth--
		case xml.CharData:
			if in > 0 && skip == 0 && out.Len() <= mostCell {
				out.Write(t)
			}
		}
	}
	return tidy(out.String()), nil
}
