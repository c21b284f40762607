package sheet

import (
	"archive/zip"
	"bytes"
	"context"
	"fmt"
	"strings"
	"time"

	"dropleg/internal/show/page"
	"dropleg/internal/show/scene"
)

// File is one file of a job book.
type File struct {
	Name string
	Data []byte
}

// Book is what was written, and the sheets that could not be made with what they lack.
type Book struct {
	Files   []File
	Missing []Made
}

// PDF is sheets as one document, with contents where they are more than one. Sheets that the
// job has nothing for are left out.
func (m *Maker) PDF(made []Made) ([]byte, error) {
	var docs []page.Document
	for i := range made {
		if made[i].Missing == "" {
			docs = append(docs, made[i].Document)
		}
	}
	return m.pdf(page.Compose(docs, m.stamp()))
}

func (m *Maker) pdf(leaves []scene.Leaf) ([]byte, error) {
	var out bytes.Buffer
	o := &m.options
	err := scene.WritePDF(&out, leaves, scene.Print(), scene.About{
		Title: m.job.Title, Author: o.By, Subject: "compressed-air lines: drawings and lists", Date: o.Date,
	})
	return out.Bytes(), err
}

// Leaves are the leaves of one sheet alone.
func (m *Maker) Leaves(made Made) []scene.Leaf {
	return page.Compose([]page.Document{made.Document}, m.stamp())
}

// Write makes the files of a job book of sheets: the book, each sheet alone as PDF and its
// leaves as SVG, plan and walls as DXF, and the lists as CSV and as one workbook.
func (m *Maker) Write(ctx context.Context, names []string) (*Book, error) {
	made, err := m.Make(ctx, names)
	if err != nil {
		return nil, err
	}
	b := &Book{}
	book, err := m.PDF(made)
	if err != nil {
		return nil, err
	}
	b.Files = append(b.Files, File{"job-book.pdf", book})
	for i := range made {
		if made[i].Missing != "" {
			b.Missing = append(b.Missing, made[i])
			continue
		}
		files, err := m.alone(ctx, &made[i])
		if err != nil {
			return nil, err
		}
		b.Files = append(b.Files, files...)
	}
	if len(b.Missing) == len(made) {
		b.Files = nil
	}
	lists, err := m.lists(ctx)
	b.Files = append(b.Files, lists...)
	return b, err
}

// alone is one sheet in its files.
func (m *Maker) alone(ctx context.Context, made *Made) ([]File, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	leaves := m.Leaves(*made)
	pdf, err := m.pdf(leaves)
	if err != nil {
		return nil, err
	}
	name := made.Sheet.Name
	files := []File{{name + ".pdf", pdf}}
	for k, leaf := range leaves {
		var out bytes.Buffer
		if err := scene.WriteLeafSVG(&out, leaf, scene.Print()); err != nil {
			return nil, fmt.Errorf("writing a leaf as SVG: %w", err)
		}
		leafName := name + ".svg"
		if len(leaves) > 1 {
			leafName = fmt.Sprintf("%s-%02d.svg", name, k+1)
		}
		files = append(files, File{leafName, out.Bytes()})
	}
	if made.Sheet.Drawings == nil {
		return files, nil
	}
	drawings, err := made.Sheet.Drawings(ctx, m)
	if err != nil {
		return nil, err
	}
	for _, d := range drawings {
		var out bytes.Buffer
		if err := scene.WriteDXF(&out, d.Draw(dxfScale), dxfScale); err != nil {
			return nil, err
		}
		files = append(files, File{d.Name + ".dxf", out.Bytes()})
	}
	return files, nil
}

// dxfScale is the scale for which texts and symbols of a DXF are sized, mm to the metre: 1:50.
const dxfScale = 20

// lists are the tables as CSV, and all of them as one workbook.
func (m *Maker) lists(ctx context.Context) ([]File, error) {
	var files []File
	var tables []page.Sheet
	for _, name := range listNames() {
		t, err := m.shop.List(ctx, name)
		if err != nil {
			return nil, err
		}
		if len(t.Rows) == 0 {
			continue
		}
		var out bytes.Buffer
		if err := page.WriteCSV(&out, t); err != nil {
			return nil, err
		}
		files = append(files, File{name + ".csv", out.Bytes()})
		tables = append(tables, t)
	}
	if len(tables) == 0 {
		return files, nil
	}
	var out bytes.Buffer
	if err := page.WriteXLSX(&out, m.job.Title, tables...); err != nil {
		return nil, err
	}
	return append(files, File{"lists.xlsx", out.Bytes()}), nil
}

// Zip packs files with the job itself into one archive; times in it are the date of the sheets.
func (m *Maker) Zip(files []File) ([]byte, error) {
	text, err := m.job.Encode()
	if err != nil {
		return nil, fmt.Errorf("writing the job: %w", err)
	}
	files = append([]File{{"job.json", text}}, files...)
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	day := m.options.Date.UTC().Truncate(24 * time.Hour)
	for _, f := range files {
		entry, err := w.CreateHeader(&zip.FileHeader{Name: f.Name, Method: method(f.Name), Modified: day})
		if err != nil {
			return nil, fmt.Errorf("packing %s: %w", f.Name, err)
		}
		if _, err := entry.Write(f.Data); err != nil {
			return nil, fmt.Errorf("packing %s: %w", f.Name, err)
		}
	}
	if err := w.Close(); err != nil {
		return nil, fmt.Errorf("packing: %w", err)
	}
	return out.Bytes(), nil
}

// method packs what is not packed already.
func method(name string) uint16 {
	if strings.HasSuffix(name, ".pdf") {
		return zip.Store
	}
	return zip.Deflate
}
