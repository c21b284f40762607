package server

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
)

// whole says whether a picture is there to its end: one cut off on its way shows its upper
// part, and nobody notices that the rest is missing. It is not unpacked for that.
func whole(kind string, data []byte) bool {
	switch kind {
	case "image/png":
		return wholePNG(data)
	case "image/jpeg":
		return wholeJPEG(data)
	}
	return wholeWebP(data)
}

// wholePNG goes from chunk to chunk to the last one, each with its checksum (PNG, third edition, 5.3).
func wholePNG(data []byte) bool {
	const head, frame = 8, 12 // signature; length, kind and checksum of a chunk
	for at := head; len(data)-at >= frame; {
		rest := data[at:]
		n := int64(binary.BigEndian.Uint32(rest))
		if n > int64(len(rest)-frame) {
			return false
		}
		named := rest[4 : 8+n]
		if binary.BigEndian.Uint32(rest[8+n:]) != crc32.ChecksumIEEE(named) {
			return false
		}
		if string(named[:4]) == "IEND" {
			return true
		}
		at += frame + int(n)
	}
	return false
}

// wholeJPEG passes the segments before the scan, which may hold a small picture with an end
// of its own, and looks for the end of the picture behind them (ITU-T T.81, B.1.1): within a
// scan 0xff is never followed by 0xd9.
func wholeJPEG(data []byte) bool {
	const scan = 0xda
	for at := 2; len(data)-at >= 4 && data[at] == 0xff; {
		if data[at+1] == 0xff { // fill
			at++
			continue
		}
		if data[at+1] == scan {
			return bytes.Contains(data[at:], []byte{0xff, 0xd9})
		}
		at += 2 + int(binary.BigEndian.Uint16(data[at+2:]))
	}
	return false
}

// wholeWebP compares the size in the head with what came (RFC 9649, 2.4).
func wholeWebP(data []byte) bool {
	return int64(binary.LittleEndian.Uint32(data[4:]))+8 <= int64(len(data))
}
