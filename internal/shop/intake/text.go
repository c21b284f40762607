package intake

import (
	"bytes"
	"encoding/binary"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// decode reads a text in the encoding that it shows to be in, and names it. A mark at its
// beginning says so; without one it is UTF-16 where every second byte of Latin letters is
// 0, UTF-8 where it is well formed, and else Windows-1252, in which spreadsheets write.
func decode(data []byte) (text, name string) {
	switch {
	case bytes.HasPrefix(data, []byte("\xef\xbb\xbf")):
		return strings.ToValidUTF8(string(data[3:]), "\uFFFD"), "UTF-8"
	case bytes.HasPrefix(data, []byte("\xff\xfe")):
		return wide(data[2:], binary.LittleEndian), "UTF-16"
	case bytes.HasPrefix(data, []byte("\xfe\xff")):
		return wide(data[2:], binary.BigEndian), "UTF-16"
	}
	head := data[:min(len(data), 4096)]
	even, odd := 0, 0
	for i, b := range head {
		if b == 0 && i%2 == 0 {
			even++
		} else if b == 0 {
			odd++
		}
	}
	switch {
	case odd > len(head)/4 && even < odd/4:
		return wide(data, binary.LittleEndian), "UTF-16"
	case even > len(head)/4 && odd < even/4:
		return wide(data, binary.BigEndian), "UTF-16"
	case utf8.Valid(data):
		return string(data), "UTF-8"
	}
	return western(data), "Windows-1252"
}

func wide(data []byte, order binary.ByteOrder) string {
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = order.Uint16(data[2*i:])
	}
	return string(utf16.Decode(units))
}

// upperWestern are the characters 0x80 to 0x9f of Windows-1252 (code page table of the
// Unicode consortium, recalled); the five that it leaves open are marked as unreadable.
const upperWestern = "€\uFFFD‚ƒ„…†‡ˆ‰Š‹Œ\uFFFDŽ\uFFFD\uFFFD‘’“”•–—˜™š›œ\uFFFDžŸ"

func western(data []byte) string {
	upper := []rune(upperWestern)
	var out strings.Builder
	out.Grow(len(data) + len(data)/8)
	for _, b := range data {
		if b >= 0x80 && b < 0xa0 {
			out.WriteRune(upper[b-0x80])
			continue
		}
		out.WriteRune(rune(b))
	}
	return out.String()
}
