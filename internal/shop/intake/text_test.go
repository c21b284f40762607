package intake_test

import (
	"encoding/binary"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"

	"pgregory.net/rapid"

	"dropleg/internal/shop/intake"
)

func cells(f *intake.File) [][]string {
	var out [][]string
	for _, s := range f.Sheets {
		for _, r := range s.Rows {
			var row []string
			for _, c := range r.Cells {
				row = append(row, c.Text)
			}
			out = append(out, row)
		}
	}
	return out
}

func wide(text string, order binary.AppendByteOrder, mark bool) []byte {
	var out []byte
	if mark {
		out = order.AppendUint16(out, 0xfeff)
	}
	for _, u := range utf16.Encode([]rune(text)) {
		out = order.AppendUint16(out, u)
	}
	return out
}

// TestDialects: one table in every writing is the same table. The bytes of Windows-1252
// are written by hand: ü is fc, € is 80.
func TestDialects(t *testing.T) {
	want := [][]string{{"Nummer", "Stück für 1/2\"", "Preis €"}, {"1", "Bogen; rund, 3/4\" \"neu\"", "4,20"}}
	plain := "Nummer;Stück für 1/2\";Preis €\n1;\"Bogen; rund, 3/4\"\" \"\"neu\"\"\";4,20\n"
	for name, data := range map[string][]byte{
		"UTF-8":           []byte(plain),
		"with a mark":     append([]byte("\xef\xbb\xbf"), plain...),
		"Windows-1252":    []byte(strings.NewReplacer("ü", "\xfc", "€", "\x80").Replace(plain)),
		"UTF-16 little":   wide(plain, binary.LittleEndian, true),
		"UTF-16 big":      wide(plain, binary.BigEndian, true),
		"UTF-16 unmarked": wide(plain, binary.LittleEndian, false),
		"CR LF":           []byte(strings.ReplaceAll(plain, "\n", "\r\n")),
		"no last line":    []byte(strings.TrimSuffix(plain, "\n")),
		"tabs":            []byte("Nummer\tStück für 1/2\"\tPreis €\n1\tBogen; rund, 3/4\" \"neu\"\t4,20\n"),
		"commas":          []byte("Nummer,Stück für 1/2\",Preis €\n1,\"Bogen; rund, 3/4\"\" \"\"neu\"\"\",\"4,20\"\n"),
		"sep=":            []byte("sep=;\n" + plain),
	} {
		f := intake.Read(data)
		if got := cells(f); len(f.Problems) > 0 || !slices.EqualFunc(got, want, slices.Equal) {
			t.Errorf("%s: %q, %v", name, got, f.Problems)
		}
	}
}

// TestOpenQuote: a mark that nothing closes does not swallow the rows after it, and is told.
func TestOpenQuote(t *testing.T) {
	f := intake.Read([]byte("a;b\n\"open;1\nc;2\n"))
	if got := cells(f); len(got) != 3 || got[2][1] != "2" || len(f.Sheets[0].Problems) != 1 || f.Sheets[0].Problems[0].Row != 2 {
		t.Errorf("%q %+v", got, f.Sheets[0].Problems)
	}
}

// TestNoList: what is no list says what it is.
func TestNoList(t *testing.T) {
	for _, data := range []string{"", "\n\n", "%PDF-1.7", "PK\x03\x04 cut short", "\xd0\xcf\x11\xe0\xa1\xb1", `{"dropleg": 1}`} {
		if f := intake.Read([]byte(data)); len(f.Problems) == 0 || f.Problems[0].Want == "" {
			t.Errorf("%q: %+v", data, f)
		}
	}
}

// TestWrittenIsRead: whatever a table holds, written in any dialect it is read the same.
func TestWrittenIsRead(t *testing.T) {
	word := rapid.StringMatching(`[A-Za-zäöü0-9"',;./ ½€-]{1,12}`)
	rapid.Check(t, func(r *rapid.T) {
		columns := rapid.IntRange(2, 6).Draw(r, "columns")
		mark := rapid.SampledFrom([]string{",", ";", "\t"}).Draw(r, "mark")
		var want [][]string
		var text strings.Builder
		for range rapid.IntRange(3, 12).Draw(r, "rows") {
			var row, raw []string
			for range columns {
				w := word.Draw(r, "cell")
				row = append(row, strings.Join(strings.Fields(w), " "))
				raw = append(raw, `"`+strings.ReplaceAll(w, `"`, `""`)+`"`)
			}
			text.WriteString(strings.Join(raw, mark) + "\n")
			if strings.Join(row, "") != "" {
				want = append(want, row)
			}
		}
		f := intake.Read([]byte(text.String()))
		if got := cells(f); !slices.EqualFunc(got, want, slices.Equal) {
			r.Fatalf("%q\nread %q\nwant %q", text.String(), got, want)
		}
	})
}
