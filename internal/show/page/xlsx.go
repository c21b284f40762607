package page

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"
)

// Names of the parts' content and of what relates them, from ECMA-376.
const (
	xmlHead     = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
	mainSpace   = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	officeSpace = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	packSpace   = "http://schemas.openxmlformats.org/package/2006/"
	sheetType   = "application/vnd.openxmlformats-officedocument.spreadsheetml."
)

// WriteXLSX writes sheets as one workbook after ECMA-376: products and totals as formulas
// with the value that they have beside them. The same sheets give the same bytes.
func WriteXLSX(w io.Writer, title string, sheets ...Sheet) error {
	b := &book{title: title, names: sheetNames(sheets)}
	var leaves []part
	for i := range sheets {
		text, err := b.sheet(&sheets[i]) // makes styles, so it comes before them
		if err != nil {
			return err
		}
		leaves = append(leaves, part{fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1), text})
	}
	parts := append([]part{
		{"[Content_Types].xml", b.types()},
		{"_rels/.rels", relations("xl/workbook.xml", "docProps/core.xml")},
		{"docProps/core.xml", b.core()},
		{"xl/workbook.xml", b.workbook()},
		{"xl/_rels/workbook.xml.rels", b.relations()},
		{"xl/styles.xml", b.styles()},
	}, leaves...)
	out := zip.NewWriter(w)
	for _, p := range parts {
		// The first day that a ZIP can name: a file that is written again is the same.
		f, err := out.CreateHeader(&zip.FileHeader{Name: p.name, Method: zip.Deflate, Modified: time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)})
		if err == nil {
			_, err = io.WriteString(f, xmlHead+p.text)
		}
		if err != nil {
			return fmt.Errorf("writing %s: %w", p.name, err)
		}
	}
	if err := out.Close(); err != nil {
		return fmt.Errorf("writing the workbook: %w", err)
	}
	return nil
}

// part is one file of the workbook.
type part struct{ name, text string }

// book is a workbook while it is written.
type book struct {
	title   string
	names   []string
	formats []string // of numbers, in the order of their styles
}

// sheetNames makes names that a workbook may have: 31 letters, none of []:*?/\, no
// apostrophe at either end, each once whatever its case.
func sheetNames(sheets []Sheet) []string {
	const longest = 31
	var names []string
	used := map[string]bool{}
	for i := range sheets {
		clean := strings.Map(func(r rune) rune {
			if r < ' ' || strings.ContainsRune(`[]:*?/\`, r) {
				return ' '
			}
			return r
		}, sheets[i].Name)
		clean = strings.Trim(clean, "' ")
		if clean == "" {
			clean = "list"
		}
		name := cropped(clean, longest)
		for n := 2; used[strings.ToLower(name)]; n++ {
			tail := " " + strconv.Itoa(n)
			name = cropped(clean, longest-len(tail)) + tail
		}
		used[strings.ToLower(name)] = true
		names = append(names, name)
	}
	return names
}

// cropped is a text of at most n of the units that a workbook counts in, UTF-16.
func cropped(text string, n int) string {
	for i, r := range text {
		if r > 0xffff {
			n--
		}
		if n--; n < 0 {
			return strings.TrimRight(text[:i], "' ")
		}
	}
	return text
}

func (b *book) types() string {
	var t strings.Builder
	t.WriteString(`<Types xmlns="` + packSpace + `content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>`)
	override := func(part, kind string) {
		t.WriteString(`<Override PartName="` + part + `" ContentType="` + kind + `"/>`)
	}
	override("/xl/workbook.xml", sheetType+"sheet.main+xml")
	override("/xl/styles.xml", sheetType+"styles+xml")
	override("/docProps/core.xml", "application/vnd.openxmlformats-package.core-properties+xml")
	for i := range b.names {
		override(fmt.Sprintf("/xl/worksheets/sheet%d.xml", i+1), sheetType+"worksheet+xml")
	}
	return t.String() + `</Types>`
}

// relations is what the file as a whole is made of.
func relations(main, core string) string {
	return `<Relationships xmlns="` + packSpace + `relationships">` +
		`<Relationship Id="rId1" Type="` + officeSpace + `/officeDocument" Target="` + main + `"/>` +
		`<Relationship Id="rId2" Type="` + packSpace + `relationships/metadata/core-properties" Target="` + core + `"/>` +
		`</Relationships>`
}

// relations is what the workbook is made of: its sheets, then the styles.
func (b *book) relations() string {
	var t strings.Builder
	t.WriteString(`<Relationships xmlns="` + packSpace + `relationships">`)
	for i := range b.names {
		fmt.Fprintf(&t, `<Relationship Id="rId%d" Type="%s/worksheet" Target="worksheets/sheet%d.xml"/>`, i+1, officeSpace, i+1)
	}
	fmt.Fprintf(&t, `<Relationship Id="rId%d" Type="%s/styles" Target="styles.xml"/></Relationships>`, len(b.names)+1, officeSpace)
	return t.String()
}

func (b *book) core() string {
	return `<cp:coreProperties xmlns:cp="` + packSpace + `metadata/core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:title>` +
		escaped(b.title) + `</dc:title></cp:coreProperties>`
}

// workbook names the sheets, and the row of each that every printed leaf begins with.
func (b *book) workbook() string {
	var t strings.Builder
	t.WriteString(`<workbook xmlns="` + mainSpace + `" xmlns:r="` + officeSpace + `"><sheets>`)
	for i, name := range b.names {
		fmt.Fprintf(&t, `<sheet name="%s" sheetId="%d" r:id="rId%d"/>`, escaped(name), i+1, i+1)
	}
	t.WriteString(`</sheets><definedNames>`)
	for i := range b.names {
		quoted := "'" + strings.ReplaceAll(b.names[i], "'", "''") + "'"
		fmt.Fprintf(&t, `<definedName name="_xlnm.Print_Titles" localSheetId="%d">%s!$1:$1</definedName>`, i, escaped(quoted))
	}
	return t.String() + `</definedNames></workbook>`
}

// escaped is a text as it stands in XML: what no XML can hold, and what looks like its
// stand-in, is written as _x0000_ (ECMA-376 part 1, 22.9.2.19).
func escaped(text string) string {
	var t strings.Builder
	for i, r := range text {
		if r < ' ' && r != '\t' && r != '\n' || r == '_' && isStandIn(text[i:]) || r == 0xfffe || r == 0xffff {
			fmt.Fprintf(&t, "_x%04X_", r)
			continue
		}
		t.WriteRune(r)
	}
	var out bytes.Buffer
	_ = xml.EscapeText(&out, []byte(t.String())) // a buffer takes all
	return out.String()
}

// isStandIn says whether a text begins like _x0041_.
func isStandIn(text string) bool {
	if len(text) < 7 || text[1] != 'x' || text[6] != '_' {
		return false
	}
	_, err := strconv.ParseUint(text[2:6], 16, 16)
	return err == nil
}
