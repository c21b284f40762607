package intake_test

import (
	"archive/zip"
	"bytes"
	"context"
	"os"
	"runtime"
	"strings"
	"testing"

	"dropleg/internal/shop/intake"
	"dropleg/internal/shop/job"
)

func workbook(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// TestWorkbook: a workbook written by openpyxl (testdata/make.py) is read as it was written:
// texts with marks, numbers, days, a yes, merged cells, blank rows, columns far out.
func TestWorkbook(t *testing.T) {
	f := intake.Read(workbook(t, "list.xlsx"))
	if len(f.Problems) > 0 || len(f.Sheets) != 2 || f.Sheets[0].Name != "Front page" || f.Sheets[1].Name != "Prices" {
		t.Fatalf("%+v", f)
	}
	rows := f.Sheets[1].Rows
	if len(rows) != 6 || rows[5].Number != 7 || len(rows[5].Cells) != 28 || rows[5].Cells[27].Text != "far out" {
		t.Fatalf("%d rows: %+v", len(rows), rows)
	}
	for _, want := range []struct {
		row, column int
		text        string
		number      float64 // 0 for a text
		date        bool
	}{
		{0, 0, "Art. no.", 0, false},
		{1, 1, `Elbow 3/4" & <cap>`, 0, false},
		{1, 2, "10", 10, false},
		{1, 4, "21.5", 21.5, false},
		{1, 6, "2026-03-14", 0, true},
		{2, 0, "4711", 4711, false},
		{2, 3, "6.096", 6.096, false},
		{2, 4, "0.3", 0.3, false},
		{2, 6, "2026-03-15", 0, true},
		{3, 2, "yes", 0, false},
		{3, 4, "6,20", 0, false},
		{5, 0, "after a blank row", 0, false},
	} {
		got := rows[want.row].Cells[want.column]
		if got.Text != want.text || got.Date != want.date || (got.Number == nil) != (want.number == 0) || got.Number != nil && *got.Number != want.number {
			t.Errorf("row %d, column %d: %+v", want.row, want.column, got)
		}
	}
	if m := rows[2].Cells[5]; m.Merged != "F2:F3" || m.Text != "Any Supply" || rows[1].Cells[5].Merged != "" {
		t.Errorf("merged: %+v", m)
	}
	if c := rows[4].Cells[4]; c.Fault == "" {
		t.Errorf("a formula without its result: %+v", c)
	}
	if f := intake.Read(workbook(t, "from1904.xlsx")); f.Sheets[0].Rows[0].Cells[1].Text != "2026-03-14" {
		t.Errorf("counted from 1904: %+v", f.Sheets[0].Rows[0])
	}
}

// TestWorkbookIsTakenIn: the sheet with prices is found, and merged cells and formulas are
// told in their rows.
func TestWorkbookIsTakenIn(t *testing.T) {
	ix, shelf := shop(job.Prices{})
	in, err := intake.Of(context.Background(), intake.Read(workbook(t, "list.xlsx")), intake.Ask{}, ix, shelf)
	if err != nil || in.Sheet != "Prices" {
		t.Fatalf("%v %+v", err, in)
	}
	for row, want := range map[int]string{3: "merged", 4: "no-number", 5: "no-value"} {
		if got := codes(in, row); len(got) == 0 || got[0] != want {
			t.Errorf("row %d: %v, want %s", row, got, want)
		}
	}
	if l := in.Lines[0]; l.State != intake.Unsure || len(l.Nearest) == 0 || l.Nearest[0].Article != "copper-l elbow-90 3/4" {
		t.Errorf("row 2: %+v", l)
	}
	in, err = intake.Of(context.Background(), intake.Read(workbook(t, "list.xlsx")), intake.Ask{Pairs: []intake.Pair{{Row: 2, Article: "copper-l elbow-90 3/4"}}}, ix, shelf)
	if o := in.Lines[0].Offer; err != nil || o == nil || o.Currency != "EUR" || o.Date != "2026-03-14" || o.Number != "A-1" || o.Holds[0].Number != 10 {
		t.Errorf("row 2: %v %+v", err, o)
	}
}

// zipped is an archive of named parts.
func zipped(t testing.TB, parts map[string]string) []byte {
	t.Helper()
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for name, text := range parts {
		p, err := w.Create(name)
		if err == nil {
			_, err = p.Write([]byte(text))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

const (
	bookPart = `<workbook xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="a" sheetId="1" r:id="r1"/></sheets></workbook>`
	relsPart = `<Relationships><Relationship Id="r1" Type="x/worksheet" Target="worksheets/a.xml"/></Relationships>`
)

func sheetOf(t testing.TB, cells string) []byte {
	t.Helper()
	return zipped(t, map[string]string{"xl/workbook.xml": bookPart, "xl/_rels/workbook.xml.rels": relsPart, "xl/worksheets/a.xml": "<worksheet><sheetData>" + cells + "</sheetData></worksheet>"})
}

// TestInlineTexts: texts within their cells, rows and cells without names, readings over
// the letters left out.
func TestInlineTexts(t *testing.T) {
	f := intake.Read(sheetOf(t, `<row><c t="inlineStr"><is><r><t>two </t></r><r><t>runs</t></r><rPh><t>not this</t></rPh></is></c><c><v>4.20</v></c></row><row><c t="str"><f>A1</f><v>told</v></c><c t="e"><v>#REF!</v></c></row>`))
	got := cells(f)
	if len(got) != 2 || got[0][0] != "two runs" || got[0][1] != "4.2" || got[1][0] != "told" || f.Sheets[0].Rows[1].Cells[1].Fault == "" {
		t.Errorf("%q %+v", got, f)
	}
}

// TestBomb: a small file that unpacks to a gigabyte is refused, and the memory stays bounded.
func TestBomb(t *testing.T) {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for name, text := range map[string]string{"xl/workbook.xml": bookPart, "xl/_rels/workbook.xml.rels": relsPart} {
		p, _ := w.Create(name)
		_, _ = p.Write([]byte(text))
	}
	p, _ := w.Create("xl/worksheets/a.xml")
	_, _ = p.Write([]byte("<worksheet><sheetData>"))
	chunk := []byte(strings.Repeat("<row></row>", 1<<16))
	for range 1500 { // 1500 × 704 KB
		_, _ = p.Write(chunk)
	}
	_ = w.Close()
	if out.Len() > 8<<20 {
		t.Fatalf("the bomb is no bomb: %d bytes", out.Len())
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	f := intake.Read(out.Bytes())
	runtime.ReadMemStats(&after)
	if len(f.Problems) != 1 || !strings.Contains(f.Problems[0].Read, "unpacks to more") {
		t.Errorf("%+v", f.Problems)
	}
	if held := int64(after.HeapAlloc) - int64(before.HeapAlloc); held > 64<<20 {
		t.Errorf("%d MB are held", held>>20)
	}
}

// FuzzRead: nothing that comes as a list makes the reader panic, and what it tells has its
// words and its rows in order.
func FuzzRead(f *testing.F) {
	f.Add([]byte("a;b;price\n\"x;1,50\n;;€ 1.234,50"))
	f.Add([]byte("\xff\xfea\x00,\x00b\x00"))
	f.Add(workbook(f, "list.xlsx"))
	f.Add(sheetOf(f, `<row r="3"><c r="ZZ1" t="s"><v>9</v></c></row>`))
	ix, shelf := shop(job.Prices{})
	f.Fuzz(func(t *testing.T, data []byte) {
		file := intake.Read(data)
		if len(file.Sheets) == 0 && len(file.Problems) == 0 {
			t.Fatal("neither a table nor a reason")
		}
		in, err := intake.Of(context.Background(), file, intake.Ask{Supplier: "Any"}, ix, shelf)
		if err != nil {
			t.Fatal(err)
		}
		last := in.Head
		for _, l := range in.Lines {
			if l.Row <= last || l.State == "" || (l.State == intake.Fault) && len(l.Problems) == 0 || l.State == intake.Take && l.Offer == nil && l.Price == nil {
				t.Fatalf("row %d after %d: %+v", l.Row, last, l)
			}
			last = l.Row
		}
		if e := in.Edit(ix); e != nil {
			if _, _, err := e.Apply(ix.Job()); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// FuzzSheet: nor does any text in the place of a sheet's cells.
func FuzzSheet(f *testing.F) {
	f.Add(`<row r="1"><c r="A1"><v>1</v></c></row>`)
	f.Add(`<row r="99999999"><c r="XFD1" s="-1"><v>1e400</v></c></row></sheetData><mergeCells><mergeCell ref="A1:ZZ9999999"/></mergeCells>`)
	f.Fuzz(func(t *testing.T, text string) {
		file := intake.Read(sheetOf(t, text))
		if len(file.Sheets) == 0 && len(file.Problems) == 0 {
			t.Fatal("neither a table nor a reason")
		}
	})
}

// BenchmarkList: a list of 5000 rows in CSV, read and judged.
func BenchmarkList(b *testing.B) {
	text := head + strings.Repeat("1;Copper elbow 3/4;10;;;21.50;;Any;2026-03-14\n", 5000)
	ix, shelf := shop(job.Prices{})
	b.ResetTimer()
	for b.Loop() {
		if _, err := intake.Of(context.Background(), intake.Read([]byte(text)), intake.Ask{}, ix, shelf); err != nil {
			b.Fatal(err)
		}
	}
}
