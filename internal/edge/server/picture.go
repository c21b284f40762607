package server

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	_ "image/jpeg" // what a picture may be
	_ "image/png"
	"net/http"
	"strings"
	"time"
)

// mostPixels is what a browser may have to unpack of one picture: a large sheet
// scanned at 300 dots to the inch.
const mostPixels = 60_000_000

const pictureWanted = "a whole picture: PNG, JPEG or WebP, at most 24 MB and 60 million pixels"

// pictureName holds names to letters, digits and . _ -, so that they can stand in
// addresses and archives.
func pictureName(name string) bool {
	const most = 100
	if name == "" || len(name) > most || name[0] == '.' {
		return false
	}
	for _, b := range []byte(name) {
		letter := b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' || b >= '0' && b <= '9'
		if !letter && !strings.ContainsRune("._-", rune(b)) {
			return false
		}
	}
	return true
}

// pictureKind is a picture's media type by its content. What it is called does not
// count: a browser believes the type that it is told.
func pictureKind(data []byte) (string, error) {
	if w, h, ok := webp(data); ok {
		return "image/webp", fits(w, h)
	}
	head, format, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil || format != "png" && format != "jpeg" {
		return "", errors.New("something that is none of the three")
	}
	return "image/" + format, fits(head.Width, head.Height)
}

func fits(w, h int) error {
	if w <= 0 || h <= 0 || w > mostPixels || h > mostPixels || w*h > mostPixels {
		return fmt.Errorf("%d × %d pixels", w, h)
	}
	return nil
}

// webp reads the size out of a WebP picture (RFC 9649): its first chunk is a lossy
// frame, a lossless one, or the head of an extended file.
func webp(data []byte) (w, h int, ok bool) {
	if len(data) < 30 || string(data[:4]) != "RIFF" || string(data[8:12]) != "WEBP" {
		return 0, 0, false
	}
	body := data[20:]
	switch string(data[12:16]) {
	case "VP8 ":
		if !bytes.Equal(body[3:6], []byte{0x9d, 0x01, 0x2a}) {
			return 0, 0, false
		}
		return int(binary.LittleEndian.Uint16(body[6:]) & 0x3fff), int(binary.LittleEndian.Uint16(body[8:]) & 0x3fff), true
	case "VP8L":
		bits := binary.LittleEndian.Uint32(body[1:])
		return int(bits&0x3fff) + 1, int(bits>>14&0x3fff) + 1, body[0] == 0x2f
	case "VP8X":
		three := func(b []byte) int { return int(b[0]) | int(b[1])<<8 | int(b[2])<<16 }
		return three(body[4:]) + 1, three(body[7:]) + 1, true
	}
	return 0, 0, false
}

// putPicture keeps a picture of a job.
func (s *Server) putPicture(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("name")
	if !pictureName(name) {
		fail(w, http.StatusBadRequest, "this is no name for a picture", fmt.Sprintf("read %q, want letters, digits and . _ -", clip(name)))
		return
	}
	data, _, ok := readBody(w, r, mostPicture, "image/png", "image/jpeg", "image/webp")
	if !ok {
		return
	}
	kind, err := pictureKind(data)
	if err == nil && !whole(kind, data) {
		err = errors.New("a picture that ends before its end")
	}
	if err != nil {
		fail(w, http.StatusUnprocessableEntity, "this picture cannot be used", "read "+err.Error()+", want "+pictureWanted)
		return
	}
	if err := s.desk.PutPicture(r.Context(), r.PathValue("job"), name, kind, data); err != nil {
		failWith(w, r, err)
		return
	}
	w.WriteHeader(http.StatusNoContent)
}

// getPicture gives a picture. Under one name there may come another one, so a
// browser asks each time and is told that nothing has changed.
func (s *Server) getPicture(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("name")
	kind, data, err := s.desk.Picture(r.Context(), r.PathValue("job"), name)
	if err != nil {
		failWith(w, r, err)
		return
	}
	h := w.Header()
	h.Set("Content-Type", kind)
	h.Set("Cache-Control", "private, no-cache")
	h.Set("ETag", `"`+SumOf(data)[:24]+`"`)
	http.ServeContent(w, r, name, time.Time{}, bytes.NewReader(data))
}

// getPictures lists the names of a job's pictures.
func (s *Server) getPictures(w http.ResponseWriter, r *http.Request) {
	names, err := s.desk.Pictures(r.Context(), r.PathValue("job"))
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Pictures{Pictures: append([]string{}, names...)})
}
