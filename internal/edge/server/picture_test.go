package server

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/jpeg"
	"image/png"
	"net/http"
	"slices"
	"strings"
	"testing"
)

// vast is the head of a PNG picture of a size that its few bytes do not bear out.
func vast(w, h uint32) []byte {
	chunk := append([]byte("IHDR"), make([]byte, 13)...)
	binary.BigEndian.PutUint32(chunk[4:], w)
	binary.BigEndian.PutUint32(chunk[8:], h)
	copy(chunk[12:], []byte{8, 2, 0, 0, 0})
	out := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0d"), chunk...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(chunk))
}

// webpHead is the head of a WebP picture with the chunk given (RFC 9649, 2.3 to 2.7).
func webpHead(chunk string, body []byte) []byte {
	out := append([]byte("RIFF\x00\x00\x00\x00WEBP"+chunk), 0, 0, 0, 0)
	return append(append(out, body...), make([]byte, 16)...)
}

// Sizes are those that stand in the heads: lossy 3 × 2 in 14 bits each after the start
// code 9d 01 2a, lossless 3 × 2 less one in 14 bits each after 2f, extended 3 × 2
// less one in 24 bits each after four bytes of flags.
func TestWebP(t *testing.T) {
	for name, data := range map[string][]byte{
		"lossy":    webpHead("VP8 ", []byte{0, 0, 0, 0x9d, 0x01, 0x2a, 3, 0, 2, 0}),
		"lossless": webpHead("VP8L", []byte{0x2f, 2, 1 << 6, 0, 0}),
		"extended": webpHead("VP8X", []byte{0, 0, 0, 0, 2, 0, 0, 1, 0, 0}),
	} {
		if w, h, ok := webp(data); !ok || w != 3 || h != 2 {
			t.Errorf("%s: %d × %d, %v", name, w, h, ok)
		}
		if kind, err := pictureKind(data); kind != "image/webp" || err != nil {
			t.Errorf("%s: %s, %v", name, kind, err)
		}
	}
}

// A picture of each kind is taken whole, and refused with its last bytes missing. A JPEG picture may carry a small one
// with an end of its own (Exif), and bytes behind its end, as of a short film.
func TestPictureCutOff(t *testing.T) {
	plain := image.NewGray(image.Rect(0, 0, 40, 30))
	for i := range plain.Pix {
		plain.Pix[i] = byte(i * i)
	}
	var p, j bytes.Buffer
	if err := errors.Join(png.Encode(&p, plain), jpeg.Encode(&j, plain, nil)); err != nil {
		t.Fatal(err)
	}
	small := append([]byte{0xff, 0xd8, 0xff, 0xe1, 0, 6, 0xff, 0xd8, 0xff, 0xd9}, j.Bytes()[2:]...)
	web := webpHead("VP8 ", []byte{0, 0, 0, 0x9d, 0x01, 0x2a, 3, 0, 2, 0})
	binary.LittleEndian.PutUint32(web[4:], uint32(len(web)-8))
	for _, c := range []struct {
		name, kind string
		data       []byte
	}{
		{"PNG", "image/png", p.Bytes()},
		{"JPEG", "image/jpeg", j.Bytes()},
		{"JPEG with a small one in it", "image/jpeg", small},
		{"WebP", "image/webp", web},
	} {
		if !whole(c.kind, c.data) {
			t.Errorf("%s is refused", c.name)
		}
		for _, n := range []int{1, 2, len(c.data) / 3} {
			if whole(c.kind, c.data[:len(c.data)-n]) {
				t.Errorf("%s without its last %d bytes is taken", c.name, n)
			}
		}
	}
	if !whole("image/jpeg", append(slices.Clone(j.Bytes()), "and a film"...)) {
		t.Error("with more behind its end it is refused")
	}
	torn := slices.Clone(p.Bytes())
	torn[len(torn)-20] ^= 1
	if whole("image/png", torn) {
		t.Error("a PNG picture with a bit turned is taken")
	}
}

func TestPictures(t *testing.T) {
	s := served(t)
	put := func(name, kind string, data []byte) int {
		return ask(s, "PUT", of("/pictures/"+name), string(data), "Content-Type", kind).Code
	}
	for _, c := range []struct {
		what, name, kind string
		data             []byte
		status           int
	}{
		{"a picture", "floor.png", "image/png", dot(t), 204},
		{"called another kind", "floor.jpg", "image/jpeg", dot(t), 204}, // kept as what it is
		{"an SVG", "a.svg", "image/svg+xml", []byte("<svg/>"), 415},
		{"an SVG called PNG", "a.png", "image/png", []byte(`<svg onload="alert(1)"/>`), 422},
		{"a page called PNG", "a.png", "image/png", []byte("<!doctype html><script>alert(1)</script>"), 422},
		{"a GIF", "a.gif", "image/gif", []byte("GIF89a\x01\x00\x01\x00\x00\x00\x00"), 415},
		{"a GIF called PNG", "a.png", "image/png", []byte("GIF89a\x01\x00\x01\x00\x00\x00\x00"), 422},
		{"a PDF called PNG", "a.png", "image/png", []byte("%PDF-1.7"), 422},
		{"of 60 million pixels and one row", "a.png", "image/png", vast(10000, 6001), 422},
		{"of more pixels than numbers", "a.png", "image/png", vast(1<<31-1, 1<<31-1), 422},
		{"too long", "a.png", "image/png", bytes.Repeat([]byte{0}, mostPicture+1), 413},
		{"cut off", "a.png", "image/png", dot(t)[:len(dot(t))-9], 422},
		{"nothing", "a.png", "image/png", []byte{' '}, 422},
		{"a name upwards", "..%2fa.png", "image/png", dot(t), 400},
		{"a hidden name", ".a.png", "image/png", dot(t), 400},
		{"a name of blanks", "a%20b.png", "image/png", dot(t), 400},
		{"a long name", strings.Repeat("a", 101), "image/png", dot(t), 400},
	} {
		if got := put(c.name, c.kind, c.data); got != c.status {
			t.Errorf("%s: %d, want %d", c.what, got, c.status)
		}
	}
	for _, name := range []string{"floor.png", "floor.jpg"} {
		w := get(s, of("/pictures/"+name))
		if w.Code != http.StatusOK || w.Header().Get("Content-Type") != "image/png" || !bytes.Equal(w.Body.Bytes(), dot(t)) {
			t.Errorf("%s: %d %v", name, w.Code, w.Header())
		}
		if again := get(s, of("/pictures/"+name), "If-None-Match", w.Header().Get("ETag")); again.Code != http.StatusNotModified {
			t.Errorf("%s again: %d", name, again.Code)
		}
	}
	if list := read200[Pictures](t, get(s, of("/pictures"))); len(list.Pictures) != 2 {
		t.Errorf("%v", list)
	}
	wantFault(t, "of no job", ask(s, "PUT", "/api/jobs/nowhere/pictures/a.png", string(dot(t)), "Content-Type", "image/png"), http.StatusNotFound)
}

// FuzzPicture: no head of a picture brings the program down or passes the bounds.
func FuzzPicture(f *testing.F) {
	f.Add(dot(f))
	f.Add(vast(1<<31-1, 2))
	f.Add(webpHead("VP8 ", []byte{0, 0, 0, 0x9d, 0x01, 0x2a, 3, 0, 2, 0}))
	f.Add([]byte("RIFF\x00\x00\x00\x00WEBPVP8X"))
	f.Fuzz(func(t *testing.T, data []byte) {
		kind, err := pictureKind(data)
		if (kind == "") != (err != nil) && kind == "" {
			t.Errorf("%q, %v", kind, err)
		}
		if kind != "" {
			whole(kind, data)
		}
	})
}
